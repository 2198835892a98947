import GatepostBridge
import Support
import Testing

@testable import FieldModel

@Suite struct RefusalTests {
    @Test func aBookThatWasShutElsewhereRefuses() throws {
        let book = try FieldBook.fresh()
        book.shut()
        #expect { try book.tell(record: "{}") } throws: { error in
            let refusal = Refusal(error)
            return refusal.code == "book-shut" && !refusal.sentence.isEmpty
        }
    }
}
