import FieldModel
import SwiftUI

/// On foot: what I walk, the big count, turn, met, detour, where am I, way back.
struct FootScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if model.draft.open != nil { AnswerScreen() } else { walking }
    }

    private var walking: some View {
        Page {
            if let bearing = model.draft.leg.bearing {
                Text(verbatim: bearing).letters(.glance)
                CountTile()
                details
            } else {
                SaidView()
            }
            HStack(spacing: Sizes.between) {
                Outlined(Labels.whereAmI, least: Sizes.walking) { model.ask(.here) }
                Outlined(Labels.wayBack, least: Sizes.walking) { model.ask(.back) }
            }
        } foot: {
            if model.draft.leg.bearing == nil {
                Primary(Labels.walkOnBearing) { model.openPad(.walk) }
            } else {
                Primary(Labels.turn) { model.turn() }
            }
        }
        .sensoryFeedback(.success, trigger: model.snapshot?.legs.count)
    }

    @ViewBuilder private var details: some View {
        HStack(spacing: Sizes.between) {
            ForEach(Record.Side.allCases, id: \.self) { side in
                Outlined(round(side), least: Sizes.walking) { model.openPad(.detour(side)) }
            }
        }
        TextField(text: met, axis: .horizontal) { Text(verbatim: Labels.met) }
            .letters(.body)
            .frame(minHeight: Sizes.walking)
    }

    private func round(_ side: Record.Side) -> String {
        let leg = model.draft.leg
        return leg.side == side ? "\(Labels.round(side))\n\(leg.out) \(Labels.doublePaces)" : Labels.round(side)
    }

    private var met: Binding<String> {
        @Bindable var model = model
        return $model.typedMet
    }
}

/// The whole tile counts; a hundred feels other than one.
struct CountTile: View {
    var planned: String?
    @Environment(FieldModel.self) private var model

    var body: some View {
        Button {
            model.count(1)
        } label: {
            VStack(spacing: 4) {
                Text(verbatim: "\(model.draft.leg.count)").letters(.count)
                Text(verbatim: Labels.doublePaces).letters(.label)
                if let planned { Text(verbatim: Labels.ofPlanned(planned)).letters(.figure) }
            }
        }
        .buttonStyle(OutlinedStyle(least: 142))
        .accessibilityElement(children: .combine)
        .sensoryFeedback(trigger: model.draft.leg.count) { _, count in
            count % 100 == 0 ? .success : .impact
        }
        HStack(spacing: Sizes.between) {
            Outlined(Labels.tenMore, least: Sizes.walking) { model.count(10) }
            Outlined(Labels.oneLess, least: Sizes.walking) { model.count(-1) }
        }
    }
}
