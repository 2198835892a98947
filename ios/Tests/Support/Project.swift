import Foundation

/// Where the project keeps what every runner reads.
public enum Project {
    public static let root = URL(fileURLWithPath: #filePath)
        .deletingLastPathComponent().deletingLastPathComponent().deletingLastPathComponent().deletingLastPathComponent()

    public static func text(_ path: String) throws -> String {
        try String(contentsOf: root.appendingPathComponent(path), encoding: .utf8)
    }

    /// A Swift file of the project.
    public struct File {
        public let path: String
        public let text: String

        public var name: String { String(path.split(separator: "/").last ?? "") }
        public var lines: [Substring] { text.split(separator: "\n", omittingEmptySubsequences: false) }
        /// The lines that are no comment.
        public var code: [Substring] { lines.filter { !$0.drop { $0 == " " }.hasPrefix("//") } }
    }

    /// The Swift files under some folders.
    public static func files(in folders: [String]) throws -> [File] {
        try folders.flatMap { folder in
            let found = FileManager.default.enumerator(atPath: root.appendingPathComponent(folder).path)
            let names = found?.compactMap { $0 as? String }.filter { $0.hasSuffix(".swift") } ?? []
            return try names.sorted().map { File(path: "\(folder)/\($0)", text: try text("\(folder)/\($0)")) }
        }
    }

    /// The case files, by their path under `tests/vectors`.
    public static var caseFiles: [String] {
        let folder = root.appendingPathComponent("tests/vectors")
        let found = FileManager.default.enumerator(atPath: folder.path)?.compactMap { $0 as? String } ?? []
        return found.filter { $0.hasSuffix(".json") }.sorted()
    }

    public static func caseFile(_ name: String) throws -> JSONText {
        try JSONText(file: root.appendingPathComponent("tests/vectors").appendingPathComponent(name))
    }
}

/// A folder that is gone when its owner is.
public final class Scratch: Sendable {
    public let folder: URL

    public init() throws {
        folder = FileManager.default.temporaryDirectory.appendingPathComponent("gatepost-\(UUID().uuidString)")
        try FileManager.default.createDirectory(at: folder, withIntermediateDirectories: true)
    }

    public func file(_ name: String) -> URL { folder.appendingPathComponent(name) }

    deinit { try? FileManager.default.removeItem(at: folder) }
}
