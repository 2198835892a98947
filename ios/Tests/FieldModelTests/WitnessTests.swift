import Foundation
import Support
import Testing

@testable import FieldModel

/// Says its words, then falls silent for a reason, or just ends.
private struct Fake<Word: Sendable> {
    let words: [Word]
    var silence: Silence?

    func stream() -> AsyncThrowingStream<Word, any Error> {
        AsyncThrowingStream { stream in
            for word in words { stream.yield(word) }
            stream.finish(throwing: silence)
        }
    }
}

extension Fake: PositionWitness where Word == PhonePosition {
    func positions() -> AsyncThrowingStream<PhonePosition, any Error> { stream() }
}

extension Fake: FieldWitness where Word == PhoneField {
    func fields() -> AsyncThrowingStream<PhoneField, any Error> { stream() }
}

/// What the phone believes, told by the core, beside a fix that stays as it is.
@MainActor @Suite struct WitnessTests {
    private let clock = Clock(Date(timeIntervalSince1970: 1_789_200_000))
    private let model: FieldModel

    init() throws {
        let clock = clock
        model = FieldModel(logbook: nil, now: { clock.now })
        for touch in try Flows.fix().dropLast(3) { touch.act(model) }
    }

    private func witnesses(
        places: [PhonePosition] = [], fields: [PhoneField] = [], silence: Silence? = nil
    ) -> Witnesses {
        let (places, fields) = (Fake(words: places, silence: silence), Fake(words: fields, silence: silence))
        return Witnesses(model: model, positions: places, fields: fields)
    }

    private func place(_ seconds: Double) -> PhonePosition {
        PhonePosition(latitudeDeg: 42.9, longitudeDeg: 75.7, accuracyM: 8, at: clock.now - seconds)
    }

    @Test func thePlaceIsToldBesideTheFix() async throws {
        let (shown, said, draft) = (model.snapshot, model.said, model.draft)
        let witnesses = witnesses(places: [place(90), place(12)])
        witnesses.askPlace()
        #expect(witnesses.place == .waiting)
        await witnesses.listenForPlace()
        let told = try #require(witnesses.place.word)
        #expect(!told.isStale && told.age.contains("12") && told.spread.contains("±") && !told.reference.isEmpty)
        #expect(told.said.count == 1)
        #expect(model.snapshot == shown && model.said == said && model.draft == draft && model.refusal == nil)
        clock.now += 60
        witnesses.tellAge()
        #expect(witnesses.place.word?.isStale == true && witnesses.place.word?.said.count == 2)
        #expect(model.check(told))
        #expect(model.snapshot?.check != nil)
    }

    /// Level, the top edge to magnetic north; then steel beside the phone.
    @Test func theFieldIsHeldAgainstTheModel() async throws {
        let down = [0.0, 0, -1]
        for (field, isAttracted) in [([0.0, 24.5, -49.5], false), ([60, 80, 10], true)] {
            let witnesses = witnesses(fields: [PhoneField(fieldUt: field, down: down)])
            witnesses.askField()
            await witnesses.listenForField()
            let told = try #require(witnesses.field.word)
            #expect(told.isAttracted == isAttracted, "\(told.said)")
            #expect(told.said.count == 3, "the field, what it says, the heading: \(told.said)")
        }
    }

    @Test func theHeadingIsTakenAsTyped() async throws {
        let witnesses = witnesses(fields: [PhoneField(fieldUt: [-24.5, 0, -49.5], down: [0, 0, -1])])
        witnesses.askField()
        await witnesses.listenForField()
        let heading = try #require(witnesses.field.word?.heading)
        #expect(heading.told == "090°\u{a0}mag ±\u{a0}13° (95\u{a0}%), if no iron turns it")
        model.edit { $0.instrument = .sighting }
        model.openPad(.sight("Sorn chapel"))
        model.take(heading)
        #expect(model.draft.typed.text == "090 mag" && model.draft.instrument == .phone)
        model.take(heading)
        model.readWithOwn()
        #expect(model.draft.typed.digits.isEmpty && model.draft.instrument == .sighting)
    }

    /// A heading of which the spread is not known is told and cannot be taken.
    @Test func anUnsureHeadingIsNotTaken() async throws {
        var unsure = 0
        for percent in stride(from: 100.0, through: 150, by: 5) {
            let field = [-24.5, 0, -49.5].map { $0 * percent / 100 }
            let witnesses = witnesses(fields: [PhoneField(fieldUt: field, down: [0, 0, -1])])
            witnesses.askField()
            await witnesses.listenForField()
            let told = try #require(witnesses.field.word)
            guard told.said.contains(where: { $0.contains("spread not known") }) else { continue }
            unsure += 1
            #expect(told.heading == nil, "\(percent)")
        }
        #expect(unsure > 0)
    }

    @Test(arguments: [Silence.refused, .absent]) func silenceIsTold(silence: Silence) async {
        let witnesses = witnesses(silence: silence)
        await witnesses.listenForPlace()
        #expect(witnesses.place == .unasked, "nothing is asked before the walker asks")
        witnesses.askPlace()
        witnesses.askField()
        await witnesses.listenForPlace()
        await witnesses.listenForField()
        #expect(witnesses.place == .silent(silence) && witnesses.field == .silent(silence))
        witnesses.tellAge()
        #expect(witnesses.place == .silent(silence))
    }
}
