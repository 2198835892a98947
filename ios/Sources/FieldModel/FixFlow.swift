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

    /// Weighs the typed bearing in beside all that the last fix was taken from. A reading that does not fit gives way
    /// to the same landmark read again; one that fits is kept beside the new one.
    func weighIn(_ landmark: String) -> Bool {
        let taken = draft.anew ? [] : snapshot?.fix?.sightings ?? []
        let earlier = taken.filter { $0.landmark != landmark || $0.verdict != .misfit }
        let all = earlier.map { Record.Sighting($0.landmark, typed($0)) } + [.init(landmark, draft.typed.text)]
        return act(.fix(all, on: line, with: draft.instrument)) {
            ($0.pad, $0.typed.digits, $0.anew) = (nil, "", false)
            $0.readings += readings(of: all)
        }
    }

    /// A reading as it was typed; where that is not known any more, as the core has it.
    private func typed(_ taken: Sighting) -> String {
        let reading = draft.readings.last { $0.landmark == taken.landmark && $0.told == taken.bearingTold }
        return reading?.typed ?? "\(taken.bearingDegMag) \(Bearing.North.mag.rawValue)"
    }

    /// What the core makes of each reading, in the order in which they went in.
    private func readings(of sent: [Record.Sighting]) -> [Draft.Reading] {
        zip(sent, snapshot?.fix?.sightings ?? []).compactMap { sent, taken in
            let reading = Draft.Reading(landmark: sent.landmark, typed: sent.bearing, told: taken.bearingTold)
            return sent.landmark == taken.landmark && !draft.readings.contains(reading) ? reading : nil
        }
    }

    /// Holds the typed grid reference against the fix.
    @discardableResult
    public func checkPlace() -> Bool {
        act(.check(draft.place)) { $0.place = "" }
    }

    /// Here stands the car: keeps a place of the fix, counted from 1.
    @discardableResult
    public func keep(stretch: UInt32? = nil) -> Bool {
        act(.keep(stretch: stretch)) { $0 = Draft(after: $0) }
    }

    /// Holds the phone's place against the fix, with the spread that it claims.
    @discardableResult
    public func check(_ phone: PlaceTold) -> Bool {
        act(.check(phone.place, spreadM: phone.spreadM))
    }

    /// Takes a sheet in, as it is typed or as it stands in a file.
    @discardableResult
    public func carry(_ text: String, as format: Record.SheetFormat) -> Bool {
        act(.carry(text, as: format)) { $0 = Draft() }
    }
}
