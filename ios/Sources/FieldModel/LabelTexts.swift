internal import GatepostBridge

extension Labels {
    public var text: String { text("") }

    /// The label that speaks of a name.
    public func text(_ name: String) -> String { label(id: rawValue, name: name) }
}
