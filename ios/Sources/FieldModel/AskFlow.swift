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
        edit { ($0.pad, $0.typed.digits, $0.typed.north, $0.part) = (.asks(asking), "", .mag, "") }
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

    /// Where an altimeter may have been set: at any known point, or at a landmark.
    public var settings: (names: [String], left: UInt32, told: [String]) {
        let points = listedPoints
        let names = points.points.map(\.name) + listed.sights.map(\.landmark)
        var seen: Set<String> = []
        return (
            names.filter { seen.insert($0).inserted }, points.left + (snapshot?.sightsLeft ?? 0),
            [points.told, listed.told].compactMap { $0 }
        )
    }

    public var isSureOfLine: Bool { if case .line = stand { true } else { false } }
}
