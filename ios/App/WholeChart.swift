import ChartList
import FieldModel
import SwiftUI

/// The chart full screen. Four buttons move it; dragging is never needed.
struct WholeChart: View {
    let of: ChartOf
    let shut: @MainActor () -> Void
    @Environment(FieldModel.self) private var model
    @Environment(\.theme) private var theme
    @State private var closeness: CGFloat = 1

    var body: some View {
        ScrollViewReader { reader in
            VStack(spacing: 0) {
                GeometryReader { room in
                    ScrollView([.horizontal, .vertical]) {
                        Drawing(
                            of: of,
                            size: CGSize(width: room.size.width * closeness, height: room.size.height * closeness))
                    }
                }
                buttons(reader)
            }
        }
        .background(theme.color(.paper))
        .foregroundStyle(theme.color(.text))
    }

    private func buttons(_ reader: ScrollViewProxy) -> some View {
        VStack(spacing: Sizes.between) {
            HStack(spacing: Sizes.between) {
                Outlined(.chartCloser) { closeness = min(closeness * 2, 8) }
                Outlined(.chartWider) { closeness = max(closeness / 2, 1) }
            }
            HStack(spacing: Sizes.between) {
                Outlined(.chartToMe) { reader.scrollTo(Anchor.me, anchor: .center) }
                if model.snapshot?.car != nil {
                    Outlined(.chartToCar) { reader.scrollTo(Anchor.car, anchor: .center) }
                }
            }
            Outlined(.goBack, act: shut)
        }
        .padding(Sizes.side)
    }
}

/// What the chart can be moved to.
enum Anchor: Hashable {
    case me, car
}

/// Unseen marks on the drawing, where the walker and the car stand.
struct Anchors: View {
    let targets: [ChartTarget]

    var body: some View {
        mark(.me, me)
        mark(.car, targets.first { $0.kind == .car })
    }

    /// The likeliest stretch, else the last turn, else the car.
    private var me: ChartTarget? {
        let turns = targets.filter { $0.kind == .turn }.max { $0.number < $1.number }
        return targets.first { $0.kind == .stretch } ?? turns ?? targets.first { $0.kind == .car }
    }

    @ViewBuilder private func mark(_ anchor: Anchor, _ target: ChartTarget?) -> some View {
        if let area = target?.area {
            let spot = CGRect(x: area.x, y: area.y, width: area.width, height: area.height)
            Color.clear
                .frame(width: spot.width, height: spot.height)
                .id(anchor)
                .position(x: spot.midX, y: spot.midY)
                .accessibilityHidden(true)
        }
    }
}
