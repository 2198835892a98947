import Foundation
import Support
import Testing

@testable import FieldModel

/// What the flows do, and what they do with bad input.
@MainActor @Suite struct FlowTests {
    private let model: FieldModel

    init() throws {
        model = FieldModel(logbook: nil, now: { Date(timeIntervalSince1970: 1_789_200_000) })
        for touch in try Flows.fix().dropLast() { touch.act(model) }
    }

    @Test func theSecondSightingIsWeighedInBesideTheFirst() {
        #expect(model.snapshot?.fix?.sightings.map(\.landmark) == ["Sorn chapel", "Hallik mast"])
        #expect(model.snapshot?.sights.filter(\.sighted).count == 2)
        #expect(model.snapshot?.check?.verdict == .fits)
        model.edit { $0.anew = true }
        for touch in Touch.sight("Sorn chapel", "016") { touch.act(model) }
        #expect(model.snapshot?.fix?.sightings.map(\.landmark) == ["Sorn chapel"])
        #expect(model.snapshot?.nextSights.isEmpty == false)
    }

    @Test func eachPlaceIsToldInWords() {
        #expect(model.snapshot?.fix?.places.isEmpty == false)
        model.edit { ($0.anew, $0.choosing, $0.instrument) = (true, true, .sighting) }
        model.choose(line: "Velm Road")
        #expect(!model.draft.choosing)
        for touch in Touch.sight("Sorn chapel", "016") { touch.act(model) }
        let places = model.snapshot?.fix?.places ?? []
        #expect(places.count == 2)
        #expect(places.allSatisfy { $0.told.contains("±") && $0.told.contains("95") && $0.told.contains($0.reference) })
    }

    @Test(arguments: ["", "361", "999"]) func aBadBearingStaysOnThePad(digits: String) {
        let fix = model.snapshot?.fix
        for touch in Touch.sight("Sorn chapel", digits) { touch.act(model) }
        #expect(model.refusal?.sentence.isEmpty == false)
        #expect(model.draft.typed.digits == digits && model.draft.pad == Draft.Pad.sight("Sorn chapel"))
        #expect(model.snapshot?.fix == fix)
        model.keep()
        model.openPad(.walk)
        for touch in Touch.digits(digits) + [.finish] { touch.act(model) }
        #expect(model.refusal != nil && model.draft.leg.bearing == nil && model.draft.typed.digits == digits)
        model.press(.clear)
        #expect(model.refusal == nil)
    }

    @Test func aBadPlaceStaysTyped() {
        model.edit { $0.place = "43TEG 5691 496" }
        #expect(!model.checkPlace())
        #expect(model.draft.place == "43TEG 5691 496")
        #expect(model.refusal?.code == "reference-unreadable")
    }

    /// Without a pace on it its bearing is set anew, the first one too.
    @Test func aLegWithoutPacesIsNotClosed() {
        model.keep()
        model.openPad(.walk)
        for touch in Touch.leg("052", []) + [.turn] { touch.act(model) }
        #expect(model.refusal == nil && model.draft.pad == .walk && model.draft.leg.bearing?.text == "052 mag")
        for touch in Touch.leg("085", []) { touch.act(model) }
        #expect(model.draft.leg.bearing?.text == "085 mag" && model.draft.pad == nil)
        #expect(model.snapshot?.legs.isEmpty == true)
        model.count(-5)
        #expect(model.draft.leg.count == 0 && model.refusal == nil)
    }

    /// Two touches: undo, strike it. A leg that was closed by mistake is walked on.
    @Test func aStruckLegIsWalkedOn() {
        model.keep()
        for touch in Flows.walk().prefix(12) { touch.act(model) }
        #expect(model.snapshot?.legs.count == 1 && model.draft.pad == Draft.Pad.walk)
        #expect(model.strike())
        #expect(model.snapshot?.legs.isEmpty == true)
        #expect(model.draft.leg.count == 90 && model.draft.leg.bearing?.text == "052 mag" && model.draft.pad == nil)
    }

    /// An answer on the way back does not cost the walker the leg that he walks.
    @Test func theNextLegIsSaidAgainAfterAnAnswer() {
        model.keep()
        for touch in Flows.walk() + Flows.back().prefix(2) { touch.act(model) }
        let leg = model.said
        #expect(!leg.isEmpty && model.comes == ["split boulder"])
        #expect(model.ask(.here) && model.ask(.here))
        #expect(model.said != leg)
        model.walkOn()
        #expect(model.said == leg && model.draft.told == leg)
    }

    @Test func aChartIsThereWhenThereIsSomethingToDraw() {
        #expect(FieldModel(logbook: nil).chart(.fix, width: 360, height: 200, letters: 14) == nil)
        #expect(model.chart(.fix, width: 0, height: 200, letters: 14) == nil)
        #expect(model.chart(.fix, width: 360, height: 200, letters: 14)?.spoken.isEmpty == false)
        #expect(model.chart(.walk, width: 360, height: 200, letters: 14) == nil)
        model.keep()
        #expect(model.chart(.walk, width: 360, height: 200, letters: 14) != nil)
    }
}
