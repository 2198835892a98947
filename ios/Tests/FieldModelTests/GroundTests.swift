import Foundation
import Support
import Testing

@testable import FieldModel

/// What is said of the ground, on a sheet with heights.
@MainActor @Suite struct GroundTests {
    private let scratch: Scratch
    private let model: FieldModel

    /// Carries the demo's sheet, then brings heights for it in; their file does not say its grid.
    init() async throws {
        scratch = try Scratch()
        let now = Date(timeIntervalSince1970: 1_789_200_000)
        model = FieldModel(logbook: scratch.file("ground.gatepost"), now: { now })
        try MoreFlows.carry().act(model)
        let file = BroughtFile(name: "valley.asc", bytes: Data(Self.heights.utf8))
        let isTaken = await model.bring(file)
        #expect(!isTaken && model.refusal?.code == "heights-file-grid-needed")
        let known = try #require(model.withoutGrid)
        let grid = try #require(model.snapshot?.sheet?.grid)
        let isKnown = await model.bring(known, grid: grid)
        #expect(isKnown && model.withoutGrid == nil && model.bringing == nil)
        model.choose(line: "Velm Road")
    }

    /// Stopped, it changes nothing and says so; while it runs nothing else is taken.
    @Test func aFileIsStopped() async throws {
        let (model, before) = (model, model.snapshot)
        let file = BroughtFile(name: "lanes.geojson", bytes: Data(Self.lanes.utf8))
        async let taken = model.bring(file)
        while model.bringing == nil { await Task.yield() }
        #expect(!model.tell(.close))
        model.stopBringing()
        let isTaken = await taken
        #expect(!isTaken && model.refusal?.code == "import-stopped" && model.snapshot == before)
        #expect(model.bringing == nil)
    }

    @Test(arguments: [
        (Draft.Kind.slope, ["rises"], "090", Record.Sighting.slope(.rises, towards: "090 mag")),
        (.slope, ["level"], "000", .slope(.level, towards: "000 mag")),
        (.height, [], "1250", .height(1250)), (.aspect, [], "270", .aspect(falls: "270 mag")),
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

    @Test func aLandformHasItsDistanceAndAnAltimeterItsSetting() {
        for touch in Touch.ask(.landform, ["hill", "080 mag"], digits: "600") { touch.act(model) }
        #expect(model.sightings.last == .landform(.hill, at: "080 mag", metres: 600))
        for touch in Touch.ask(.heightSet, ["Ossel bridge", "1150", "2"], digits: "1250") { touch.act(model) }
        #expect(model.refusal == nil, "\(model.refusal?.sentence ?? "")")
        #expect(model.sightings.last == .heightSet(1250, at: "Ossel bridge", to: 1150, hours: 2))
        for touch in Touch.ask(.landform, ["saddle", "080 mag"], digits: "") { touch.act(model) }
        #expect(model.sightings.last == .landform(.saddle, at: "080 mag", metres: nil))
    }

    /// A list that is sorted by what should be seen says so of each landmark.
    @Test func theListTellsWhatIsInSight() {
        for touch in Touch.sight("Sorn chapel", "016") { touch.act(model) }
        #expect(model.snapshot?.sights.contains { $0.told.contains("in sight") } == true)
    }

    /// Long enough to be stopped while it is read.
    private static var lanes: String {
        let lanes = (0..<8000).map { number in
            let east = "\(14 + Double(number) / 1e4)"
            let line = #""geometry":{"type":"LineString","coordinates":[[\#(east),46.0],[\#(east),46.01]]}"#
            return #"{"type":"Feature","properties":{"name":"Lane \#(number)","highway":"track"},\#(line)}"#
        }
        return #"{"type":"FeatureCollection","features":[\#(lanes.joined(separator: ","))]}"#
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
