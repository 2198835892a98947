/// Beside the line: which line, what is seen, the fix, its check, the kept place.
extension FieldModel {
    /// Where one stands: as chosen, else as the fix has it, else on the only line of the sheet.
    public var stand: Record.Stand? {
        if draft.isOpen { return .open }
        if draft.lines.count > 1 { return .oneOf(draft.lines) }
        if let line = draft.line { return .line(line) }
        if let fix = snapshot?.fix {
            return fix.lines.count > 1 ? .oneOf(fix.lines.map(\.name).sorted()) : .line(fix.line)
        }
        if snapshot?.openFix != nil { return .open }
        let lines = snapshot?.sheet?.lines ?? []
        return lines.count == 1 ? .line(lines[0].name) : nil
    }

    public func choose(line: String) {
        choose { ($0.line, $0.lines, $0.isOpen) = (line, [], false) }
    }

    /// On no line: the place is sought in the open.
    public func chooseNoLine() {
        choose { ($0.line, $0.lines, $0.isOpen) = (nil, [], true) }
    }

    /// Not sure which: each line that it may be is touched.
    public func beUnsure() {
        edit { $0.unsure = [] }
    }

    /// Takes a line among those that it may be, or leaves it out again.
    public func touch(line: String) {
        var lines = draft.unsure ?? []
        if lines.contains(line) { lines.removeAll { $0 == line } } else { lines.append(line) }
        edit { $0.unsure = lines }
    }

    /// Takes the lines that were touched; one of them is sure. None is no choice.
    public func chooseTouched() {
        guard let lines = draft.unsure, !lines.isEmpty else { return shutChoice() }
        choose { draft in
            (draft.line, draft.lines, draft.isOpen) = (lines[0], lines.count > 1 ? lines : [], false)
        }
    }

    /// Leaves the lines as they were.
    public func shutChoice() {
        edit { ($0.choosing, $0.unsure, $0.part) = (false, nil, "") }
    }

    /// A fix that was taken elsewhere is taken anew on what was chosen, unless another is begun.
    private func choose(_ change: (inout Draft) -> Void) {
        let (before, held) = (stand, sightings)
        edit { draft in
            change(&draft)
            (draft.choosing, draft.unsure, draft.part) = (false, nil, "")
        }
        if before != stand, !held.isEmpty, !draft.anew { take(held) }
    }

    /// Weighs a sighting in beside all that the last fix was taken from. A reading that does not fit gives way to the
    /// same landmark read again, a word on what is in sight to a later one; everything else is kept beside the new one.
    @discardableResult
    public func weighIn(_ sighting: Record.Sighting) -> Bool {
        guard isBeside else { return false }
        let earlier = draft.anew ? [] : held.filter { !givesWay($0, to: sighting) }.map(\.sighting)
        return take(earlier + [sighting])
    }

    private func givesWay(_ earlier: Held, to sighting: Record.Sighting) -> Bool {
        if let looked = sighting.looked { return earlier.sighting.looked == looked }
        guard earlier.verdict == .misfit else { return false }
        if sighting.isLineRun { return earlier.sighting.isLineRun }
        if let landmark = sighting.run { return earlier.sighting.run == landmark }
        return sighting.read != nil && earlier.sighting.read == sighting.read
    }

    /// Takes a sighting back: the fix is taken without it. The only one is struck by an undo.
    @discardableResult
    public func takeBack(_ number: Int) -> Bool {
        var left = sightings
        guard isBeside, left.count > 1, left.indices.contains(number) else { return false }
        left.remove(at: number)
        return take(left)
    }

    /// What is sent is in the draft before it goes, so that a kill between the two loses no word of it.
    @discardableResult
    private func take(_ sightings: [Record.Sighting]) -> Bool {
        edit { draft in
            draft.taken.removeAll { $0.print == nil }
            draft.taken.append(.init(sightings: sightings))
        }
        return act(.fix(sightings, on: stand, with: draft.instrument)) { draft in
            (draft.pad, draft.typed.digits, draft.anew, draft.part) = (nil, "", false, "")
            draft.account = said
            draft.taken[draft.taken.count - 1].print = snapshot?.print
        }
    }

    /// Holds the typed grid reference against the fix.
    @discardableResult
    public func checkPlace() -> Bool {
        let place = draft.place
        return act(.check(place)) { draft in
            (draft.place, draft.checked) = ("", .init(place: place, spreadM: nil, told: snapshot?.check?.told))
        }
    }

    /// Holds the phone's place against the fix, with the spread that it claims.
    @discardableResult
    public func check(_ phone: PlaceTold) -> Bool {
        act(.check(phone.place, spreadM: phone.spreadM)) {
            $0.checked = .init(place: phone.place, spreadM: phone.spreadM, told: snapshot?.check?.told)
        }
    }

    /// The place that was held against the fix, as a sighting; none where the check that is shown is another one.
    public var checked: Record.Sighting? {
        guard let check = snapshot?.check, let checked = draft.checked, checked.told == check.told else { return nil }
        return .witness(checked.place, spreadM: checked.spreadM)
    }

    /// Whether the trip is beside the line; from elsewhere the fix is looked at and stays as it is.
    public var isBeside: Bool { snapshot?.stage == .besideTheLine }

    /// Here stands the car: keeps a place of the fix, counted from 1.
    @discardableResult
    public func keep(stretch: UInt32? = nil) -> Bool {
        isBeside && act(.keep(stretch: stretch)) { $0 = Draft(after: $0) }
    }

    /// Takes a sheet in, as it is typed or as it stands in a file.
    @discardableResult
    public func carry(_ text: String, as format: Record.SheetFormat) -> Bool {
        act(.carry(text, as: format)) { $0 = Draft() }
    }
}
