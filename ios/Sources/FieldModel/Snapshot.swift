/// Where in the job the trip is.
public enum Stage: String, Decodable, Sendable, CaseIterable {
    case before
    case besideTheLine = "beside-the-line"
    case onFoot = "on-foot"
    case wayBack = "way-back"
    case afterwards
}

/// What the screens show, out of the core's snapshot; `core/src/engine/view.rs` says each field's meaning.
///
/// Units end the names: `M` metres, `DegMag` and `DegGrid` bearings by their north, `95M` half-widths at 95 %,
/// `UnixMs` milliseconds since 1970 UTC. A share goes from 0 to 1.
public struct Snapshot: Decodable, Equatable, Sendable {
    public let stage: Stage
    public let sheet: Sheet?
    public let pace: Pace
    public let fix: Fix?
    public let car: Car?
    public let legs: [Leg]
    public let here: Here?
    public let check: Check?
    public let wayBack: WayBack?
    /// What can be sighted, likeliest to be seen first.
    public let sights: [Sight]
    public let nextSight: NextSight?
    public let strip: Strip
    public let light: Light?
    /// What the next undo would strike, in words.
    public let undo: String?
    /// What is half typed; empty when nothing is.
    public let draft: String
}

/// What the walker carries of the area.
public struct Sheet: Decodable, Equatable, Sendable {
    public let name: String
    public let grid: String
    public let lines: [Line]
    public let landmarks: [String]
}

/// A road, track, creek or ridge of the sheet.
public struct Line: Decodable, Equatable, Sendable {
    public let name: String
    public let kind: String
}

/// The walker's pace.
public struct Pace: Decodable, Equatable, Sendable {
    public let doublePacesPer100M: Double
    public let spreadPercent: Double
}

/// The next sunset and the next end of civil twilight; absent where the sun does not set within a day.
public struct Light: Decodable, Equatable, Sendable {
    public let sunsetUnixMs: Int64?
    public let darkUnixMs: Int64?
}
