public struct HStack<C: View>: Leaf {
    public init(
        alignment: VerticalAlignment = .center, spacing: CGFloat? = nil, @ViewBuilder content: () -> C
    ) {}
}

public struct VStack<C: View>: Leaf {
    public init(
        alignment: HorizontalAlignment = .center, spacing: CGFloat? = nil, @ViewBuilder content: () -> C
    ) {}
}

public struct ScrollView<C: View>: Leaf {
    public init(_ axes: Axis.Set = .vertical, showsIndicators: Bool = true, @ViewBuilder content: () -> C) {}
}

public struct ScrollViewProxy {
    @MainActor public func scrollTo<ID: Hashable>(_ id: ID, anchor: UnitPoint? = nil) {}
}

public struct ScrollViewReader<C: View>: Leaf {
    public init(@ViewBuilder content: @escaping (ScrollViewProxy) -> C) {}
}

public struct Grid<C: View>: Leaf {
    public init(
        alignment: Alignment = .center, horizontalSpacing: CGFloat? = nil, verticalSpacing: CGFloat? = nil,
        @ViewBuilder content: () -> C
    ) {}
}

public struct GridRow<C: View>: Leaf {
    public init(@ViewBuilder content: () -> C) {}
}

public struct GeometryProxy {
    public var size: CGSize { .zero }
}

public struct GeometryReader<C: View>: Leaf {
    public init(@ViewBuilder content: @escaping (GeometryProxy) -> C) {}
}

public protocol Layout {}

public struct HStackLayout: Layout {
    public init(alignment: VerticalAlignment = .center, spacing: CGFloat? = nil) {}
}

public struct VStackLayout: Layout {
    public init(alignment: HorizontalAlignment = .center, spacing: CGFloat? = nil) {}
}

public struct AnyLayout: Layout {
    public init<L: Layout>(_ layout: L) {}
    @MainActor public func callAsFunction<C: View>(@ViewBuilder _ content: () -> C) -> some View { content() }
}

public struct ForEach<D: RandomAccessCollection, ID: Hashable, C: View>: Leaf {
    public init(_ data: D, id: KeyPath<D.Element, ID>, @ViewBuilder content: @escaping (D.Element) -> C) {}
}
