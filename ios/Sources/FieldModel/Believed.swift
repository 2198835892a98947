internal import GatepostBridge

/// The phone's place beside the fix.
public struct PlaceTold: Equatable, Sendable {
    /// Sentences on it: where, how sure by its own claim, how old, how it lies to the fix.
    public let said: [String]
    /// Grid reference, spread and age: struck through when it is out of date.
    public let reference: String
    public let spread: String
    public let age: String
    public let isStale: Bool
    /// As `check` takes them.
    let place: String
    let spreadM: Double
}

/// What the phone feels of the magnetic field, and which way it points.
public struct FieldTold: Equatable, Sendable {
    public let said: [String]
    /// Whether metal or a current is near enough to turn a compass.
    public let isAttracted: Bool
    /// Where the phone's top edge points; none when it stands on it, or how sure that is is not known.
    public let heading: Heading?
}

/// The phone's heading, by the magnet.
public struct Heading: Equatable, Sendable {
    /// With its north and spread.
    public let told: String
    /// As it is typed.
    let bearing: Bearing

    init(told: String, figures: String) {
        self.told = told
        var bearing = Bearing()
        bearing.digits = figures
        self.bearing = bearing
    }
}

extension FieldModel {
    /// Holds the phone's place beside the fix; nothing is written.
    func told(_ seen: PhonePosition) -> PlaceTold? {
        let (said, answer) = consult(.witness(seen))
        guard
            case .witness(_, let place, let spreadM, _, let stale, _, _, _, let reference, let spread, let age) = answer
        else { return nil }
        return PlaceTold(
            said: said, reference: reference, spread: spread, age: age, isStale: stale, place: place, spreadM: spreadM)
    }

    /// Holds the phone's magnetic field against the model's; nothing is written.
    func told(_ felt: PhoneField) -> FieldTold? {
        let (said, answer) = consult(.attraction(felt))
        guard case .attraction(_, _, _, let told, let figures, _, _, _, _, _, _, _, let verdict) = answer
        else { return nil }
        // Where the field does not fit the spread is not known, and a heading without one is not to be taken.
        let heading = told.flatMap { told in figures.map { Heading(told: told, figures: $0) } }
        return FieldTold(said: said, isAttracted: verdict == "attracted", heading: verdict == "clean" ? heading : nil)
    }
}
