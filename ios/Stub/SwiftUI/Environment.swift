@propertyWrapper public struct Environment<V> {
    public init(_ path: KeyPath<EnvironmentValues, V>) {}
    public init(_ type: V.Type) where V: AnyObject & Observable {}
    public var wrappedValue: V { fatalError() }
}

public protocol EnvironmentKey {
    associatedtype Value
    static var defaultValue: Value { get }
}

public struct EnvironmentValues {
    public subscript<K: EnvironmentKey>(key: K.Type) -> K.Value {
        get { fatalError() }
        set {}
    }
    public var dynamicTypeSize = DynamicTypeSize.large
    public var scenePhase: ScenePhase { .active }
}

public enum ScenePhase: Comparable, Sendable {
    case background, inactive, active
}

public enum ColorScheme: Sendable {
    case light, dark
}

public enum DynamicTypeSize: Comparable, Sendable {
    case large, accessibility1
    public var isAccessibilitySize: Bool { self >= .accessibility1 }
}

extension View {
    public func environment<T: AnyObject & Observable>(_ object: T?) -> some View { self }
    public func environment<V>(_ path: WritableKeyPath<EnvironmentValues, V>, _ value: V) -> some View { self }
    public func preferredColorScheme(_ scheme: ColorScheme?) -> some View { self }
}
