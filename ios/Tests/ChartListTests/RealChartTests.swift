import GatepostBridge
import Support
import Testing

@testable import ChartList

/// The decoder against charts that the core draws of the demo's walk.
@Suite struct RealChartTests {
    @Test(arguments: ["fix", "walk"]) func decodesToTheLastByte(of: String) throws {
        let chart = try ChartList(bytes: Self.book().chart(of: of, width: 412, height: 330, letters: 14))
        #expect(chart.width == 412 && chart.height == 330)
        #expect(!chart.items.isEmpty && !chart.targets.isEmpty && !chart.spoken.isEmpty)
        #expect(chart.targets.allSatisfy { !$0.spoken.isEmpty && $0.area.width > 0 })
        let inks = Set(Self.inks(chart.items))
        #expect(inks.contains(.works) && inks.contains(.text))
        #expect(of == "fix" ? inks.contains(.stretch) : inks.contains(.legWalked) && inks.contains(.car))
    }

    @Test func lettersAreReadWhole() throws {
        let chart = try ChartList(bytes: Self.book().chart(of: "fix", width: 360, height: 300, letters: 20))
        let letters = Self.lettering(chart.items)
        #expect(letters.contains { $0.text == "Sorn chapel" })
        #expect(letters.allSatisfy { $0.size > 0 && !$0.text.isEmpty })
        #expect(chart.targets.contains { $0.kind == .landmark && $0.name == "Sorn chapel" })
        #expect(chart.targets.contains { $0.kind == .stretch && $0.spoken.contains("95") })
    }

    /// A buffer cut short anywhere is refused, and so is one with something behind it.
    @Test func everyCutIsRefused() throws {
        let bytes = try Array(Self.book().chart(of: "walk", width: 200, height: 150, letters: 14))
        for length in 0..<bytes.count {
            #expect(throws: ChartFault.self) { try ChartList(bytes: bytes.prefix(length)) }
        }
        #expect(throws: ChartFault.tail(1)) { try ChartList(bytes: bytes + [0]) }
    }

    static func book() throws -> FieldBook {
        let lines = try Project.text("tests/demo/walk.jsonl").split(separator: "\n").map { try JSONText(String($0)) }
        let book = try FieldBook.fresh()
        for line in lines {
            guard let file = line["file"]?.string else {
                _ = try book.tell(line)
                continue
            }
            let text = try Project.text(file)
            _ = try book.take(record: .carry(at: line["at"]?.string, format: "toml", text: text))
        }
        return book
    }

    static func inks(_ items: [ChartItem]) -> [Ink] {
        items.flatMap { item -> [Ink] in
            switch item {
            case .path(_, _, let paint), .circle(_, _, let paint): [paint.stroke?.ink, paint.fill].compactMap(\.self)
            case .text(let line): [line.ink]
            case .clip(_, let inner): inks(inner)
            }
        }
    }

    static func lettering(_ items: [ChartItem]) -> [Lettering] {
        items.flatMap { item -> [Lettering] in
            switch item {
            case .text(let line): [line]
            case .clip(_, let inner): lettering(inner)
            case .path, .circle: []
            }
        }
    }
}
