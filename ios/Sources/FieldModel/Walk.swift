/// The kept place.
public struct Car: Equatable, Sendable {
    public let name: String
}

/// A leg of the log.
public struct Leg: Equatable, Sendable {
    public let number: UInt32
    public let bearingTold: String
    public let pacesTold: String
    public let met: String?
    /// The whole of it in a sentence, as it was logged.
    public let told: String
}

/// The way back by the reversed log.
public struct WayBack: Equatable, Sendable {
    /// How many of its legs are walked already.
    public let walked: UInt32
    public let legs: [BackLeg]
    /// What it comes to, how far it may miss, what to mind, and what to do at its end: a sentence each.
    public let headTold: String
    public let missTold: String
    public let cautionTold: String
    public let endTold: String
}

/// What a closed trip comes to.
public struct After: Equatable, Sendable {
    /// How the legs close, if one is back at the car; none when the log was followed back.
    public let closing: Closing?
    /// What was logged and how it closed: a sentence each.
    public let told: [String]
}

/// The closing error of a log.
public struct Closing: Equatable, Sendable {
    public let offTold: String
}

/// One leg of the way back.
public struct BackLeg: Equatable, Sendable {
    /// Number of the leg of the log that is walked back.
    public let ofLeg: UInt32
    public let bearingTold: String
    public let doublePaces: Double
    public let pacesTold: String
    public let meets: String?
    /// The whole of it in a sentence.
    public let told: String
    /// What it leads to, beside bearing and paces.
    public let goalTold: String
}
