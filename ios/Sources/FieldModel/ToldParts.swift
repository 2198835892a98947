internal import GatepostBridge

extension Fix {
    init(told: FixView) {
        self.init(
            atUnixMs: told.atUnixMs, line: told.line, places: told.places.map { Place(reference: $0.reference) },
            sightings: told.sightings.map(Sighting.init(told:)))
    }
}

extension Sighting {
    init(told: SightingView) {
        self.init(
            landmark: told.landmark, bearingDegMag: told.bearingDegMag, bearingTold: told.bearingTold,
            verdict: .init(told: told.verdict))
    }
}

extension Verdict {
    /// A word that this app does not know asks for a second look.
    init(told: String) {
        self = Self(rawValue: told) ?? .doubtful
    }
}

extension Sight {
    init(told: SightView) {
        self.init(landmark: told.landmark, kind: told.kind, sighted: told.sighted, told: told.told)
    }
}

extension Leg {
    init(told: LegView) {
        self.init(number: told.number, bearingTold: told.bearingTold, pacesTold: told.pacesTold, met: told.met)
    }
}

extension WayBack {
    init(told: WayBackView) {
        self.init(walked: told.walked, legs: told.legs.map(BackLeg.init(told:)))
    }
}

extension BackLeg {
    init(told: BackLegView) {
        self.init(
            ofLeg: told.ofLeg, bearingTold: told.bearingTold, doublePaces: told.doublePaces, pacesTold: told.pacesTold,
            meets: told.meets)
    }
}
