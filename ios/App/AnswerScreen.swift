import FieldModel
import SwiftUI

/// Where am I, or the way back before it is begun: the walk on a chart and in words.
struct AnswerScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            ChartView(of: .walk)
            SaidView()
            if model.draft.open == .back {
                Outlined(Labels.walkOn, least: Sizes.walking) { model.walkOn() }
            }
        } foot: {
            if model.draft.open == .back {
                Primary(Labels.followLog) { model.turnRound() }
            } else {
                Primary(Labels.walkOn) { model.walkOn() }
            }
        }
    }
}
