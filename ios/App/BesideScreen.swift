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
            } else {
                line
                Caution()
                SightList()
                PhoneFieldCheck()
                InstrumentChoice()
                NorthsView()
            }
        } foot: {
            if let sighted {
                Primary(sighted.label, sighted.landmark) { model.openPad(.sight(sighted.landmark)) }
            } else if model.snapshot?.fix != nil, !choosing {
                Primary(.hereStandsTheCar) { model.keep() }
            }
        }
    }

    private var line: some View {
        HStack(spacing: Sizes.between) {
            Named(.onLine, model.line ?? "", size: .heading)
            Outlined(.changeLine) { model.edit { $0.choosing = true } }
        }
    }

    /// What the primary action sights: the first landmark, then what does not fit, then the one that settles the place.
    private var sighted: (label: Labels, landmark: String)? {
        guard !choosing else { return nil }
        guard let fix = model.snapshot?.fix else { return model.snapshot?.sights.first.map { (.sight, $0.landmark) } }
        if let misfit = fix.sightings.first(where: { $0.verdict == .misfit }) { return (.readAgain, misfit.landmark) }
        guard fix.places.count > 1 else { return nil }
        return model.snapshot?.nextSight.map { (.sight, $0.landmark) }
    }

    private var choosing: Bool { model.line == nil || model.draft.choosing }
}
