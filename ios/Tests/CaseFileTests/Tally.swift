import Support
import Testing

/// Counts what held and tells what did not.
struct Tally {
    let topic: String
    private(set) var held = 0
    private(set) var failed = 0

    init(topic: String) { self.topic = topic }

    mutating func check(_ what: String, _ holds: Bool, found: JSONText?, wanted: JSONText) {
        if holds {
            held += 1
        } else {
            failed += 1
            Issue.record("\(topic) \(what): \(found?.text ?? "nothing") instead of \(wanted)")
        }
    }

    /// The line that `ios/run` adds up.
    func tell() { print("case file \(topic): \(held) held, \(failed) failed") }
}
