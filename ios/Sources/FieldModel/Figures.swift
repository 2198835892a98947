import Foundation

/// Figures of the snapshot as texts. Rounding for the eye, no reckoning; what has a sentence is told by its sentence.
public enum Figures {
    /// Three digits, degree sign, north: "019° mag".
    public static func bearing(_ degrees: Double, _ north: Draft.North) -> String {
        guard degrees.isFinite else { return "" }
        let whole = Int(degrees.rounded())
        let digits = String(whole == 360 ? 0 : whole)
        return String(repeating: "0", count: max(0, 3 - digits.count)) + digits + "°\u{a0}" + north.rawValue
    }

    /// A bearing as the core reads it, finer than any compass: "16.500 mag".
    static func exact(_ degrees: Double, _ north: Draft.North) -> String {
        String(format: "%.3f", degrees) + " " + north.rawValue
    }

    public static func whole(_ value: Double) -> String {
        value.isFinite ? String(Int(value.rounded())) : ""
    }
}
