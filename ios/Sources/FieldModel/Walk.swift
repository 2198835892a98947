/// The kept place.
public struct Car: Decodable, Equatable, Sendable {
    public let name: String
    public let line: String
    public let place: Place
    public let atUnixMs: Int64
}

/// A leg of the log.
public struct Leg: Decodable, Equatable, Sendable {
    public let number: Int
    public let atUnixMs: Int64
    public let bearingDegMag: Double
    public let distanceM: Double
    public let doublePaces: Double
    public let detourSide: Record.Side?
    public let detourM: Double
    public let met: String?
}

/// The reckoned place.
public struct Here: Decodable, Equatable, Sendable {
    /// Grid reference with the digits that the spread deserves, spaced.
    public let reference: String
    public let major95M: Double
    public let minor95M: Double
    public let walkedM: Double
    public let homeM: Double
    public let home95M: Double
    /// Absent at the car.
    public let homeBearingDegMag: Double?
    public let atUnixMs: Int64
}

/// The way back by the reversed log.
public struct WayBack: Decodable, Equatable, Sendable {
    /// How many of its legs are walked already.
    public let walked: Int
    public let legs: [BackLeg]
    public let walkM: Double
    /// How far the reversed bearings end from the start of the log.
    public let closesM: Double
    public let missMajor95M: Double
    public let missMinor95M: Double
    public let missAlong95M: Double
}

/// One leg of the way back.
public struct BackLeg: Decodable, Equatable, Sendable {
    /// Number of the leg of the log that is walked back.
    public let ofLeg: Int
    public let bearingDegMag: Double
    public let metres: Double
    public let doublePaces: Double
    /// As one faces now.
    public let detourSide: Record.Side?
    public let detourM: Double
    public let meets: String?
    public let totalM: Double
    public let totalDoublePaces: Double
}
