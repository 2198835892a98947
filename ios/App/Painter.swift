import ChartList
import SwiftUI

/// Draws a display list as it stands: one switch over its items, nothing decided.
struct Painter {
    let theme: Theme

    func draw(_ items: [ChartItem], in context: GraphicsContext) {
        for item in items {
            switch item {
            case .path(let points, let closed, let paint):
                var path = Path()
                path.addLines(points.map(\.point))
                if closed { path.closeSubpath() }
                self.paint(path, paint, in: context)
            case .circle(let centre, let radius, let paint):
                let corner = CGPoint(x: centre.x - radius, y: centre.y - radius)
                let size = CGSize(width: 2 * radius, height: 2 * radius)
                self.paint(Path(ellipseIn: CGRect(origin: corner, size: size)), paint, in: context)
            case .text(let lettering): letter(lettering, in: context)
            case .clip(let area, let items):
                var clipped = context
                clipped.clip(to: Path(CGRect(x: area.x, y: area.y, width: area.width, height: area.height)))
                draw(items, in: clipped)
            }
        }
    }

    private func paint(_ path: Path, _ paint: Paint, in context: GraphicsContext) {
        if let fill = paint.fill { context.fill(path, with: .color(theme.color(fill))) }
        if let stroke = paint.stroke {
            context.stroke(path, with: .color(theme.color(stroke.ink)), style: StrokeStyle(stroke))
        }
    }

    /// The base line stands at the place; the halo is the same letters in paper, shifted all round.
    private func letter(_ lettering: Lettering, in context: GraphicsContext) {
        var turned = context
        turned.translateBy(x: lettering.at.x, y: lettering.at.y)
        turned.rotate(by: .degrees(lettering.rotationDeg))
        let font = Font.system(size: lettering.size, weight: lettering.bold ? .bold : .medium).monospacedDigit()
        let text = Text(verbatim: lettering.text).font(lettering.italic ? font.italic() : font)
        if lettering.halo {
            let paper = turned.resolve(text.foregroundStyle(theme.color(.paper)))
            for shift in Self.halo { draw(paper, lettering.anchor, shift, in: turned) }
        }
        let ink = turned.resolve(text.foregroundStyle(theme.color(lettering.ink)))
        draw(ink, lettering.anchor, .zero, in: turned)
    }

    private func draw(
        _ text: GraphicsContext.ResolvedText, _ anchor: Lettering.Anchor, _ shift: CGPoint,
        in context: GraphicsContext
    ) {
        let size = text.measure(in: CGSize(width: 10_000, height: 10_000))
        let across = shift.x - size.width * anchor.share
        let up = shift.y - text.firstBaseline(in: size)
        context.draw(text, in: CGRect(origin: CGPoint(x: across, y: up), size: size))
    }

    private static let halo = [-2.0, 0, 2].flatMap { x in [-2.0, 0, 2].map { CGPoint(x: x, y: $0) } }
}

extension Spot {
    fileprivate var point: CGPoint { CGPoint(x: x, y: y) }
}

extension Lettering.Anchor {
    fileprivate var share: CGFloat {
        switch self {
        case .start: 0
        case .middle: 0.5
        case .end: 1
        }
    }
}

extension StrokeStyle {
    fileprivate init(_ stroke: Stroke) {
        let cap: CGLineCap =
            switch stroke.cap {
            case .butt: .butt
            case .round: .round
            case .square: .square
            }
        self.init(lineWidth: stroke.width, lineCap: cap, lineJoin: .round, dash: stroke.dash.map { CGFloat($0) })
    }
}
