import FieldModel
import SwiftUI

/// How something stands: filled, half filled, open, or open with a stroke through it. A word stands beside each.
enum Standing {
    case good, aging, open, misfit

    init(_ verdict: Verdict) {
        self =
            switch verdict {
            case .fits: .good
            case .doubtful: .aging
            case .misfit: .misfit
            }
    }
}

/// The mark of a standing; told by the word beside it.
struct MarkView: View {
    let standing: Standing
    @Environment(\.theme) private var theme

    var body: some View {
        Canvas { context, size in
            let ink = GraphicsContext.Shading.color(theme.color(.text))
            let square = CGRect(x: 2, y: 2, width: size.width - 4, height: size.height - 4)
            context.stroke(Path(square), with: ink, style: StrokeStyle(lineWidth: 3))
            switch standing {
            case .good: context.fill(Path(square), with: ink)
            case .aging: context.fill(Path(square.lowerHalf), with: ink)
            case .open: break
            case .misfit: context.stroke(Path(slantingIn: size), with: ink, style: StrokeStyle(lineWidth: 4))
            }
        }
        .frame(width: 24, height: 24)
        .accessibilityHidden(true)
    }
}

/// A row that is touched as a whole: mark, name, what is told of it.
struct Row: View {
    let standing: Standing
    let name: String
    let note: String
    let act: @MainActor () -> Void

    init(_ standing: Standing, _ name: String, _ note: String, act: @escaping @MainActor () -> Void) {
        (self.standing, self.name, self.note, self.act) = (standing, name, note, act)
    }

    var body: some View {
        Button(action: act) {
            HStack(spacing: Sizes.between) {
                MarkView(standing: standing)
                VStack(alignment: .leading, spacing: 2) {
                    Text(verbatim: name).letters(.body)
                    Text(verbatim: note).letters(.label)
                }
                .frame(maxWidth: .infinity, minHeight: Sizes.target, alignment: .leading)
            }
        }
        .buttonStyle(BareStyle())
        .accessibilityElement(children: .combine)
    }
}

extension CGRect {
    fileprivate var lowerHalf: CGRect { CGRect(x: minX, y: midY, width: width, height: height / 2) }
}

extension Path {
    fileprivate init(slantingIn size: CGSize) {
        self.init()
        addLines([CGPoint(x: 0, y: size.height), CGPoint(x: size.width, y: 0)])
    }
}
