internal import GatepostBridge

extension Fix {
    init(told: FixView) {
        self.init(
            atUnixMs: told.atUnixMs, line: told.line, field: told.field, whereTold: told.whereTold,
            misfitTold: told.misfitTold, mindedFirst: told.mindedFirst,
            places: told.places.map {
                Place(reference: $0.reference, from: $0.from, towards: $0.towards, told: $0.told)
            },
            sightings: told.sightings.map(Sighting.init(told:)), accounts: told.accounts.map(Account.init(told:)),
            lines: told.lines.map { LineShare(name: $0.name, share: $0.share, told: $0.told) },
            cautions: told.cautions, restTold: told.restTold)
    }
}

extension Account {
    init(told: AccountView) {
        let odds = told.identity.map { Share(landmark: $0.landmark, share: $0.share, told: $0.told) }
        self.init(verdict: told.verdict.map(Verdict.init(told:)), identity: odds, told: told.told)
    }
}

extension OpenFix {
    init(told: OpenFixView) {
        self.init(
            atUnixMs: told.atUnixMs, field: told.field, whereTold: told.whereTold,
            misfitTold: told.misfitTold, mindedFirst: told.mindedFirst, shape: told.shape,
            places: told.places.map { OpenPlace(reference: $0.reference, told: $0.told) },
            sightings: told.sightings.map(OpenSighting.init(told:)), cautions: told.cautions, restTold: told.restTold)
    }
}

extension OpenSighting {
    init(told: OpenSightingView) {
        self.init(
            what: told.what, of: told.of, read: told.read, verdict: told.verdict.map(Verdict.init(told:)),
            told: told.told)
    }
}

extension Check {
    init(told: CheckView) {
        self.init(
            verdict: .init(told: told.verdict), told: told.told, slips: told.slips.map { WitnessSlip(told: $0.told) })
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
        self.init(
            number: told.number, bearingTold: told.bearingTold, pacesTold: told.pacesTold, met: told.met,
            told: told.told)
    }
}

extension WayBack {
    init(told: WayBackView) {
        self.init(
            walked: told.walked, legs: told.legs.map(BackLeg.init(told:)), headTold: told.headTold,
            missTold: told.missTold, cautionTold: told.cautionTold, endTold: told.endTold)
    }
}

extension After {
    init(told: AfterView) {
        self.init(closing: told.closing.map { Closing(offTold: $0.offTold) }, told: told.told)
    }
}

extension BackLeg {
    init(told: BackLegView) {
        self.init(
            ofLeg: told.ofLeg, bearingTold: told.bearingTold, doublePaces: told.doublePaces, pacesTold: told.pacesTold,
            meets: told.meets, told: told.told, goalTold: told.goalTold)
    }
}
