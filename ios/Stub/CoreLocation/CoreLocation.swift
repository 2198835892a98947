// Hand-written stand-in, for type-checking on Linux only: names and shapes from memory of the public interface, and
// no more of them than the app uses.
@_exported import Foundation

public typealias CLLocationDegrees = Double
public typealias CLLocationAccuracy = Double

public let kCLLocationAccuracyBest: CLLocationAccuracy = -1

public struct CLLocationCoordinate2D {
    public var latitude: CLLocationDegrees
    public var longitude: CLLocationDegrees
}

public class CLLocation: NSObject {
    public var coordinate: CLLocationCoordinate2D { fatalError() }
    public var horizontalAccuracy: CLLocationAccuracy { 0 }
    public var timestamp: Date { fatalError() }
}

public enum CLAuthorizationStatus: Int32, Sendable {
    case notDetermined, restricted, denied, authorizedAlways, authorizedWhenInUse
}

public struct CLError: Error {
    public enum Code: Int, Sendable {
        case locationUnknown, denied
    }
    public var code: Code { .denied }
}

/// In Objective-C every method is optional.
public protocol CLLocationManagerDelegate: AnyObject {
    func locationManagerDidChangeAuthorization(_ manager: CLLocationManager)
    func locationManager(_ manager: CLLocationManager, didUpdateLocations locations: [CLLocation])
    func locationManager(_ manager: CLLocationManager, didFailWithError error: any Error)
}

public class CLLocationManager: NSObject {
    public weak var delegate: (any CLLocationManagerDelegate)?
    public var desiredAccuracy: CLLocationAccuracy = 0
    public var authorizationStatus: CLAuthorizationStatus { .denied }
    public func requestWhenInUseAuthorization() {}
    public func startUpdatingLocation() {}
    public func stopUpdatingLocation() {}
}
