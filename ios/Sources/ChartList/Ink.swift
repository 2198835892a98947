/// What a stroke or a filling stands for; a theme turns it into a colour. The order is that of the core.
public enum Ink: UInt8, Sendable, CaseIterable {
    case paper, works, landmark, contour, water, sighting, stretch, spread
    case legWalked, legAhead, wayBack, car, text, textMuted, warning, divider
}
