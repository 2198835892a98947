import Observation

/// What the phone itself believes. It is shown beside the fix and never in its place; nothing here is needed.
public struct PhonePosition: Equatable, Sendable {
    public let latitudeDeg: Double
    public let longitudeDeg: Double
    /// One sigma per axis, metres.
    public let spreadM: Double

    public init(latitudeDeg: Double, longitudeDeg: Double, spreadM: Double) {
        (self.latitudeDeg, self.longitudeDeg, self.spreadM) = (latitudeDeg, longitudeDeg, spreadM)
    }

    /// As the core reads a place.
    public var text: String { "\(latitudeDeg), \(longitudeDeg)" }
}

public protocol PositionWitness: Sendable {
    func positions() -> AsyncStream<PhonePosition>
}

public protocol HeadingWitness: Sendable {
    /// Degrees from magnetic north.
    func headings() -> AsyncStream<Double>
}

public protocol FieldWitness: Sendable {
    /// Strength of the magnetic field, microtesla.
    func strengths() -> AsyncStream<Double>
}

/// Says nothing: a phone whose permissions were refused.
public struct SilentWitness: PositionWitness, HeadingWitness, FieldWitness {
    public init() {}
    public func positions() -> AsyncStream<PhonePosition> { AsyncStream { $0.finish() } }
    public func headings() -> AsyncStream<Double> { AsyncStream { $0.finish() } }
    public func strengths() -> AsyncStream<Double> { AsyncStream { $0.finish() } }
}

/// The newest word of each witness.
@MainActor
@Observable
public final class Witnesses {
    public private(set) var position: PhonePosition?
    public private(set) var headingDegMag: Double?
    public private(set) var strength: Double?

    @ObservationIgnored private let positions: any PositionWitness
    @ObservationIgnored private let headings: any HeadingWitness
    @ObservationIgnored private let strengths: any FieldWitness

    public init(
        positions: any PositionWitness = SilentWitness(), headings: any HeadingWitness = SilentWitness(),
        strengths: any FieldWitness = SilentWitness()
    ) {
        (self.positions, self.headings, self.strengths) = (positions, headings, strengths)
    }

    /// Listens until the witnesses fall silent or the task ends.
    public func listen() async {
        async let first: Void = follow(positions.positions()) { $0.position = $1 }
        async let second: Void = follow(headings.headings()) { $0.headingDegMag = $1 }
        async let third: Void = follow(strengths.strengths()) { $0.strength = $1 }
        _ = await (first, second, third)
    }

    private func follow<Word: Sendable>(
        _ words: AsyncStream<Word>, _ take: @MainActor (Witnesses, Word) -> Void
    ) async {
        for await word in words { take(self, word) }
    }
}
