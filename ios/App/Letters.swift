import SwiftUI

/// Sizes of letters by what they are for; they run from the usual text size to twice that.
enum Letters {
    case count, glance, figure, heading, body, label

    var ends: (CGFloat, CGFloat) {
        switch self {
        case .count: (88, 104)
        case .glance: (36, 46)
        case .figure, .heading: (22, 40)
        case .body: (18, 36)
        case .label: (15, 30)
        }
    }

    var weight: Font.Weight {
        switch self {
        case .count, .glance, .figure, .heading: .bold
        case .body: .regular
        case .label: .medium
        }
    }

    /// The size at a share of the usual text size: 1 usual, 2 twice.
    func size(at scale: CGFloat) -> CGFloat {
        let (usual, twice) = ends
        return usual + (twice - usual) * (min(max(scale, 0.8), 2) - 1)
    }
}

private struct Lettered: ViewModifier {
    let letters: Letters
    @ScaledMetric(relativeTo: .body) private var hundred: CGFloat = 100

    func body(content: Content) -> some View {
        content
            .font(.system(size: letters.size(at: hundred / 100), weight: letters.weight).monospacedDigit())
            .fixedSize(horizontal: false, vertical: true)
    }
}

extension View {
    func letters(_ letters: Letters) -> some View { modifier(Lettered(letters: letters)) }
}
