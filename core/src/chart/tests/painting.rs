//! What the painter and its colours promise.

use super::ground::Ground;
use super::{all_charts, chart};
use crate::chart::{Anchor, DisplayList, Ink, Item, Spot, Stroke, Theme, colour, svg};

#[test]
fn svg_is_well_formed_and_names_are_escaped() {
    for list in all_charts() {
        for theme in [Theme::Day, Theme::Night, Theme::High] {
            assert_balanced(&svg(&list, theme));
        }
    }
    let lane = svg(&chart(&Ground::lane(), &[("Tower", 90.0, 2.0)]), Theme::Day);
    assert!(lane.contains("Barn &lt;&amp;&gt; &quot;Co&quot;") && !lane.contains("<&>") && !lane.contains('\u{7}'), "{lane}");
}

/// Every tag that opens is closed, in order; text holds no bare markup.
fn assert_balanced(text: &str) {
    let mut open: Vec<&str> = Vec::new();
    for part in text.split('<').skip(1) {
        let (tag, rest) = part.split_once('>').unwrap();
        let name = tag.split(|c: char| c.is_whitespace() || c == '/').find(|name| !name.is_empty()).unwrap();
        assert!(!rest.contains('>') && tag.matches('"').count() % 2 == 0, "{part}");
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?}");
}

#[test]
fn what_is_not_finite_is_left_out() {
    let at = Spot::new(f64::NAN, 1.0);
    let text = Item::Text {
        at,
        anchor: Anchor::Start,
        size: 14.0,
        ink: Ink::Text,
        halo: true,
        italic: false,
        bold: false,
        rotation_deg: 0.0,
        text: "lost".into(),
    };
    let items = vec![text, Item::disc(at, 3.0, Ink::Car), Item::line(vec![at, Spot::new(0.0, 0.0)], Stroke::plain(Ink::Works, 1.0))];
    let list = DisplayList { width: 10.0, height: 10.0, items, targets: Vec::new(), spoken: String::new() };
    let drawn = svg(&list, Theme::Day);
    assert!(!drawn.contains("NaN") && !drawn.contains("lost") && !drawn.contains("<circle") && !drawn.contains("<path"), "{drawn}");
}

const INKS: [Ink; 16] = [
    Ink::Paper,
    Ink::Works,
    Ink::Landmark,
    Ink::Contour,
    Ink::Water,
    Ink::Sighting,
    Ink::Stretch,
    Ink::Spread,
    Ink::LegWalked,
    Ink::LegAhead,
    Ink::WayBack,
    Ink::Car,
    Ink::Text,
    Ink::TextMuted,
    Ink::Warning,
    Ink::Divider,
];

/// Relative luminance of a colour `#RRGGBB` (WCAG 2.2, definitions).
fn luminance(colour: &str) -> f64 {
    let channel = |from: usize| {
        let share = f64::from(u8::from_str_radix(&colour[from..from + 2], 16).unwrap()) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

#[test]
fn every_ink_stands_out_from_the_paper() {
    for theme in [Theme::Day, Theme::Night, Theme::High] {
        let paper = luminance(colour(theme, Ink::Paper));
        for ink in INKS.into_iter().filter(|ink| *ink != Ink::Paper) {
            let own = luminance(colour(theme, ink));
            let contrast = (own.max(paper) + 0.05) / (own.min(paper) + 0.05);
            let letters = matches!(ink, Ink::Text | Ink::TextMuted | Ink::Warning);
            let least = match (theme, letters) {
                (Theme::Night, true) => 4.5,
                (Theme::Night, false) => 3.0,
                (_, true) => 7.0,
                (_, false) if ink == Ink::Divider => 3.0,
                (_, false) => 4.5,
            };
            assert!(contrast >= least, "{theme:?} {ink:?}: {contrast}");
        }
    }
}
