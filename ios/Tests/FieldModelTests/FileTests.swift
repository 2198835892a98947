import Foundation
import GatepostBridge
import Support
import Testing

@testable import FieldModel

/// A file with heights, or with lines and landmarks: what is asked of it, and how it is stopped.
@MainActor @Suite struct FileTests {
    private let model = FieldModel(logbook: nil, now: { Date(timeIntervalSince1970: 1_789_200_000) })
    private let heights = BroughtFile(name: "valley.asc", bytes: Data(GroundFiles.heights.utf8))
    private let lanes = BroughtFile(name: "lanes.geojson", bytes: Data(GroundFiles.lanes.utf8))

    init() throws { try MoreFlows.carry().act(model) }

    /// What was answered reaches the core as it stands, and gives the spread of the heights.
    @Test func whatIsSaidOfHeightsGivesTheirSpread() async throws {
        model.chosen(heights)
        for answer in ["laser", "forest", "An invented survey"] { await model.answer(answer) }
        #expect(await model.answer(try #require(model.snapshot?.sheet?.grid)))
        let told = { (source: String?, cover: String?) in
            let book = try FieldBook.fresh()
            let sheet = try Project.text("tests/demo/velm-valley.toml")
            _ = try book.take(record: .carry(at: "2026-09-12T08:00:00Z", format: "toml", text: sheet))
            let grid = try book.snapshot().sheet?.grid
            let reply = try book.bring(
                at: "2026-09-12T08:00:00Z",
                file: IncomingFile(
                    name: "valley.asc", bytes: Data(GroundFiles.heights.utf8), grid: grid, source: source, cover: cover,
                    credit: "An invented survey"))
            return reply.snapshot.sheet?.ground
        }
        #expect(try model.snapshot?.sheet?.ground == told("laser", "forest"))
        #expect(try Set([told("laser", "forest"), told("laser", "open"), told(nil, nil)]).count == 3)
    }

    /// A file of lines is only asked whose it is, and may be given up.
    @Test func aFileOfLinesIsOnlyAskedWhoseItIs() {
        model.chosen(lanes)
        #expect(model.incoming?.question == .credit)
        model.giveUp()
        #expect(model.incoming == nil && model.bringing == nil)
    }

    /// Stopped, it changes nothing and says so; while it runs nothing else is taken.
    @Test func aFileIsStopped() async throws {
        let (model, before) = (model, model.snapshot)
        let file = lanes
        async let taken = model.bring(file)
        while model.bringing == nil { await Task.yield() }
        #expect(!model.tell(.close))
        model.stopBringing()
        let isTaken = await taken
        #expect(!isTaken && model.refusal?.code == "import-stopped" && model.snapshot == before)
        #expect(model.bringing == nil)
    }

    /// A sheet that is pasted or chosen is known by how it begins, whatever its file is called.
    @Test func aSheetIsKnownByItsBeginning() throws {
        let collection = """
              {"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Lane","highway":"track"},
              "geometry":{"type":"LineString","coordinates":[[14.0,46.0],[14.0,46.01]]}}]}
            """
        let sheet = try Project.text("tests/demo/velm-valley.toml")
        for (text, name) in [(collection, "Lane"), (sheet, "Velm Road")] {
            let model = FieldModel(logbook: nil)
            #expect(model.carry(text, as: .init(of: text)), "\(model.refusal?.sentence ?? "")")
            #expect(model.snapshot?.sheet?.lines.contains { $0.name == name } == true)
        }
    }
}
