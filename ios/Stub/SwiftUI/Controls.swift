import UniformTypeIdentifiers

extension Text: Leaf {}

public struct Text: Equatable, Sendable {
    nonisolated public init(verbatim text: String) {}
    nonisolated public func font(_ font: Font?) -> Text { self }
    nonisolated public func foregroundStyle<S: ShapeStyle>(_ style: S) -> Text { self }
    nonisolated public func strikethrough(_ isActive: Bool = true) -> Text { self }
}

extension Image: Leaf {}

public struct Image: Equatable, Sendable {
    nonisolated public init(systemName: String) {}
}

public struct Button<L: View>: Leaf {
    public init(action: @escaping @MainActor () -> Void, @ViewBuilder label: () -> L) {}
}

@MainActor @preconcurrency public protocol ButtonStyle {
    associatedtype Body: View
    typealias Configuration = ButtonStyleConfiguration
    @ViewBuilder func makeBody(configuration: Configuration) -> Body
}

public struct ButtonStyleConfiguration {
    public struct Label: Leaf {}
    public let label: Label
    public let isPressed: Bool
}

public struct TextField<L: View>: Leaf {
    public init(text: Binding<String>, prompt: Text? = nil, axis: Axis, @ViewBuilder label: () -> L) {}
}

public struct SensoryFeedback: Equatable, Sendable {
    public static let success = Self()
    public static let error = Self()
    public static func impact(weight: Weight = .medium, intensity: Double = 1) -> Self { Self() }
    public enum Weight: Sendable {
        case light, medium, heavy
    }
}

extension View {
    public func buttonStyle<S: ButtonStyle>(_ style: S) -> some View { self }
    public func autocorrectionDisabled(_ disable: Bool = true) -> some View { self }
    public func opacity(_ opacity: Double) -> some View { self }
    public func sensoryFeedback<T: Equatable>(_ feedback: SensoryFeedback, trigger: T) -> some View { self }
    public func sensoryFeedback<T: Equatable>(
        trigger: T, _ feedback: @escaping (T, T) -> SensoryFeedback?
    ) -> some View { self }
    public func fileImporter(
        isPresented: Binding<Bool>, allowedContentTypes: [UTType],
        onCompletion: @escaping (Result<URL, any Error>) -> Void
    ) -> some View { self }
    public func onChange<V: Equatable>(of value: V, initial: Bool = false, _ act: @escaping () -> Void) -> some View {
        self
    }
    public func task<T: Equatable>(
        id: T, @_inheritActorContext _ act: @escaping @Sendable () async -> Void
    ) -> some View { self }
    public func onTapGesture(count: Int = 1, perform act: @escaping () -> Void) -> some View { self }
    public func fullScreenCover<C: View>(
        isPresented: Binding<Bool>, onDismiss: (() -> Void)? = nil, @ViewBuilder content: @escaping () -> C
    ) -> some View { self }
}
