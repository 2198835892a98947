internal import GatepostBridge

/// What is listed of a large sheet: the first, or those with the words typed in their names.
extension FieldModel {
    /// The landmarks that are listed, and what the core says of a name that was looked up.
    public var listed: (sights: [Sight], told: String?) {
        guard let (said, answer) = named(snapshot?.sightsLeft ?? 0, { .sights(named: $0) }) else {
            return (snapshot?.sights ?? [], nil)
        }
        guard case .sights(let sights, _) = answer else { return ([], said.first) }
        return (sights.map(Sight.init(told:)), said.first)
    }

    /// The lines that are listed, likewise.
    public var listedLines: (lines: [Line], told: String?) {
        guard let (said, answer) = named(snapshot?.sheet?.linesLeft ?? 0, { .lines(named: $0) }) else {
            return (snapshot?.sheet?.lines ?? [], nil)
        }
        guard case .lines(let lines, _) = answer else { return ([], said.first) }
        return (lines.map { Line(name: $0.name, kind: $0.kind) }, said.first)
    }

    /// The known points that answer the question, each name once, and how many more there are: of the line that one stands on; where something
    /// was counted from one, the others of its lines; an altimeter may have been set at any.
    public var listedPoints: (points: [KnownPoint], left: UInt32, told: String?) {
        guard case .asks(let asking) = draft.pad else { return ([], 0, nil) }
        let lines = asking.question == .whereSet ? [] : linesStoodOn
        let ask = { [self] (part: String) in points(named: part, of: lines, from: asking.from) }
        let all = ask("")
        guard all.left > 0, !draft.part.isEmpty else { return (all.points, all.left, nil) }
        let found = ask(draft.part)
        return (found.points, all.left, found.told)
    }

    private var linesStoodOn: [String] {
        switch stand {
        case .line(let line): [line]
        case .oneOf(let lines): lines
        case .open, nil: []
        }
    }

    private func points(
        named part: String, of lines: [String], from: String?
    ) -> (points: [KnownPoint], left: UInt32, told: String?) {
        let (said, answer) = consult(.points(named: part, lines: lines, from: from))
        guard case .points(let points, let left) = answer else { return ([], 0, said.first) }
        var seen: Set<String> = []
        let once = points.filter { seen.insert($0.name).inserted }
        return (once.map { KnownPoint(name: $0.name, kind: $0.kind, line: $0.line) }, left, said.first)
    }

    private func named(_ left: UInt32, _ question: (String) -> Record) -> (said: [String], answer: Answer?)? {
        left > 0 && !draft.part.isEmpty ? consult(question(draft.part)) : nil
    }
}
