import Foundation
internal import GatepostBridge
import Observation

/// The one owner of the field book: takes records and publishes what the core last told. It reckons nothing.
@MainActor
@Observable
public final class FieldModel {
    /// Everything a screen shows, as of the last record that was taken; absent until a book is open.
    public private(set) var snapshot: Snapshot?
    /// What a person is told by the last record that was taken, sentence by sentence.
    public private(set) var said: [String] = []
    /// Why the last record was not taken, or the book not opened. Everything else then stands as it was.
    public private(set) var refusal: Refusal?

    @ObservationIgnored private let logbook: URL?
    @ObservationIgnored private let now: @MainActor () -> Date
    @ObservationIgnored private var book: FieldBook?

    /// Opens the logbook, in memory when there is none, and shows the newest trip in it.
    public init(logbook: URL?, now: @escaping @MainActor () -> Date = { Date() }) {
        self.logbook = logbook
        self.now = now
        open()
    }

    /// Opens the logbook once more after a refusal or after ``shut()``.
    public func open() {
        if take(.look) { said = [] }
    }

    /// Shuts the logbook file. The next record opens it again; what is shown stays.
    public func shut() {
        book?.shut()
        book = nil
    }

    /// Takes one record, with the present time where it wants a time. True when it was taken.
    @discardableResult
    public func tell(_ record: Record) -> Bool {
        take(record.stamped(now()))
    }

    private func take(_ record: Record) -> Bool {
        publish { try record.json() }
    }

    /// Takes a record as it stands in a file: for the tests, which must also be able to say what no screen can.
    @discardableResult
    func tell(json: String) -> Bool {
        publish { json }
    }

    private func publish(_ record: () throws -> String) -> Bool {
        do {
            let reply = try Reply(json: try opened().tell(record: record()))
            refusal = reply.refusal
            guard let told = reply.snapshot, reply.ok else { return false }
            snapshot = told
            said = reply.said ?? []
            return true
        } catch {
            refusal = Refusal(error)
            return false
        }
    }

    private func opened() throws -> FieldBook {
        if let book { return book }
        let opened = try FieldBook.open(config: OpenConfig(logbookPath: logbook?.path))
        book = opened
        return opened
    }
}
