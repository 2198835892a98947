@MainActor @preconcurrency public protocol Scene {
    associatedtype Body: Scene
    @SceneBuilder var body: Body { get }
}

extension Never: Scene {}

@resultBuilder public enum SceneBuilder {
    public static func buildBlock<S: Scene>(_ scene: S) -> S { scene }
}

public struct WindowGroup<C: View>: Scene {
    public init(@ViewBuilder content: () -> C) {}
    public var body: Never { fatalError() }
}

@MainActor @preconcurrency public protocol App {
    associatedtype Body: Scene
    @SceneBuilder var body: Body { get }
    init()
}

extension App {
    public static func main() {}
}

public struct AccessibilityNotification {
    public struct Announcement {
        public init(_ text: String) {}
        public func post() {}
    }
}

/// SwiftUI hands UIKit on.
@MainActor public final class UIApplication {
    public static let shared = UIApplication()
    public var isIdleTimerDisabled = false
}
