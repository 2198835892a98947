import Observation

/// How a sense of the phone stands.
public enum Heard<Word: Equatable & Sendable>: Equatable, Sendable {
    /// Not asked for by the walker.
    case unasked
    /// Asked for, and nothing heard yet.
    case waiting
    case word(Word)
    case silent(Silence)

    public var word: Word? { if case .word(let word) = self { word } else { nil } }
}

/// What the phone believes, in the core's words. Nothing is asked of the phone before the walker asks.
@MainActor
@Observable
public final class Witnesses {
    public private(set) var place = Heard<PlaceTold>.unasked
    public private(set) var field = Heard<FieldTold>.unasked

    @ObservationIgnored private let model: FieldModel
    @ObservationIgnored private let positions: any PositionWitness
    @ObservationIgnored private let fields: any FieldWitness
    @ObservationIgnored private var seen: PhonePosition?

    public init(model: FieldModel, positions: any PositionWitness, fields: any FieldWitness) {
        (self.model, self.positions, self.fields) = (model, positions, fields)
    }

    /// How often the walker asked; a screen listens anew for each.
    public private(set) var placeAsked = 0
    public private(set) var fieldAsked = 0

    /// A touch asks for the phone's place; whoever shows it then listens.
    public func askPlace() {
        placeAsked += 1
        place = .waiting
    }

    public func askField() {
        fieldAsked += 1
        field = .waiting
    }

    /// Listens to the receiver, once it was asked for, until it falls silent or the task ends.
    public func listenForPlace() async {
        guard placeAsked > 0 else { return }
        let silence = await follow(positions.positions()) { position in
            seen = position
            tellAge()
        }
        if let silence { place = .silent(silence) }
    }

    /// Listens to the magnetometer, once it was asked for, until it falls silent or the task ends.
    public func listenForField() async {
        guard fieldAsked > 0 else { return }
        let silence = await follow(fields.fields()) { felt in
            if let told = model.told(felt) { field = .word(told) }
        }
        if let silence { field = .silent(silence) }
    }

    /// Tells the age of the last place anew.
    public func tellAge() {
        if case .silent = place { return }
        if let seen, let told = model.told(seen) { place = .word(told) }
    }

    private func follow<Word: Sendable>(
        _ words: AsyncThrowingStream<Word, any Error>, _ take: (Word) -> Void
    ) async -> Silence? {
        do {
            for try await word in words { take(word) }
            return nil
        } catch {
            return error as? Silence ?? .absent
        }
    }
}
