import Foundation
import Observation
import Support
import Testing

@testable import FieldModel

/// What a screen sees happen.
@MainActor @Suite struct PublishTests {
    @Test func aScreenIsToldOfAChange() {
        let model = FieldModel(logbook: nil)
        let told = Flag()
        withObservationTracking {
            _ = model.snapshot?.draft
        } onChange: {
            told.raise()
        }
        #expect(model.tell(.draft("016")))
        #expect(told.raised)
    }

    @Test func whatIsHalfTypedOutlivesTheModel() throws {
        let scratch = try Scratch()
        let file = scratch.file("draft.gatepost")
        for draft in ["{\"pad\":\"01\"}", "{\"pad\":\"016\"}", ""] {
            FieldModel(logbook: file).tell(.draft(draft))
            #expect(FieldModel(logbook: file).snapshot?.draft == draft)
        }
    }

    @Test func anEmptyBookIsShownAsBefore() {
        let model = FieldModel(logbook: nil)
        #expect(model.snapshot?.stage == .before)
        #expect(model.snapshot?.sheet == nil)
        #expect(model.refusal == nil)
        #expect(model.said.isEmpty)
    }

    @Test func agesAreThoseOfNow() throws {
        let clock = Clock(Date(timeIntervalSince1970: 1_789_200_000))
        let model = FieldModel(logbook: nil, now: { clock.now })
        for touch in try Flows.fix() + Array(Flows.walk().prefix(10)) { touch.act(model) }
        let (note, said) = (model.snapshot?.strip.sureNote, model.said)
        clock.now += 20 * 60
        model.refresh()
        #expect(model.snapshot?.strip.sureNote != note)
        #expect(model.said == said && model.refusal == nil)
    }

    @Test func theNextRecordOpensAShutBook() throws {
        let scratch = try Scratch()
        let model = FieldModel(logbook: scratch.file("shut.gatepost"))
        model.shut()
        #expect(model.snapshot != nil)
        #expect(model.tell(.draft("016")))
    }
}

private final class Flag: @unchecked Sendable {
    private let lock = NSLock()
    private var up = false

    func raise() { lock.withLock { up = true } }
    var raised: Bool { lock.withLock { up } }
}
