import Foundation
import Support
import Testing

@testable import FieldModel

/// The typed records against the records that stand in files.
@Suite struct RecordTests {
    /// What the helpers write is what the demo's file says, member by member.
    @Test func walkIsWrittenAsInItsFile() throws {
        for step in try DemoWalk().steps {
            let sent = try JSONText(step.record.stamped(step.at).json())
            var names = sent.names.union(step.line.names)
            if let file = step.line["file"]?.string {
                names.subtract(["file", "format", "text"])
                #expect(try sent["text"]?.string == Project.text(file))
            }
            for name in names {
                let wanted = try #require(step.line[name], "\(name) is not in \(step.line)")
                #expect(JSONText.same(sent[name], wanted), "\(name) of \(step.line)")
            }
        }
    }

    /// What no line of the walk holds: the core refuses it for the trip's state, not because it does not know it.
    @MainActor @Test(arguments: unwalked) func recordIsKnown(record: Record) {
        let model = FieldModel(logbook: nil)
        #expect(!model.tell(record))
        #expect(model.refusal != nil)
        #expect(model.refusal?.code != "record-unreadable", "\(record)")
    }

    private static let unwalked: [Record] = [
        .here, .back, .turnRound, .reached, .undo, .close, .check(""), .keep(stretch: 2), .carry("", as: .geojson),
        .pace(1, .single, spreadPercent: 1), .leg("1 mag", .metres(1), detour: .init(.left, metres: 1)),
        .fix([.init("", "1 mag", spreadDeg: 1)], on: nil, with: .phone),
    ]
}
