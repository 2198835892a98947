//! The colours of the inks in each theme.
//!
//! Contrast against the theme's paper, as WCAG 2.2 defines it (relative luminance, success criteria
//! 1.4.3, 1.4.6 and 1.4.11): by day and at high contrast letters at least 7:1, lines and symbols at
//! least 4.5:1; by night letters 4.5:1 and lines 3:1, dim red on black, nothing brighter than it must
//! be. The divider is decoration: 3:1 is enough. The tests of this room hold the table to it.
//! Shares and names of water are lettered in the ink of what they belong to, below the bound for
//! letters: all that is lettered on a chart also stands in words beside it.

use super::Ink;

/// A set of colours for one light.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// Black on paper.
    Day,
    /// Dim red on black.
    Night,
    /// The greatest contrast, on white.
    High,
}

/// The colour of an ink, as `#RRGGBB`.
#[must_use]
pub fn colour(theme: Theme, ink: Ink) -> &'static str {
    let [day, night, high] = row(ink);
    match theme {
        Theme::Day => day,
        Theme::Night => night,
        Theme::High => high,
    }
}

/// Day, night and high contrast.
fn row(ink: Ink) -> [&'static str; 3] {
    match ink {
        Ink::Paper => ["#FBF9F2", "#0A0502", "#FFFFFF"],
        Ink::Works => ["#14130F", "#D6642B", "#000000"],
        Ink::Landmark => ["#14130F", "#E0692D", "#000000"],
        Ink::Contour => ["#A0601A", "#BB481E", "#8A4D08"],
        Ink::Water => ["#0A68C0", "#955616", "#0059AB"],
        Ink::Sighting => ["#35083F", "#B4632D", "#2E0038"],
        Ink::Stretch => ["#A81F54", "#D77627", "#980044"],
        Ink::Spread => ["#A81F54", "#C26B23", "#980044"],
        Ink::LegWalked => ["#0F7374", "#CE6B29", "#006B68"],
        Ink::LegAhead => ["#0F7374", "#BE6326", "#006B68"],
        Ink::WayBack => ["#3711A8", "#CC7529", "#2A00A0"],
        Ink::Car => ["#14130F", "#DD732C", "#000000"],
        Ink::Text => ["#14130F", "#E66B2E", "#000000"],
        Ink::TextMuted => ["#4A463D", "#E36729", "#2A2A2A"],
        Ink::Warning => ["#6E2400", "#D4791E", "#5E1C00"],
        Ink::Divider => ["#7A7466", "#B04B20", "#000000"],
    }
}
