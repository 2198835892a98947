public import Foundation
internal import GatepostBridge

/// A file that was chosen, with its name, which tells where a tile of heights lies, and what the walker said of it.
public struct BroughtFile: Equatable, Sendable {
    public let name: String
    public let bytes: Data
    var source: String?
    var cover: String?
    var credit: String?
    var grid: String?

    public init(name: String, bytes: Data) { (self.name, self.bytes) = (name, bytes) }

    /// The core sees it by the beginning.
    var holdsHeights: Bool { GatepostBridge.holdsHeights(beginning: bytes.prefix(4096)) }
}

extension IncomingFile {
    init(_ file: BroughtFile) {
        self.init(
            name: file.name, bytes: file.bytes, grid: file.grid, source: file.source, cover: file.cover,
            credit: file.credit)
    }
}

/// A file and what is asked of it.
public struct Incoming: Equatable, Sendable {
    public enum Question: Sendable {
        /// Where heights come from, what covers the ground, whom to name; in which grid heights lie that do not say it.
        case source, cover, credit, grid
    }

    public internal(set) var file: BroughtFile
    public internal(set) var question: Question
}

/// Refusals after which the grid is asked for.
private let gridNeeded: Set = ["heights-file-grid-needed", "heights-file-grid-of-numbers"]

/// A file with heights for the sheet, or with lines and landmarks. It is read off the main actor; meanwhile the book takes
/// nothing else.
extension FieldModel {
    /// A file was chosen. Of heights it is asked where they come from and what covers the ground; of any, whom to name.
    public func chosen(_ file: BroughtFile) {
        guard bringing == nil else { return }
        incoming = Incoming(file: file, question: file.holdsHeights ? .source : .credit)
    }

    /// Gives the file up that is asked about.
    public func giveUp() { incoming = nil }

    /// Takes the answer to what is asked; after the last one the file is brought in.
    @discardableResult
    public func answer(_ answer: String) async -> Bool {
        guard var asked = incoming else { return false }
        switch asked.question {
        case .source: (asked.file.source, asked.question) = (answer, .cover)
        case .cover: (asked.file.cover, asked.question) = (answer, .credit)
        case .credit:
            asked.file.credit = answer
            return await bring(asked.file)
        case .grid:
            asked.file.grid = answer
            return await bring(asked.file)
        }
        incoming = asked
        return true
    }

    /// Brings a file in as it was answered for.
    @discardableResult
    func bring(_ file: BroughtFile) async -> Bool {
        guard bringing == nil, let book = try? opened() else { return false }
        let watch = ImportWatch { share in Task { @MainActor [weak self] in self?.reached(share) } }
        (self.watch, bringing, incoming) = (watch, shareTold(share: 0), nil)
        let at = time
        let told = await Task.detached { () -> Result<Reply, any Error> in
            // The screen shows it, and may be touched, before the reading begins.
            await MainActor.run {}
            return Result {
                try book.bring(at: at, file: IncomingFile(file), watch: watch)
            }
        }.value
        (self.watch, bringing) = (nil, nil)
        let isTaken = publish(told.get) { said in edit { $0.told = said } }
        if let code = refusal?.code, gridNeeded.contains(code) { incoming = Incoming(file: file, question: .grid) }
        return isTaken
    }

    /// Breaks it off; nothing is changed then.
    public func stopBringing() { watch?.stop() }

    private func reached(_ share: Double) {
        if bringing != nil { bringing = shareTold(share: share) }
    }
}

/// Tells how much is done, and whether to go on.
final class ImportWatch: Watch, @unchecked Sendable {
    private let lock = NSLock()
    private var isStopped = false
    private let done: @Sendable (Double) -> Void

    init(_ done: @escaping @Sendable (Double) -> Void) { self.done = done }

    func stop() { lock.withLock { isStopped = true } }

    func goesOn(share: Double) -> Bool {
        done(share)
        return lock.withLock { !isStopped }
    }
}
