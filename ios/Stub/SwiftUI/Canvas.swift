public enum CGLineCap: Sendable {
    case butt, round, square
}

public enum CGLineJoin: Sendable {
    case miter, round, bevel
}

public struct StrokeStyle: Sendable {
    public init(
        lineWidth: CGFloat = 1, lineCap: CGLineCap = .butt, lineJoin: CGLineJoin = .miter, miterLimit: CGFloat = 10,
        dash: [CGFloat] = [], dashPhase: CGFloat = 0
    ) {}
}

extension Path: Shape {}

public struct Path: Equatable, Sendable {
    nonisolated public init() {}
    nonisolated public init(_ rect: CGRect) {}
    nonisolated public init(ellipseIn rect: CGRect) {}
    public mutating func addLines(_ points: [CGPoint]) {}
    public mutating func closeSubpath() {}
}

public struct GraphicsContext {
    public struct Shading: Sendable {
        public static func color(_ color: Color) -> Shading { Shading() }
    }

    public struct ResolvedText {
        public func measure(in size: CGSize) -> CGSize { size }
        public func firstBaseline(in size: CGSize) -> CGFloat { 0 }
    }

    public func fill(_ path: Path, with shading: Shading) {}
    public func stroke(_ path: Path, with shading: Shading, style: StrokeStyle) {}
    public func resolve(_ text: Text) -> ResolvedText { ResolvedText() }
    public func draw(_ text: ResolvedText, in rect: CGRect) {}
    public mutating func translateBy(x: CGFloat, y: CGFloat) {}
    public mutating func rotate(by angle: Angle) {}
    public mutating func clip(to path: Path) {}
}

public struct Canvas: Leaf {
    public init(renderer: @escaping (inout GraphicsContext, CGSize) -> Void) {}
}

public protocol Shape: Sendable, View {}

extension Shape {
    public var body: Never { fatalError() }
    public func stroke<S: ShapeStyle>(_ style: S, lineWidth: CGFloat = 1) -> some View { self }
}

public struct Rectangle: Shape {
    nonisolated public init() {}
}

public struct Circle: Shape {
    nonisolated public init() {}
}
