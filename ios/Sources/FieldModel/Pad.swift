/// The big pad: its keys, and what is done with the figures.
extension FieldModel {
    public enum Key: Hashable, Sendable {
        case digit(Int)
        case last, clear, north
    }

    /// Opens the pad; what was typed for something else is gone.
    public func openPad(_ pad: Draft.Pad) {
        edit { ($0.pad, $0.digits, $0.open) = (pad, "", nil) }
    }

    public func shutPad() {
        edit { ($0.pad, $0.digits) = (nil, "") }
    }

    public func press(_ key: Key) {
        edit { draft in
            switch key {
            case .digit(let digit) where draft.digits.count < 4: draft.digits += "\(digit)"
            case .digit: break
            case .last: draft.digits = String(draft.digits.dropLast())
            case .clear: draft.digits = ""
            case .north: draft.north = draft.north == .mag ? .grid : .mag
            }
        }
    }

    /// The bearing on the pad with its north, as the core reads it.
    public var typedBearing: String { "\(draft.digits) \(draft.north.rawValue)" }

    /// Does what the pad was opened for. A refusal leaves it open, with what was typed.
    @discardableResult
    public func finishPad() -> Bool {
        switch draft.pad {
        case .sight(let landmark): weighIn(landmark)
        case .walk: walk(on: typedBearing)
        case .detour(let side): goRound(side)
        case .pace: act(.pace(Double(draft.digits) ?? 0, .double)) { ($0.pad, $0.digits) = (nil, "") }
        case nil: false
        }
    }

    /// The core reads a bearing before a leg is counted on it.
    private func walk(on bearing: String) -> Bool {
        guard reads(bearing) else { return false }
        edit { ($0.leg.bearing, $0.pad, $0.digits) = (bearing, nil, "") }
        return true
    }

    private func goRound(_ side: Record.Side) -> Bool {
        guard let out = Int(draft.digits), out > 0 else {
            return edited { ($0.leg.side, $0.leg.out, $0.pad, $0.digits) = (nil, 0, nil, "") }
        }
        return edited { ($0.leg.side, $0.leg.out, $0.pad, $0.digits) = (side, out, nil, "") }
    }

    private func edited(_ change: (inout Draft) -> Void) -> Bool {
        edit(change)
        return refusal == nil
    }
}
