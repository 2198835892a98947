/// A fix in the open.
public struct OpenFix: Equatable, Sendable {
    public let atUnixMs: Int64
    /// A sentence each: where, what fits, what next before the car's place is kept.
    public let field: [String]
    /// Of these the one that tells where.
    public let whereTold: String
    /// Of these the one that tells what does not fit.
    public let misfitTold: String?
    /// What is to be minded before all else, of the cautions or in their place.
    public let mindedFirst: [String]
    /// The core's word: `ellipse`, or `regions`.
    public let shape: String
    /// The one place, or the likeliest of each region, likeliest first.
    public let places: [OpenPlace]
    /// What was told, in its order.
    public let sightings: [OpenSighting]
    /// What must be told with it.
    public let cautions: [String]
    /// What else is told of it.
    public let restTold: [String]

    /// A strip, a ring or several places: none to stand at.
    public var isRegions: Bool { shape == "regions" }
}

/// A place in the open.
public struct OpenPlace: Equatable, Sendable {
    /// Grid reference with the digits that the spread deserves, spaced.
    public let reference: String
    /// The place with its share and spread.
    public let told: String
}

/// A sighting as a fix in the open sees it.
public struct OpenSighting: Equatable, Sendable {
    public let what: String
    public let of: String
    /// Of a bearing: degrees from grid north.
    public let read: Double?
    /// None for the ground.
    public let verdict: Verdict?
    public let told: String
}
