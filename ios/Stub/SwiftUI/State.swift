@propertyWrapper public struct State<V> {
    public init(wrappedValue: V) {}
    public var wrappedValue: V {
        get { fatalError() }
        nonmutating set {}
    }
    public var projectedValue: Binding<V> { fatalError() }
}

extension State where V: ExpressibleByNilLiteral {
    public init() { self.init(wrappedValue: nil) }
}

@propertyWrapper @dynamicMemberLookup public struct Binding<V> {
    public init(get: @escaping () -> V, set: @escaping (V) -> Void) {}
    public var wrappedValue: V {
        get { fatalError() }
        nonmutating set {}
    }
    public var projectedValue: Binding<V> { self }
    public subscript<T>(dynamicMember path: WritableKeyPath<V, T>) -> Binding<T> { fatalError() }
}

@propertyWrapper @dynamicMemberLookup public struct Bindable<O: AnyObject & Observable> {
    public init(wrappedValue: O) { self.wrappedValue = wrappedValue }
    public var wrappedValue: O
    public var projectedValue: Bindable<O> { self }
    public subscript<T>(dynamicMember path: ReferenceWritableKeyPath<O, T>) -> Binding<T> { fatalError() }
}

@propertyWrapper public struct AppStorage<V> {
    public init(wrappedValue: V, _ key: String) where V: RawRepresentable, V.RawValue == String {}
    public var wrappedValue: V {
        get { fatalError() }
        nonmutating set {}
    }
    public var projectedValue: Binding<V> { fatalError() }
}

@propertyWrapper public struct ScaledMetric<V: BinaryFloatingPoint> {
    public init(wrappedValue: V, relativeTo style: Font.TextStyle) { self.wrappedValue = wrappedValue }
    public let wrappedValue: V
}
