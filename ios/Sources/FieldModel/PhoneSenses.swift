import Foundation

/// Where the phone believes to be. It is shown beside the fix and never in its place; nothing here is needed.
public struct PhonePosition: Equatable, Sendable {
    public let latitudeDeg: Double
    public let longitudeDeg: Double
    /// The receiver's own claim, metres: the platform's radius of 68 %.
    public let accuracyM: Double
    /// When the receiver saw it.
    public let at: Date

    public init(latitudeDeg: Double, longitudeDeg: Double, accuracyM: Double, at: Date) {
        (self.latitudeDeg, self.longitudeDeg, self.accuracyM, self.at) = (latitudeDeg, longitudeDeg, accuracyM, at)
    }
}

/// What the phone's magnetometer feels, in its axes: x right, y to the top edge, z out of the screen.
public struct PhoneField: Equatable, Sendable {
    /// The magnetic field, three parts, microtesla.
    public let fieldUt: [Double]
    /// The direction to the ground, three parts in any unit.
    public let down: [Double]

    public init(fieldUt: [Double], down: [Double]) {
        (self.fieldUt, self.down) = (fieldUt, down)
    }
}

/// Why a sense says nothing: the walker refused it, or the phone has none.
public enum Silence: Error, Sendable {
    case refused, absent
}

/// The phone's receiver. Listening asks for leave when there is none yet; a stream ends with a ``Silence``.
@MainActor public protocol PositionWitness {
    func positions() -> AsyncThrowingStream<PhonePosition, any Error>
}

/// The phone's magnetometer, some readings a second.
@MainActor public protocol FieldWitness {
    func fields() -> AsyncThrowingStream<PhoneField, any Error>
}
