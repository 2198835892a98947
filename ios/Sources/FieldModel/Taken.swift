extension Draft {
    /// What a fix was taken from, as it was typed. It is known again by what the core told of the fix, so that it is there
    /// after an undo too.
    public struct Taken: Codable, Equatable, Sendable {
        let sightings: [Record.Sighting]
        /// None until the fix is taken.
        var print: String?
    }

    /// An independent place that was held against the fix.
    public struct Checked: Codable, Equatable, Sendable {
        let place: String
        let spreadM: Double?
        /// What the core said of it: another check is known by that.
        var told: String?
    }
}

extension Snapshot {
    /// By what its fix is known again.
    var print: String? {
        if let fix {
            return Self.print([fix.line] + fix.accounts.map(\.told) + fix.sightings.map(\.bearingTold))
        }
        return openFix.map { Self.print($0.places.map(\.reference) + $0.sightings.map(\.told)) }
    }

    /// How many sightings its fix holds.
    var sightingsHeld: Int { fix?.accounts.count ?? openFix?.sightings.count ?? 0 }

    /// What can be read back of the bearings of the fix when it is not known how they were typed.
    var bearingsHeld: [Record.Sighting] {
        let ofLine = (fix?.sightings ?? []).map { Record.Sighting($0.landmark, "\($0.bearingDegMag) mag") }
        let open = (openFix?.sightings ?? []).filter { $0.what == "bearing" }
        return ofLine + open.compactMap { one in one.read.map { Record.Sighting(one.of, "\($0) grid") } }
    }

    /// FNV-1a of 64 bits.
    private static func print(_ told: [String]) -> String {
        let start: UInt64 = 14_695_981_039_346_656_037
        let hash = told.joined(separator: "\n").utf8.reduce(start) { ($0 ^ UInt64($1)) &* 1_099_511_628_211 }
        return String(hash, radix: 16)
    }
}

/// A sighting that the fix holds, and what became of it.
public struct Held: Equatable, Sendable {
    /// From 0.
    public let number: Int
    public let sighting: Record.Sighting
    /// How it fits; nothing of what says nothing there.
    public let verdict: Verdict?
    /// Of a bearing: how the core tells it.
    public let bearingTold: String?
    /// What it gives to the fix, in the core's words.
    public let told: String
    /// What was sighted, likeliest first, when it may be one of several.
    public let identity: [Share]
}

extension FieldModel {
    /// Whether a fix was taken, on a line or in the open.
    public var hasFix: Bool { snapshot?.fix != nil || snapshot?.openFix != nil }

    /// What is to be read again: the first landmark of which the reading does not fit, alone or of a running fix, else the
    /// bearing along the line.
    public enum Again: Equatable, Sendable {
        case landmark(String)
        case running(String)
        case line
    }

    public var again: Again? {
        let misfits = held.filter { $0.verdict == .misfit }.map(\.sighting)
        for misfit in misfits {
            if let landmark = misfit.read { return .landmark(landmark) }
            if let landmark = misfit.run { return .running(landmark) }
        }
        return misfits.contains(where: \.isLineRun) ? .line : nil
    }

    /// Whether a landmark was told to be in sight, or not; nothing when that was not told.
    public func looked(_ landmark: String) -> Bool? {
        sightings.last { $0.looked == landmark }.map { $0 == .seen(landmark) }
    }

    /// What the last fix was taken from, as it was typed; where that is not known any more, its bearings as the core has them.
    public var sightings: [Record.Sighting] {
        guard let snapshot, let print = snapshot.print else { return [] }
        let known = draft.taken.last { $0.print == print }
        // Taken, and killed before its draft.
        let pending = draft.taken.last { $0.print == nil && $0.sightings.count == snapshot.sightingsHeld }
        return (known ?? pending)?.sightings ?? snapshot.bearingsHeld
    }

    /// The same with what became of each.
    public var held: [Held] {
        guard let snapshot else { return [] }
        var bearings = (snapshot.fix?.sightings ?? [])[...]
        return sightings.enumerated().map { number, sighting in
            // The second bearing of a running fix is told among the bearings.
            let listed = sighting.isBearing || sighting.run != nil ? bearings.popFirst() : nil
            let bearing = sighting.isBearing ? listed : nil
            let account = snapshot.fix?.accounts.dropFirst(number).first
            let open = snapshot.openFix?.sightings.dropFirst(number).first
            return Held(
                number: number, sighting: sighting, verdict: bearing?.verdict ?? account?.verdict ?? open?.verdict,
                bearingTold: bearing?.bearingTold, told: account?.told ?? open?.told ?? "",
                identity: account?.identity ?? [])
        }
    }
}
