import CoreMotion
import FieldModel

/// The phone's magnetometer with gravity, calibrated by the system. It asks for no leave.
struct MagnetWitness: FieldWitness {
    func fields() -> AsyncThrowingStream<PhoneField, any Error> {
        let (stream, ear) = AsyncThrowingStream<PhoneField, any Error>.makeStream()
        let magnet = Magnet()
        ear.onTermination = { _ in Task { @MainActor in magnet.end() } }
        magnet.begin(ear)
        return stream
    }
}

@MainActor
private final class Magnet {
    private let manager = CMMotionManager()
    private static let frame = CMAttitudeReferenceFrame.xMagneticNorthZVertical

    func begin(_ ear: AsyncThrowingStream<PhoneField, any Error>.Continuation) {
        let frames = CMMotionManager.availableAttitudeReferenceFrames()
        guard manager.isDeviceMotionAvailable, frames.contains(Self.frame) else {
            ear.finish(throwing: Silence.absent)
            return
        }
        manager.deviceMotionUpdateInterval = 0.5
        manager.startDeviceMotionUpdates(using: Self.frame, to: .main) { motion, _ in
            if let felt = motion.flatMap(PhoneField.init) { ear.yield(felt) }
        }
    }

    func end() { manager.stopDeviceMotionUpdates() }
}

extension PhoneField {
    /// What is not calibrated yet is no reading. The system's gravity points to the ground, its axes are ours.
    fileprivate init?(_ motion: CMDeviceMotion) {
        guard motion.magneticField.accuracy != .uncalibrated else { return nil }
        let (field, gravity) = (motion.magneticField.field, motion.gravity)
        self.init(fieldUt: [field.x, field.y, field.z], down: [gravity.x, gravity.y, gravity.z])
    }
}
