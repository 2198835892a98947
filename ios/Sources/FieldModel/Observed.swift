extension Record {
    /// What was observed, as it was typed. A bearing is a text with its north: "016 mag".
    public enum Sighting: Codable, Equatable, Sendable {
        /// A bearing to a landmark, or to one that may be any of several.
        case bearing(to: [String], String)
        /// The bearing of the line itself here, either way.
        case lineRun(String)
        case seen(String)
        case notSeen(String)
        /// A known point of the sheet is here, or something of a kind.
        case here(String)
        case kindHere(PlaceKind)
        /// What the trip meter shows since a known point; either way along the line when none is named to which it goes.
        case trip(from: String, metres: Double, Figure, towards: String?)
        case paces(from: String, double: Double, towards: String?)
        /// Where a landmark stands for one who faces along the line.
        case side(String, Quarter, towards: String?)
        case slope(Trend, towards: String)
        case landform(Landform, at: String, metres: Double? = nil)
        case aspect(falls: String)
        /// Metres above the sea.
        case height(Double)
        /// The same where it was set so many hours ago; to the height on the sheet when that is not told.
        case heightSet(Double, at: String, to: Double?, hours: Double?)
        /// One landmark read twice, with a run along the line between.
        case running(String, first: String, second: String, metres: Double, towards: String?)
        case angle(left: String, right: String, degrees: Double)
        case distance(String, metres: Double)
        /// An independent place, with its spread when the receiver claims one.
        case witness(String, spreadM: Double?)

        public init(_ landmark: String, _ bearing: String) {
            self = .bearing(to: [landmark], bearing)
        }
    }

    /// What may be here, of a kind.
    public enum PlaceKind: String, Codable, Sendable, CaseIterable {
        case bend, junction, crossroads, bridge, ford, stream
    }

    /// A side of one who faces along the line.
    public enum Quarter: String, Codable, Sendable, CaseIterable {
        case left, right, ahead, behind
    }

    /// What the ground does towards a bearing.
    public enum Trend: String, Codable, Sendable, CaseIterable {
        case rises, falls, level
    }

    /// What the last figure of a display shows.
    public enum Figure: String, Codable, Sendable, CaseIterable {
        case nearest, untilFull
    }

    /// A form of the ground.
    public enum Landform: String, Codable, Sendable, CaseIterable {
        case hill, saddle, ridge, spur, valley, draw, depression, cliff
    }

    /// Where one stands: on a line, on one of several, or on none.
    public enum Stand: Equatable, Sendable {
        case line(String)
        case oneOf([String])
        case open
    }
}

extension Record.Sighting {
    /// The landmark of which it says whether it is in sight.
    var looked: String? {
        switch self {
        case .seen(let landmark), .notSeen(let landmark): landmark
        default: nil
        }
    }

    /// The landmark that was read, when it was a sure one.
    var read: String? {
        if case .bearing(let landmarks, _) = self, landmarks.count == 1 { landmarks[0] } else { nil }
    }

    /// The landmark of a running fix.
    var run: String? { if case .running(let landmark, _, _, _, _) = self { landmark } else { nil } }

    var isLineRun: Bool { if case .lineRun = self { true } else { false } }

    public var isBearing: Bool { if case .bearing = self { true } else { false } }
}
