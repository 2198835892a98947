import FieldModel
import SwiftUI

/// On foot: what I walk, the big count, met, detour, where am I, way back, turn. Nothing rolls.
struct FootScreen: View {
    @Binding var asked: Bool
    @Environment(FieldModel.self) private var model
    @Environment(\.dynamicTypeSize) private var typeSize

    var body: some View {
        if model.draft.open != nil {
            AnswerScreen()
        } else if model.draft.leg.bearing != nil {
            walking
        } else {
            begun
        }
    }

    private var walking: some View {
        Page(rolls: false) {
            GeometryReader { room in
                VStack(alignment: .leading, spacing: Sizes.between) {
                    head
                    if room.size.height < Sizes.onFoot {
                        tight
                    } else {
                        count
                        notes
                        answers
                    }
                }
            }
        } foot: {
            Primary(.turn) { model.turn() }
        }
    }

    /// On a short screen the questions stand beside the count.
    @ViewBuilder private var tight: some View {
        HStack(spacing: Sizes.between) {
            count
            VStack(spacing: Sizes.between) { questions }.frame(width: Sizes.aside)
        }
        notes
    }

    private var notes: some View {
        HStack(spacing: Sizes.between) {
            Outlined(.met, least: Sizes.walking) { model.openPad(.met) }
            Outlined(.detour, least: Sizes.walking) { model.openPad(.detour) }
        }
    }

    private var begun: some View {
        Page {
            SaidView()
            answers
        } foot: {
            Primary(.whichBearing) { model.openPad(.walk) }
        }
    }

    /// At large text *one less* stands beside the count, for the undo has its place.
    private var count: some View {
        HStack(spacing: Sizes.between) {
            CountTile(grows: true)
            if typeSize.isAccessibilitySize {
                Outlined(.oneLess, least: Sizes.walking) { model.count(-1) }.frame(width: Sizes.aside)
            }
        }
    }

    /// At large text the place row is left out here, so the undo stands beside the bearing.
    private var head: some View {
        HStack(spacing: Sizes.between) {
            VStack(alignment: .leading, spacing: 2) {
                Text(verbatim: told).letters(.label)
                Text(verbatim: model.draft.leg.bearing?.told ?? Labels.notSet.text).letters(.glance)
            }
            .frame(maxWidth: .infinity, alignment: .leading)
            if !typeSize.isAccessibilitySize {
                Outlined(.oneLess, least: Sizes.walking) { model.count(-1) }
            } else if model.snapshot?.undo != nil {
                UndoButton(asked: $asked)
            }
        }
    }

    /// The leg's number, and what it holds beside its count.
    private var told: String {
        let leg = model.draft.leg
        let number = (model.snapshot?.legs.count ?? 0) + 1
        let met = leg.met.isEmpty ? nil : Labels.metWhat.text(leg.met)
        let round = leg.side.map { ($0 == .left ? Labels.roundLeft : .roundRight).text("\(leg.out)") }
        return [Labels.legWalk.text("\(number)"), met, round].compactMap { $0 }.joined(separator: ", ")
    }

    private var answers: some View {
        HStack(spacing: Sizes.between) { questions }
    }

    @ViewBuilder private var questions: some View {
        Outlined(.whereAmI, least: Sizes.walking) { model.ask(.here) }
        Outlined(.wayBack, least: Sizes.walking) { model.ask(.back) }
    }
}
