extension Draft {
    /// What is typed of a sheet: a part of the open one, else a new one.
    var atWork: Hand {
        get { pad == .adds ? addition : hand }
        set { if pad == .adds { addition = newValue } else { hand = newValue } }
    }
}

extension Draft.Hand {
    /// Begins a part of the open sheet.
    init(adding part: Adding) {
        self.init()
        adding = part
        step =
            switch part {
            case .landmark: .landmarks
            case .point: .points
            case .line: .line
            }
    }

    /// Whether it is not told yet on which line the known point lies.
    public var lacksLine: Bool { adding == .point && line.isEmpty }

    /// Whether going back leaves the part.
    var isAtItsBeginning: Bool { adding != .line || step == .line }
}

/// The open sheet by its parts: more is added, what is marked is struck; no undo reaches the sheet.
extension FieldModel {
    /// Begins a part; one of the same kind that stands half typed goes on.
    public func begin(_ part: Draft.Hand.Adding) {
        edit { draft in
            if draft.addition.adding != part { draft.addition = .init(adding: part) }
            (draft.pad, draft.part) = (.adds, "")
        }
    }

    /// The line on which the known point lies that is being added.
    public func place(on line: String) {
        edit { ($0.addition.line, $0.part) = (line, "") }
    }

    /// Marks a part that is to be struck, or takes the mark off.
    public func mark(_ name: String) {
        edit { draft in
            if draft.struck.contains(name) {
                draft.struck.removeAll { $0 == name }
            } else {
                draft.struck.append(name)
            }
        }
    }

    /// Strikes what is marked.
    @discardableResult
    public func strikeMarked() -> Bool {
        act(.strike(draft.struck)) { $0.struck = [] }
    }

    /// Adds what was typed; a refusal keeps it.
    func add() -> Bool {
        act(.sheet(draft.addition)) { ($0.addition, $0.pad) = (.init(), .parts) }
    }

    /// What may be struck, and how much of the sheet is not listed: what is marked, its lines, its landmarks.
    public var parts: (names: [String], left: UInt32, told: [String]) {
        let names = listedLines.lines.map(\.name) + listed.sights.map(\.landmark)
        let left = max(snapshot?.sheet?.linesLeft ?? 0, snapshot?.sightsLeft ?? 0)
        let told = [listedLines.told, listed.told].compactMap { $0 }
        return (draft.struck.filter { !names.contains($0) } + names, left, told)
    }
}
