import Foundation
import Support
import Testing

@testable import FieldModel

/// The whole job through the model: fix, legs with a detour, the way back.
@MainActor @Suite struct WalkTests {
    /// Every record meets a model that was just made, and what it showed is there again when the next one is made.
    @Test func survivesReopeningAfterEveryRecord() throws {
        let scratch = try Scratch()
        let file = scratch.file("walk.gatepost")
        var shown: Snapshot?
        for step in try DemoWalk().steps {
            let model = FieldModel(logbook: file, now: { step.at })
            #expect(model.refusal == nil)
            if let shown { expectSame(model.snapshot, shown) }
            #expect(model.tell(step.record), "\(step.line): \(model.refusal?.sentence ?? "")")
            #expect(!model.said.isEmpty)
            shown = model.snapshot
            model.shut()
        }
        let last = try #require(shown)
        let way = try #require(last.wayBack)
        #expect(last.stage == .onFoot)
        #expect(way.legs.map(\.ofLeg) == last.legs.map(\.number).reversed())
    }

    /// The reversed log is followed to the car, and the record after the last leg is refused.
    @Test func wayBackIsWalkedToItsEnd() throws {
        let model = try walked()
        #expect(model.tell(.turnRound))
        while model.backLeg != nil {
            #expect(model.snapshot?.stage == .wayBack)
            guard model.tell(.reached) else { break }
        }
        let way = try #require(model.snapshot?.wayBack)
        #expect(Int(way.walked) == way.legs.count)
        #expect(!model.tell(.reached))
        #expect(model.snapshot?.wayBack == way)
        #expect(model.tell(.close))
        #expect(model.snapshot?.stage == .afterwards)
    }

    /// What is shown of the way back before it is begun are the core's own sentences; nothing of them is lost by a new look.
    @Test func theWayBackIsToldBeforeItIsBegun() throws {
        let model = FieldModel(logbook: nil, now: { Date(timeIntervalSince1970: 1_789_200_000) })
        #expect(model.wayBackNow.way == nil && model.wayBackNow.refused.count == 1)
        let walk = try walked()
        walk.refresh()
        #expect(walk.snapshot?.wayBack == nil)
        let way = try #require(walk.wayBackNow.way)
        let said = walk.consult(.back).said
        for sentence in [way.headTold, way.missTold] + way.legs.map(\.told) {
            #expect(said.contains(sentence), "\(sentence)")
        }
        #expect(!way.cautionTold.isEmpty)
        #expect(way.legs.count == walk.snapshot?.legs.count && walk.wayBackNow.refused.isEmpty)
    }

    @Test func pacesToGoAreCountedDownOnTheWayBack() throws {
        let model = try walked()
        #expect(model.turnRound())
        #expect(model.toGo == "110\u{a0}double paces to go")
        model.count(10)
        #expect(model.toGo == "100\u{a0}double paces to go")
        model.count(100)
        #expect(model.toGo == "counted to the end")
        model.count(1)
        #expect(model.toGo == "one double pace past the end")
        #expect(model.reached() && model.toGo == "95\u{a0}double paces to go")
    }

    @Test func undoStrikesTheLastEntry() throws {
        let steps = try DemoWalk().steps
        let model = FieldModel(logbook: nil, now: { steps[0].at })
        var before: Snapshot?
        for step in steps where step.line["do"]?.string != "back" && step.line["do"]?.string != "where" {
            before = model.snapshot
            #expect(model.tell(step.record))
        }
        #expect(model.snapshot?.undo != nil)
        #expect(model.tell(.undo))
        expectSame(model.snapshot, try #require(before))
    }

    private func walked() throws -> FieldModel {
        let steps = try DemoWalk().steps
        let model = FieldModel(logbook: nil, now: { steps[0].at })
        for step in steps { #expect(model.tell(step.record)) }
        return model
    }

    /// All that the logbook keeps. The way back is part of an answer until it is begun; the light hangs on the last
    /// record's time, which no book keeps.
    private func expectSame(_ found: Snapshot?, _ wanted: Snapshot) {
        #expect(found?.stage == wanted.stage)
        #expect(found?.sheet == wanted.sheet)
        #expect(found?.pace == wanted.pace)
        #expect(found?.fix == wanted.fix)
        #expect(found?.car == wanted.car)
        #expect(found?.legs == wanted.legs)
        #expect(found?.undo == wanted.undo)
        #expect(found?.draft == wanted.draft)
    }
}
