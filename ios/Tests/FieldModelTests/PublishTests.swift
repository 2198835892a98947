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
        for touch in try Flows.fix() + Array(Flows.walk().prefix(12)) { touch.act(model) }
        let (note, said) = (model.snapshot?.strip.sureNote, model.said)
        clock.now += 20 * 60
        model.refresh()
        #expect(model.snapshot?.strip.sureNote != note)
        #expect(model.said == said && model.refusal == nil)
        #expect(model.snapshot?.strip.sureIsOld == false && model.snapshot?.strip.homeIsOld == false)
        clock.now += 60
        model.refresh()
        #expect(model.snapshot?.strip.sureIsOld == true && model.snapshot?.strip.homeIsOld == true)
    }

    /// Beside the line too, where no question bears a time; and what is told is that of a book that opens.
    @Test func agesBesideTheLineAreThoseOfNow() throws {
        let scratch = try Scratch()
        let file = scratch.file("ages.gatepost")
        let clock = Clock(Date(timeIntervalSince1970: 1_789_200_000))
        let model = FieldModel(logbook: file, now: { clock.now })
        for touch in try Flows.fix().dropLast() { touch.act(model) }
        let note = model.snapshot?.strip.sureNote
        clock.now += 20 * 60
        model.refresh()
        #expect(model.snapshot?.strip.sureNote != note)
        model.shut()
        #expect(FieldModel(logbook: file, now: { clock.now }).snapshot?.strip == model.snapshot?.strip)
    }

    /// Times of day are told by the zone that the phone is in now.
    @Test func aJourneyIntoAnotherZoneIsTaken() throws {
        let scratch = try Scratch()
        let zone = Zone()
        let time = Date(timeIntervalSince1970: 1_789_200_000)
        let model = FieldModel(
            logbook: scratch.file("zone.gatepost"), utcOffsetMin: { zone.aheadMin }, now: { time })
        try MoreFlows.carry().act(model)
        model.refresh()
        let (note, sheet) = (model.snapshot?.strip.lightNote, model.snapshot?.sheet?.name)
        zone.aheadMin = 120
        model.refresh()
        #expect(model.snapshot?.strip.lightNote != note && model.snapshot?.sheet?.name == sheet)
    }

    @Test func aCautionStandsWhereItIsNeeded() throws {
        let model = FieldModel(logbook: nil)
        let flow = try Flows.whole()
        var cautions: [Stage: Set<String>] = [:]
        for touch in flow {
            touch.act(model)
            guard let shown = model.snapshot, let caution = shown.caution else { continue }
            cautions[shown.stage, default: []].insert(caution)
        }
        #expect(cautions[.besideTheLine]?.count == 1 && cautions[.wayBack]?.count == 2)
        #expect(Set(cautions.keys) == [.besideTheLine, .wayBack])
    }

    @Test func theNextRecordOpensAShutBook() throws {
        let scratch = try Scratch()
        let model = FieldModel(logbook: scratch.file("shut.gatepost"))
        model.shut()
        #expect(model.snapshot != nil)
        #expect(model.tell(.draft("016")))
    }
}

@MainActor private final class Zone {
    var aheadMin: Int32 = 360
}

private final class Flag: @unchecked Sendable {
    private let lock = NSLock()
    private var up = false

    func raise() { lock.withLock { up = true } }
    var raised: Bool { lock.withLock { up } }
}
