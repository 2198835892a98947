public import ChartList
public import Foundation
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

    /// What is half done; the core keeps it, so that a kill loses nothing.
    public private(set) var draft = Draft()

    @ObservationIgnored private let logbook: URL?
    @ObservationIgnored private let utcOffsetMin: Int32
    @ObservationIgnored private let now: @MainActor () -> Date
    @ObservationIgnored private var book: FieldBook?

    /// Opens the logbook, in memory when there is none, and shows the newest trip in it. Times of day are told by a
    /// clock so many minutes ahead of UTC.
    public init(logbook: URL?, utcOffsetMin: Int32 = 0, now: @escaping @MainActor () -> Date = { Date() }) {
        self.logbook = logbook
        self.utcOffsetMin = utcOffsetMin
        self.now = now
        open()
    }

    /// Opens the logbook once more after a refusal or after ``shut()``.
    public func open() {
        do {
            snapshot = try Snapshot(told: opened().snapshot())
            refusal = nil
            draft = Draft(kept: snapshot)
            said = draft.told
        } catch {
            refusal = Refusal(error)
        }
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

    /// Changes what is half done. What was said stays; a refusal ends, for something else was typed.
    public func edit(_ change: (inout Draft) -> Void) {
        var changed = draft
        change(&changed)
        guard changed != draft else {
            refusal = nil
            return
        }
        if changed.told != draft.told { said = changed.told }
        draft = changed
        draft.mark = Draft.Mark(snapshot)
        keepDraft()
    }

    /// Takes one record and, when it was taken, changes what is half done and keeps what was said.
    @discardableResult
    public func act(_ record: Record, _ change: (inout Draft) -> Void = { _ in }) -> Bool {
        guard tell(record) else { return false }
        change(&draft)
        draft.told = said
        draft.mark = Draft.Mark(snapshot)
        keepDraft()
        return true
    }

    private func keepDraft() {
        let spoken = said
        defer { said = spoken }
        tell(.draft(draft.json))
    }

    /// Tells the core the time, so that the ages on the strip are those of now. Beside the line no question bears a
    /// time, and there they stand as of the last entry. A refusal that is being read is left alone.
    public func refresh() {
        guard snapshot?.car != nil, refusal == nil else { return }
        let spoken = said
        defer { said = spoken }
        tell(.here)
    }

    /// Whether the core reads this bearing; what was said stays.
    func reads(_ bearing: String) -> Bool {
        let spoken = said
        defer { said = spoken }
        return tell(.reading(bearing))
    }

    /// A chart at the size of its place on the screen, letters in points; none while there is nothing to draw.
    public func chart(_ of: ChartOf, width: Double, height: Double, letters: Double) -> ChartList? {
        guard snapshot != nil, let book, width > 0, height > 0 else { return nil }
        guard let bytes = try? book.chart(of: of.rawValue, width: width, height: height, letters: letters) else {
            return nil
        }
        return try? ChartList(bytes: bytes)
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
        let opened = try FieldBook.open(config: OpenConfig(logbookPath: logbook?.path, utcOffsetMin: utcOffsetMin))
        book = opened
        return opened
    }
}
