//! Angles as a person writes them: degrees, degrees and minutes, mils, gradians, quadrants.

use super::unit::UNIT_WORDS;
use super::{AngleUnit, wrap_deg};

/// A written angle in degrees, and how much its last digit is worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Written {
    /// The angle, degrees.
    pub degrees: f64,
    /// One unit of the last digit written, degrees.
    pub step_deg: f64,
}

/// Reads degrees, degrees and minutes, or degrees, minutes and seconds: `36.5`, `36 30.25`, `36°30'15.5"`.
///
/// Parts stand apart by blanks or by their marks, in this order; minutes and seconds are below 60 and have two digits before
/// the point, or one where a mark or a point shows that no digit is lost; only the last part may have decimals. No sign.
#[must_use]
pub fn read_degrees(text: &str) -> Option<Written> {
    let parts = marked_parts(text)?;
    let last = parts.len().checked_sub(1)?;
    let mut degrees = 0.0;
    let mut step_deg = 1.0;
    for (index, part) in parts.iter().enumerate() {
        let unit_deg = [1.0, 60.0, 3600.0].get(index).map(|parts| 1.0 / parts)?;
        degrees += part.value(index, index == last)? * unit_deg;
        step_deg = unit_deg * 10f64.powi(-part.decimals());
    }
    Some(Written { degrees, step_deg })
}

/// Degrees, minutes or seconds as they were written.
struct Part {
    figures: String,
    has_mark: bool,
}

/// The parts of an angle; a mark must be the one of its part.
fn marked_parts(text: &str) -> Option<Vec<Part>> {
    let mut parts: Vec<Part> = Vec::new();
    let mut open = false;
    for c in text.trim().chars() {
        match c {
            '0'..='9' | '.' if open => parts.last_mut()?.figures.push(c),
            '0'..='9' | '.' => {
                parts.push(Part { figures: c.into(), has_mark: false });
                open = true;
            }
            ' ' | '\u{a0}' | '\t' => open = false,
            mark if is_mark(mark, parts.len()) => {
                parts.last_mut()?.has_mark = true;
                open = false;
            }
            _ => return None,
        }
    }
    Some(parts)
}

fn is_mark(mark: char, part: usize) -> bool {
    match part {
        1 => mark == '°',
        2 => matches!(mark, '\'' | '′' | '’'),
        3 => matches!(mark, '"' | '″' | '”'),
        _ => false,
    }
}

impl Part {
    fn value(&self, index: usize, is_last: bool) -> Option<f64> {
        let (whole, _) = self.figures.split_once('.').unwrap_or((&self.figures, ""));
        let points = self.figures.matches('.').count();
        let well_formed = !whole.is_empty() && points <= usize::from(is_last);
        let value: f64 = if well_formed { self.figures.parse().ok()? } else { return None };
        let is_whole = whole.len() == 2 || (whole.len() == 1 && (self.has_mark || points == 1));
        (index == 0 || (is_whole && value < 60.0)).then_some(value)
    }

    fn decimals(&self) -> i32 {
        self.figures.split_once('.').map_or(0, |(_, decimals)| i32::try_from(decimals.len()).unwrap_or(0))
    }
}

/// Reads the figures of a bearing with or without a unit: `214`, `214.5°`, `36 30`, `3200 mil`, `200 gon`, `S36E`.
///
/// The value is not yet checked against the circle; [`AngleUnit`] says how it was written.
#[must_use]
pub fn read_figures(text: &str) -> Option<(f64, AngleUnit)> {
    let figures = text.trim().to_lowercase();
    let with_word = UNIT_WORDS.iter().find_map(|(word, unit)| Some((figures.strip_suffix(word)?, *unit)));
    with_word
        .filter(|(_, unit)| *unit != AngleUnit::Quadrant)
        .and_then(|(number, unit)| Some((plain_number(number)? * 360.0 / unit.circle(), unit)))
        .or_else(|| quadrant(&figures).map(|degrees| (degrees, AngleUnit::Quadrant)))
        .or_else(|| signed_degrees(&figures).map(|degrees| (degrees, AngleUnit::Degrees)))
}

/// Reads an angle between norths as it is typed, degrees, east positive: `-12.5`, `12°30'`, `12°30' W`, `8 30 east`, `-222 mil`.
#[must_use]
pub fn read_turn_deg(text: &str) -> Option<f64> {
    let typed = text.trim().to_lowercase().replace('\u{2212}', "-");
    let (figures, side) = [("east", 1.0), ("west", -1.0), ("e", 1.0), ("w", -1.0)]
        .iter()
        .find_map(|(word, sign)| Some((typed.strip_suffix(word)?, Some(*sign))))
        .unwrap_or((&typed, None));
    let (sign, figures) = match (figures.trim().strip_prefix(['-', '+']), side) {
        (Some(_), Some(_)) => return None,
        (Some(rest), None) => (if typed.starts_with('-') { -1.0 } else { 1.0 }, rest),
        (None, side) => (side.unwrap_or(1.0), figures),
    };
    let (degrees, _) = read_figures(figures).filter(|(degrees, unit)| *degrees >= 0.0 && *unit != AngleUnit::Quadrant)?;
    Some(sign * degrees)
}

/// A number with a sign is read, so that a refusal can say that it is off the circle.
fn signed_degrees(figures: &str) -> Option<f64> {
    plain_number(figures).or_else(|| read_degrees(figures).map(|written| written.degrees))
}

fn plain_number(text: &str) -> Option<f64> {
    let text = text.trim();
    let plain = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'));
    let value: f64 = if plain { text.parse().ok()? } else { return None };
    value.is_finite().then_some(value)
}

/// `S36E`: from south 36 degrees towards east is 144.
fn quadrant(figures: &str) -> Option<f64> {
    let inner = figures.strip_prefix(['n', 's'])?.strip_suffix(['e', 'w'])?;
    let angle = read_degrees(inner)?.degrees;
    let towards = if figures.ends_with('e') { angle } else { -angle };
    let degrees = if figures.starts_with('n') { towards } else { 180.0 - towards };
    (angle <= 90.0).then(|| wrap_deg(degrees))
}

/// The letters and the angle of a quadrant bearing: 144 is S, 36, E.
#[must_use]
pub fn quadrant_of(degrees: f64) -> (char, f64, char) {
    let degrees = wrap_deg(degrees);
    let from = if degrees <= 90.0 || degrees >= 270.0 { 'N' } else { 'S' };
    let towards = if degrees <= 180.0 { 'E' } else { 'W' };
    let angle = if from == 'N' { degrees.min(360.0 - degrees) } else { (180.0 - degrees).abs() };
    (from, angle, towards)
}

#[cfg(test)]
mod tests {
    use super::{AngleUnit, quadrant_of, read_degrees, read_figures, read_turn_deg};

    #[test]
    fn figures_are_read_by_their_unit() {
        let read = |text| read_figures(text).map(|(degrees, unit)| ((degrees * 1e6).round() / 1e6, unit));
        assert_eq!(read("3200 mils"), Some((180.0, AngleUnit::Mils)));
        assert_eq!(read("100gon"), Some((90.0, AngleUnit::Gradians)));
        assert_eq!(read("100 gradians"), Some((90.0, AngleUnit::Gradians)));
        assert_eq!(read("S36E"), Some((144.0, AngleUnit::Quadrant)));
        assert_eq!(read("n 38 30 w"), Some((321.5, AngleUnit::Quadrant)));
        assert_eq!(read("306°52'05.4\""), Some((306.868_167, AngleUnit::Degrees)));
        assert_eq!(read("-5"), Some((-5.0, AngleUnit::Degrees)));
        for wrong in ["S91E", "21 4", "36.5 30", "36'30", "36 60", "1 02 03 04", "", "mil", "N E", "nan", "1e2"] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn one_figure_is_enough_where_nothing_can_be_lost() {
        let read = |text| read_degrees(text).map(|written| (written.degrees * 1e6).round() / 1e6);
        assert_eq!(read("52 5.258"), Some(52.087_633));
        assert_eq!(read("52°5'7\""), Some(52.085_278));
        assert_eq!(read("52 5"), None);
        assert_eq!(read("52 005.2"), None);
    }

    #[test]
    fn the_last_digit_says_how_fine_it_is() {
        let step = |text| read_degrees(text).map(|written| (written.step_deg * 3600.0 * 1e6).round() / 1e6);
        assert_eq!(step("52.5"), Some(360.0));
        assert_eq!(step("52 30.25"), Some(0.6));
        assert_eq!(step("52 30 15.5"), Some(0.1));
    }

    #[test]
    fn an_angle_between_norths_has_a_sign_or_a_side() {
        let read = |text| read_turn_deg(text).map(|degrees| (degrees * 1e6).round() / 1e6);
        for (text, degrees) in [
            ("12.5", 12.5),
            ("-12.5", -12.5),
            ("\u{2212}12°30'", -12.5),
            ("+12°30'", 12.5),
            ("12°30'W", -12.5),
            ("12 30 west", -12.5),
            ("8° 30′ E", 8.5),
            ("-160 mil", -9.0),
            ("10 gon", 9.0),
        ] {
            assert_eq!(read(text), Some(degrees), "{text}");
        }
        for wrong in ["", "-", "E", "-12 W", "--12", "12°75'", "many", "S36E", "nan", "inf"] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn quadrants_meet_at_the_cardinal_points() {
        let of = |degrees| quadrant_of(degrees);
        assert_eq!(of(0.0), ('N', 0.0, 'E'));
        assert_eq!(of(90.0), ('N', 90.0, 'E'));
        assert_eq!(of(144.0), ('S', 36.0, 'E'));
        assert_eq!(of(180.0), ('S', 0.0, 'E'));
        assert_eq!(of(241.0), ('S', 61.0, 'W'));
        assert_eq!(of(270.0), ('N', 90.0, 'W'));
    }
}
