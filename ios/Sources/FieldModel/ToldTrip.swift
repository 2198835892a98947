internal import GatepostBridge

/// From the bridge's records to what the screens show. A field that the core renames no longer builds here.
extension Snapshot {
    init(told: GatepostBridge.Snapshot) throws {
        self.init(
            stage: .init(told.stage), sheet: told.sheet.map(Sheet.init(told:)), pace: .init(told: told.pace),
            fix: told.fix.map(Fix.init(told:)), car: told.car.map(Car.init(told:)),
            legs: told.legs.map(Leg.init(told:)), here: told.here.map(Here.init(told:)),
            check: try told.check.map(Check.init(told:)), wayBack: told.wayBack.map(WayBack.init(told:)),
            sights: told.sights.map(Sight.init(told:)), nextSight: told.nextSight.map(NextSight.init(told:)),
            strip: .init(told: told.strip), light: told.light.map(Light.init(told:)), undo: told.undo,
            draft: told.draft)
    }
}

extension Sheet {
    init(told: SheetView) {
        self.init(
            name: told.name, grid: told.grid, lines: told.lines.map(Line.init(told:)), landmarks: told.landmarks)
    }
}

extension Line {
    init(told: LineView) {
        self.init(
            name: told.name, kind: told.kind)
    }
}

extension Pace {
    init(told: PaceView) {
        self.init(
            doublePacesPer100M: told.doublePacesPer100M, spreadPercent: told.spreadPercent)
    }
}

extension Light {
    init(told: LightView) {
        self.init(
            sunsetUnixMs: told.sunsetUnixMs, darkUnixMs: told.darkUnixMs)
    }
}

extension Strip {
    init(told: StripView) {
        self.init(
            sure: told.sure, sureNote: told.sureNote, home: told.home, homeNote: told.homeNote, light: told.light,
            lightNote: told.lightNote)
    }
}

extension Sight {
    init(told: SightView) {
        self.init(
            landmark: told.landmark, kind: told.kind, sighted: told.sighted, told: told.told)
    }
}

extension NextSight {
    init(told: NextSightView) {
        self.init(
            landmark: told.landmark, settles: told.settles, told: told.told)
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
