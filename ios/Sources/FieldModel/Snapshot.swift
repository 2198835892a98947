/// Where in the job the trip is.
public enum Stage: String, Codable, Sendable, CaseIterable {
    case before
    case besideTheLine = "beside-the-line"
    case onFoot = "on-foot"
    case wayBack = "way-back"
    case afterwards
}

/// What the screens show, out of the core's snapshot; `core/src/engine/view.rs` says each field's meaning.
///
/// Texts are ready to be read. A unit ends a number's name: `DegMag` a bearing from magnetic north, `UnixMs`
/// milliseconds since 1970 UTC.
public struct Snapshot: Equatable, Sendable {
    public let stage: Stage
    public let sheet: Sheet?
    public let pace: Pace
    /// What was found when the compass was checked.
    public let compass: String?
    /// The last fix: on a line, or in the open.
    public let fix: Fix?
    public let openFix: OpenFix?
    public let car: Car?
    public let legs: [Leg]
    public let check: Check?
    public let wayBack: WayBack?
    /// What the trip comes to, once it is closed and holds a leg.
    public let after: After?
    /// What can be sighted, likeliest to be seen first.
    public let sights: [Sight]
    /// How many landmarks of the sheet are not among them; they are found by their names.
    public let sightsLeft: UInt32
    public let nextSights: [NextSight]
    public let strip: Strip
    /// What to mind in this place.
    public let caution: String?
    /// What the next undo would strike, in words.
    public let undo: String?
    /// What is half typed; empty when nothing is.
    public let draft: String
}

/// What the walker carries of the area.
public struct Sheet: Equatable, Sendable {
    public let name: String
    public let grid: String
    /// Declination and convergence there, in sentences.
    public let norths: [String]
    /// Its heights and what its paper says, in sentences.
    public let ground: [String]
    public let lines: [Line]
    /// How many of its lines are not among them; they are found by their names.
    public let linesLeft: UInt32
}

/// A place on a line that can be named where one stands or counts from.
public struct KnownPoint: Equatable, Sendable {
    public let name: String
    /// `named` where no lines meet, else what it is.
    public let kind: String
    public let line: String

    /// Where lines meet that nobody walks, or that cross overhead.
    public enum Beside: String, CaseIterable, Sendable {
        case confluence, fence, levels, ridge, wire
        case fenceCorner = "fence-corner"
    }

    /// How lines meet.
    public enum Met: Equatable, Sendable {
        case walked(Record.PlaceKind)
        case beside(Beside)
    }

    /// How lines meet there; nothing where the sheet only names it.
    public var met: Met? {
        Record.PlaceKind(rawValue: kind).map(Met.walked) ?? Beside(rawValue: kind).map(Met.beside)
    }
}

/// A road, track, creek or ridge of the sheet.
public struct Line: Equatable, Sendable {
    public let name: String
    public let kind: String
}

/// The walker's pace.
public struct Pace: Equatable, Sendable {
    /// Double paces to 100 m with their spread.
    public let told: String
}

/// What every place shows: three cells of ready texts, each a value and a note.
public struct Strip: Equatable, Sendable {
    /// What the first cell tells, with the share of the probability that its half-width holds.
    public let sureLabel: String
    public let sure: String
    public let sureNote: String
    /// Whether the value is out of date: it is struck through then.
    public let sureIsOld: Bool
    public let home: String
    public let homeNote: String
    public let homeIsOld: Bool
    public let light: String
    public let lightNote: String
}
