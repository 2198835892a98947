// Hand-written stand-in, as in CoreLocation beside it.
@_exported import Foundation

public struct CMMagneticField {
    public var x: Double
    public var y: Double
    public var z: Double
}

public struct CMAcceleration {
    public var x: Double
    public var y: Double
    public var z: Double
}

public enum CMMagneticFieldCalibrationAccuracy: Int32, Sendable {
    case uncalibrated = -1
    case low, medium, high
}

public struct CMCalibratedMagneticField {
    public var field: CMMagneticField
    public var accuracy: CMMagneticFieldCalibrationAccuracy
}

public class CMDeviceMotion: NSObject {
    public var gravity: CMAcceleration { fatalError() }
    public var magneticField: CMCalibratedMagneticField { fatalError() }
}

public struct CMAttitudeReferenceFrame: OptionSet, Sendable {
    public let rawValue: UInt
    public init(rawValue: UInt) { self.rawValue = rawValue }
    public static let xMagneticNorthZVertical = CMAttitudeReferenceFrame(rawValue: 4)
}

public typealias CMDeviceMotionHandler = (CMDeviceMotion?, (any Error)?) -> Void

public class CMMotionManager: NSObject {
    public class func availableAttitudeReferenceFrames() -> CMAttitudeReferenceFrame { [] }
    public var isDeviceMotionAvailable: Bool { false }
    public var deviceMotionUpdateInterval: TimeInterval = 0
    public func startDeviceMotionUpdates(
        using frame: CMAttitudeReferenceFrame, to queue: OperationQueue,
        withHandler handler: @escaping CMDeviceMotionHandler
    ) {}
    public func stopDeviceMotionUpdates() {}
}
