import Foundation

/// What is to be known beside what the core said.
public enum Notice: Equatable, Sendable {
    /// The logbook that could not be opened has this name now.
    case keptAside(String)
    /// So many double paces were counted since the entry that was struck.
    case pacesDropped(Int)
}

/// Refusals of a logbook that no second try opens.
private let unreadable: Set = ["logbook-damaged", "logbook-newer", "logbook-foreign"]

/// A logbook that cannot be read makes room for a new one. It gets another name in its folder; nothing is deleted.
extension FieldModel {
    public var mayKeepAside: Bool { snapshot == nil && unreadable.contains(refusal?.code ?? "") }

    /// The file itself goes last, what the system keeps beside it before: as long as it is there nothing new is begun.
    @discardableResult
    public func keepAside() -> Bool {
        guard mayKeepAside, let logbook else { return false }
        shut()
        let (files, folder) = (FileManager.default, logbook.deletingLastPathComponent())
        let names = (1...).lazy.map { "kept-aside-\($0).gatepost" }
        let isFree = { (name: String) in !files.fileExists(atPath: folder.appendingPathComponent(name).path) }
        guard let name = names.first(where: isFree) else { return false }
        for part in ["-wal", "-shm", ""] {
            let old = folder.appendingPathComponent(logbook.lastPathComponent + part)
            guard part.isEmpty || files.fileExists(atPath: old.path) else { continue }
            do {
                try files.moveItem(at: old, to: folder.appendingPathComponent(name + part))
            } catch {
                open()
                return false
            }
        }
        open()
        notice = .keptAside(name)
        return snapshot != nil
    }
}
