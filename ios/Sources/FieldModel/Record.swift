import Foundation

/// One record for the core, as "Records and replies" in DEVELOPERS.md has it. The helpers beside it make each kind.
public struct Record: Encodable, Equatable, Sendable {
    enum Command: String, Encodable {
        case carry, pace, fix, check, keep, leg, back, reached, draft, undo, close, turn
        case here = "where"
        case turnRound = "turn-round"
    }

    enum CodingKeys: String, CodingKey {
        case command = "do"
        case at, format, text, line, instrument, sightings, place, stretch, name
        case bearing, paces, metres, detour, met, to
        case paceKind = "pace_kind"
        case doublePaces = "double_paces_per_100_m"
        case singlePaces = "single_paces_per_100_m"
        case spreadPercent = "spread_percent"
        case spreadM = "spread_m"
        case declination = "declination_deg"
        case convergence = "convergence_deg"
    }

    let command: Command
    var at: String?
    var format: String?
    var text: String?
    var doublePaces: Double?
    var singlePaces: Double?
    var spreadPercent: Double?
    var line: String?
    var instrument: Instrument?
    var sightings: [Sighting]?
    var place: String?
    var spreadM: Double?
    var stretch: Int?
    var name: String?
    var bearing: String?
    var paces: Double?
    var paceKind: PaceKind?
    var metres: Double?
    var detour: Detour?
    var met: String?
    var to: String?
    var declination: Double?
    var convergence: Double?

    init(_ command: Command, _ fill: (inout Record) -> Void = { _ in }) {
        self.command = command
        fill(&self)
    }

    /// The record with its time; the core takes the instant as a value and reads no clock.
    func stamped(_ time: Date) -> Record {
        var stamped = self
        switch command {
        case .draft, .turn: break
        default: stamped.at = time.formatted(.iso8601)
        }
        return stamped
    }

    func json() throws -> String {
        let encoder = JSONEncoder()
        encoder.outputFormatting = [.sortedKeys, .withoutEscapingSlashes]
        return String(decoding: try encoder.encode(self), as: UTF8.self)
    }
}
