/// Reads the core's byte buffers: little endian, 32-bit floats and counts, text after its count.
struct ByteReader {
    private let bytes: [UInt8]
    private var at = 0

    init(_ bytes: [UInt8]) { self.bytes = bytes }

    var left: Int { bytes.count - at }

    mutating func byte() throws -> UInt8 {
        guard left > 0 else { throw ChartFault.short(at: at) }
        defer { at += 1 }
        return bytes[at]
    }

    mutating func count() throws -> Int { Int(try word()) }

    mutating func float() throws -> Double {
        let start = at
        let value = Float(bitPattern: try word())
        guard value.isFinite else { throw ChartFault.number(at: start) }
        return Double(value)
    }

    mutating func text() throws -> String {
        let length = try count()
        guard length <= left else { throw ChartFault.short(at: at) }
        defer { at += length }
        guard let text = String(validating: bytes[at..<(at + length)], as: UTF8.self) else {
            throw ChartFault.text(at: at)
        }
        return text
    }

    /// A counted list. Each element takes a byte at least, so a count beyond what is left is no count.
    mutating func list<Element>(_ element: (inout ByteReader) throws -> Element) throws -> [Element] {
        let length = try count()
        guard length <= left else { throw ChartFault.short(at: at) }
        var elements: [Element] = []
        for _ in 0..<length { elements.append(try element(&self)) }
        return elements
    }

    /// A byte that stands for one of a few cases.
    mutating func one<Case: RawRepresentable<UInt8>>(of _: Case.Type) throws -> Case {
        let start = at
        let raw = try byte()
        guard let value = Case(rawValue: raw) else { throw ChartFault.unknown(raw, at: start) }
        return value
    }

    private mutating func word() throws -> UInt32 {
        guard left >= 4 else { throw ChartFault.short(at: at) }
        defer { at += 4 }
        return bytes[at..<(at + 4)].reversed().reduce(0) { $0 << 8 | UInt32($1) }
    }
}

/// Why a buffer is no chart: then app and core are of different makes.
public enum ChartFault: Error, Equatable {
    case heading
    case short(at: Int)
    case number(at: Int)
    case text(at: Int)
    case unknown(UInt8, at: Int)
    case deep
    case tail(Int)
}
