//! The painter for SVG: it decides nothing.

use std::fmt::Write as _;

use super::{Anchor, Area, Cap, DisplayList, HALO_DP, Ink, Item, Spot, Stroke, Theme, colour};
use crate::measure::turns_text;

/// How every document begins, and what its first line holds.
const BEGINS: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ";
const LETTERS: &str =
    "role=\"img\" font-family=\"system-ui, -apple-system, Roboto, 'Segoe UI', sans-serif\" style=\"font-variant-numeric: tabular-nums\"";

/// Whether a file that begins so was drawn here.
#[must_use]
pub fn begins_as_svg(beginning: &[u8]) -> bool {
    let first = String::from_utf8_lossy(beginning.split(|byte| *byte == b'\n').next().unwrap_or_default());
    first.starts_with(BEGINS) && first.contains(LETTERS)
}

/// The display list as one SVG document.
///
/// Coordinates have two decimals. An item with a number that is not finite is left out. Clipping is
/// done with nested `svg` elements, so that no identifier is needed and two charts can share a page.
#[must_use]
pub fn svg(list: &DisplayList, theme: Theme) -> String {
    let mut out = String::new();
    let (width, height) = (number(list.width), number(list.height));
    let spoken: Vec<&str> = list.targets.iter().map(|target| target.spoken.as_str()).collect();
    put(&mut out, format_args!("{BEGINS}{width} {height}\" width=\"{width}\" height=\"{height}\" {LETTERS} stroke-linejoin=\"round\">\n"));
    put(&mut out, format_args!("<title>{}</title>\n<desc>{}</desc>\n", escape(&list.spoken), escape(&spoken.join("\n"))));
    put(&mut out, format_args!("<rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>\n", colour(theme, Ink::Paper)));
    paint(&mut out, &list.items, theme);
    out.push_str("</svg>\n");
    out
}

fn paint(out: &mut String, items: &[Item], theme: Theme) {
    for item in items {
        match item {
            Item::Path { points, closed, stroke, fill } => path(out, points, *closed, &look(stroke.as_ref(), *fill, theme)),
            Item::Circle { centre, radius, stroke, fill } => circle(out, *centre, *radius, &look(stroke.as_ref(), *fill, theme)),
            Item::Text { at, anchor, size, ink, halo, italic, bold, rotation_deg, text } => {
                let edge = halo.then(|| edged(theme));
                for inks in edge.into_iter().chain([format!(" fill=\"{}\"", colour(theme, *ink))]) {
                    words(out, *at, *rotation_deg, &letters(*size, *anchor, *italic, *bold, &inks), text);
                }
            }
            Item::Clip { area, items } => clip(out, area, items, theme),
        }
    }
}

fn path(out: &mut String, points: &[Spot], closed: bool, look: &str) {
    if points.len() < 2 || !points.iter().all(|spot| finite(&[spot.x, spot.y])) {
        return;
    }
    let steps: Vec<String> = points.iter().map(|spot| format!("{} {}", number(spot.x), number(spot.y))).collect();
    let end = if closed { "Z" } else { "" };
    put(out, format_args!("<path d=\"M{}{end}\"{look}/>\n", steps.join("L")));
}

fn circle(out: &mut String, centre: Spot, radius: f64, look: &str) {
    if finite(&[centre.x, centre.y, radius]) {
        let (x, y, radius) = (number(centre.x), number(centre.y), number(radius));
        put(out, format_args!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"{look}/>\n"));
    }
}

fn words(out: &mut String, at: Spot, rotation_deg: f64, letters: &str, text: &str) {
    if !finite(&[at.x, at.y, rotation_deg]) {
        return;
    }
    let (x, y, turn) = (number(at.x), number(at.y), number(rotation_deg));
    let turned = if turn == "0.00" { String::new() } else { format!(" transform=\"rotate({turn} {x} {y})\"") };
    put(out, format_args!("<text x=\"{x}\" y=\"{y}\"{turned}{letters}>{}</text>\n", escape(text)));
}

fn clip(out: &mut String, area: &Area, items: &[Item], theme: Theme) {
    if finite(&[area.x, area.y, area.width, area.height]) {
        let [x, y, width, height] = [area.x, area.y, area.width, area.height].map(number);
        put(
            out,
            format_args!(
                "<svg x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" viewBox=\"{x} {y} {width} {height}\" overflow=\"hidden\">\n"
            ),
        );
        paint(out, items, theme);
        out.push_str("</svg>\n");
    }
}

/// The attributes of a stroke and a filling.
fn look(stroke: Option<&Stroke>, fill: Option<Ink>, theme: Theme) -> String {
    let mut look = format!(" fill=\"{}\"", fill.map_or("none", |ink| colour(theme, ink)));
    if let Some(stroke) = stroke.filter(|stroke| stroke.width.is_finite()) {
        put(&mut look, format_args!(" stroke=\"{}\" stroke-width=\"{}\"", colour(theme, stroke.ink), number(stroke.width)));
        put(&mut look, format_args!("{}{}", cap(stroke.cap), dash(&stroke.dash)));
    }
    look
}

fn cap(cap: Cap) -> &'static str {
    match cap {
        Cap::Butt => "",
        Cap::Round => " stroke-linecap=\"round\"",
        Cap::Square => " stroke-linecap=\"square\"",
    }
}

fn dash(dash: &[f64]) -> String {
    if dash.is_empty() || !finite(dash) {
        return String::new();
    }
    let lengths: Vec<String> = dash.iter().copied().map(number).collect();
    format!(" stroke-dasharray=\"{}\"", lengths.join(" "))
}

/// The attributes of letters: size, anchor and face.
fn letters(size: f64, anchor: Anchor, italic: bool, bold: bool, ink: &str) -> String {
    let anchor = match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let weight = if bold { 700 } else { 500 };
    let style = if italic { " font-style=\"italic\"" } else { "" };
    format!(" font-size=\"{}\" font-weight=\"{weight}\"{style} text-anchor=\"{anchor}\"{ink}", number(size))
}

/// The attributes of the letters' edge of paper: letters of their own below the inked ones, as not every reader knows the order of
/// fill and stroke; they are not spoken twice.
fn edged(theme: Theme) -> String {
    let (paper, width) = (colour(theme, Ink::Paper), number(2.0 * HALO_DP));
    format!(" fill=\"{paper}\" stroke=\"{paper}\" stroke-width=\"{width}\" aria-hidden=\"true\"")
}

fn finite(numbers: &[f64]) -> bool {
    numbers.iter().all(|number| number.is_finite())
}

/// Two decimals; a number that rounds to nothing has no sign.
fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    if text == "-0.00" { "0.00".into() } else { text }
}

/// Text for XML 1.0: markup is escaped, what XML does not allow is left out, and what turns text about.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(letter),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            turning if turns_text(turning) => {}
            _ => out.push(letter),
        }
    }
    out
}

/// Writing to a string cannot fail.
fn put(out: &mut String, text: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(text);
}
