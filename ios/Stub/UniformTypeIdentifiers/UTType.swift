public struct UTType: Hashable, Sendable {
    public static let data = UTType()
}
