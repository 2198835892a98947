import FieldModel
import SwiftUI

/// Way back: leg by leg, and at the line how far to look.
struct BackScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if model.draft.open != nil {
            AnswerScreen()
        } else if let leg = model.backLeg {
            following(leg)
        } else {
            atLine
        }
    }

    private func following(_ leg: BackLeg) -> some View {
        Page {
            Named(.backAlong, "\(leg.ofLeg)", size: .label)
            Text(verbatim: leg.bearingTold).letters(.glance)
            Text(verbatim: model.toGo ?? leg.pacesTold).letters(.figure)
            CountTile()
            Text(verbatim: leg.goalTold).letters(.body)
            // What is to be minded stands above the fold.
            Caution()
            ChartView(of: .walk)
            CountKeys()
            Outlined(.whereAmI, least: Sizes.walking) { model.ask(.here) }
            if !model.comes.isEmpty {
                Named(.comesThen, size: .label)
                Sentences(model.comes)
            }
        } foot: {
            Primary(.turnHere) { model.reached() }
        }
    }

    private var atLine: some View {
        Page {
            Named(.atTheLine, size: .label)
            if let way = model.snapshot?.wayBack { Text(verbatim: way.endTold).letters(.heading) }
            Caution()
            ChartView(of: .walk)
            Outlined(.whereAmI, least: Sizes.walking) { model.ask(.here) }
        } foot: {
            Primary(.foundCar) { model.close() }
        }
    }
}

/// The reversed log: what it comes to, how far it may miss, what to mind, its chart and its legs.
struct WayTold: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        let (way, refused) = model.wayBackNow
        if let way {
            Text(verbatim: way.headTold).letters(.heading)
            Text(verbatim: way.missTold).letters(.body)
            CautionBar([way.cautionTold])
            ChartView(of: .walk)
            Sentences(way.legs.map(\.told))
        }
        Answer(refused)
    }
}

/// The closing error at a glance, and what the trip came to.
struct AfterTold: View {
    let after: After

    var body: some View {
        if let closing = after.closing {
            Named(.closingError, size: .label)
            Text(verbatim: closing.offTold).letters(.glance)
        }
        Sentences(after.told)
    }
}

/// Afterwards: how it went, and the next trip.
struct AfterScreen: View {
    let goOn: @MainActor () -> Void
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            if let after = model.snapshot?.after { AfterTold(after: after) } else { SaidView() }
            if model.snapshot?.car != nil { ChartView(of: .walk) }
            LegList()
        } foot: {
            Primary(.nextTrip, act: goOn)
        }
    }
}
