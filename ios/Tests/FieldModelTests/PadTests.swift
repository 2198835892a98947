import Foundation
import Support
import Testing

@testable import FieldModel

/// The pad: units, norths, readings that are taken several times.
@MainActor @Suite struct PadTests {
    private let model: FieldModel

    init() throws {
        model = FieldModel(logbook: nil, now: { Date(timeIntervalSince1970: 1_789_200_000) })
        for touch in try Flows.fix().prefix(2) { touch.act(model) }
    }

    private func sight(_ landmark: String, _ digits: String) {
        for touch in Touch.sight(landmark, digits) { touch.act(model) }
    }

    @Test func aBearingHasItsUnitAndItsNorth() {
        model.openPad(.walk)
        for touch in Touch.digits("0529") { touch.act(model) }
        #expect(model.draft.typed.text == "052 mag")
        model.press(.last)
        model.press(.north)
        #expect(model.draft.typed.text == "05 grid" && model.draft.typed.told == "005°\u{a0}grid")
        model.press(.unit)
        for touch in Touch.digits("32001") { touch.act(model) }
        #expect(model.draft.typed.text == "3200 mil grid" && model.draft.typed.told == "3200\u{a0}mil\u{a0}grid")
        #expect(model.finishPad() && model.draft.leg.bearing?.text == "3200 mil grid")
        model.openPad(.walk)
        #expect(model.draft.typed.north == .mag, "each bearing counts from magnetic north unless it is said")
        for touch in Touch.digits("6401") + [.finish] { touch.act(model) }
        #expect(model.refusal != nil && model.draft.typed.digits == "6401")
        model.press(.unit)
        #expect(model.draft.typed.digits.isEmpty && model.draft.typed.unit == .degrees)
    }

    /// A landmark read several times; the core gets each reading as it was typed.
    @Test func aReadingThatFitsIsKeptBesideTheNext() {
        for digits in ["016", "017", "015"] { sight("Sorn chapel", digits) }
        #expect(model.snapshot?.fix?.sightings.map(\.bearingTold).count == 3)
        #expect(model.sightings == ["016 mag", "017 mag", "015 mag"].map { .init("Sorn chapel", $0) })
        #expect(model.strike())
        sight("Hallik mast", "088")
        #expect(model.snapshot?.fix?.sightings.map(\.landmark) == ["Sorn chapel", "Sorn chapel", "Hallik mast"])
    }

    @Test func aReadingThatDoesNotFitGivesWay() {
        for (landmark, digits) in [("Sorn chapel", "016"), ("Hallik mast", "088"), ("Sorn chapel", "196")] {
            sight(landmark, digits)
        }
        let misfits = model.snapshot?.fix?.sightings.filter { $0.verdict == .misfit } ?? []
        for misfit in misfits { sight(misfit.landmark, misfit.landmark == "Sorn chapel" ? "016" : "088") }
        #expect(model.snapshot?.fix?.sightings.contains { $0.verdict == .misfit } == false)
    }

    /// The second bearing of a running fix is told among the bearings: each verdict stays with what was read.
    @Test func aRunningFixBeforeABearingTakesNoVerdictOfIt() {
        let run = Touch.ask(.running, ["Hallik mast", "Milestone 4", "078 mag", "300"], digits: "088")
        for touch in run { touch.act(model) }
        sight("Sorn chapel", "016")
        sight("Old kiln", "092")
        #expect(model.sightings.first?.run == "Hallik mast")
        let misfits = model.held.filter { $0.verdict == .misfit }.compactMap(\.sighting.read)
        let told = model.snapshot?.fix?.sightings.filter { $0.verdict == .misfit }.map(\.landmark)
        #expect(misfits == told && misfits == ["Old kiln"] && model.again == .landmark("Old kiln"))
    }

    /// A bearing along the line that does not fit is asked for again, and gives way to the one read then.
    @Test func aLineReadThatDoesNotFitGivesWay() {
        for (landmark, digits) in [("Sorn chapel", "016"), ("Hallik mast", "088")] { sight(landmark, digits) }
        let line = model.sightings
        #expect(model.again == nil)
        for touch in Touch.ask(.lineRun, [], digits: "049") { touch.act(model) }
        #expect(model.again == .line && model.held.last?.verdict == .misfit)
        for touch in Touch.ask(.lineRun, [], digits: "319") { touch.act(model) }
        #expect(model.again == nil && model.sightings == line + [.lineRun("319 mag")])
    }

    @Test func aFreshEntryIsStruckByOneTouch() throws {
        let clock = Clock(Date(timeIntervalSince1970: 1_789_200_000))
        let model = FieldModel(logbook: nil, now: { clock.now })
        #expect(!model.hasFreshEntry)
        model.act(.carry("", as: .toml))
        #expect(!model.hasFreshEntry)
        for touch in try Flows.fix() { touch.act(model) }
        #expect(model.hasFreshEntry)
        clock.now += 11
        #expect(!model.hasFreshEntry)
        model.openPad(.walk)
        for touch in Touch.leg("052", [9]) + [.turn] { touch.act(model) }
        #expect(model.hasFreshEntry && model.strike() && !model.hasFreshEntry)
    }

    /// The leg that is half walked where one turns back is logged before the way back is told.
    @Test func noPaceIsLostWhereOneTurnsBack() throws {
        for touch in try Flows.fix().dropFirst(2) { touch.act(model) }
        model.openPad(.walk)
        for touch in Touch.leg("052", [90]) { touch.act(model) }
        #expect(model.ask(.back))
        #expect(model.draft.leg.count == 0 && model.draft.leg.bearing?.text == "052 mag")
        #expect(model.turnRound())
        #expect(model.snapshot?.legs.count == 1 && model.backLeg?.ofLeg == 1)
    }

    /// Read three times too high against the map; the error is kept with the next reading of that compass.
    @Test func aCompassIsChecked() {
        let before = model.snapshot
        for (read, known) in [("020", "014"), ("110", "104"), ("200", "194")] {
            model.openPad(.compassRead)
            for touch in Touch.digits(read) + [.finish] + Touch.digits(known) + [.finish] { touch.act(model) }
            #expect(model.refusal == nil && model.draft.pad == nil && model.said.first?.isEmpty == false)
        }
        #expect(model.draft.trials.map { $0.known?.text } == ["014 grid", "104 grid", "194 grid"])
        #expect(model.draft.typed.north == .mag && model.snapshot?.compass == nil)
        #expect(model.snapshot?.undo == before?.undo)
        model.openPad(.compassRead)
        for touch in Touch.digits("090") + [.finish] { touch.act(model) }
        model.shutPad()
        #expect(model.draft.trials.count == 3)
        #expect(model.keepCompass() && model.draft.trials.isEmpty && model.hasFreshEntry)
        #expect(model.snapshot?.compass != nil)
        #expect(model.strike() && model.snapshot?.compass == nil)
    }

    @Test func aToneIsASoundFile() {
        let wave = Tone(hertz: 440, milliseconds: 100).wave
        #expect(wave.count == 44 + 800)
        #expect(String(decoding: wave.prefix(4), as: UTF8.self) == "RIFF")
        #expect(Set(wave.dropFirst(44)).count == 2)
    }
}
