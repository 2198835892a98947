import Foundation

/// What is half done: typed, counted, chosen. The core keeps it as text, so that a kill loses nothing.
public struct Draft: Codable, Equatable, Sendable {
    /// The line that one stands on, once it was chosen.
    public var line: String?
    /// Whether another line is being chosen.
    public var choosing = false
    public var instrument: Record.Instrument?
    /// What the pad is open for, and what is typed on it.
    public var pad: Pad?
    public var typed = Bearing()
    /// What was typed for the fixes of this trip, newest last.
    public var readings: [Reading] = []
    /// Whether the next bearing begins another fix instead of being weighed in.
    public var anew = false
    /// A grid reference held against the fix.
    public var place = ""
    /// Readings of a compass that is being checked.
    public var trials: [Trial] = []
    /// A sheet as it is typed.
    public var sheet = ""
    /// The leg that is being walked.
    public var leg = HalfLeg()
    /// The leg that was closed last, for its undoing.
    public var closed: HalfLeg?
    /// Which answer stands open.
    public var open: Answer?
    /// What was said last.
    public var told: [String] = []
    /// What was said before the answer that stands open.
    public var before: [String] = []
    /// The state that all this belongs to.
    var mark: Mark?

    public init() {}

    /// What goes on when the next part of the job begins.
    init(after earlier: Draft) {
        (line, instrument, readings) = (earlier.line, earlier.instrument, earlier.readings)
        (typed.north, typed.unit) = (earlier.typed.north, earlier.typed.unit)
    }

    /// What a book kept. When the book has gone on since (a kill between an entry and its draft), only what holds for
    /// every entry is left, so that nothing is logged twice.
    init(kept snapshot: Snapshot?) {
        guard let text = snapshot?.draft, let draft = try? JSONDecoder().decode(Draft.self, from: Data(text.utf8))
        else { return }
        if draft.mark == Mark(snapshot) {
            self = draft
        } else if draft.mark?.sheet == snapshot?.sheet?.name {
            self = Draft(after: draft)
        }
    }

    var json: String {
        let encoder = JSONEncoder()
        encoder.outputFormatting = [.sortedKeys, .withoutEscapingSlashes]
        return (try? encoder.encode(self)).map { String(decoding: $0, as: UTF8.self) } ?? ""
    }
}
