import Foundation
import GatepostBridge
import Support
import Testing

@testable import FieldModel

/// The structs against the core's own words: each property stands in the snapshot under its name, with its value.
@MainActor @Suite struct MirrorTests {
    /// The records go in as their file has them, so that the typed ones are held against them too.
    @Test func everyPropertyIsWhatTheCoreSaid() throws {
        let steps = try DemoWalk().steps
        let book = try FieldBook.fresh()
        let clock = Clock(steps[0].at)
        let model = FieldModel(logbook: nil, now: { clock.now })
        for step in steps {
            clock.now = step.at
            let reply = try JSONText(book.tell(record: step.written()))
            #expect(model.tell(step.record), "\(step.line)")
            compare(try #require(model.snapshot), try #require(reply["snapshot"]), "snapshot")
            #expect(model.said == reply["said"]?.list.compactMap(\.string))
        }
    }

    @Test func soIsEveryPropertyOfTheRestOfTheWalk() throws {
        let book = try FieldBook.fresh()
        for step in try DemoWalk().steps { _ = try book.tell(record: step.written()) }
        for command in ["turn-round", "reached", "close"] {
            let reply = try JSONText(book.tell(record: #"{"do":"\#(command)","at":"2026-09-12T10:00:00Z"}"#))
            compare(Snapshot(told: try book.snapshot()), try #require(reply["snapshot"]), "snapshot")
        }
        #expect(Snapshot(told: try book.snapshot()).stage == .afterwards)
        let walk = try FieldBook.fresh()
        for step in try DemoWalk().steps { _ = try walk.tell(record: step.written()) }
        let closed = try JSONText(walk.tell(record: #"{"do":"close","at":"2026-09-12T10:00:00Z"}"#))
        compare(Snapshot(told: try walk.snapshot()), try #require(closed["snapshot"]), "snapshot")
        #expect(Snapshot(told: try walk.snapshot()).after?.closing != nil)
    }

    /// Sightings of every kind as a screen sends them, beside the same in the core's own words.
    @Test func everySightingIsSentAsTheCoreHasIt() throws {
        let book = try FieldBook.fresh()
        let clock = Clock(Date(timeIntervalSince1970: 1_789_200_000))
        let model = FieldModel(logbook: nil, now: { clock.now })
        let sheet = try Project.text("tests/demo/velm-valley.toml")
        let text = String(decoding: try JSONEncoder().encode(sheet), as: UTF8.self)
        _ = try book.tell(record: #"{"do":"carry","at":"2026-09-12T08:00:00Z","format":"toml","text":\#(text)}"#)
        #expect(model.tell(.carry(sheet, as: .toml)))
        for fix in SentFix.all {
            let record = #"{"do":"fix","at":"2026-09-12T08:00:00Z",\#(fix.written)}"#
            let reply = try JSONText(book.tell(record: record))
            #expect(model.tell(fix.record), "\(record)")
            compare(try #require(model.snapshot), try #require(reply["snapshot"]), "snapshot")
            let check = #"{"do":"check","at":"2026-09-12T08:00:00Z","place":"43TEG 5961 4962"}"#
            let checked = try JSONText(book.tell(record: check))
            #expect(model.tell(.check("43TEG 5961 4962")))
            compare(try #require(model.snapshot), try #require(checked["snapshot"]), "snapshot")
        }
    }

    private func compare(_ value: Any, _ said: JSONText, _ path: String) {
        let mirror = Mirror(reflecting: value)
        switch mirror.displayStyle {
        case .optional:
            if let inner = mirror.children.first { return compare(inner.value, said, path) }
            #expect(said.text == "null", "\(path)")
        case .collection:
            #expect(mirror.children.count == said.list.count, "\(path)")
            for (child, item) in zip(mirror.children, said.list) { compare(child.value, item, "\(path)[]") }
        case .struct where !(value is any Numeric) && !(value is String):
            for child in mirror.children { compareMember(child, said, path) }
        default: #expect(sameScalar(value, said), "\(path): \(value) instead of \(said)")
        }
    }

    private func compareMember(_ child: Mirror.Child, _ said: JSONText, _ path: String) {
        let label = child.label ?? ""
        let name = said.names.first { $0.replacing("_", with: "") == label.lowercased() }
        guard let name, let member = said[name] else {
            Issue.record("\(path).\(label) is nothing that the core says")
            return
        }
        compare(child.value, member, "\(path).\(label)")
    }

    private func sameScalar(_ value: Any, _ said: JSONText) -> Bool {
        switch value {
        case let text as String: said.string == text
        case let flag as Bool: said.text == "\(flag)"
        case let number as Double: said.number == number
        case let number as any BinaryInteger: said.text == "\(number)"
        case let word as any RawRepresentable<String>: said.string == word.rawValue
        default: false
        }
    }
}
