import FieldModel

extension Record.Sighting {
    /// The landmark that can be read again.
    var landmark: String? {
        if case .bearing(let landmarks, _) = self, landmarks.count == 1 { landmarks[0] } else { nil }
    }

    /// What it is, or of what.
    var name: String {
        switch self {
        case .bearing(let landmarks, _): landmarks.count == 1 ? landmarks[0] : Labels.oneOf.text
        case .lineRun: Labels.alongTheLine.text
        case .seen(let landmark), .notSeen(let landmark): landmark
        case .here, .kindHere: Labels.whatIsHere.text
        case .trip: Labels.tripMeter.text
        case .paces: Labels.pacesFrom.text
        case .side(let landmark, _, _): landmark
        case .slope: Labels.groundTowards.text
        case .landform: Labels.landformAt.text
        case .aspect: Labels.slopeFallsTo.text
        case .height: Labels.altimeter.text
        case .heightSet: Labels.altimeterSet.text
        case .running(let landmark, _, _, _, _): landmark
        case .angle: Labels.angleBetween.text
        case .distance: Labels.distanceTo.text
        case .witness: Labels.independentPlace.text
        }
    }

    /// What was told of it, as it was typed.
    var detail: String {
        switch self {
        case .bearing(_, let bearing), .lineRun(let bearing): Figures.bearing(bearing)
        case .seen: Labels.seen.text
        case .notSeen: Labels.notSeen.text
        case .here(let known): known
        case .kindHere(let kind): kind.label.text
        case .trip(let from, let metres, _, let towards): Self.joined(from, Figures.metres(metres), towards)
        case .paces(let from, let paces, let towards):
            Self.joined(from, Figures.paces(paces), towards)
        case .side(_, let side, let towards): Self.joined(side.label.text, towards)
        case .slope(let ground, let towards): Self.joined(ground.label.text, Figures.bearing(towards))
        case .landform(let kind, let bearing, let metres):
            Self.joined(kind.label.text, Figures.bearing(bearing), metres.map(Figures.metres))
        case .aspect(let falls): Figures.bearing(falls)
        case .height(let metres): Figures.metres(metres)
        case .heightSet(let metres, let place, _, _): Self.joined(Figures.metres(metres), place)
        case .running(_, let first, let second, let metres, let towards):
            Self.joined(Figures.bearing(first), Figures.metres(metres), towards, Figures.bearing(second))
        case .angle(let left, let right, let degrees): Self.joined(left, right, Figures.degrees(degrees))
        case .distance(let landmark, let metres): Self.joined(landmark, Figures.metres(metres))
        case .witness(let place, _): place
        }
    }

    private static func joined(_ parts: String?...) -> String { parts.compactMap { $0 }.joined(separator: ", ") }
}

extension Record.PlaceKind {
    var label: Labels {
        switch self {
        case .bend: .bend
        case .junction: .junction
        case .crossroads: .crossroads
        case .bridge: .bridge
        case .ford: .ford
        case .stream: .stream
        }
    }
}

extension KnownPoint {
    /// What it is where lines meet; nothing where the sheet only names it.
    var label: Labels? {
        switch met {
        case .walked(let kind): kind.label
        case .beside(.confluence): .confluence
        case .beside(.levels): .levels
        case .beside(.fenceCorner): .fenceCorner
        case .beside(.fence): .fenceMeets
        case .beside(.ridge): .ridgeMeets
        case .beside(.wire): .wire
        case nil: nil
        }
    }
}

extension Record.Quarter {
    var label: Labels {
        switch self {
        case .left: .left
        case .right: .right
        case .ahead: .ahead
        case .behind: .behind
        }
    }
}

extension Record.Figure {
    var label: Labels {
        switch self {
        case .nearest: .figureNearest
        case .untilFull: .figureUntilFull
        }
    }
}

extension Record.Trend {
    var label: Labels {
        switch self {
        case .rises: .rises
        case .falls: .falls
        case .level: .level
        }
    }
}

extension Record.Landform {
    var label: Labels {
        switch self {
        case .hill: .hill
        case .saddle: .saddle
        case .ridge: .ridge
        case .spur: .spur
        case .valley: .valley
        case .draw: .draw
        case .depression: .depression
        case .cliff: .cliff
        }
    }
}
