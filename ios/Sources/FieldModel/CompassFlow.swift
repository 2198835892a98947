/// Checking one's compass: what it says to a point, then the bearing that the map has for it.
extension FieldModel {
    /// Notes what the compass says; it counts from magnetic north. The known bearing is asked next, from the map's.
    func noteRead() -> Bool {
        guard mention(.reading(draft.typed.text)) else { return false }
        edit { draft in
            draft.trials.append(.init(read: draft.typed))
            (draft.pad, draft.typed.digits, draft.typed.north) = (.compassKnown, "", .grid)
        }
        return true
    }

    /// Notes the known bearing, and what all readings together say of the compass.
    func noteKnown() -> Bool {
        var trials = draft.trials
        guard let last = trials.indices.last else { return false }
        trials[last].known = draft.typed
        return act(check(trials, isKept: false)) {
            ($0.trials, $0.pad, $0.typed.digits, $0.typed.north) = (trials, nil, "", .mag)
        }
    }

    /// From now on the error found is taken off what is read with this instrument.
    @discardableResult
    public func keepCompass() -> Bool {
        act(check(draft.trials, isKept: true)) { $0.trials = [] }
    }

    private func check(_ trials: [Draft.Trial], isKept: Bool) -> Record {
        let known = trials.compactMap { trial in trial.known.map { Record.Trial(trial.read.text, $0.text) } }
        return .compass(known, of: draft.instrument, isKept: isKept)
    }
}
