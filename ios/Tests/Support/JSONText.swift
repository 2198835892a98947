import Foundation

/// A value of a JSON text with the very letters that it was written in, so that a record goes to the core exactly as
/// its file has it: numbers too great for any type, broken strings, a hundred brackets.
public struct JSONText: Sendable, CustomStringConvertible {
    public let text: String
    let members: [String: JSONText]
    let items: [JSONText]

    public init(_ text: String) throws {
        var reader = JSONReader(text)
        self = try reader.whole()
    }

    public init(file: URL) throws {
        try self.init(String(contentsOf: file, encoding: .utf8))
    }

    init(text: String, members: [String: JSONText] = [:], items: [JSONText] = []) {
        (self.text, self.members, self.items) = (text, members, items)
    }

    public var description: String { text }

    public subscript(name: String) -> JSONText? { members[name] }

    public var list: [JSONText] { items }

    public var names: Set<String> { Set(members.keys) }

    public var number: Double? {
        guard let first = text.utf8.first, first == UInt8(ascii: "-") || (48...57).contains(first) else { return nil }
        return Double(text)
    }

    public var string: String? {
        text.hasPrefix("\"") ? try? JSONDecoder().decode(String.self, from: Data(text.utf8)) : nil
    }

    /// The value at a dotted path; none when there is none.
    public func value(at path: String) -> JSONText? {
        path.split(separator: ".").reduce(Optional(self)) { value, part in
            guard let value else { return nil }
            if let index = Int(part), value.items.indices.contains(index) { return value.items[index] }
            return value.members[String(part)]
        }
    }

    /// Numbers within their tolerance, everything else exactly.
    public static func agree(_ found: JSONText?, _ wanted: JSONText, within tolerance: Double?) -> Bool {
        if let found = found?.number, let wanted = wanted.number {
            return tolerance.map { abs(found - wanted) <= $0 } ?? false
        }
        return same(found, wanted)
    }

    /// The same value, in whatever letters and order. What is absent is null.
    public static func same(_ found: JSONText?, _ wanted: JSONText) -> Bool {
        guard let found else { return wanted.text == "null" }
        if let wanted = wanted.number { return found.number == wanted }
        if let wanted = wanted.string { return found.string == wanted }
        guard let opening = wanted.text.first, "[{".contains(opening) else { return found.text == wanted.text }
        return found.text.first == opening && found.names == wanted.names && found.items.count == wanted.items.count
            && zip(found.items, wanted.items).allSatisfy { same($0, $1) }
            && wanted.members.allSatisfy { same(found.members[$0], $1) }
    }
}
