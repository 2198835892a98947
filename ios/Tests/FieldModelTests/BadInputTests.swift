import Foundation
import Support
import Testing

@testable import FieldModel

/// Bad input through the model: it keeps what it showed and publishes the refusal's sentence.
@MainActor @Suite struct BadInputTests {
    /// The case files hold every refusal of the core; here the model says each kind as the core does.
    @Test(arguments: bad) func keepsWhatIsShown(record: Record) throws {
        let model = FieldModel(logbook: nil)
        for touch in try Flows.fix() { touch.act(model) }
        let (shown, said, draft) = (model.snapshot, model.said, model.draft)
        let taken = model.act(record) { $0.place = "changed" }
        #expect(!taken)
        #expect(shown != nil && model.snapshot == shown && model.said == said && model.draft == draft)
        #expect(model.refusal?.sentence.isEmpty == false)
        #expect(model.refusal?.code != "reply-unreadable")
        #expect(!model.consult(record).said.isEmpty)
    }

    nonisolated private static let bad: [Record] = [
        .carry("", as: .geojson), .carry("{", as: .toml), .pace(0), .pace(.nan),
        .fix([], on: .line("Velm Road"), with: nil),
        .fix([.init("Sorn chapel", "361 mag")], on: .line("Velm Road"), with: .phone),
        .fix([.init("nowhere", "16 mag")], on: .line("Velm Road"), with: .quick),
        .fix([.init("Sorn chapel", "16")], on: .line("nowhere"), with: nil), .check(""), .check("0, 0", spreadM: -1),
        .keep(stretch: 99), .leg("", doublePaces: 1), .leg("52 mag", doublePaces: .infinity),
        .leg("52 mag", doublePaces: 1, detour: .init(.left, doublePaces: -1)), .reached, .reading("016"),
    ]

    @Test func aGoodRecordEndsTheRefusal() {
        let model = FieldModel(logbook: nil)
        #expect(!model.tell(.here))
        #expect(model.refusal != nil)
        #expect(model.tell(.draft("04")))
        #expect(model.refusal == nil)
    }

    @Test func aFileThatIsNoLogbookIsToldAndLeftAlone() throws {
        let scratch = try Scratch()
        let file = scratch.file("notes.txt")
        let text = String(repeating: "no logbook, but long enough to look at", count: 50)
        try text.write(to: file, atomically: true, encoding: .utf8)
        let model = FieldModel(logbook: file)
        #expect(model.snapshot == nil)
        #expect(model.refusal?.code == "logbook-damaged")
        #expect(model.refusal?.sentence.isEmpty == false)
        #expect(try String(contentsOf: file, encoding: .utf8) == text)
    }

    /// One that no second try opens is kept aside, each under a name of its own, and a new one is begun.
    @Test func aLogbookThatCannotBeReadIsKeptAside() throws {
        let scratch = try Scratch()
        let file = scratch.file("field.gatepost")
        for number in 1...2 {
            let text = String(repeating: "no logbook \(number), but long enough to look at", count: 50)
            try text.write(to: file, atomically: true, encoding: .utf8)
            let model = FieldModel(logbook: file)
            #expect(model.mayKeepAside && model.keepAside())
            #expect(model.notice == .keptAside("kept-aside-\(number).gatepost"))
            #expect(model.snapshot?.stage == .before && model.refusal == nil && !model.mayKeepAside)
            try MoreFlows.carry().act(model)
            #expect(FieldModel(logbook: file).snapshot?.sheet != nil)
            let aside = file.deletingLastPathComponent().appendingPathComponent("kept-aside-\(number).gatepost")
            #expect(try String(contentsOf: aside, encoding: .utf8) == text)
            model.shut()
            try FileManager.default.removeItem(at: file)
        }
        #expect(!FieldModel(logbook: file).keepAside(), "one that opens stays")
    }
}
