import Support
import Testing

@testable import FieldModel

private struct Fake: PositionWitness, HeadingWitness, FieldWitness {
    func positions() -> AsyncStream<PhonePosition> {
        said([.init(latitudeDeg: 0, longitudeDeg: 0, spreadM: 9), .init(latitudeDeg: 1, longitudeDeg: 2, spreadM: 3)])
    }
    func headings() -> AsyncStream<Double> { said([10, 16]) }
    func strengths() -> AsyncStream<Double> { said([48]) }

    private func said<Word: Sendable>(_ words: [Word]) -> AsyncStream<Word> {
        AsyncStream { stream in
            for word in words { stream.yield(word) }
            stream.finish()
        }
    }
}

@MainActor @Suite struct WitnessTests {
    @Test func theNewestWordIsShown() async {
        let witnesses = Witnesses(positions: Fake(), headings: Fake(), strengths: Fake())
        await witnesses.listen()
        #expect(witnesses.position?.text == "1.0, 2.0")
        #expect(witnesses.headingDegMag == 16)
        #expect(witnesses.strength == 48)
    }

    /// A phone that says nothing takes nothing away.
    @Test func silenceIsNoWord() async {
        let witnesses = Witnesses()
        await witnesses.listen()
        #expect(witnesses.position == nil && witnesses.headingDegMag == nil && witnesses.strength == nil)
    }

    @Test func figuresAreTold() {
        #expect(Figures.bearing(4.4, .mag) == "004°\u{a0}mag")
        #expect(Figures.bearing(359.7, .grid) == "000°\u{a0}grid")
        #expect(Figures.bearing(.nan, .mag).isEmpty && Figures.whole(.infinity).isEmpty)
        #expect(Figures.whole(109.6) == "110")
    }
}
