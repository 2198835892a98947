internal import GatepostBridge

/// From the bridge's records to what the screens show. A field that the core renames no longer builds here.
extension Snapshot {
    init(told: GatepostBridge.Snapshot) {
        self.init(
            stage: .init(told.stage), sheet: told.sheet.map(Sheet.init(told:)),
            pace: .init(told: told.pace.told), compass: told.compass,
            fix: told.fix.map(Fix.init(told:)), openFix: told.openFix.map(OpenFix.init(told:)),
            car: told.car.map { Car(name: $0.name) }, legs: told.legs.map(Leg.init(told:)),
            check: told.check.map(Check.init(told:)),
            wayBack: told.wayBack.map(WayBack.init(told:)),
            after: told.after.map(After.init(told:)),
            sights: told.sights.map(Sight.init(told:)), sightsLeft: told.sightsLeft,
            nextSights: told.nextSights.map { NextSight(what: $0.what, landmark: $0.landmark, told: $0.told) },
            strip: .init(told: told.strip), caution: told.caution, undo: told.undo, draft: told.draft)
    }
}

extension Sheet {
    init(told: SheetView) {
        let lines = told.lines.map { Line(name: $0.name, kind: $0.kind) }
        self.init(
            name: told.name, grid: told.grid, norths: told.norths, ground: told.ground, lines: lines,
            linesLeft: told.linesLeft)
    }
}

extension Strip {
    init(told: StripView) {
        self.init(
            sureLabel: told.sureLabel, sure: told.sure, sureNote: told.sureNote, sureIsOld: told.sureIsOld,
            home: told.home, homeNote: told.homeNote, homeIsOld: told.homeIsOld, light: told.light,
            lightNote: told.lightNote)
    }
}

extension Stage {
    init(_ told: GatepostBridge.Stage) {
        self =
            switch told {
            case .before: .before
            case .besideTheLine: .besideTheLine
            case .onFoot: .onFoot
            case .wayBack: .wayBack
            case .afterwards: .afterwards
            }
    }
}
