// Hand-written stand-in, as in CoreLocation beside it.
@_exported import Foundation

public class AVAudioSession: NSObject {
    public struct Category: Hashable, Sendable {
        public static let ambient = Category()
    }
    public class func sharedInstance() -> AVAudioSession { fatalError() }
    public func setCategory(_ category: Category) throws {}
}

public class AVAudioPlayer: NSObject {
    public init(data: Data) throws {}
    public var currentTime: TimeInterval = 0
    public func prepareToPlay() -> Bool { false }
    public func play() -> Bool { false }
}
