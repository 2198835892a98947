internal import GatepostBridge

extension Record.Sighting {
    /// As the core takes it; spreads that were not told are the core's own.
    var record: SightingRecord {
        switch self {
        case .bearing(let landmarks, let bearing) where landmarks.count == 1:
            .bearing(
                landmark: landmarks[0], oneOf: nil, place: nil, spreadM: nil, bearing: bearing, spreadDeg: nil)
        case .bearing(let landmarks, let bearing):
            .bearing(landmark: nil, oneOf: landmarks, place: nil, spreadM: nil, bearing: bearing, spreadDeg: nil)
        case .lineRun(let bearing): .lineRun(bearing: bearing, spreadDeg: nil)
        case .seen(let landmark): .seen(landmark: landmark)
        case .notSeen(let landmark): .notSeen(landmark: landmark)
        case .here(let known): .here(known: known, kind: nil, spreadM: nil)
        case .kindHere(let kind): .here(known: nil, kind: kind.rawValue, spreadM: nil)
        case .trip(let from, let metres, let figure, let towards):
            .trip(
                from: from, distanceM: metres, stepM: nil, cutsOff: figure == .untilFull, scalePercent: nil,
                towards: towards)
        case .paces(let from, let paces, let towards):
            .paces(from: from, paces: paces, paceKind: "double", towards: towards)
        case .side(let landmark, let side, let towards):
            .side(landmark: landmark, side: side.rawValue, towards: towards)
        case .slope(let ground, let towards):
            .slope(ground: ground.rawValue, towards: towards, slopeDeg: nil, spreadDeg: nil, overM: nil)
        case .landform(let kind, let bearing, let metres):
            .landform(kind: kind.rawValue, bearing: bearing, spreadDeg: nil, distanceM: metres, distanceFactor: nil)
        case .aspect(let falls): .aspect(falls: falls, spreadDeg: nil)
        case .height(let metres):
            .height(readM: metres, spreadM: nil, setAt: nil, setM: nil, hoursSinceSet: nil, driftMPerHour: nil)
        case .heightSet(let metres, let place, let set, let hours):
            .height(readM: metres, spreadM: nil, setAt: place, setM: set, hoursSinceSet: hours, driftMPerHour: nil)
        case .running(let landmark, let first, let second, let metres, let towards):
            .running(
                landmark: landmark, first: first, second: second, runM: metres, runSpreadPercent: nil, run: nil,
                towards: towards, spreadDeg: nil)
        case .angle(let left, let right, let degrees):
            .angle(left: left, right: right, angleDeg: degrees, spreadDeg: nil)
        case .distance(let landmark, let metres): .distance(landmark: landmark, distanceM: metres, spreadM: nil)
        case .witness(let place, let spreadM): .witness(place: place, spreadM: spreadM)
        }
    }
}
