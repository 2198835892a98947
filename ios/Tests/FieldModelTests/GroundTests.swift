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
        let file = BroughtFile(name: "valley.asc", bytes: Data(GroundFiles.heights.utf8))
        model.chosen(file)
        for (question, answer) in [(Incoming.Question.source, "laser"), (.cover, "forest")] {
            #expect(model.incoming?.question == question)
            #expect(await model.answer(answer))
        }
        #expect(model.incoming?.question == .credit)
        let isTaken = await model.answer("An invented survey")
        #expect(!isTaken && model.refusal?.code == "heights-file-grid-of-numbers" && model.incoming?.question == .grid)
        let isKnown = await model.answer(try #require(model.snapshot?.sheet?.grid))
        #expect(isKnown && model.incoming == nil && model.bringing == nil)
        model.choose(line: "Velm Road")
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
            #expect(model.held.last?.verdict == .fits)
        }
        #expect(model.snapshot?.openFix != nil)
    }

    @Test func aLandformHasItsDistanceAndAnAltimeterItsSetting() {
        for touch in Touch.ask(.landform, ["hill", "080 mag"], digits: "1600") { touch.act(model) }
        #expect(model.sightings.last == .landform(.hill, at: "080 mag", metres: 1600))
        for touch in Touch.ask(.heightSet, ["Ossel bridge", "1200", "2"], digits: "1250") { touch.act(model) }
        #expect(model.refusal == nil, "\(model.refusal?.sentence ?? "")")
        #expect(model.sightings.last == .heightSet(1250, at: "Ossel bridge", to: 1200, hours: 2))
        for touch in Touch.ask(.landform, ["saddle", "080 mag"], digits: "") { touch.act(model) }
        #expect(model.sightings.last == .landform(.saddle, at: "080 mag", metres: nil))
    }

    /// The landforms near come once a fix is taken, in the core's words, and anew with another fix.
    @Test func theLandformsNearAreTold() async throws {
        #expect(model.groundNear == Near())
        for touch in Touch.sight("Sorn chapel", "016") { touch.act(model) }
        #expect(model.groundNear == nil)
        let model = model
        async let asked: Void = model.askGroundNear()
        await model.askGroundNear()
        await asked
        let near = try #require(model.groundNear)
        let said = model.consult(.question { .seen(at: $0, place: nil, eyeM: nil, withinM: nil, to: nil) }).said
        #expect(!near.landforms.isEmpty && near.landforms.allSatisfy { said.contains($0.told) })
        #expect(!near.untold.isEmpty && near.untold.allSatisfy { said.contains($0) })
        model.begin(near.landforms[0])
        #expect(model.question == .landformBearing)
        for touch in Touch.sight("Hallik mast", "088") { touch.act(model) }
        #expect(model.groundNear == nil)
        await model.askGroundNear()
        #expect(model.groundNear?.landforms.isEmpty == false)
    }

    /// A list that is sorted by what should be seen says so of each landmark.
    @Test func theListTellsWhatIsInSight() {
        for touch in Touch.sight("Sorn chapel", "016") { touch.act(model) }
        #expect(model.snapshot?.sights.contains { $0.told.contains("in sight") } == true)
    }
}
