import ChartList

/// Beside the line: which line, what is seen, the fix, its check, the kept place.
extension FieldModel {
    /// The line that one stands on: as chosen, else that of the fix, else the only one of the sheet.
    public var line: String? {
        let lines = snapshot?.sheet?.lines ?? []
        return draft.line ?? snapshot?.fix?.line ?? (lines.count == 1 ? lines[0].name : nil)
    }

    public func choose(line: String) {
        edit { ($0.line, $0.choosing) = (line, false) }
    }

    /// The places of the fix in words, likeliest first: what a screen reader is told of each on the chart.
    public var placesTold: [String] {
        let targets = chart(.fix, width: 412, height: 330, letters: 14)?.targets.filter { $0.kind == .stretch } ?? []
        let places = snapshot?.fix?.places ?? []
        return places.indices.map { index in
            targets.first { $0.number == index }?.spoken ?? places[index].reference
        }
    }

    /// Weighs the typed bearing in, beside all that the last fix was taken from; a second reading of a landmark takes
    /// the place of its first.
    func weighIn(_ landmark: String) -> Bool {
        let earlier = draft.anew ? [] : snapshot?.fix?.sightings.filter { $0.landmark != landmark } ?? []
        let sightings = earlier.map { Record.Sighting($0.landmark, Figures.exact($0.bearingDegMag, .mag)) }
        let all = sightings + [Record.Sighting(landmark, typedBearing)]
        return act(.fix(all, on: line, with: draft.instrument)) {
            ($0.pad, $0.digits, $0.anew) = (nil, "", false)
        }
    }

    /// Holds the typed grid reference against the fix.
    @discardableResult
    public func checkPlace() -> Bool {
        act(.check(draft.place)) { $0.place = "" }
    }

    /// Here stands the car: keeps a place of the fix, counted from 1.
    @discardableResult
    public func keep(stretch: Int? = nil) -> Bool {
        act(.keep(stretch: stretch)) { $0 = Draft(line: $0.line, instrument: $0.instrument) }
    }

    /// Takes a sheet in, as it is typed or as it stands in a file.
    @discardableResult
    public func carry(_ text: String, as format: Record.SheetFormat) -> Bool {
        act(.carry(text, as: format)) { $0 = Draft() }
    }
}

extension Draft {
    init(line: String?, instrument: Record.Instrument?) {
        (self.line, self.instrument) = (line, instrument)
    }
}
