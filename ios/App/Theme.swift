import ChartList
import SwiftUI

/// Which light one reads by.
enum Lighting: String, CaseIterable {
    case day, night, high
}

/// The colours of one light, by what they stand for.
struct Theme {
    let inks: [Ink: UInt32]
    let surface: UInt32
    let control: UInt32
    let primary: UInt32
    let primaryText: UInt32
    let controlEdge: UInt32

    /// The theme of a light. Every ink has its colour; what was forgotten would show as letters.
    init(_ light: Lighting) {
        self = light == .night ? .night : light == .high ? .high : .day
    }

    init(_ row: [UInt32], surface: UInt32, control: UInt32, primary: UInt32, primaryText: UInt32, controlEdge: UInt32) {
        inks = Dictionary(zip(Ink.allCases, row)) { first, _ in first }
        (self.surface, self.control, self.primary) = (surface, control, primary)
        (self.primaryText, self.controlEdge) = (primaryText, controlEdge)
    }

    func color(_ ink: Ink) -> Color { Color(rgb: inks[ink] ?? primary) }
    func color(_ part: KeyPath<Theme, UInt32>) -> Color { Color(rgb: self[keyPath: part]) }
}

extension Color {
    init(rgb: UInt32) {
        let part = { (shift: UInt32) in Double(rgb >> shift & 0xff) / 255 }
        self.init(red: part(16), green: part(8), blue: part(0))
    }
}

private struct ThemeKey: EnvironmentKey {
    static let defaultValue = Theme(.day)
}

extension EnvironmentValues {
    var theme: Theme {
        get { self[ThemeKey.self] }
        set { self[ThemeKey.self] = newValue }
    }
}
