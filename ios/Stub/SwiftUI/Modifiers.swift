extension View {
    public func modifier<M: ViewModifier>(_ modifier: M) -> some View { self }
    public func font(_ font: Font?) -> some View { self }
    public func multilineTextAlignment(_ alignment: TextAlignment) -> some View { self }
    public func foregroundStyle<S: ShapeStyle>(_ style: S) -> some View { self }
    public func background<S: ShapeStyle>(_ style: S) -> some View { self }
    public func overlay(alignment: Alignment = .center, @ViewBuilder content: () -> some View) -> some View { self }
    public func padding(_ edges: Edge.Set = .all, _ length: CGFloat? = nil) -> some View { self }
    public func padding(_ length: CGFloat) -> some View { self }
    public func frame(
        width: CGFloat? = nil, height: CGFloat? = nil, alignment: Alignment = .center
    ) -> some View { self }
    public func frame(
        minWidth: CGFloat? = nil, idealWidth: CGFloat? = nil, maxWidth: CGFloat? = nil, minHeight: CGFloat? = nil,
        idealHeight: CGFloat? = nil, maxHeight: CGFloat? = nil, alignment: Alignment = .center
    ) -> some View { self }
    public func position(x: CGFloat = 0, y: CGFloat = 0) -> some View { self }
    public func onAppear(perform action: (@MainActor () -> Void)? = nil) -> some View { self }
    public func onDisappear(perform action: (@MainActor () -> Void)? = nil) -> some View { self }
    public func id<ID: Hashable>(_ id: ID) -> some View { self }
    public func contentShape<S: Shape>(_ shape: S) -> some View { self }
    public func fixedSize(horizontal: Bool, vertical: Bool) -> some View { self }
    public func safeAreaInset(edge: VerticalEdge, @ViewBuilder content: () -> some View) -> some View { self }
}

public struct AccessibilityTraits: SetAlgebra, Sendable, OptionSet {
    public let rawValue: Int
    public init(rawValue: Int) { self.rawValue = rawValue }
    public static let isSelected = AccessibilityTraits(rawValue: 1)
}

public enum AccessibilityChildBehavior: Sendable {
    case ignore, contain, combine
}

extension View {
    public func accessibilityLabel(_ label: Text) -> some View { self }
    public func accessibilityAction(named name: Text, _ act: @escaping () -> Void) -> some View { self }
    public func accessibilityHidden(_ hidden: Bool) -> some View { self }
    public func accessibilityAddTraits(_ traits: AccessibilityTraits) -> some View { self }
    public func accessibilityElement(children: AccessibilityChildBehavior = .ignore) -> some View { self }
    public func accessibilityChildren(@ViewBuilder children: () -> some View) -> some View { self }
}
