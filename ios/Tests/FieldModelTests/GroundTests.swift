import Foundation
import Support
import Testing

import class GatepostBridge.FieldBook
import struct GatepostBridge.OpenConfig

@testable import FieldModel

/// What is said of the ground, on a sheet with heights.
@MainActor @Suite struct GroundTests {
    private let scratch: Scratch
    private let model: FieldModel

    /// Carries the demo's sheet, then brings heights for it in, which no screen does yet.
    init() throws {
        scratch = try Scratch()
        let file = scratch.file("ground.gatepost")
        let now = Date(timeIntervalSince1970: 1_789_200_000)
        try MoreFlows.carry().act(FieldModel(logbook: file, now: { now }))
        let book = try FieldBook.open(config: OpenConfig(logbookPath: file.path, utcOffsetMin: 0))
        let bytes = Data(Self.heights.utf8).base64EncodedString()
        let record =
            #"{"do":"import","at":"2026-09-12T08:00:00Z","name":"valley.asc","grid":"EPSG:32643","base64":"\#(bytes)"}"#
        #expect(try JSONText(book.tell(record: record))["ok"]?.text == "true")
        book.shut()
        model = FieldModel(logbook: file, now: { now })
        model.choose(line: "Velm Road")
    }

    @Test(arguments: [
        (Draft.Kind.slope, ["rises"], "090", Record.Sighting.slope(.rises, towards: "090 mag")),
        (.slope, ["level"], "000", .slope(.level, towards: "000 mag")),
        (.height, [], "1250", .height(1250)), (.aspect, [], "270", .aspect(falls: "270 mag")),
        (.landform, ["hill"], "080", .landform(.hill, at: "080 mag")),
    ])
    func theGroundIsWeighedIn(kind: Draft.Kind, answers: [String], digits: String, wanted: Record.Sighting) {
        for isOpen in [false, true] {
            if isOpen { model.chooseNoLine() }
            for touch in Touch.ask(kind, answers, digits: digits) { touch.act(model) }
            #expect(model.refusal == nil, "\(model.refusal?.sentence ?? "")")
            #expect(model.sightings.last == wanted && model.held.last?.told.isEmpty == false)
            #expect(model.held.last?.verdict == nil)
        }
        #expect(model.snapshot?.openFix != nil)
    }

    /// A list that is sorted by what should be seen says so of each landmark.
    @Test func theListTellsWhatIsInSight() {
        for touch in Touch.sight("Sorn chapel", "016") { touch.act(model) }
        #expect(model.snapshot?.sights.contains { $0.told.contains("in sight") } == true)
    }

    /// An even slope that rises to the east, with a hill on it; every 50 m.
    private static var heights: String {
        let rows = (0..<150).map { row in (0..<170).map { height(Double($0), Double(row)) }.joined(separator: " ") }
        let head = "ncols 170\nnrows 150\nxllcorner 553600\nyllcorner 4646000\ncellsize 50\nNODATA_value -9999\n"
        return head + rows.joined(separator: "\n") + "\n"
    }

    private static func height(_ column: Double, _ row: Double) -> String {
        let (east, south) = (column - 100, row - 80)
        let hill: Double = 120 * exp(-(east * east + south * south) / 50)
        return "\(Int(1000 + 5 * column + hill))"
    }
}
