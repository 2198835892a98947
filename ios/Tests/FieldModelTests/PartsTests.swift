import Foundation
import Support
import Testing

@testable import FieldModel

/// The open sheet is added to and struck from, killed after every touch.
@MainActor @Suite struct PartsTests {
    private let time = Date(timeIntervalSince1970: 1_789_200_000)

    private static func type(_ path: WritableKeyPath<Draft.Hand, String> & Sendable, _ text: String) -> Touch {
        Touch("type \(text)") { $0.hand[keyPath: path] = text }
    }

    private static func begin(_ part: Draft.Hand.Adding) -> Touch { Touch("add \(part)") { $0.begin(part) } }

    private static let open = Touch("parts") { $0.openPad(.parts) }
    private static let note = Touch("note") { $0.noteTyped() }
    private static let goOn = Touch("go on") { $0.goOnTyping() }

    private static let landmark: [Touch] =
        [begin(.landmark), type(\.landmark.name, "Lime kiln"), type(\.landmark.kind, "chimney")]
        + [type(\.landmark.place, "5745 4985"), type(\.landmark.height, "25"), goOn]
    private static let point: [Touch] =
        [begin(.point), Touch("on the creek") { $0.place(on: "Issa Creek") }, type(\.knownPoint.name, "Old ford")]
        + [type(\.knownPoint.place, "5656 4936"), goOn]
    private static let line: [Touch] =
        [begin(.line), type(\.line, "Wood ride"), type(\.lineKind, "track"), type(\.point, "5560 4930"), note]
        + [type(\.point, "5650 4930"), goOn, goOn]
    private static let strike = ["Wood ride", "Torn Top"].map { name in Touch("mark \(name)") { $0.mark(name) } }

    @Test func partsAreAddedAndStruck() throws {
        let scratch = try Scratch()
        let file = scratch.file("parts.gatepost")
        let flow = [try MoreFlows.carry(), Self.open] + Self.landmark + Self.point + Self.line + Self.strike
        for touch in flow {
            let model = FieldModel(logbook: file, now: { time })
            touch.act(model)
            #expect(model.refusal == nil, "\(touch.name): \(model.refusal?.sentence ?? "")")
            #expect(FieldModel(logbook: file, now: { time }).draft == model.draft, "\(touch.name)")
        }
        let model = FieldModel(logbook: file, now: { time })
        #expect(model.draft.pad == .parts && model.draft.struck == ["Wood ride", "Torn Top"])
        #expect(model.parts.names.contains("Lime kiln") && model.snapshot?.sheet?.name == "Velm valley")
        #expect(model.strikeMarked() && model.draft.struck.isEmpty && model.draft.pad == .parts)
        let names = model.parts.names
        #expect(!names.contains("Wood ride") && !names.contains("Torn Top") && names.contains("Lime kiln"))
        model.choose(line: "Issa Creek")
        model.openPad(.asks(.init(.paces)))
        #expect(model.listedPoints.points.map(\.name).contains("Old ford"))
    }

    /// A refused part stays typed; going back leads to the list, and on from there.
    @Test func aRefusedPartStaysTyped() throws {
        let model = FieldModel(logbook: nil, now: { time })
        let wrong = [Self.begin(.landmark), Self.type(\.landmark.name, "Kiln"), Self.type(\.landmark.place, "nowhere")]
        for touch in [try MoreFlows.carry(), Self.open] + wrong + [Self.goOn] { touch.act(model) }
        #expect(model.refusal != nil && model.draft.pad == .adds && model.hand.landmarks.map(\.name) == ["Kiln"])
        model.shutPad()
        #expect(model.draft.pad == .parts)
        model.begin(.landmark)
        #expect(model.hand.landmarks.map(\.place) == ["nowhere"])
        model.begin(.point)
        #expect(model.hand.lacksLine && model.hand.landmarks.isEmpty)
        model.begin(.line)
        model.hand.line = "Ride"
        model.goOnTyping()
        model.shutPad()
        #expect(model.draft.pad == .adds && model.hand.line == "Ride" && model.hand.step == .line)
        model.shutPad()
        model.shutPad()
        #expect(model.draft.pad == nil && model.draft.hand == .init())
    }
}
