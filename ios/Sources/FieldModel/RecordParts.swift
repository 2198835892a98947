extension Record {
    /// What a bearing is read with.
    public enum Instrument: String, Codable, Sendable, CaseIterable {
        case sighting, baseplate, quick, phone
    }

    /// What is counted: every step, or every second one.
    public enum PaceKind: String, Codable, Sendable, CaseIterable {
        case single, double
    }

    /// A side as one faces while walking.
    public enum Side: String, Codable, Sendable, CaseIterable {
        case left, right
    }

    /// How a sheet is written.
    public enum SheetFormat: String, Codable, Sendable {
        case geojson, toml
    }

    /// How far, as it was counted.
    public enum Distance: Equatable, Sendable {
        case paces(Double, PaceKind)
        case metres(Double)

        var paces: Double? { if case .paces(let count, _) = self { count } else { nil } }
        var paceKind: PaceKind? { if case .paces(_, let kind) = self { kind } else { nil } }
        var metres: Double? { if case .metres(let metres) = self { metres } else { nil } }
    }

    /// A bearing to a landmark, as it was read: "016 mag".
    public struct Sighting: Encodable, Equatable, Sendable {
        enum CodingKeys: String, CodingKey {
            case landmark, bearing
            case spreadDeg = "spread_deg"
        }

        let landmark: String
        let bearing: String
        let spreadDeg: Double?

        public init(_ landmark: String, _ bearing: String, spreadDeg: Double? = nil) {
            (self.landmark, self.bearing, self.spreadDeg) = (landmark, bearing, spreadDeg)
        }
    }

    /// The box walked round something: so far out, in paces of the leg's kind or in metres.
    public struct Detour: Encodable, Equatable, Sendable {
        let side: Side
        var paces: Double?
        var metres: Double?

        public init(_ side: Side, paces: Double) {
            (self.side, self.paces) = (side, paces)
        }

        public init(_ side: Side, metres: Double) {
            (self.side, self.metres) = (side, metres)
        }
    }
}
