extension ChartList {
    /// Decodes a buffer; `core/src/chart/bytes.rs` says its layout.
    public init(bytes: some Sequence<UInt8>) throws {
        var reader = ByteReader(Array(bytes))
        for letter in "GPC1".utf8 where try reader.byte() != letter { throw ChartFault.heading }
        width = try reader.float()
        height = try reader.float()
        items = try reader.items(depth: 0)
        targets = try reader.list { try $0.target() }
        spoken = try reader.text()
        guard reader.left == 0 else { throw ChartFault.tail(reader.left) }
    }
}

extension ByteReader {
    private enum Kind: UInt8 {
        case path = 1
        case circle, text, clip
    }

    mutating func items(depth: Int) throws -> [ChartItem] {
        guard depth < 16 else { throw ChartFault.deep }
        return try list { try $0.item(depth: depth) }
    }

    private mutating func item(depth: Int) throws -> ChartItem {
        switch try one(of: Kind.self) {
        case .path: try path()
        case .circle: try circle()
        case .text: .text(try lettering())
        case .clip: .clip(try area(), try items(depth: depth + 1))
        }
    }

    private mutating func path() throws -> ChartItem {
        let flags = try byte()
        let paint = try paint(flags)
        return .path(points: try list { try $0.spot() }, closed: flags & 1 != 0, paint)
    }

    private mutating func circle() throws -> ChartItem {
        let flags = try byte()
        return .circle(centre: try spot(), radius: try float(), try paint(flags))
    }

    private mutating func lettering() throws -> Lettering {
        let (at, size, rotation) = (try spot(), try float(), try float())
        let (anchor, ink) = (try one(of: Lettering.Anchor.self), try one(of: Ink.self))
        let flags = try byte()
        return Lettering(
            at: at, size: size, rotationDeg: rotation, anchor: anchor, ink: ink,
            halo: flags & 1 != 0, italic: flags & 2 != 0, bold: flags & 4 != 0, text: try text())
    }

    private mutating func paint(_ flags: UInt8) throws -> Paint {
        Paint(
            stroke: flags & 2 != 0 ? try stroke() : nil,
            fill: flags & 4 != 0 ? try one(of: Ink.self) : nil)
    }

    private mutating func stroke() throws -> Stroke {
        Stroke(
            ink: try one(of: Ink.self), width: try float(), cap: try one(of: Stroke.Cap.self),
            dash: try list { try $0.float() })
    }

    private mutating func spot() throws -> Spot { Spot(x: try float(), y: try float()) }

    private mutating func area() throws -> Area {
        Area(x: try float(), y: try float(), width: try float(), height: try float())
    }

    mutating func target() throws -> ChartTarget {
        ChartTarget(
            area: try area(), kind: try one(of: ChartTarget.Kind.self), number: try count(),
            name: try text(), spoken: try text())
    }
}
