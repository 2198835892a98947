import FieldModel
import SwiftUI

/// Where am I, or the way back before it is begun: the walk on a chart and in words.
struct AnswerScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Page {
            if model.draft.open == .back {
                WayTold()
                Outlined(.walkOn, least: Sizes.walking) { model.walkOn() }
            } else {
                ChartView(of: .walk)
                sinceTurn
                SaidView()
                PhonePlace()
            }
            LegList()
        } foot: {
            if model.draft.open == .back {
                Primary(.followLog) { model.turnRound() }
            } else {
                Primary(.walkOn) { model.walkOn() }
            }
        }
    }

    /// What is walked of the leg that is not closed yet: it is in no answer.
    @ViewBuilder private var sinceTurn: some View {
        let leg = model.draft.leg
        if leg.count > 0 {
            let paces = Labels.pacesCounted.text("\(leg.count)")
            Named(.sinceTurn, size: .label)
            Text(verbatim: leg.bearing.map { "\(paces), \($0.told)" } ?? paces).letters(.body)
        }
    }
}
