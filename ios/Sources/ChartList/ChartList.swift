/// A finished drawing in its final coordinates, points across and down, as the core laid it out.
public struct ChartList: Equatable, Sendable {
    public let width: Double
    public let height: Double
    /// What to draw, in order.
    public let items: [ChartItem]
    /// What can be touched; where two meet, the earlier one is meant.
    public let targets: [ChartTarget]
    /// The whole drawing in words.
    public let spoken: String
}

/// One thing to draw.
public enum ChartItem: Equatable, Sendable {
    case path(points: [Spot], closed: Bool, Paint)
    case circle(centre: Spot, radius: Double, Paint)
    case text(Lettering)
    case clip(Area, [ChartItem])
}

public struct Spot: Equatable, Sendable {
    public let x: Double
    public let y: Double
}

public struct Area: Equatable, Sendable {
    public let x: Double
    public let y: Double
    public let width: Double
    public let height: Double
}

/// How a shape is painted: the filling first, then the stroke.
public struct Paint: Equatable, Sendable {
    public let stroke: Stroke?
    public let fill: Ink?
}

/// A stroke; its joins are round.
public struct Stroke: Equatable, Sendable {
    public enum Cap: UInt8, Sendable, CaseIterable {
        case butt, round, square
    }

    public let ink: Ink
    public let width: Double
    public let cap: Cap
    public let dash: [Double]
}

/// One line of letters, figures all of one width.
public struct Lettering: Equatable, Sendable {
    public enum Anchor: UInt8, Sendable, CaseIterable {
        case start, middle, end
    }

    /// Where the base line is anchored.
    public let at: Spot
    public let size: Double
    /// Turn about its place, degrees clockwise.
    public let rotationDeg: Double
    public let anchor: Anchor
    public let ink: Ink
    /// An edge of paper, two points wide, parts it from what lies below.
    public let halo: Bool
    public let italic: Bool
    public let bold: Bool
    public let text: String
}

/// A part of the drawing that can be touched or read out.
public struct ChartTarget: Equatable, Sendable {
    public enum Kind: UInt8, Sendable, CaseIterable {
        case stretch, landmark, knownPoint, turn, car
    }

    public let area: Area
    public let kind: Kind
    /// Stretch from 0, turn from 1, else 0.
    public let number: Int
    public let name: String
    public let spoken: String
}
