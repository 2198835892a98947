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
    /// What is to be known beside all else, until something else is done.
    public internal(set) var notice: Notice?
    /// What is half done; the core keeps it, so that a kill loses nothing.
    public private(set) var draft = Draft()

    /// How much of a file is brought in, in words; absent while none is.
    public internal(set) var bringing: String?
    /// A file of which something is asked before it is brought in.
    public internal(set) var incoming: Incoming?

    /// The ground near, and the place that it was asked for.
    var near: (of: Stood, told: Near)?

    @ObservationIgnored var asksNear = false
    @ObservationIgnored var watch: ImportWatch?
    @ObservationIgnored let logbook: URL?
    @ObservationIgnored private let utcOffsetMin: @MainActor () -> Int32
    @ObservationIgnored private var openedAtMin: Int32?
    @ObservationIgnored private let now: @MainActor () -> Date
    @ObservationIgnored private var book: FieldBook?
    @ObservationIgnored private var entered: Date?

    /// Opens the logbook, in memory when there is none, and shows the newest trip in it. Times of day are told by a
    /// clock that is so many minutes ahead of UTC now.
    public init(
        logbook: URL?, utcOffsetMin: @escaping @MainActor () -> Int32 = { 0 },
        now: @escaping @MainActor () -> Date = { Date() }
    ) {
        self.logbook = logbook
        self.utcOffsetMin = utcOffsetMin
        self.now = now
        open()
    }

    /// Opens the logbook once more after a refusal or after ``shut()``.
    public func open() {
        do {
            snapshot = try Snapshot(told: opened().snapshot(at: time))
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

    /// Tells the ages and the light for the present; for the start, for coming back, and every minute between.
    public func refresh() {
        guard bringing == nil else { return }
        // In another zone the book is opened anew, for it tells times of day by the one it was opened in.
        if logbook != nil, let openedAtMin, openedAtMin != utcOffsetMin() { shut() }
        guard let told = try? opened().snapshot(at: time) else { return }
        let present = Snapshot(told: told)
        if present != snapshot { snapshot = present }
    }

    /// Takes one record at the present time and publishes what it tells. True when it was taken.
    @discardableResult
    public func tell(_ record: Record) -> Bool {
        publish(record) { said = $0 }
    }

    /// As ``tell(_:)``, but what was said stays.
    @discardableResult
    func mention(_ record: Record) -> Bool {
        publish(record) { _ in }
    }

    /// Asks beside all that is shown: nothing is published. A refusal is told by its sentence.
    func consult(_ question: Record) -> (said: [String], answer: GatepostBridge.Answer?) {
        let (said, reply) = asked(question)
        return (said, reply?.answer)
    }

    func asked(_ question: Record) -> (said: [String], reply: Reply?) {
        guard bringing == nil else { return ([], nil) }
        do {
            let reply = try opened().take(record: question.at(time))
            return (reply.said, reply)
        } catch {
            return ([Refusal(error).sentence], nil)
        }
    }

    /// Changes what is half done. What was said stays; a refusal ends, for something else was typed.
    public func edit(_ change: (inout Draft) -> Void) {
        notice = nil
        var changed = draft
        change(&changed)
        guard changed != draft else {
            refusal = nil
            return
        }
        if changed.told != draft.told { said = changed.told }
        keep(changed)
    }

    /// Takes one record and, when it was taken, changes what is half done and keeps what was said.
    @discardableResult
    public func act(_ record: Record, _ change: (inout Draft) -> Void = { _ in }) -> Bool {
        notice = nil
        guard tell(record) else { return false }
        if record.isEntry { entered = now() }
        var changed = draft
        change(&changed)
        changed.told = said
        keep(changed)
        return true
    }

    /// Whether the last entry was made a moment ago, so that one touch may strike it.
    public var hasFreshEntry: Bool {
        entered.map { now().timeIntervalSince($0) <= Self.fresh } ?? false
    }

    /// Strikes the last entry; the one before it is not fresh.
    func undo() -> Bool {
        defer { entered = nil }
        return act(.undo)
    }

    /// A chart at the size of its place on the screen, letters in points; none while there is nothing to draw.
    public func chart(_ of: ChartOf, width: Double, height: Double, letters: Double) -> ChartList? {
        guard snapshot != nil, bringing == nil, let book, width > 0, height > 0 else { return nil }
        guard let bytes = try? book.chart(of: of.rawValue, width: width, height: height, letters: letters) else {
            return nil
        }
        return try? ChartList(bytes: bytes)
    }

    private func keep(_ changed: Draft) {
        draft = changed
        draft.mark = Draft.Mark(snapshot)
        mention(.draft(draft.json))
    }

    private func publish(_ record: Record, _ say: ([String]) -> Void) -> Bool {
        guard bringing == nil else { return false }
        return publish({ try opened().take(record: record.at(time)) }, say)
    }

    func publish(_ take: () throws -> Reply, _ say: ([String]) -> Void) -> Bool {
        do {
            let reply = try take()
            (snapshot, refusal) = (Snapshot(told: reply.snapshot), nil)
            say(reply.said)
            return true
        } catch {
            refusal = Refusal(error)
            return false
        }
    }

    var time: String { now().formatted(.iso8601) }

    func opened() throws -> FieldBook {
        if let book { return book }
        let ahead = utcOffsetMin()
        let opened = try FieldBook.open(config: OpenConfig(logbookPath: logbook?.path, utcOffsetMin: ahead))
        (book, openedAtMin) = (opened, ahead)
        return opened
    }

    /// Seconds.
    private static let fresh: TimeInterval = 10
}
