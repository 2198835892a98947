import Foundation
import GatepostBridge
import Support
import Testing

@testable import FieldModel

/// The structs against the core's own words: each property stands in the snapshot under its name, with its value.
@MainActor @Suite struct MirrorTests {
    @Test func everyPropertyIsWhatTheCoreSaid() throws {
        let steps = try DemoWalk().steps
        let book = try FieldBook.fresh()
        let clock = Clock(steps[0].at)
        let model = FieldModel(logbook: nil, now: { clock.now })
        for step in steps {
            clock.now = step.at
            let reply = try JSONText(book.tell(record: step.record.stamped(clock.now).json()))
            #expect(model.tell(step.record))
            let shown = try #require(model.snapshot)
            compare(shown, try #require(reply["snapshot"]), "snapshot")
            #expect(model.said == reply["said"]?.list.compactMap(\.string))
        }
    }

    /// The snapshot that a book opens with, through the bridge's own records.
    @Test func soIsEveryPropertyOfABookThatOpens() throws {
        let steps = try DemoWalk().steps
        let book = try FieldBook.fresh()
        let records = steps.map(\.record) + [.check("43TEG 5691 4962"), .turnRound, .reached, .close]
        for record in records {
            _ = try book.tell(record: record.stamped(steps[0].at).json())
            let asked = try JSONText(book.tell(record: Record.reading("0 grid").json()))
            compare(try Snapshot(told: book.snapshot()), try #require(asked["snapshot"]), "snapshot")
        }
        let last = try Snapshot(told: book.snapshot())
        #expect(last.stage == .afterwards && last.check != nil && last.wayBack != nil)
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
