internal import GatepostBridge

extension Fix {
    init(told: FixView) {
        self.init(
            atUnixMs: told.atUnixMs, line: told.line, places: told.places.map(Place.init(told:)),
            elsewhereShare: told.elsewhereShare, sightings: told.sightings.map(Sighting.init(told:)))
    }
}

extension Place {
    init(told: PlaceView) {
        self.init(
            share: told.share, reference: told.reference, from: told.from, fromM: told.fromM, towards: told.towards,
            alongM: told.alongM, along95M: told.along95M, across95M: told.across95M, low50M: told.low50M,
            high50M: told.high50M, low95M: told.low95M, high95M: told.high95M)
    }
}

extension Sighting {
    init(told: SightingView) {
        self.init(
            landmark: told.landmark, bearingDegMag: told.bearingDegMag, residualDeg: told.residualDeg)
    }
}

extension Check {
    init(told: CheckView) throws {
        self.init(
            stretch: Int(told.stretch), distanceM: told.distanceM, bearingDegGrid: told.bearingDegGrid,
            verdict: try .init(named: told.verdict))
    }
}

extension Check.Verdict {
    struct Unknown: Error { let verdict: String }

    init(named told: String) throws {
        guard let verdict = Self(rawValue: told) else { throw Unknown(verdict: told) }
        self = verdict
    }
}
