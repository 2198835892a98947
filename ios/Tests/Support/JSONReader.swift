/// Cuts a JSON text into its values and reads no meaning into them.
struct JSONReader {
    struct Malformed: Error { let at: Int }

    private let bytes: [UInt8]
    private var at = 0

    init(_ text: String) { bytes = Array(text.utf8) }

    mutating func whole() throws -> JSONText {
        let value = try value()
        guard next() == nil else { throw Malformed(at: at) }
        return value
    }

    private mutating func value() throws -> JSONText {
        var members: [String: JSONText] = [:]
        var items: [JSONText] = []
        let opening = next()
        let start = at
        switch opening {
        case UInt8(ascii: "{"):
            try list(closedBy: "}") { reader in
                let name = try reader.string()
                try reader.expect(":")
                members[name] = try reader.value()
            }
        case UInt8(ascii: "["): try list(closedBy: "]") { items.append(try $0.value()) }
        case UInt8(ascii: "\""): _ = try string()
        default: try word()
        }
        return JSONText(text: String(decoding: bytes[start..<at], as: UTF8.self), members: members, items: items)
    }

    private mutating func list(
        closedBy closing: Unicode.Scalar, _ element: (inout JSONReader) throws -> Void
    ) throws {
        at += 1
        var empty = true
        while next() != UInt8(ascii: closing) {
            if !empty { try expect(",") }
            try element(&self)
            empty = false
        }
        at += 1
    }

    /// The letters between the quotes, escapes as they are.
    private mutating func string() throws -> String {
        try expect("\"")
        let start = at
        while at < bytes.count, bytes[at] != UInt8(ascii: "\"") {
            at += bytes[at] == UInt8(ascii: "\\") ? 2 : 1
        }
        let end = at
        try expect("\"")
        return String(decoding: bytes[start..<end], as: UTF8.self)
    }

    /// A number, true, false or null.
    private mutating func word() throws {
        let start = at
        while at < bytes.count, !" \t\r\n,:[]{}\"".utf8.contains(bytes[at]) { at += 1 }
        if at == start { throw Malformed(at: at) }
    }

    private mutating func expect(_ mark: Unicode.Scalar) throws {
        guard next() == UInt8(ascii: mark) else { throw Malformed(at: at) }
        at += 1
    }

    /// The next byte that is no space.
    private mutating func next() -> UInt8? {
        while at < bytes.count, " \t\r\n".utf8.contains(bytes[at]) { at += 1 }
        return at < bytes.count ? bytes[at] : nil
    }
}
