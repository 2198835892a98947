import Foundation
import Support
import Testing

@testable import FieldModel

/// A sheet typed from the paper map, part by part.
@MainActor @Suite struct HandTests {
    private let time = Date(timeIntervalSince1970: 1_789_200_000)

    /// Into a field, then its text: one touch.
    private static func type(_ path: WritableKeyPath<Draft.Hand, String> & Sendable, _ text: String) -> Touch {
        Touch("type \(text)") { $0.hand[keyPath: path] = text }
    }

    private static let note = Touch("add") { $0.noteTyped() }
    private static let goOn = Touch("go on") { $0.goOnTyping() }

    private static let sheet: [Touch] =
        [Touch("by hand") { $0.openPad(.hand) }, type(\.name, "Hill sheet"), type(\.beginning, "43TEG")]
        + [type(\.scale, "25000"), goOn, type(\.line, "Mill road")]
    private static let line: [Touch] =
        [type(\.point, "5560 4895"), note, type(\.point, "5602 4904"), note, type(\.point, "5640 4908"), note]
        + [type(\.point, "5672 4912"), goOn]
    private static let landmarks: [Touch] =
        [goOn, type(\.landmark.name, "Kiln"), type(\.landmark.kind, "chimney"), type(\.landmark.place, "5745 4985")]
        + [type(\.landmark.height, "25"), note, type(\.landmark.name, "Mast"), type(\.landmark.kind, "mast")]
        + [type(\.landmark.place, "5800 4958"), type(\.landmark.height, "40"), goOn]

    /// Killed after every touch; a text is a touch into its field, four points one more each into the same.
    @Test func fourPointsAndTwoLandmarksAreFewTouches() throws {
        let scratch = try Scratch()
        let file = scratch.file("hand.gatepost")
        let flow = Self.sheet + Self.line + Self.landmarks
        #expect(flow.count <= 25)
        for touch in flow {
            let model = FieldModel(logbook: file, now: { time })
            touch.act(model)
            #expect(model.refusal == nil, "\(touch.name): \(model.refusal?.sentence ?? "")")
            #expect(FieldModel(logbook: file, now: { time }).draft == model.draft, "\(touch.name)")
        }
        let made = try #require(FieldModel(logbook: file, now: { time }).snapshot)
        #expect(made.sheet?.name == "Hill sheet" && made.sheet?.lines.map(\.name) == ["Mill road"])
        #expect(made.sights.map(\.landmark) == ["Kiln", "Mast"] && made.sights.map(\.kind) == ["chimney", "mast"])
        #expect(made.stage == .besideTheLine && FieldModel(logbook: file, now: { time }).draft.hand == .init())
    }

    @Test func aRefusedSheetStaysTyped() {
        let model = FieldModel(logbook: nil, now: { time })
        let wrong = [Self.type(\.point, "no place"), Self.goOn]
        for touch in Self.sheet + wrong + Self.landmarks { touch.act(model) }
        #expect(model.refusal?.sentence.contains("Mill road") == true && model.snapshot?.sheet == nil)
        #expect(model.draft.pad == .hand && model.draft.hand.points == ["no place"])
        #expect(model.draft.hand.landmarks.map(\.name) == ["Kiln", "Mast"])
        model.shutPad()
        model.retype(point: 0)
        #expect(model.draft.hand.point == "no place" && model.draft.hand.points.isEmpty)
        for touch in Self.line + [Self.goOn] { touch.act(model) }
        #expect(model.refusal == nil && model.snapshot?.sheet?.name == "Hill sheet")
    }

    /// The kind of the line and its known points go along; each is there to be typed again.
    @Test func theLineHasItsKindAndItsKnownPoints() {
        let model = FieldModel(logbook: nil, now: { time })
        let bridge = [Self.type(\.knownPoint.name, "Bridge"), Self.type(\.knownPoint.place, "5602 4904"), Self.note]
        for touch in Self.sheet + [Self.type(\.lineKind, "track")] + Self.line + bridge { touch.act(model) }
        #expect(model.draft.hand.step == .points && model.draft.hand.knownPoints.map(\.name) == ["Bridge"])
        model.retype(knownPoint: 0)
        #expect(model.draft.hand.knownPoint.place == "5602 4904" && model.draft.hand.knownPoints.isEmpty)
        for touch in Self.landmarks { touch.act(model) }
        #expect(model.refusal == nil && model.snapshot?.sheet?.lines.map(\.kind) == ["track"])
        model.openPad(.asks(.init(.heightSet)))
        #expect(model.listedPoints.points.map(\.name) == ["Bridge"])
    }

    @Test func aPointThatIsTypedAgainKeepsItsPlace() {
        let model = FieldModel(logbook: nil, now: { time })
        for touch in Self.sheet + Self.line.dropLast() { touch.act(model) }
        model.retype(point: 1)
        #expect(model.draft.hand.point == "5602 4904")
        #expect(model.draft.hand.points == ["5560 4895", "5640 4908", "5672 4912"])
        model.hand.point = "5603 4904"
        model.retype(point: 2)
        #expect(
            model.draft.hand.points == ["5560 4895", "5603 4904", "5640 4908"] && model.draft.hand.point == "5672 4912")
        model.noteTyped()
        #expect(model.draft.hand.points == ["5560 4895", "5603 4904", "5640 4908", "5672 4912"])
        model.retype(point: 9)
        model.retype(landmark: 0)
        #expect(model.draft.hand.points.count == 4 && model.draft.hand.landmarks.isEmpty)
    }

    @Test func aHeightThatIsNoNumberIsRefused() {
        let model = FieldModel(logbook: nil, now: { time })
        let tall = [Self.type(\.landmark.height, "tall"), Self.goOn]
        for touch in Self.sheet + Self.line + Array(Self.landmarks.prefix(4)) + tall { touch.act(model) }
        #expect(model.refusal?.sentence.isEmpty == false && model.draft.hand.landmarks.map(\.height) == ["tall"])
    }
}
