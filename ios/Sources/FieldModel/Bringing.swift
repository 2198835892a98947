public import Foundation
internal import GatepostBridge

/// A file that was chosen, with its name, which tells where a tile of heights lies.
public struct BroughtFile: Equatable, Sendable {
    public let name: String
    public let bytes: Data

    public init(name: String, bytes: Data) { (self.name, self.bytes) = (name, bytes) }
}

/// A file with heights for the sheet, or with lines and landmarks. It is read off the main actor; meanwhile the book takes
/// nothing else.
extension FieldModel {
    /// Brings a file in; the grid is that of heights whose file does not say it.
    @discardableResult
    public func bring(_ file: BroughtFile, grid: String? = nil) async -> Bool {
        guard bringing == nil, let book = try? opened() else { return false }
        let watch = ImportWatch { share in Task { @MainActor [weak self] in self?.reached(share) } }
        (self.watch, bringing, withoutGrid) = (watch, shareTold(share: 0), nil)
        let at = time
        let told = await Task.detached { () -> Result<Reply, any Error> in
            // The screen shows it, and may be touched, before the reading begins.
            await MainActor.run {}
            return Result { try book.bring(at: at, name: file.name, bytes: file.bytes, grid: grid, watch: watch) }
        }.value
        (self.watch, bringing) = (nil, nil)
        let isTaken = publish(told.get) { said in edit { $0.told = said } }
        if refusal?.code == "heights-file-grid-needed" { withoutGrid = file }
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
