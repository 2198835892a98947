internal import GatepostBridge

/// One record for the core, as "Records and replies" in DEVELOPERS.md has it; it gets its time when it is told.
public struct Record: Sendable {
    /// Whether it makes an entry, which the next undo would strike.
    let isEntry: Bool
    /// The bridge's record at a time, RFC 3339.
    let at: @Sendable (String) -> GatepostBridge.Record

    private init(isEntry: Bool, _ at: @escaping @Sendable (String) -> GatepostBridge.Record) {
        (self.isEntry, self.at) = (isEntry, at)
    }

    static func entry(_ at: @escaping @Sendable (String) -> GatepostBridge.Record) -> Record {
        Record(isEntry: true, at)
    }

    static func question(_ at: @escaping @Sendable (String) -> GatepostBridge.Record) -> Record {
        Record(isEntry: false, at)
    }
}

extension Record {
    /// What a bearing is read with.
    public enum Instrument: String, Codable, Sendable, CaseIterable {
        case sighting, baseplate, quick, phone
    }

    /// A side as one faces while walking.
    public enum Side: String, Codable, Sendable, CaseIterable {
        case left, right
    }

    /// How a sheet is written.
    public enum SheetFormat: String, Sendable {
        case geojson, toml

        /// That of a text, by how it begins.
        public init(of text: String) { self = text.first { !$0.isWhitespace } == "{" ? .geojson : .toml }
    }

    /// What a compass said, and the bearing known for it.
    public struct Trial: Equatable, Sendable {
        let read: String
        let known: String

        public init(_ read: String, _ known: String) {
            (self.read, self.known) = (read, known)
        }
    }

    /// The box walked round something, so far out.
    public struct Detour: Equatable, Sendable {
        let side: Side
        let doublePaces: Double

        public init(_ side: Side, doublePaces: Double) {
            (self.side, self.doublePaces) = (side, doublePaces)
        }
    }
}
