import FieldModel
import SwiftUI

/// Which line, what do you see, the fix, its check, the car.
struct BesideScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            if choosing {
                LineChoice()
            } else if let fix = model.snapshot?.fix {
                FixView(fix: fix)
            } else if let fix = model.snapshot?.openFix {
                OpenFixView(fix: fix)
            } else {
                StandView()
                Caution()
                SightList()
                PhoneFieldCheck()
                InstrumentChoice()
                NorthsView()
            }
        } foot: {
            if choosing {
                if model.draft.unsure?.isEmpty == false { Primary(.noteIt) { model.chooseTouched() } }
            } else {
                next
            }
        }
    }

    /// The first landmark, then what does not fit, then the sighting that helps most; else the car, at one place.
    @ViewBuilder private var next: some View {
        if !model.hasFix {
            if let first = model.snapshot?.sights.first { sight(.sight, first.landmark) }
        } else if case .landmark(let misfit) = model.again {
            sight(.readAgain, misfit)
        } else if case .running(let misfit) = model.again {
            Primary(.readAgain, misfit) { model.openPad(.asks(.init(.running))) }
        } else if model.again == .line {
            Primary(.readTheLineAgain) { model.openPad(.asks(.init(.lineRun))) }
        } else if let next = model.snapshot?.nextSights.first {
            Primary(next.isLineRun ? .readTheLine : .sight, next.landmark) { model.begin(next) }
        } else if places > 1 {
            Primary(.moreSightings) { model.openPad(.more) }
        } else {
            Primary(.hereStandsTheCar) { model.keep() }
        }
    }

    private func sight(_ label: Labels, _ landmark: String) -> some View {
        Primary(label, landmark) { model.openPad(.sight(landmark)) }
    }

    private var places: Int { model.snapshot?.fix?.places.count ?? model.snapshot?.openFix?.places.count ?? 0 }

    private var choosing: Bool { model.stand == nil || model.draft.choosing }
}
