import Foundation
import Support
import Testing

@testable import FieldModel

/// Killed and opened again after every touch of every flow.
@MainActor @Suite struct KillTests {
    @Test func everythingIsThereAfterEveryTouch() throws {
        let scratch = try Scratch()
        let file = scratch.file("killed.gatepost")
        let time = Date(timeIntervalSince1970: 1_789_200_000)
        let steady = FieldModel(logbook: nil, now: { time })
        for touch in try Flows.whole() {
            let model = FieldModel(logbook: file, now: { time })
            touch.act(model)
            touch.act(steady)
            #expect(model.refusal == nil, "\(touch.name): \(model.refusal?.sentence ?? "")")
            let again = FieldModel(logbook: file, now: { time })
            #expect(again.draft == model.draft, "\(touch.name)")
            #expect(again.said == model.said, "\(touch.name)")
            #expect(again.snapshot?.stage == model.snapshot?.stage, "\(touch.name)")
            // A walk that was never killed looks the same.
            #expect(again.draft == steady.draft, "\(touch.name)")
            #expect(again.snapshot?.legs == steady.snapshot?.legs, "\(touch.name)")
            #expect(again.snapshot?.fix == steady.snapshot?.fix, "\(touch.name)")
            #expect(again.backLeg == steady.backLeg, "\(touch.name)")
        }
        #expect(steady.snapshot?.stage == .afterwards)
        #expect(steady.snapshot?.legs.count == 3)
    }

    /// Sightings of every kind, in the open too: nothing that was told or half typed is lost.
    @Test(arguments: [0, 1]) func everySightingIsThereAfterEveryTouch(flow: Int) throws {
        let scratch = try Scratch()
        let file = scratch.file("sighted.gatepost")
        let time = Date(timeIntervalSince1970: 1_789_200_000)
        let steady = FieldModel(logbook: nil, now: { time })
        for touch in try flow == 0 ? MoreFlows.alongTheLine() + MoreFlows.afterwards : MoreFlows.inTheOpen() {
            let model = FieldModel(logbook: file, now: { time })
            touch.act(model)
            touch.act(steady)
            #expect(model.refusal == nil, "\(touch.name): \(model.refusal?.sentence ?? "")")
            let again = FieldModel(logbook: file, now: { time })
            #expect(again.draft == model.draft && again.draft == steady.draft, "\(touch.name)")
            #expect(again.said == model.said, "\(touch.name)")
            #expect(again.held == steady.held && again.sightings == steady.sightings, "\(touch.name)")
            #expect(again.stand == steady.stand && again.checked == steady.checked, "\(touch.name)")
            #expect(again.snapshot?.fix == steady.snapshot?.fix, "\(touch.name)")
            #expect(again.snapshot?.openFix == steady.snapshot?.openFix, "\(touch.name)")
        }
        #expect(!steady.sightings.isEmpty)
    }

    /// A kill between a fix and its draft: what went into it is known all the same.
    @Test func aFixIsKnownBeforeItsDraft() throws {
        let scratch = try Scratch()
        let file = scratch.file("before.gatepost")
        let clock = Clock(Date(timeIntervalSince1970: 1_789_200_000))
        let model = FieldModel(logbook: file, now: { clock.now })
        for touch in [try MoreFlows.carry(), MoreFlows.road] + Touch.sight("Sorn chapel", "016") { touch.act(model) }
        clock.now += 5
        let all: [Record.Sighting] = [.init("Sorn chapel", "016 mag"), .lineRun("319 mag")]
        model.edit { $0.taken.append(.init(sightings: all)) }
        #expect(model.tell(.fix(all, on: .line("Velm Road"), with: nil)))
        let again = FieldModel(logbook: file, now: { clock.now })
        #expect(again.draft.told.isEmpty && again.sightings == all)
        #expect(again.weighIn(.seen("Hallik mast")) && again.sightings == all + [.seen("Hallik mast")])
    }

    /// A book that a release before kept: nothing of its draft is lost, what is new since is as in an empty one.
    @Test func aDraftOfAnEarlierReleaseIsRead() throws {
        let scratch = try Scratch()
        let file = scratch.file("earlier.gatepost")
        let model = FieldModel(logbook: file, now: { Date(timeIntervalSince1970: 1_789_200_000) })
        for touch in try Flows.fix().prefix(7) { touch.act(model) }
        let mark = #"{"fixAt":1789200000000,"legs":0,"sheet":"Velm valley","stage":"beside-the-line","walked":0}"#
        model.tell(
            .draft(
                #"{"anew":false,"before":[],"choosing":false,"instrument":"quick","leg":{"count":0,"met":"","out":0},"#
                    + #""line":"Velm Road","mark":"# + mark
                    + #","pad":{"sight":{"_0":"Hallik mast"}},"place":"43TEG 56","#
                    + #""readings":[{"landmark":"Sorn chapel","told":"016° mag","typed":"016 mag"}],"sheet":"","told":["a"],"#
                    + #""trials":[],"typed":{"digits":"08","north":"mag","unit":"degrees"}}"#))
        let again = FieldModel(logbook: file)
        #expect(again.draft.line == "Velm Road" && again.draft.pad == .sight("Hallik mast") && again.said == ["a"])
        #expect(again.draft.typed.digits == "08" && again.draft.place == "43TEG 56" && again.draft.instrument == .quick)
        #expect(again.draft.taken.isEmpty && again.sightings.count == 1)
        for touch in Touch.digits("8") + [.finish] { touch.act(again) }
        #expect(again.snapshot?.fix?.sightings.map(\.landmark) == ["Sorn chapel", "Hallik mast"])
    }

    /// A kill between an entry and its draft: the entry is not offered once more.
    @Test func nothingIsLoggedTwice() throws {
        let scratch = try Scratch()
        let file = scratch.file("between.gatepost")
        let model = FieldModel(logbook: file)
        for touch in try Flows.fix() + Array(Flows.walk().prefix(8)) { touch.act(model) }
        #expect(model.draft.leg.count == 90)
        #expect(model.tell(.leg(model.draft.leg)))
        let again = FieldModel(logbook: file)
        #expect(again.draft.leg.count == 0)
        #expect(again.draft.told.isEmpty)
        #expect(again.snapshot?.legs.count == 1)
    }

    @Test(arguments: ["", "{", "[]", "{\"pad\":\"016\"}", "null", "0"]) func aForeignDraftIsNone(text: String) throws {
        let scratch = try Scratch()
        let file = scratch.file("foreign.gatepost")
        FieldModel(logbook: file).tell(.draft(text))
        let model = FieldModel(logbook: file)
        #expect(model.draft == Draft())
        #expect(model.refusal == nil)
    }
}
