/// A fix on a line.
public struct Fix: Equatable, Sendable {
    public let atUnixMs: Int64
    public let line: String
    /// Where one may stand, likeliest first.
    public let places: [Place]
    public let sightings: [Sighting]
}

/// A stretch of the line where one may stand.
public struct Place: Equatable, Sendable {
    /// Grid reference with the digits that the spread deserves, spaced.
    public let reference: String
}

/// A sighting as the fix sees it.
public struct Sighting: Equatable, Sendable {
    public let landmark: String
    public let bearingDegMag: Double
    public let bearingTold: String
    public let verdict: Verdict
}

/// An independent place held against the fix.
public struct Check: Equatable, Sendable {
    public let verdict: Verdict
}

/// How a reading or a place lies to the fix.
public enum Verdict: String, Sendable {
    case fits, doubtful, misfit
}

/// A landmark as one may sight it.
public struct Sight: Equatable, Sendable {
    public let landmark: String
    public let kind: String
    /// Whether the last fix holds a reading of it.
    public let sighted: Bool
    /// Where to look for it, or its reading, as one line of text.
    public let told: String
}

/// What to sight next.
public struct NextSight: Equatable, Sendable {
    public let landmark: String
    /// The gain in words.
    public let told: String
}
