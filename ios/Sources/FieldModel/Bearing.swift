internal import GatepostBridge

/// A bearing as it is typed: figures, what they count, from which north.
public struct Bearing: Codable, Equatable, Sendable {
    public enum North: String, Codable, Sendable {
        case mag, grid

        public var other: North { self == .mag ? .grid : .mag }
    }

    public enum Unit: String, Codable, Sendable {
        case degrees, mils

        public var other: Unit { self == .degrees ? .mils : .degrees }

        /// How many figures a bearing has.
        public var figures: Int { self == .degrees ? 3 : 4 }
    }

    public var digits = ""
    public var unit = Unit.degrees
    public var north = North.mag

    public init() {}

    /// As the core reads it: "052 mag", "3200 mil mag".
    public var text: String {
        unit == .degrees ? "\(digits) \(north.rawValue)" : "\(digits) mil \(north.rawValue)"
    }

    /// What stands beside the figures: "° mag".
    public var unitTold: String {
        unit == .degrees ? "°\u{a0}\(north.rawValue)" : "\u{a0}mil\u{a0}\(north.rawValue)"
    }

    /// As a walker reads it, with all its figures: "052° mag".
    public var told: String {
        bearingTold(typed: text)
    }
}
