/// On foot, on the way back and at its end.
extension FieldModel {
    /// Counts double paces; never below nothing.
    public func count(_ paces: Int) {
        edit { $0.leg.count = max(0, $0.leg.count + paces) }
    }

    /// Ends the leg here and asks for the next bearing.
    @discardableResult
    public func turn() -> Bool {
        let leg = draft.leg
        return act(Record.leg(leg)) { ($0.closed, $0.leg, $0.pad, $0.digits) = (leg, .init(), .walk, "") }
    }

    /// Asks where one is, or for the way back; the answer stands open until the walk goes on.
    @discardableResult
    public func ask(_ answer: Draft.Answer) -> Bool {
        let before = draft.open == nil ? said : draft.before
        return act(answer == .here ? .here : .back) { ($0.open, $0.pad, $0.before) = (answer, nil, before) }
    }

    /// Shuts the answer; what was said before it, such as the next leg of the way back, is there again.
    public func walkOn() {
        edit { ($0.open, $0.told, $0.before) = (nil, $0.before, []) }
    }

    @discardableResult
    public func turnRound() -> Bool {
        act(.turnRound) { $0 = Draft(line: $0.line, instrument: $0.instrument) }
    }

    /// The end of this leg of the way back is reached.
    @discardableResult
    public func reached() -> Bool {
        act(.reached) { ($0.leg, $0.open, $0.before) = (.init(), nil, []) }
    }

    @discardableResult
    public func close() -> Bool {
        act(.close) { $0 = Draft() }
    }

    /// Strikes the last entry. A leg that was closed by mistake is walked on.
    @discardableResult
    public func strike() -> Bool {
        let legs = snapshot?.legs.count ?? 0
        guard act(.undo) else { return false }
        edit { draft in
            (draft.pad, draft.digits, draft.open) = (nil, "", nil)
            guard let closed = draft.closed, (snapshot?.legs.count ?? 0) < legs else { return }
            (draft.leg, draft.closed) = (closed, nil)
        }
        return true
    }

    /// The leg of the way back that is walked now; none at the line.
    public var backLeg: BackLeg? {
        guard let way = snapshot?.wayBack, way.legs.indices.contains(way.walked) else { return nil }
        return way.legs[way.walked]
    }

    /// What was met on the way out and comes again, in the order in which it comes.
    public var comes: [String] {
        guard let way = snapshot?.wayBack else { return [] }
        return way.legs.dropFirst(way.walked).compactMap(\.meets)
    }
}

extension Record {
    static func leg(_ leg: Draft.HalfLeg) -> Record {
        let detour = leg.side.map { Detour($0, paces: Double(leg.out)) }
        let met = leg.met.isEmpty ? nil : leg.met
        return .leg(leg.bearing ?? "", .paces(Double(leg.count), .double), detour: detour, met: met)
    }
}
