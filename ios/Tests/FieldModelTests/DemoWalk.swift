import FieldModel
import Foundation
import Support
import Testing

/// The demo's walk, `tests/demo/walk.jsonl`, as the typed records that a screen would send.
struct DemoWalk {
    struct Step {
        let line: JSONText
        let at: Date
        let record: Record
    }

    let steps: [Step]

    init() throws {
        let lines = try Project.text("tests/demo/walk.jsonl").split(separator: "\n")
        steps = try lines.map { try Step(JSONText(String($0))) }
    }
}

/// The time as the walk has it.
@MainActor final class Clock {
    var now: Date

    init(_ now: Date) { self.now = now }
}

extension DemoWalk.Step {
    init(_ line: JSONText) throws {
        let time = try #require(line["at"]?.string)
        self.init(line: line, at: try Date(time, strategy: .iso8601), record: try Record(line))
    }
}

extension DemoWalk.Step {
    /// The record as JSON; the desk alone knows files, so a sheet's text stands in its place.
    func written() throws -> String {
        guard let file = line["file"]?.string else { return line.text }
        let text = String(decoding: try JSONEncoder().encode(Project.text(file)), as: UTF8.self)
        let format = #""format":"toml","text":\#(text)"#
        return line.text.replacing(#""file":"\#(file)""#, with: format)
    }
}

extension Record {
    struct Unknown: Error { let command: String? }

    init(_ line: JSONText) throws {
        switch line["do"]?.string {
        case "carry": self = .carry(try Project.text(#require(line["file"]?.string)), as: .toml)
        case "pace": self = .pace(try #require(line["double_paces_per_100_m"]?.number))
        case "fix":
            let sightings = try line["sightings"]?.list.map { try Sighting($0) } ?? []
            let instrument = line["instrument"]?.string.flatMap(Instrument.init(rawValue:))
            self = .fix(sightings, on: line["line"]?.string.map(Stand.line), with: instrument)
        case "keep": self = .keep(name: line["name"]?.string)
        case "leg":
            let detour = try line["detour"].map { try Detour($0) }
            let (bearing, paces) = (try #require(line["bearing"]?.string), try #require(line["paces"]?.number))
            self = .leg(bearing, doublePaces: paces, detour: detour, met: line["met"]?.string)
        case "where": self = .here
        case "back": self = .back
        case let command: throw Unknown(command: command)
        }
    }
}

extension Record.Sighting {
    init(_ line: JSONText) throws {
        self.init(try #require(line["landmark"]?.string), try #require(line["bearing"]?.string))
    }
}

extension Record.Detour {
    init(_ line: JSONText) throws {
        let side = try #require(line["side"]?.string.flatMap(Record.Side.init(rawValue:)))
        self.init(side, doublePaces: try #require(line["paces"]?.number))
    }
}
