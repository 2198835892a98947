internal import GatepostBridge

/// On foot, on the way back and at its end.
extension FieldModel {
    /// Counts double paces; never below nothing.
    public func count(_ more: Int) {
        edit { $0.leg.count = max(0, $0.leg.count + more) }
    }

    /// Ends the leg here and asks for the next bearing. Without a pace on it only its bearing is set anew.
    @discardableResult
    public func turn() -> Bool {
        let leg = draft.leg
        guard leg.count > 0 else {
            openPad(.walk)
            return true
        }
        guard act(.leg(leg), { $0.pass() }) else { return false }
        openPad(.walk)
        return true
    }

    /// Asks where one is, or for the way back; the answer stands open until the walk goes on.
    @discardableResult
    public func ask(_ answer: Draft.Answer) -> Bool {
        guard answer == .here || endsHalfLeg() else { return false }
        let before = draft.open == nil ? said : draft.before
        return act(answer == .here ? .here : .back) { ($0.open, $0.pad, $0.before) = (answer, nil, before) }
    }

    /// The leg that is half walked ends where one may turn back; who walks on does so on the same bearing.
    private func endsHalfLeg() -> Bool {
        let leg = draft.leg
        guard snapshot?.stage == .onFoot, leg.bearing != nil, leg.count > 0 else { return true }
        return act(.leg(leg)) { draft in
            draft.pass()
            draft.leg.bearing = leg.bearing
        }
    }

    /// Shuts the answer; what was said before it, such as the next leg of the way back, is there again.
    public func walkOn() {
        edit { ($0.open, $0.told, $0.before) = (nil, $0.before, []) }
    }

    @discardableResult
    public func turnRound() -> Bool {
        act(.turnRound) { draft in
            draft.pass()
            let past = draft.past
            draft = Draft(after: draft)
            draft.past = past
        }
    }

    /// The end of this leg of the way back is reached.
    @discardableResult
    public func reached() -> Bool {
        act(.reached) { draft in
            draft.pass()
            (draft.open, draft.before) = (nil, [])
        }
    }

    @discardableResult
    public func close() -> Bool {
        act(.close) { draft in
            draft.pass()
            let past = draft.past
            draft = Draft()
            draft.past = past
        }
    }

    /// Another trip on the sheet of the last one.
    @discardableResult
    public func carryAgain() -> Bool {
        act(.sheetAgain) { $0 = Draft() }
    }

    /// Strikes the last entry. A leg that was closed by mistake, out or back, is walked on with its count, and what was
    /// counted since is told to be dropped; one stands where the fix before has it.
    @discardableResult
    public func strike() -> Bool {
        let (before, print, since) = (snapshot, snapshot?.print, draft.leg.count)
        guard undo() else { return false }
        edit { draft in
            draft.account = []
            if hasFix, snapshot?.print != print { (draft.line, draft.lines, draft.isOpen) = (nil, [], false) }
            (draft.pad, draft.typed.digits, draft.open) = (nil, "", nil)
            if isBackOnTheWalk(since: before), let leg = draft.past.popLast() { draft.leg = leg }
        }
        if since > 0, isBackOnTheWalk(since: before), draft.leg.count != since { notice = .pacesDropped(since) }
        return true
    }

    /// Whether the entry that was struck is one of the walk: a leg, out or back, the turning round, the close.
    private func isBackOnTheWalk(since before: Snapshot?) -> Bool {
        guard let before, let snapshot else { return false }
        if before.stage != snapshot.stage, snapshot.stage == .onFoot || snapshot.stage == .wayBack { return true }
        return snapshot.legs.count < before.legs.count || snapshot.walked < before.walked
    }

    /// Whether paces are counted by touch, which a dark screen does not take.
    public var isCounting: Bool {
        snapshot?.stage == .onFoot && draft.leg.bearing != nil || backLeg != nil && snapshot?.stage == .wayBack
    }

    /// The leg of the way back that is walked now; none at the line.
    public var backLeg: BackLeg? {
        snapshot?.wayBack.flatMap { $0.legs.dropFirst(Int($0.walked)).first }
    }

    /// What is left of it after what was counted; in the core's words.
    public var toGo: String? {
        backLeg.map { pacesToGo(ofLeg: $0.doublePaces, counted: UInt32(clamping: draft.leg.count)) }
    }

    /// The way back before it is begun, asked anew for each look; or why there is none.
    public var wayBackNow: (way: WayBack?, refused: [String]) {
        let (said, reply) = asked(.back)
        let way = reply?.snapshot.wayBack.map(WayBack.init(told:))
        return (way, way == nil ? said : [])
    }

    /// What was met on the way out and comes again, in the order in which it comes.
    public var comes: [String] {
        guard let way = snapshot?.wayBack else { return [] }
        return way.legs.dropFirst(Int(way.walked)).compactMap(\.meets)
    }
}

extension Snapshot {
    /// How many legs of the way back are behind.
    fileprivate var walked: UInt32 { stage == .wayBack ? wayBack?.walked ?? 0 : 0 }
}

extension Record {
    static func leg(_ leg: Draft.HalfLeg) -> Record {
        let detour = leg.side.map { Detour($0, doublePaces: Double(leg.out)) }
        let met = leg.met.isEmpty ? nil : leg.met
        return .leg(leg.bearing?.text ?? "", doublePaces: Double(leg.count), detour: detour, met: met)
    }
}
