// Hand-written stand-in, for type-checking on Linux only: names and shapes from memory of the public interface, and
// no more of them than the app uses. Nothing here draws or runs.
@_exported import Foundation
@_exported import Observation

@MainActor @preconcurrency public protocol View {
    associatedtype Body: View
    @ViewBuilder var body: Body { get }
}

extension Never: View {
    public var body: Never { fatalError() }
}

/// A view of the system itself.
public protocol Leaf: View where Body == Never {}

extension Leaf {
    public var body: Never { fatalError() }
}

extension Optional: View where Wrapped: View {
    public var body: Never { fatalError() }
}

public struct EmptyView: Leaf {
    nonisolated public init() {}
}

public struct TupleView<T>: Leaf {}

public struct Either<A: View, B: View>: Leaf {}

@resultBuilder public enum ViewBuilder {
    public static func buildExpression<V: View>(_ view: V) -> V { view }
    public static func buildBlock() -> EmptyView { EmptyView() }
    public static func buildBlock<V: View>(_ view: V) -> V { view }
    public static func buildBlock<each V: View>(_ view: repeat each V) -> TupleView<(repeat each V)> { fatalError() }
    public static func buildIf<V: View>(_ view: V?) -> V? { view }
    public static func buildEither<A: View, B: View>(first: A) -> Either<A, B> { fatalError() }
    public static func buildEither<A: View, B: View>(second: B) -> Either<A, B> { fatalError() }
}

@MainActor @preconcurrency public protocol ViewModifier {
    associatedtype Body: View
    typealias Content = ModifierContent
    @ViewBuilder func body(content: Content) -> Body
}

public struct ModifierContent: Leaf {}
