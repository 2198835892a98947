import Foundation
import Support
import Testing

@testable import FieldModel

/// Sightings of every kind: asked one question at a time, weighed in beside the others, taken back.
@MainActor @Suite struct SightingTests {
    private let model = FieldModel(logbook: nil, now: { Date(timeIntervalSince1970: 1_789_200_000) })

    private func touch(_ touches: [Touch]) {
        for touch in touches {
            touch.act(model)
            #expect(model.refusal == nil, "\(touch.name): \(model.refusal?.sentence ?? "")")
        }
    }

    @Test func everyKindIsWeighedInBesideTheOthers() throws {
        touch(try MoreFlows.alongTheLine())
        let wanted: [Record.Sighting] = [
            .init("Sorn chapel", "016 mag"), .seen("Hallik mast"), .notSeen("Torn Top"), .lineRun("319 mag"),
            .bearing(to: ["Old kiln", "Torn Top"], "060 mag"),
            .trip(from: "Ossel bridge", metres: 1000, .untilFull, towards: "Milestone 4"),
            .side("Hallik mast", .right, towards: "Milestone 4"),
            .angle(left: "Sorn chapel", right: "Hallik mast", degrees: 72), .distance("Hallik mast", metres: 1100),
            .running("Hallik mast", first: "070 mag", second: "088 mag", metres: 600, towards: "Milestone 4"),
            .paces(from: "Ossel bridge", double: 607, towards: "Milestone 4"),
        ]
        #expect(model.sightings == wanted)
        #expect(model.held.map(\.sighting) == wanted && model.held.allSatisfy { !$0.told.isEmpty })
        // What is in sight says nothing without heights.
        #expect(model.held.map { $0.verdict == nil } == wanted.map { $0.looked != nil })
        #expect(model.held[4].identity.map(\.landmark).sorted() == ["Old kiln", "Torn Top"])
        #expect(model.snapshot?.fix?.field.count == 3 && model.snapshot?.fix?.lines.count == 2)
        #expect(model.draft.pad == nil && model.draft.account == model.said)
    }

    @Test func whatIsTakenBackComesAgainByAnUndo() throws {
        touch(try MoreFlows.alongTheLine() + MoreFlows.afterwards.prefix(3))
        let (all, fix) = (model.sightings, model.snapshot?.fix)
        #expect(all.last == .witness("43TEG 5691 4962", spreadM: nil) && model.snapshot?.check == nil)
        #expect(model.takeBack(1) && model.sightings.count == all.count - 1)
        #expect(!model.sightings.contains(.seen("Hallik mast")) && model.snapshot?.fix != fix)
        #expect(model.strike())
        #expect(model.sightings == all && model.snapshot?.fix == fix)
        #expect(!model.takeBack(99) && !model.takeBack(-1))
    }

    @Test func theOnlySightingIsStruckByAnUndo() throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016"))
        #expect(!model.takeBack(0) && model.sightings.count == 1)
        #expect(model.strike() && model.sightings.isEmpty && model.snapshot?.fix == nil)
    }

    /// What is in sight is told once; the later word counts.
    @Test func aLaterWordOnWhatIsSeenTakesTheEarlierOnesPlace() throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016") + [.seen("Torn Top")])
        #expect(model.looked("Torn Top") == true && model.looked("Hallik mast") == nil)
        touch([.notSeen("Torn Top")])
        #expect(model.looked("Torn Top") == false && model.sightings.count == 2)
    }

    @Test(arguments: Record.PlaceKind.allCases) func somethingOfAKindIsHere(kind: Record.PlaceKind) throws {
        for touch in [try MoreFlows.carry(), MoreFlows.road] + Touch.ask(.here, [kind.rawValue]) { touch.act(model) }
        // A kind that the sheet does not show on this line is refused with its name; the question stands open.
        if let refusal = model.refusal {
            #expect(refusal.code == "here-kind-none" && refusal.sentence.contains(kind.rawValue))
            #expect(model.question == .whatIsHere && model.sightings.isEmpty)
        } else {
            #expect(model.sightings == [.kindHere(kind)])
        }
    }

    @Test func someKindIsOnTheRoad() throws {
        touch(
            [try MoreFlows.carry(), MoreFlows.road] + Touch.ask(.here, ["bend"]) + Touch.ask(.here, ["Ossel bridge"]))
        #expect(model.sightings == [.kindHere(.bend), .here("Ossel bridge")])
    }

    /// The known points of the line that one stands on are there to be touched, before a fix too; each once.
    @Test func knownPointsAreTouched() throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.ask(.trip, []))
        let names = model.listedPoints.points.map(\.name)
        #expect(names.contains("Ossel bridge") && names.contains("Milestone 4") && Set(names).count == names.count)
        #expect(model.listedPoints.points.allSatisfy { $0.line == "Velm Road" } && model.isSureOfLine)
        let from = "Ossel bridge"
        touch([Touch("from") { $0.answer(from) }])
        #expect(!model.listedPoints.points.map(\.name).contains(from))
        touch(Touch.ask(.trip, [from, "", "nearest"], digits: "1000"))
        #expect(model.sightings.last == .trip(from: from, metres: 1000, .nearest, towards: nil))
    }

    /// Whatever the core calls a place where lines meet, the list has a word for it; one that is only named has none.
    @Test func everyMeetingOfLinesHasItsWord() {
        let feature = { (properties: String, shape: String, coordinates: String) in
            let geometry = #"{"type":"\#(shape)","coordinates":[\#(coordinates)]}"#
            return #"{"type":"Feature","properties":{\#(properties)},"geometry":\#(geometry)}"#
        }
        let line = { (name: String, kind: String, points: String) in
            feature(#""name":"\#(name)","kind":"\#(kind)""#, "LineString", points)
        }
        let lines = [
            line("Long Road", "road", "[14.0,46.0],[14.03,46.0]"),
            line("Park wall", "wall", "[14.005,45.995],[14.005,46.01]"),
            line("East fence", "fence", "[14.003,46.005],[14.007,46.005]"),
            line("High ridge", "ridge", "[14.01,45.995],[14.01,46.005]"),
            line("Grid wire", "power line", "[14.015,45.995],[14.015,46.005]"),
            line("Mill creek", "creek", "[14.02,45.995],[14.02,46.01]"),
            line("Low creek", "creek", "[14.018,46.006],[14.022,46.004]"),
            line("Cross track", "track", "[14.025,45.995],[14.025,46.005]"),
            feature(#""name":"Milestone","on":"Long Road""#, "Point", "14.028,46.0"),
        ]
        model.carry(#"{"type":"FeatureCollection","features":[\#(lines.joined(separator: ","))]}"#, as: .geojson)
        touch(Touch.ask(.heightSet, []))
        let points = model.listedPoints.points
        #expect(points.filter { $0.met == nil }.map(\.name) == ["Milestone"])
        let beside = Set(points.compactMap { point in if case .beside(let kind) = point.met { kind } else { nil } })
        // A carried line has no level: ways on two levels come in files alone, and `SightingWords` names every case or does not build.
        #expect(beside == Set(KnownPoint.Beside.allCases).subtracting([.levels]), "\(points.map(\.kind))")
        #expect(points.contains { $0.met == .walked(.crossroads) } && points.contains { $0.met == .walked(.stream) })
    }

    @Test func whatIsSightedNextIsBegunByATouch() throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016"))
        let next = try #require(model.snapshot?.nextSights)
        #expect(!next.isEmpty && next.count <= 3 && next.allSatisfy { !$0.told.isEmpty })
        for one in next {
            model.begin(one)
            #expect(one.isLineRun ? model.question == .lineBearing : model.draft.pad == .sight(one.landmark))
        }
        #expect(next.contains { $0.isLineRun })
    }

    /// Nothing typed, or nothing of the kind: the sentence says so, the question stays open.
    @Test(arguments: [
        (Draft.Kind.trip, ["Ossel bridge", "", "nearest"], ""), (.trip, ["nowhere", "", "nearest"], "500"),
        (.height, [], ""),
        (.height, [], "400"), (.angle, ["Sorn chapel", "Hallik mast"], "361"), (.lineRun, [], "361"),
        (.distance, ["Hallik mast"], ""), (.paces, ["Ossel bridge", "nowhere"], "600"), (.aspect, [], "100"),
    ])
    func aRefusedAnswerStaysTyped(kind: Draft.Kind, answers: [String], digits: String) throws {
        touch([try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016"))
        let (fix, held) = (model.snapshot?.fix, model.sightings)
        for touch in Touch.ask(kind, answers, digits: digits) { touch.act(model) }
        #expect(model.refusal?.sentence.isEmpty == false && model.refusal?.code != "reply-unreadable")
        #expect(model.draft.typed.digits == digits && model.question == kind.questions.last)
        #expect(model.snapshot?.fix == fix && model.sightings == held)
    }

    @Test func backGoesOneQuestionBack() throws {
        touch([try MoreFlows.carry(), MoreFlows.road])
        touch(Touch.ask(.trip, ["Ossel bridge", "", "nearest"]) + Touch.digits("12"))
        #expect(model.question == .metres)
        for wanted in [Draft.Question.figure, .towards, .from, nil, nil] {
            model.shutPad()
            #expect(model.question == wanted && model.draft.typed.digits.isEmpty)
        }
        #expect(model.draft.pad == nil)
    }

    /// Touches beside those for figures: a first fix in six, one more sighting in three; a word on what is seen in one.
    @Test func touchesAreFew() throws {
        let first = [MoreFlows.road] + Touch.sight("Sorn chapel", "016")
        let next = Touch("next") { model in model.snapshot?.nextSights.first.map { model.begin($0) } }
        let second = [next] + Touch.digits("088") + [.finish]
        touch([try MoreFlows.carry()] + first + second + [.seen("Torn Top")])
        #expect(model.sightings.count == 3)
        let effort = { (touches: [Touch]) in touches.filter { !$0.name.hasPrefix("digit") }.count }
        #expect(effort(first) <= 6 && effort(second) <= 3)
    }
}
