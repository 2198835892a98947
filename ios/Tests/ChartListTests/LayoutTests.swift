import Testing

@testable import ChartList

/// Buffers written by hand: each kind of item, and what must be refused.
@Suite struct LayoutTests {
    @Test func eachItemIsRead() throws {
        var buffer = Buffer().head().count(3)
        // A path that is closed, stroked and filled.
        buffer = buffer.bytes(1, 7, 1).floats(3).bytes(2).count(2).floats(4, 5).bytes(11).count(1).floats(1, 2)
        buffer = buffer.bytes(3).floats(1, 2, 14, -90).bytes(1, 12, 7).text("é")
        buffer = buffer.bytes(4).floats(0, 0, 9, 9).count(1).bytes(2, 0).floats(1, 2, 3)
        buffer = buffer.count(1).floats(1, 2, 64, 64).bytes(3).count(2).text("").text("Turn 2.").text("A walk.")
        let chart = try ChartList(bytes: buffer.all)
        let dot = ChartItem.circle(centre: Spot(x: 1, y: 2), radius: 3, Paint(stroke: nil, fill: nil))
        let line = Stroke(ink: Ink.works, width: 3, cap: Stroke.Cap.square, dash: [4, 5])
        let path = ChartItem.path(points: [Spot(x: 1, y: 2)], closed: true, Paint(stroke: line, fill: Ink.car))
        let letters = Lettering(
            at: Spot(x: 1, y: 2), size: 14, rotationDeg: -90, anchor: .middle, ink: .text, halo: true, italic: true,
            bold: true, text: "é")
        let clip = ChartItem.clip(Area(x: 0, y: 0, width: 9, height: 9), [dot])
        #expect(chart.items == [path, ChartItem.text(letters), clip])
        #expect(chart.targets.map(\.kind) == [ChartTarget.Kind.turn])
        #expect(chart.targets.map(\.number) == [2])
        #expect(chart.spoken == "A walk.")
    }

    @Test func theInksAreThoseOfTheCore() {
        #expect(Ink.allCases.count == 16)
        #expect(Ink.divider.rawValue == 15)
    }

    @Test(arguments: bad) func badBuffersAreRefused(bytes: [UInt8]) {
        #expect(throws: ChartFault.self) { try ChartList(bytes: bytes) }
    }

    private static let bad: [[UInt8]] = [
        Array("GPC2".utf8),
        Buffer().head().count(1).bytes(9).all,
        Buffer().head().count(UInt32.max).all,
        Buffer().head().count(1).bytes(2, 4).floats(.nan).all,
        Buffer().head().count(1).bytes(2, 4).floats(1, 1, 1).bytes(16).all,
        Buffer().head().count(0).count(0).count(1).bytes(255).all,
        (0..<99).reduce(Buffer().head()) { buffer, _ in buffer.count(1).bytes(4).floats(0, 0, 1, 1) }.all,
    ]
}

/// Writes as the core does.
private struct Buffer {
    var all: [UInt8] = []

    func bytes(_ values: UInt8...) -> Buffer { Buffer(all: all + values) }

    func count(_ value: UInt32) -> Buffer {
        let bytes: [UInt8] = (0..<4).map { UInt8(truncatingIfNeeded: value >> ($0 * 8)) }
        return Buffer(all: all + bytes)
    }

    func floats(_ values: Float...) -> Buffer { values.reduce(self) { $0.count($1.bitPattern) } }

    func text(_ text: String) -> Buffer {
        let counted = count(UInt32(text.utf8.count))
        return Buffer(all: counted.all + Array(text.utf8))
    }

    func head() -> Buffer { Buffer(all: Array("GPC1".utf8)).floats(10, 20) }
}
