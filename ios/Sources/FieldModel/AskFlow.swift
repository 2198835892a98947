/// More sightings: which kind, then one question at a time; the last answer weighs it in.
extension FieldModel {
    /// What the pad asks now, beside bearings to landmarks.
    public var question: Draft.Question? {
        if case .asks(let asking) = draft.pad { asking.question } else { nil }
    }

    /// The kinds that say something to one who stands here.
    public var kinds: [Draft.Kind] {
        Draft.Kind.allCases.filter { stand != .open || !$0.countsAlongLine }
    }

    /// Answers the question. A refusal of the whole leaves the last question open, with what was typed.
    @discardableResult
    public func answer(_ text: String) -> Bool {
        guard case .asks(var asking) = draft.pad, asking.question != nil else { return false }
        asking.answers.append(text)
        if let sighting = asking.sighting { return weighIn(sighting) }
        edit { ($0.pad, $0.typed.digits, $0.part) = (.asks(asking), "", "") }
        return true
    }

    /// Takes a landmark among those that it may be, or leaves it out again.
    public func touch(_ landmark: String) {
        guard case .asks(var asking) = draft.pad else { return }
        let isTouched = asking.several.contains(landmark)
        if isTouched { asking.several.removeAll { $0 == landmark } } else { asking.several.append(landmark) }
        edit { $0.pad = .asks(asking) }
    }

    /// To the question before, else to the list of kinds.
    func askBefore(_ asking: Draft.Asking) {
        var asking = asking
        let isFirst = asking.answers.popLast() == nil
        edit { ($0.pad, $0.typed.digits) = (isFirst ? .more : .asks(asking), "") }
    }

    /// The answer that stands typed.
    func finishAsking() -> Bool {
        guard let question else { return false }
        return answer(question.asksBearing ? draft.typed.text : draft.typed.digits)
    }

    /// Begins what the core would take next.
    public func begin(_ next: NextSight) {
        openPad(next.isLineRun ? .asks(.init(.lineRun)) : .sight(next.landmark))
    }

    /// The known points of the line that one stands on; where something was counted from one, those of its line.
    public var knownPoints: [KnownPoint] {
        guard case .asks(let asking) = draft.pad else { return [] }
        var seen = Set(asking.answers)
        let on = knownHere
        let from = on.filter { seen.contains($0.name) }.map(\.line)
        return on.filter { (from.isEmpty || from.contains($0.line)) && seen.insert($0.name).inserted }
    }

    /// Where an altimeter may have been set: at the known points, and the landmarks.
    public var settings: [String] {
        let points = (snapshot?.sheet?.knownPoints ?? []).map(\.name)
        return (points + listed.sights.map(\.landmark)).reduce(into: []) { names, name in
            if !names.contains(name) { names.append(name) }
        }
    }

    public var isSureOfLine: Bool { if case .line = stand { true } else { false } }

    private var knownHere: [KnownPoint] {
        let all = snapshot?.sheet?.knownPoints ?? []
        return switch stand {
        case .line(let line): all.filter { $0.line == line }
        case .oneOf(let lines): all.filter { lines.contains($0.line) }
        case .open, nil: all
        }
    }
}
