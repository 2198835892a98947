/// What every place shows: three cells of ready texts, each a value and a note.
public struct Strip: Decodable, Equatable, Sendable {
    public let sure: String
    public let sureNote: String
    public let home: String
    public let homeNote: String
    public let light: String
    public let lightNote: String
}

/// A landmark as one may sight it.
public struct Sight: Decodable, Equatable, Sendable {
    public let landmark: String
    public let kind: String
    /// Whether the last fix holds a reading of it.
    public let sighted: Bool
    /// Where to look for it, or its reading, as one line of text.
    public let told: String
}

/// What to sight next.
public struct NextSight: Decodable, Equatable, Sendable {
    public let landmark: String
    /// Whether it would tell the places of the fix apart.
    public let settles: Bool
    /// The gain in words.
    public let told: String
}
