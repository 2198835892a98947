import CoreLocation
import FieldModel

/// The phone's receiver. The first listening asks for leave; refused, the stream ends at once.
struct ReceiverWitness: PositionWitness {
    func positions() -> AsyncThrowingStream<PhonePosition, any Error> {
        let (stream, ear) = AsyncThrowingStream<PhonePosition, any Error>.makeStream()
        let receiver = Receiver(ear)
        ear.onTermination = { _ in Task { @MainActor in receiver.end() } }
        receiver.begin()
        return stream
    }
}

@MainActor
private final class Receiver: NSObject, @preconcurrency CLLocationManagerDelegate {
    private let ear: AsyncThrowingStream<PhonePosition, any Error>.Continuation
    private let manager = CLLocationManager()

    init(_ ear: AsyncThrowingStream<PhonePosition, any Error>.Continuation) {
        self.ear = ear
    }

    /// The system answers with the leave it has; the delegate goes on from there.
    func begin() {
        manager.desiredAccuracy = kCLLocationAccuracyBest
        manager.delegate = self
    }

    func end() { manager.stopUpdatingLocation() }

    func locationManagerDidChangeAuthorization(_ manager: CLLocationManager) {
        switch manager.authorizationStatus {
        case .notDetermined: manager.requestWhenInUseAuthorization()
        case .authorizedWhenInUse, .authorizedAlways: manager.startUpdatingLocation()
        case .denied, .restricted: ear.finish(throwing: Silence.refused)
        @unknown default: ear.finish(throwing: Silence.refused)
        }
    }

    func locationManager(_ manager: CLLocationManager, didUpdateLocations locations: [CLLocation]) {
        // A negative accuracy says that the place is not valid.
        for seen in locations where seen.horizontalAccuracy >= 0 {
            ear.yield(
                PhonePosition(
                    latitudeDeg: seen.coordinate.latitude, longitudeDeg: seen.coordinate.longitude,
                    accuracyM: seen.horizontalAccuracy, at: seen.timestamp))
        }
    }

    /// The receiver goes on trying after every other error.
    func locationManager(_ manager: CLLocationManager, didFailWithError error: any Error) {
        if (error as? CLError)?.code == .denied { ear.finish(throwing: Silence.refused) }
    }
}
