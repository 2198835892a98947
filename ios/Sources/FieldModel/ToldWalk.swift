internal import GatepostBridge

extension Car {
    init(told: CarView) {
        self.init(
            name: told.name, line: told.line, place: .init(told: told.place), atUnixMs: told.atUnixMs)
    }
}

extension Leg {
    init(told: LegView) {
        self.init(
            number: Int(told.number), atUnixMs: told.atUnixMs, bearingDegMag: told.bearingDegMag,
            distanceM: told.distanceM, doublePaces: told.doublePaces,
            detourSide: told.detourSide.flatMap(Record.Side.init(rawValue:)), detourM: told.detourM, met: told.met)
    }
}

extension Here {
    init(told: HereView) {
        self.init(
            reference: told.reference, major95M: told.major95M, minor95M: told.minor95M, walkedM: told.walkedM,
            homeM: told.homeM, home95M: told.home95M, homeBearingDegMag: told.homeBearingDegMag,
            atUnixMs: told.atUnixMs)
    }
}

extension WayBack {
    init(told: WayBackView) {
        self.init(
            walked: Int(told.walked), legs: told.legs.map(BackLeg.init(told:)), walkM: told.walkM,
            closesM: told.closesM, missMajor95M: told.missMajor95M, missMinor95M: told.missMinor95M,
            missAlong95M: told.missAlong95M)
    }
}

extension BackLeg {
    init(told: BackLegView) {
        self.init(
            ofLeg: Int(told.ofLeg), bearingDegMag: told.bearingDegMag, metres: told.metres,
            doublePaces: told.doublePaces, detourSide: told.detourSide.flatMap(Record.Side.init(rawValue:)),
            detourM: told.detourM, meets: told.meets, totalM: told.totalM, totalDoublePaces: told.totalDoublePaces)
    }
}
