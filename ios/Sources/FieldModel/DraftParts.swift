extension Draft {
    /// What the pad asks for.
    public enum Pad: Codable, Equatable, Sendable {
        case sight(String)
        /// Which kind of sighting, then its questions.
        case more
        case asks(Asking)
        case walk
        case detour
        case met
        case pace
        /// A sheet from the paper map.
        case hand
        /// What the sheet holds, to be struck or added to; and a part that is typed for it.
        case parts, adds
        /// What the compass says to a point, then the bearing known for it.
        case compassRead, compassKnown
    }

    /// An answer that stands open over its place.
    public enum Answer: String, Codable, Sendable {
        case here, back
    }

    /// A leg that is not closed yet: its bearing, the double paces counted so far.
    public struct HalfLeg: Codable, Equatable, Sendable {
        public var bearing: Bearing?
        public var count = 0
        public var met = ""
        public var side: Record.Side?
        public var out = 0

        public init() {}
    }

    /// A reading of which the answer is known.
    public struct Trial: Codable, Equatable, Sendable {
        public var read: Bearing
        public var known: Bearing?
    }

    /// By what a draft knows its state again.
    struct Mark: Codable, Equatable, Sendable {
        let stage: Stage?
        let sheet: String?
        let fixAt: Int64?
        let legs: Int?
        let walked: UInt32

        init(_ snapshot: Snapshot?) {
            stage = snapshot?.stage
            sheet = snapshot?.sheet?.name
            fixAt = snapshot?.fix?.atUnixMs ?? snapshot?.openFix?.atUnixMs
            legs = snapshot?.legs.count
            walked = snapshot?.stage == .wayBack ? snapshot?.wayBack?.walked ?? 0 : 0
        }
    }
}

/// Which drawing: of the fix, or of the walk with the way back.
public enum ChartOf: String, Sendable, CaseIterable {
    case fix, walk
}
