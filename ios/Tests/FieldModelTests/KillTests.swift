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
