import FieldModel
import SwiftUI

/// The one filled block at the bottom edge; by night an edge with a dark inside.
struct PrimaryStyle: ButtonStyle {
    @Environment(\.theme) private var theme

    func makeBody(configuration: Configuration) -> some View {
        configuration.label
            .letters(.heading)
            .multilineTextAlignment(.center)
            .frame(maxWidth: .infinity, minHeight: Sizes.walking)
            .foregroundStyle(theme.color(\.primaryText))
            .background(theme.color(\.primary))
            .overlay { Rectangle().stroke(theme.color(\.controlEdge), lineWidth: 4) }
    }
}

/// Everything else that can be touched.
struct OutlinedStyle: ButtonStyle {
    var least = Sizes.target
    /// Whether it takes the height that is left.
    var grows = false
    @Environment(\.theme) private var theme

    func makeBody(configuration: Configuration) -> some View {
        configuration.label
            .letters(.body)
            .multilineTextAlignment(.leading)
            .padding(8)
            .frame(maxWidth: .infinity, minHeight: least, maxHeight: grows ? .infinity : nil)
            .foregroundStyle(theme.color(.text))
            .background(theme.color(\.control))
            .overlay { Rectangle().stroke(theme.color(\.controlEdge), lineWidth: 2) }
    }
}

/// A part of the page that can be touched as a whole, without an edge of its own.
struct BareStyle: ButtonStyle {
    func makeBody(configuration: Configuration) -> some View {
        configuration.label.contentShape(Rectangle())
    }
}

/// Least sides of what is touched, points.
enum Sizes {
    static let target: CGFloat = 64
    static let walking: CGFloat = 76
    static let between: CGFloat = 12
    /// The width of a button that stands beside something that takes the rest: a short word at large text.
    static let aside: CGFloat = 112
    static let side: CGFloat = 16
    /// Bearing, count and two rows of buttons one below the other take so much of the height.
    static let onFoot: CGFloat = 352
}

/// A button with its name.
struct Outlined: View {
    let name: String
    let least: CGFloat
    let act: @MainActor () -> Void

    init(_ name: String, least: CGFloat = Sizes.target, act: @escaping @MainActor () -> Void) {
        (self.name, self.least, self.act) = (name, least, act)
    }

    init(_ label: Labels, least: CGFloat = Sizes.target, act: @escaping @MainActor () -> Void) {
        self.init(label.text, least: least, act: act)
    }

    var body: some View {
        Button(action: act) { Text(verbatim: name) }.buttonStyle(OutlinedStyle(least: least))
    }
}

/// The button that names the next step.
struct Primary: View {
    let name: String
    let act: @MainActor () -> Void

    init(_ label: Labels, _ name: String = "", act: @escaping @MainActor () -> Void) {
        (self.name, self.act) = (label.text(name), act)
    }

    var body: some View {
        Button(action: act) { Text(verbatim: name) }.buttonStyle(PrimaryStyle())
    }
}
