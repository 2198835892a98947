internal import GatepostBridge

/// Why a record was not taken. The sentence is for a person and comes from the core.
public struct Refusal: Equatable, Sendable {
    public let code: String
    public let sentence: String
}

extension Refusal {
    /// What a call that threw tells a person. Only the last case has no sentence of the core: then app and core are
    /// of different makes, which the tests of this package find before a walker does.
    init(_ error: any Error) {
        switch error {
        case GatepostError.Logbook(let code, let sentence), GatepostError.Refused(let code, let sentence):
            self.init(code: code, sentence: sentence)
        case GatepostError.Shut(let sentence): self.init(code: "book-shut", sentence: sentence)
        case GatepostError.Inside(let sentence): self.init(code: "internal", sentence: sentence)
        default: self.init(code: "reply-unreadable", sentence: "\(error)")
        }
    }
}
