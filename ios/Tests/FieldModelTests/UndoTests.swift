import Foundation
import Support
import Testing

@testable import FieldModel

/// What an undo brings back: the leg with its count, out and back, killed at every touch; the place that is checked.
@MainActor @Suite struct UndoTests {
    private let file: URL
    private let scratch: Scratch

    init() throws {
        scratch = try Scratch()
        file = scratch.file("undone.gatepost")
        for touch in try Flows.fix() { touch.act(model) }
    }

    /// Opened anew for each touch.
    private var model: FieldModel { FieldModel(logbook: file, now: { Date(timeIntervalSince1970: 1_789_200_000) }) }

    private func touch(_ touches: [Touch]) {
        for touch in touches {
            let model = model
            touch.act(model)
            #expect(model.refusal == nil, "\(touch.name): \(model.refusal?.sentence ?? "")")
        }
    }

    private func walk(_ bearing: String, _ paces: Int) -> [Touch] { Touch.leg(bearing, [paces]) + [.turn] }

    @Test func everyLegComesBackWithItsCount() {
        model.openPad(.walk)
        touch(walk("052", 90) + walk("085", 40) + Touch.leg("031", [7]))
        for (bearing, count, legs) in [("085 mag", 40, 1), ("052 mag", 90, 0)] {
            #expect(model.strike())
            #expect(model.draft.leg.bearing?.text == bearing && model.draft.leg.count == count)
            #expect(model.snapshot?.legs.count == legs)
        }
    }

    @Test func whatWasCountedSinceIsToldToBeDropped() {
        model.openPad(.walk)
        touch(walk("052", 90) + Touch.leg("031", [7]))
        let model = model
        #expect(model.strike() && model.notice == .pacesDropped(7) && model.draft.leg.count == 90)
        model.count(1)
        #expect(model.notice == nil)
    }

    @Test func aLegBackComesBackWithItsCount() {
        model.openPad(.walk)
        touch(walk("052", 90) + Touch.leg("085", [40]))
        #expect(model.ask(.back) && model.turnRound())
        model.count(30)
        #expect(model.reached())
        model.count(2)
        let back = model
        #expect(back.strike() && back.notice == .pacesDropped(2))
        #expect(model.draft.leg.count == 30 && model.backLeg?.ofLeg == 2)
        #expect(model.strike() && model.snapshot?.stage == .onFoot)
        #expect(model.draft.leg.count == 0 && model.draft.leg.bearing?.text == "085 mag")
        #expect(model.strike() && model.draft.leg.count == 40 && model.snapshot?.legs.count == 1)
    }

    @Test func aTripClosedByMistakeIsWalkedOn() {
        model.openPad(.walk)
        touch(walk("052", 90) + Touch.leg("031", [7]))
        #expect(model.close() && model.strike())
        #expect(model.draft.leg.count == 7 && model.draft.leg.bearing?.text == "031 mag")
    }

    /// Another check is never weighed in by the place of one before: not after an undo, not after a kill.
    @Test func theCheckThatIsShownIsWeighedIn() {
        #expect(model.strike() && model.isBeside)
        let first = model
        first.typedPlace = "43TEG 5691 4962"
        #expect(first.checkPlace() && first.checked == .witness("43TEG 5691 4962", spreadM: nil))
        #expect(model.tell(.check("43TEG 5690 4961")))
        #expect(model.snapshot?.check != nil && model.checked == nil)
        #expect(model.strike() && model.checked == .witness("43TEG 5691 4962", spreadM: nil))
    }

    /// From elsewhere the fix is looked at and stays as it is.
    @Test func theFixStaysAsItIsOnFoot() {
        let model = model
        let (fix, car) = (model.snapshot?.fix, model.snapshot?.car)
        #expect(model.snapshot?.stage == .onFoot && model.held.count > 1)
        #expect(!model.takeBack(0) && !model.keep() && !model.weighIn(.init("Old kiln", "062 mag")))
        #expect(model.snapshot?.fix == fix && model.snapshot?.car == car && model.refusal == nil)
    }

    @Test func theScreenStaysLitWhereOneCounts() {
        #expect(!model.isCounting)
        model.openPad(.walk)
        touch(walk("052", 90) + Touch.leg("085", [40]))
        #expect(model.isCounting)
        #expect(model.ask(.back) && model.turnRound() && model.isCounting)
        #expect(model.reached() && model.isCounting && model.reached() && !model.isCounting)
    }

    @Test func anotherTripOnTheSameSheet() {
        model.openPad(.walk)
        touch(walk("052", 90))
        #expect(model.close() && model.snapshot?.stage == .afterwards)
        let sheet = model.snapshot?.sheet
        #expect(model.carryAgain())
        #expect(model.snapshot?.stage == .besideTheLine && model.snapshot?.sheet == sheet)
        #expect(model.snapshot?.car == nil && model.snapshot?.legs.isEmpty == true && model.draft.past.isEmpty)
        model.choose(line: "Velm Road")
        touch(Touch.sight("Sorn chapel", "016"))
        #expect(model.snapshot?.fix != nil)
    }
}
