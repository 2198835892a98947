/// The big pad: its keys, and what is done with the figures.
extension FieldModel {
    public enum Key: Hashable, Sendable {
        case digit(Int)
        case last, clear, north, unit
    }

    /// Opens the pad; what was typed for something else is gone, and bearings count from magnetic north.
    public func openPad(_ pad: Draft.Pad) {
        edit { ($0.pad, $0.typed.digits, $0.typed.north, $0.open, $0.part) = (pad, "", .mag, nil, "") }
    }

    /// A reading of the compass without its known bearing is worth nothing.
    public func shutPad() {
        if case .asks(let asking) = draft.pad { return askBefore(asking) }
        if draft.pad == .hand || draft.pad == .adds { return stopTyping() }
        edit { draft in
            if draft.pad == .compassKnown { draft.typed.north = .mag }
            draft.trials.removeAll { $0.known == nil }
            (draft.pad, draft.typed.digits) = (nil, "")
        }
    }

    public func press(_ key: Key) {
        let most = asksBearing ? draft.typed.unit.figures : question == nil ? Self.mostPaces : Self.mostFigures
        edit { draft in
            switch key {
            case .digit(let digit) where draft.typed.digits.count < most: draft.typed.digits += "\(digit)"
            case .digit: break
            case .last: draft.typed.digits = String(draft.typed.digits.dropLast())
            case .clear: draft.typed.digits = ""
            case .north: draft.typed.north = draft.typed.north.other
            // Figures of the other unit mean another bearing.
            case .unit: (draft.typed.unit, draft.typed.digits) = (draft.typed.unit.other, "")
            }
        }
    }

    /// Whether the pad is open for a bearing, not for a count.
    public var asksBearing: Bool {
        switch draft.pad {
        case .sight, .walk, .compassRead, .compassKnown: true
        case .asks(let asking): asking.question?.asksBearing ?? false
        case .detour, .met, .pace, .more, .hand, .parts, .adds, nil: false
        }
    }

    /// Takes the phone's heading as what is typed. All that the fix holds counts as read with the phone, until that is set back.
    public func take(_ heading: Heading) {
        edit { draft in
            if draft.instrument != .phone { draft.own = draft.instrument }
            (draft.typed, draft.instrument) = (heading.bearing, .phone)
        }
    }

    /// What the phone said is not what the walker's compass says.
    public func readWithOwn() {
        edit { ($0.instrument, $0.typed.digits) = ($0.own, "") }
    }

    /// Does what the pad was opened for. A refusal leaves it open, with what was typed.
    @discardableResult
    public func finishPad() -> Bool {
        switch draft.pad {
        case .sight(let landmark): weighIn(.init(landmark, draft.typed.text))
        case .asks: finishAsking()
        case .hand, .adds: goOnTyping()
        case .walk: walk()
        case .pace: act(.pace(Double(draft.typed.digits) ?? 0)) { ($0.pad, $0.typed.digits) = (nil, "") }
        case .compassRead: noteRead()
        case .compassKnown: noteKnown()
        case .detour, .met: shut()
        case .more, .parts, nil: false
        }
    }

    /// So far out to this side; nothing typed is no detour.
    public func goRound(_ side: Record.Side) {
        let out = Int(draft.typed.digits) ?? 0
        edit { ($0.leg.side, $0.leg.out, $0.pad, $0.typed.digits) = (out > 0 ? side : nil, out, nil, "") }
    }

    /// The core reads a bearing before a leg is counted on it.
    private func walk() -> Bool {
        guard mention(.reading(draft.typed.text)) else { return false }
        edit { ($0.leg.bearing, $0.pad, $0.typed.digits) = ($0.typed, nil, "") }
        return true
    }

    private func shut() -> Bool {
        shutPad()
        return true
    }

    private static let mostPaces = 4
    private static let mostFigures = 6
}
