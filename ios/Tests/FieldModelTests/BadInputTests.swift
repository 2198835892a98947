import Foundation
import GatepostBridge
import Support
import Testing

@testable import FieldModel

/// Bad input through the model: it keeps what it showed and publishes the refusal's sentence.
@MainActor @Suite struct BadInputTests {
    /// Every record of the case files that must be refused; code and sentence are those of the core, whatever they are.
    @Test(arguments: Project.caseFiles) func keepsWhatIsShown(name: String) throws {
        for wanted in try Project.caseFile(name)["invalid"]?.list ?? [] {
            let before = wanted["before"]?.list ?? []
            let record = try #require(wanted["record"])
            let model = FieldModel(logbook: nil)
            for earlier in before { #expect(model.tell(json: earlier.text)) }
            let (shown, said) = (model.snapshot, model.said)
            #expect(!model.tell(json: record.text))
            #expect(shown != nil && model.snapshot == shown && model.said == said, "\(name) \(wanted)")
            let refusal = try FieldBook.fresh(after: before).tell(record)["refusal"]
            #expect(model.refusal?.code == wanted["refusal"]?.string)
            #expect(model.refusal?.sentence == refusal?["sentence"]?.string)
            #expect(model.refusal?.sentence.isEmpty == false)
        }
    }

    @Test func aGoodRecordEndsTheRefusal() {
        let model = FieldModel(logbook: nil)
        #expect(!model.tell(.here))
        #expect(model.refusal != nil)
        #expect(model.tell(.draft("04")))
        #expect(model.refusal == nil)
    }

    @Test func aFileThatIsNoLogbookIsToldAndLeftAlone() throws {
        let scratch = try Scratch()
        let file = scratch.file("notes.txt")
        let text = String(repeating: "no logbook, but long enough to look at", count: 50)
        try text.write(to: file, atomically: true, encoding: .utf8)
        let model = FieldModel(logbook: file)
        #expect(model.snapshot == nil)
        #expect(model.refusal?.code == "logbook-damaged")
        #expect(model.refusal?.sentence.isEmpty == false)
        #expect(try String(contentsOf: file, encoding: .utf8) == text)
    }

    @Test func aBookThatWasShutElsewhereRefuses() throws {
        let book = try FieldBook.fresh()
        book.shut()
        #expect { try book.tell(record: "{}") } throws: { error in
            let refusal = Refusal(error)
            return refusal.code == "book-shut" && !refusal.sentence.isEmpty
        }
    }
}
