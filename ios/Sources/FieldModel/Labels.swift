/// A name of a place, control or field: the core's own words, the same on every phone. Each stands in the file of its place.
public struct Labels: Hashable, Sendable {
    /// By what the core knows it.
    let id: String

    init(_ id: String) { self.id = id }
}
