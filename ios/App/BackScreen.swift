import FieldModel
import SwiftUI

/// Way back: leg by leg, and at the line how far to look.
struct BackScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if model.snapshot?.stage != .wayBack {
            ChoosingScreen()
        } else if model.draft.open != nil {
            AnswerScreen()
        } else if let leg = model.backLeg {
            following(leg)
        } else {
            atLine
        }
    }

    private func following(_ leg: BackLeg) -> some View {
        Page {
            Text(verbatim: Figures.bearing(leg.bearingDegMag, .mag)).letters(.glance)
            CountTile(planned: Figures.whole(leg.doublePaces))
            SaidView()
            if !model.comes.isEmpty {
                Text(verbatim: Labels.comes).letters(.label)
                ForEach(Array(model.comes.enumerated()), id: \.offset) { met in
                    Text(verbatim: met.element).letters(.body)
                }
            }
            ChartView(of: .walk)
            Outlined(Labels.whereAmI, least: Sizes.walking) { model.ask(.here) }
        } foot: {
            Primary(Labels.turn) { model.reached() }
        }
    }

    private var atLine: some View {
        Page {
            SaidView()
            ChartView(of: .walk)
            Outlined(Labels.whereAmI, least: Sizes.walking) { model.ask(.here) }
        } foot: {
            Primary(Labels.found) { model.close() }
        }
    }
}

/// The way back before it is begun.
struct ChoosingScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            if model.snapshot?.legs.isEmpty == false { ChartView(of: .walk) }
            SaidView()
        } foot: {
            Primary(Labels.followLog) { model.turnRound() }
        }
    }
}

/// Afterwards: how it went, and the next trip.
struct AfterScreen: View {
    let goOn: @MainActor () -> Void
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            if model.snapshot?.car != nil { ChartView(of: .walk) }
            SaidView()
            if model.snapshot?.stage != .afterwards, model.snapshot?.car != nil {
                Outlined(Labels.closeTrip) { model.close() }
            }
        } foot: {
            Primary(Labels.nextTrip, act: goOn)
        }
    }
}
