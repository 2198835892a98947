/// The landmarks that are listed to be sighted: of a large sheet the first, or those with the words typed in their names.
extension FieldModel {
    /// What is listed, and what the core says of a name that was looked up.
    public var listed: (sights: [Sight], told: String?) {
        guard let snapshot, snapshot.sightsLeft > 0, !draft.part.isEmpty else { return (snapshot?.sights ?? [], nil) }
        let (said, answer) = consult(.sights(named: draft.part))
        guard case .sights(let sights, _) = answer else { return ([], said.first) }
        return (sights.map(Sight.init(told:)), said.first)
    }
}
