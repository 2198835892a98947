extension Draft {
    /// What the pad asks for.
    public enum Pad: Codable, Equatable, Sendable {
        case sight(String)
        case walk
        case detour(Record.Side)
        case pace
    }

    /// An answer that stands open over its place.
    public enum Answer: String, Codable, Sendable {
        case here, back
    }

    public enum North: String, Codable, Sendable, CaseIterable {
        case mag, grid
    }

    /// A leg that is not closed yet: its bearing with the north, the double paces counted so far.
    public struct HalfLeg: Codable, Equatable, Sendable {
        public var bearing: String?
        public var count = 0
        public var met = ""
        public var side: Record.Side?
        public var out = 0

        public init() {}
    }

    /// By what a draft knows its state again.
    struct Mark: Codable, Equatable, Sendable {
        let stage: String?
        let sheet: String?
        let fixAt: Int64?
        let legs: Int?
        let walked: Int

        init(_ snapshot: Snapshot?) {
            stage = snapshot?.stage.rawValue
            sheet = snapshot?.sheet?.name
            fixAt = snapshot?.fix?.atUnixMs
            legs = snapshot?.legs.count
            walked = snapshot?.stage == .wayBack ? snapshot?.wayBack?.walked ?? 0 : 0
        }
    }
}

/// Which drawing: of the fix, or of the walk with the way back.
public enum ChartOf: String, Sendable, CaseIterable {
    case fix, walk
}
