import ChartList
import FieldModel
import SwiftUI

/// A chart at the width of its place; a touch opens it full screen. All that is lettered on it also stands in words.
struct ChartView: View {
    let of: ChartOf
    var height: CGFloat = 300
    @State private var whole = false

    var body: some View {
        GeometryReader { room in
            Drawing(of: of, size: room.size)
        }
        .frame(height: height)
        .contentShape(Rectangle())
        .onTapGesture { whole = true }
        .accessibilityAction(named: Text(verbatim: Labels.chartOpens.text)) { whole = true }
        .fullScreenCover(isPresented: $whole) {
            WholeChart(of: of) { whole = false }
        }
    }
}

/// The core's drawing at a size.
struct Drawing: View {
    let of: ChartOf
    let size: CGSize
    @Environment(FieldModel.self) private var model
    @Environment(\.theme) private var theme
    @ScaledMetric(relativeTo: .body) private var hundred: CGFloat = 100

    var body: some View {
        if let list {
            Canvas { context, _ in Painter(theme: theme).draw(list.items, in: context) }
                .accessibilityElement(children: .contain)
                .accessibilityLabel(Text(verbatim: list.spoken))
                .accessibilityChildren { spoken(list.targets) }
                .overlay(alignment: .topLeading) { Anchors(targets: list.targets) }
                .frame(width: size.width, height: size.height)
                .background(theme.color(.paper))
        }
    }

    /// 14 points at the usual text size, 20 at twice that.
    private var list: ChartList? {
        let letters = 14 + 6 * (min(max(hundred / 100, 1), 2) - 1)
        return model.chart(of, width: size.width, height: size.height, letters: letters)
    }

    private func spoken(_ targets: [ChartTarget]) -> some View {
        ForEach(Array(targets.enumerated()), id: \.offset) { target in
            Rectangle().accessibilityLabel(Text(verbatim: target.element.spoken))
        }
    }
}
