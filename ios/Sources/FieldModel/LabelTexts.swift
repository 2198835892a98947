internal import GatepostBridge

extension Labels {
    public var text: String { text("") }

    /// The label that speaks of a name.
    public func text(_ name: String) -> String { label(id: id, name: name) }
}

/// Figures as the core tells them.
public enum Figures {
    public static func metres(_ metres: Double) -> String { metresTold(metres: metres) }
    public static func paces(_ double: Double) -> String { pacesTold(doublePaces: double) }
    public static func degrees(_ degrees: Double) -> String { degreesTold(degrees: degrees) }
    public static func bearing(_ typed: String) -> String { bearingTold(typed: typed) }
}
