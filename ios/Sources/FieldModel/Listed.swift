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

    private func named(_ left: UInt32, _ question: (String) -> Record) -> (said: [String], answer: Answer?)? {
        left > 0 && !draft.part.isEmpty ? consult(question(draft.part)) : nil
    }
}
