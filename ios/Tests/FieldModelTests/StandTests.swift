import Foundation
import Support
import Testing

@testable import FieldModel

/// Which line: one, one of several, or none.
@MainActor @Suite struct StandTests {
    private let model = FieldModel(logbook: nil, now: { Date(timeIntervalSince1970: 1_789_200_000) })

    private func touch(_ touches: [Touch]) {
        for touch in touches {
            touch.act(model)
            #expect(model.refusal == nil, "\(touch.name): \(model.refusal?.sentence ?? "")")
        }
    }

    @Test func oneOfSeveralSharesTheOdds() throws {
        touch([try MoreFlows.carry()] + MoreFlows.unsure + Touch.sight("Sorn chapel", "016"))
        let lines = try #require(model.snapshot?.fix?.lines)
        #expect(Set(lines.map(\.name)) == ["Velm Road", "Issa Creek"] && lines.allSatisfy { $0.share > 0 })
        #expect(model.stand == .oneOf(["Velm Road", "Issa Creek"]))
    }

    @Test func aTouchedLineIsLeftOutByATouch() throws {
        touch([try MoreFlows.carry()] + MoreFlows.unsure.dropLast() + [MoreFlows.unsure[1], MoreFlows.unsure[3]])
        #expect(model.stand == .line("Issa Creek") && model.draft.unsure == nil)
        touch([MoreFlows.unsure[0], MoreFlows.unsure[1], MoreFlows.unsure[1], MoreFlows.unsure[3]])
        #expect(model.stand == .line("Issa Creek"))
        touch([MoreFlows.unsure[0], MoreFlows.unsure[1], Touch("leave") { $0.shutChoice() }])
        #expect(model.stand == .line("Issa Creek") && !model.draft.choosing)
    }

    /// The wrong line was chosen: one touch on the right one takes the fix anew.
    @Test func theFixFollowsTheLine() throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016"))
        let held = model.sightings
        touch([Touch("creek") { $0.choose(line: "Issa Creek") }])
        #expect(model.snapshot?.fix?.line == "Issa Creek" && model.sightings == held)
        touch([Touch("same") { $0.choose(line: "Issa Creek") }, Touch("undo") { $0.strike() }])
        #expect(model.snapshot?.fix?.line == "Velm Road" && model.sightings == held)
        #expect(model.stand == .line("Velm Road"))
    }

    @Test func inTheOpenThereIsAPlaceAndAKeptCar() throws {
        let flow = try MoreFlows.inTheOpen()
        touch(flow.dropLast(3))
        let fix = try #require(model.snapshot?.openFix)
        #expect(model.snapshot?.fix == nil && model.hasFix && !fix.places.isEmpty)
        #expect(model.sightings.count == 4 && model.held.map(\.told) == fix.sightings.map(\.told))
        #expect(model.held.allSatisfy { $0.verdict != nil })
        #expect(fix.places.allSatisfy { $0.told.contains($0.reference) })
        touch(flow.suffix(3).dropLast())
        #expect(model.snapshot?.check != nil)
        #expect(
            model.draft.account.first?.contains(fix.places[0].reference) == true && model.said != model.draft.account)
        let place = try #require(model.checked)
        #expect(model.weighIn(place) && model.sightings.count == 5 && model.held.last?.told.isEmpty == false)
        #expect(model.chart(.fix, width: 360, height: 300, letters: 14)?.spoken.isEmpty == false)
        touch(flow.suffix(1))
        #expect(model.snapshot?.stage == .onFoot && model.snapshot?.car != nil)
    }

    /// What counts along a line is not offered in the open; and where it is held, the core says what stands in the way.
    @Test func kindsAreThoseThatSaySomething() throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016"))
        #expect(model.kinds == Draft.Kind.allCases)
        touch(Touch.ask(.lineRun, [], digits: "319"))
        model.chooseNoLine()
        #expect(model.refusal?.code == "sighting-needs-line" && model.sightings.count == 2)
        #expect(model.kinds == [.oneOf, .slope, .height, .heightSet, .aspect, .landform, .angle, .distance])
        #expect(model.takeBack(1) && model.snapshot?.openFix != nil && model.sightings.count == 1)
    }

    @Test func anotherFixBeginsWithNothing() throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016"))
        model.edit { $0.anew = true }
        touch([.seen("Hallik mast")])
        #expect(model.sightings == [.seen("Hallik mast")])
    }

    @Test func aCheckIsWeighedInOnTheWalkersWord() throws {
        touch(
            [try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016")
                + Touch.sight("Hallik mast", "088"))
        #expect(model.checked == nil)
        touch([Touch("far") { $0.typedPlace = "43TEG 5961 4962" }, Touch("check") { $0.checkPlace() }])
        let check = try #require(model.snapshot?.check)
        #expect(check.verdict == .misfit && check.slips.allSatisfy { !$0.told.isEmpty } && !check.slips.isEmpty)
        touch([Touch("undo") { $0.strike() }])
        #expect(model.checked == nil && model.snapshot?.check == nil)
        touch([Touch("near") { $0.typedPlace = "43TEG 5691 4962" }, Touch("check") { $0.checkPlace() }])
        let place = try #require(model.checked)
        #expect(model.weighIn(place) && model.sightings.last == place)
    }
}
