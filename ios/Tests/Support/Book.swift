import GatepostBridge

extension FieldBook {
    public struct Refused: Error { let record: String }

    /// A field book in memory that has taken some records.
    public static func fresh(after records: [JSONText] = []) throws -> FieldBook {
        let book = try FieldBook.open(config: OpenConfig())
        for record in records where try book.tell(record)["ok"]?.text != "true" {
            throw Refused(record: record.text)
        }
        return book
    }

    /// One record, one reply.
    public func tell(_ record: JSONText) throws -> JSONText {
        try JSONText(tell(record: record.text))
    }
}
