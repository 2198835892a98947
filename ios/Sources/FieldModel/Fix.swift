/// A fix on a line.
public struct Fix: Equatable, Sendable {
    public let atUnixMs: Int64
    public let line: String
    /// Where (of several places how many), what fits, what next: a sentence each.
    public let field: [String]
    /// Of these the one that tells where.
    public let whereTold: String
    /// Of these the one that tells what does not fit.
    public let misfitTold: String?
    /// What is to be minded before all else, of the cautions or in their place.
    public let mindedFirst: [String]
    /// Where one may stand, likeliest first.
    public let places: [Place]
    /// The bearings among what was told.
    public let sightings: [Sighting]
    /// All that was told, in its order.
    public let accounts: [Account]
    /// The lines that it could have been.
    public let lines: [LineShare]
    /// What must be told with it; first what may have been misread.
    public let cautions: [String]
    /// What else is told of it.
    public let restTold: [String]
}

/// What one sighting gives to a fix.
public struct Account: Equatable, Sendable {
    /// Nothing of what says nothing there.
    public let verdict: Verdict?
    /// What was sighted, likeliest first, when it may be one of several.
    public let identity: [Share]
    public let told: String
}

/// A landmark with the chance that it was the one, 0 to 1.
public struct Share: Equatable, Sendable {
    public let landmark: String
    public let share: Double
    public let told: String
}

/// A line with the chance that one stands on it, 0 to 1.
public struct LineShare: Equatable, Sendable {
    public let name: String
    public let share: Double
    public let told: String
}

/// A stretch of the line where one may stand.
public struct Place: Equatable, Sendable {
    /// Grid reference with the digits that the spread deserves, spaced.
    public let reference: String
    /// Known points of the line on both sides of it; the first is empty at the line's beginning.
    public let from: String
    public let towards: String?
    /// The place with its share and spread.
    public let told: String
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
    /// How it agrees with the fix.
    public let told: String
    /// What would explain that it does not fit, likeliest first.
    public let slips: [WitnessSlip]
}

public struct WitnessSlip: Equatable, Sendable {
    public let told: String
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
    /// A `bearing` to the landmark, or the `line-run`, which has none.
    public let what: String
    public let landmark: String
    /// The gain in words.
    public let told: String

    public var isLineRun: Bool { what == "line-run" }
}
