import Foundation

/// What is half done: typed, counted, chosen. The core keeps it as text, so that a kill loses nothing.
public struct Draft: Codable, Equatable, Sendable {
    /// The line that one stands on, once it was chosen; all that it may be, when it is not sure which; or none at all.
    public var line: String?
    public var lines: [String] = []
    public var isOpen = false
    /// Whether another line is being chosen.
    public var choosing = false
    /// The lines that were touched so far, while several are chosen.
    public var unsure: [String]?
    public var instrument: Record.Instrument?
    /// What was read with before the phone's heading was taken.
    var own: Record.Instrument?
    /// What the pad is open for, and what is typed on it.
    public var pad: Pad?
    public var typed = Bearing()
    /// What the fixes of this trip were taken from, newest last.
    var taken: [Taken] = []
    /// Whether the next bearing begins another fix instead of being weighed in.
    public var anew = false
    /// A part of a landmark's name, typed to find it on a large sheet.
    public var part = ""
    /// A grid reference to be held against the fix, and the place that was held against it last.
    public var place = ""
    var checked: Checked?
    /// Readings of a compass that is being checked.
    public var trials: [Trial] = []
    /// A sheet as it is typed: as one text, or from the paper map.
    public var sheet = ""
    public var hand = Hand()
    /// A part of the open sheet as it is typed, and what is to be struck from it.
    public var addition = Hand()
    public var struck: [String] = []
    /// The leg that is being walked.
    public var leg = HalfLeg()
    /// The leg as it stood before each of the last entries of the walk, newest last, for their undoing.
    var past: [HalfLeg] = []
    /// Which answer stands open.
    public var open: Answer?
    /// What was said last.
    public var told: [String] = []
    /// What was said of the fix.
    public var account: [String] = []
    /// What was said before the answer that stands open.
    public var before: [String] = []
    /// The state that all this belongs to.
    var mark: Mark?

    public init() {}

    /// What goes on when the next part of the job begins.
    init(after earlier: Draft) {
        (line, lines, isOpen) = (earlier.line, earlier.lines, earlier.isOpen)
        (instrument, own, taken) = (earlier.instrument, earlier.own, earlier.taken)
        typed.unit = earlier.typed.unit
    }

    /// Begins what comes after an entry of the walk. The leg as it stands is kept for the undoing of that entry.
    mutating func pass() {
        past = (past + [leg]).suffix(Self.mostPast)
        leg = .init()
    }

    private static let mostPast = 20

    /// What a book kept. When the book has gone on since (a kill between an entry and its draft), only what holds for
    /// every entry is left, so that nothing is logged twice.
    init(kept snapshot: Snapshot?) {
        guard let text = snapshot?.draft, let draft = Draft(json: text) else { return }
        if draft.mark == Mark(snapshot) {
            self = draft
        } else if draft.mark?.sheet == snapshot?.sheet?.name {
            self = Draft(after: draft)
        }
    }

    /// A draft of an earlier release lacks what is new since: that is as in an empty one.
    private init?(json: String) {
        let members = { (text: String) in try? JSONSerialization.jsonObject(with: Data(text.utf8)) as? [String: Any] }
        guard let kept = members(json), let empty = members(Draft().json) else { return nil }
        let whole = Self.merged(empty, kept)
        guard let bytes = try? JSONSerialization.data(withJSONObject: whole),
            let draft = try? JSONDecoder().decode(Draft.self, from: bytes)
        else { return nil }
        self = draft
    }

    private static func merged(_ empty: [String: Any], _ kept: [String: Any]) -> [String: Any] {
        empty.merging(kept) { new, old in
            guard let new = new as? [String: Any], let part = old as? [String: Any] else { return old }
            return merged(new, part)
        }
    }

    var json: String {
        let encoder = JSONEncoder()
        encoder.outputFormatting = [.sortedKeys, .withoutEscapingSlashes]
        return (try? encoder.encode(self)).map { String(decoding: $0, as: UTF8.self) } ?? ""
    }
}
