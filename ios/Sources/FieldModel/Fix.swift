/// A fix on a line.
public struct Fix: Decodable, Equatable, Sendable {
    public let atUnixMs: Int64
    public let line: String
    /// Where one may stand, likeliest first.
    public let places: [Place]
    /// Share of the probability in none of the places.
    public let elsewhereShare: Double
    public let sightings: [Sighting]
}

/// A stretch of the line where one may stand.
public struct Place: Decodable, Equatable, Sendable {
    public let share: Double
    /// Grid reference with the digits that the spread deserves, spaced.
    public let reference: String
    /// The line's named point from which the next distance counts; empty for its first point.
    public let from: String
    public let fromM: Double
    public let towards: String?
    public let alongM: Double
    public let along95M: Double
    public let across95M: Double
    public let low50M: Double
    public let high50M: Double
    public let low95M: Double
    public let high95M: Double
}

/// A sighting as the fix sees it.
public struct Sighting: Decodable, Equatable, Sendable {
    public let landmark: String
    public let bearingDegMag: Double
    /// Reading minus the sheet's bearing at the likeliest place.
    public let residualDeg: Double
}

/// An independent place held against the fix.
public struct Check: Decodable, Equatable, Sendable {
    public let stretch: Int
    public let distanceM: Double
    public let bearingDegGrid: Double
    public let verdict: Verdict

    public enum Verdict: String, Decodable, Sendable {
        case fits, doubtful, misfit
    }
}
