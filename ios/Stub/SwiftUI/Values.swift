public struct Angle: Sendable {
    public static func degrees(_ degrees: Double) -> Angle { Angle() }
}

public struct HorizontalAlignment: Sendable {
    public static let leading = Self()
    public static let trailing = Self()
    public static let center = Self()
}

public struct VerticalAlignment: Sendable {
    public static let center = Self()
    public static let firstTextBaseline = Self()
}

public enum VerticalEdge: Sendable {
    case top, bottom
}

public struct Alignment: Sendable {
    public static let center = Self()
    public static let leading = Self()
    public static let top = Self()
    public static let topLeading = Self()
}

public enum TextAlignment: Sendable {
    case leading, center
}

public enum Axis: Sendable {
    case horizontal, vertical
    public struct Set: OptionSet, Sendable {
        public let rawValue: Int8
        public init(rawValue: Int8) { self.rawValue = rawValue }
        public static let horizontal = Set(rawValue: 1)
        public static let vertical = Set(rawValue: 2)
    }
}

public struct UnitPoint: Hashable, Sendable {
    public static let center = UnitPoint()
}

public enum Edge: Sendable {
    public struct Set: OptionSet, Sendable {
        public let rawValue: Int8
        public init(rawValue: Int8) { self.rawValue = rawValue }
        public static let leading = Set(rawValue: 2)
        public static let all = Set(rawValue: 15)
        public static let horizontal = Set(rawValue: 10)
        public static let vertical = Set(rawValue: 5)
    }
}

public struct Font: Sendable {
    public enum Weight: Sendable {
        case regular, medium, bold
    }
    public enum Design: Sendable {
        case `default`, monospaced
    }
    public enum TextStyle: Sendable {
        case body
    }
    public static func system(size: CGFloat, weight: Weight? = nil, design: Design? = nil) -> Font { Font() }
    public func monospacedDigit() -> Font { self }
    public func italic() -> Font { self }
}

public protocol ShapeStyle: Sendable {}

extension Color: Leaf {}

public struct Color: ShapeStyle, Hashable {
    nonisolated public init(red: Double, green: Double, blue: Double, opacity: Double = 1) {}
    public static let clear = Color(red: 0, green: 0, blue: 0)
}
