//! Texts that are meant for latitude and longitude and are not written so: which part of them is wrong.

use super::parts::{Part, Parts, whole_digits};

/// Units of an angle in which latitude and longitude are not read.
const UNITS: [&str; 9] = ["GON", "GONS", "GRAD", "GRADS", "RAD", "RADIAN", "RADIANS", "MIL", "MILS"];
/// Words that name latitude and longitude.
const NAMES: [&str; 7] = ["LAT", "LATITUDE", "LON", "LONG", "LNG", "LONGITUDE", "LATLON"];
/// Directions between two quarters.
const BETWEEN: [&str; 4] = ["NE", "NW", "SE", "SW"];

/// The part that is wrong; nothing when the text does not look like angles, or nothing of this is wrong with it.
pub(super) fn part_of(text: &str, parts: &Parts) -> Option<&'static str> {
    if is_power_of_ten(text) {
        return Some("part-power-of-ten");
    }
    if has_thousands(text) {
        return Some("part-thousands");
    }
    let angles = Angles::of(text, parts)?;
    if angles.has_unit() {
        return Some("part-angle-unit");
    }
    if angles.words.iter().any(|word| NAMES.contains(word)) || angles.has_a_word_behind_a_comma() {
        return Some("part-half-letter");
    }
    if angles.has_more() {
        return Some("part-beside-angles");
    }
    if angles.are_marked_by_letters() {
        return Some("part-marks");
    }
    if angles.are_one() {
        return Some("part-one-angle");
    }
    if angles.have_a_sign_and_a_letter() {
        return Some("part-sign-beside-letter");
    }
    angles.lack_a_letter().then_some("part-hemisphere")
}

/// Numbers of up to three figures before the point, and what stands beside them.
struct Angles<'a> {
    text: &'a str,
    all: &'a [Part],
    words: Vec<&'a str>,
    numbers: Vec<&'a str>,
}

impl<'a> Angles<'a> {
    fn of(text: &'a str, parts: &'a Parts) -> Option<Self> {
        let (mut words, mut numbers) = (Vec::new(), Vec::new());
        for part in &parts.all {
            match part {
                Part::Word(word) => words.push(word.as_str()),
                Part::Number(number) => numbers.push(number.as_str()),
            }
        }
        let angles = Self { text, all: &parts.all, words, numbers };
        let first = angles.numbers.iter().take(2);
        (angles.numbers.iter().any(|number| number.contains(|c: char| c.is_ascii_digit()))
            && first.clone().all(|number| whole_digits(number) <= 3))
        .then_some(angles)
    }

    fn with_point(&self) -> usize {
        self.numbers.iter().filter(|number| number.contains('.')).count()
    }

    /// Whether they can be nothing but angles.
    fn are_plain(&self) -> bool {
        self.text.contains('°') || self.with_point() >= 2
    }

    fn halves(&self) -> usize {
        self.words.iter().filter(|word| is_half(word)).count()
    }

    fn has_unit(&self) -> bool {
        let is_gradian = matches!(self.words.as_slice(), ["G", one, "G", other] if is_half(one) && is_half(other));
        self.are_plain() && (is_gradian || self.words.iter().any(|word| UNITS.contains(word)))
    }

    /// A word that is no letter of a half, where a comma and two numbers with a point say that angles are meant.
    fn has_a_word_behind_a_comma(&self) -> bool {
        let is_word = |word: &&str| !is_half(word) && !BETWEEN.contains(word);
        let begins = matches!(self.all.first(), Some(Part::Number(number)) if number.contains('.'));
        let is_one = self.words.iter().filter(|word| is_word(word)).count() == 1 && self.words.iter().all(|word| word.len() > 1);
        begins && self.text.contains(',') && self.with_point() == 2 && self.numbers.len() == 2 && is_one
    }

    /// A height or something else behind both angles, or a zone before them.
    fn has_more(&self) -> bool {
        let is_number = |group: &str| group.parse::<f64>().is_ok_and(f64::is_finite);
        let groups: Vec<&str> = self.text.split([',', ';', ' ']).filter(|group| !group.is_empty()).collect();
        let are_three = groups.len() == 3
            && groups.iter().all(|group| is_number(group.trim_end_matches('m')))
            && groups.iter().take(2).all(|group| group.contains('.'));
        let both = match self.words.as_slice() {
            [one, other, ..] if are_both(one, other) => self.all.iter().filter(|part| is_half_part(part)).nth(1),
            _ => None,
        };
        let behind = both.and_then(|both| self.all.iter().position(|part| std::ptr::eq(part, both))).and_then(|at| self.all.get(at + 1..));
        let starts = matches!(self.all.first(), Some(Part::Number(_)));
        let is_more = starts && behind.is_some_and(|rest| rest.iter().any(|part| matches!(part, Part::Number(_))));
        let is_zone =
            matches!(self.words.as_slice(), [_, one, other] if are_both(one, other)) && self.text.contains('°') && is_zone_first(self.all);
        are_three || is_more || is_zone
    }

    /// `47d30N 11d12E`: a letter in the place of the degree's mark, where the minutes have none.
    fn are_marked_by_letters(&self) -> bool {
        let is_mark = |word: &str| word.len() == 1 && !is_half(word);
        let alternate = self.all.len() == 8 && matches!(self.all.first(), Some(Part::Number(_)));
        matches!(self.words.as_slice(), [a, one, b, other] if a == b && is_mark(a) && are_both(one, other)) && alternate
    }

    /// One number with a letter of a half before or behind it, which is no zone with its band.
    fn are_one(&self) -> bool {
        match self.all {
            [Part::Word(one), Part::Number(_), Part::Word(other)] => {
                is_half(one) && is_half(other) && is_latitude(one) != is_latitude(other)
            }
            [Part::Number(number), Part::Word(half)] => is_half(half) && number.parse().is_ok_and(|degrees: f64| degrees > 60.0),
            [Part::Word(half), Part::Number(number)] => is_half(half) && whole_digits(number) < 4 && !number.starts_with(['-', '+']),
            [Part::Number(number), Part::Word(word), Part::Word(half)] => number.contains('.') && word.starts_with("DEG") && is_half(half),
            _ => false,
        }
    }

    /// `42°30'S -15°15'`: a letter with one angle, a sign with the other, and no comma between them.
    fn have_a_sign_and_a_letter(&self) -> bool {
        let has_sign = self.text.contains(['-', '+', '\u{2212}']);
        let are_two = self.are_plain() || self.numbers.len() == 2;
        has_sign && are_two && !self.text.contains(',') && self.words.len() == 1 && self.halves() == 1 && self.numbers.len() >= 2
    }

    /// Two angles of which one or none has its letter.
    fn lack_a_letter(&self) -> bool {
        // Before both numbers they may be the letters of a square.
        let is_first = matches!(self.all.first(), Some(Part::Word(_)));
        let between = !is_first && !self.words.is_empty() && self.words.iter().all(|word| BETWEEN.contains(word));
        let is_one = self.words.len() == 1 && self.halves() == 1 && !self.text.contains(',');
        let at = self.all.iter().position(is_half_part).unwrap_or_default();
        let has_figures = at >= 2 && self.numbers.len() >= 4;
        between && self.with_point() == 2 || is_one && (self.text.matches('°').count() == 2 || has_figures)
    }
}

fn is_half(word: &str) -> bool {
    matches!(word, "N" | "S" | "E" | "W")
}

fn is_latitude(word: &str) -> bool {
    matches!(word, "N" | "S")
}

fn are_both(one: &str, other: &str) -> bool {
    is_half(one) && is_half(other) && is_latitude(one) != is_latitude(other)
}

fn is_half_part(part: &Part) -> bool {
    matches!(part, Part::Word(word) if is_half(word))
}

fn is_zone_first(all: &[Part]) -> bool {
    matches!(all, [Part::Number(zone), Part::Word(band), ..] if band.len() == 1 && zone.parse().is_ok_and(|zone: u8| (1..=60).contains(&zone)))
}

/// Two numbers of which one is written as a power of ten.
fn is_power_of_ten(text: &str) -> bool {
    let groups: Vec<&str> = text.split_whitespace().map(|group| group.trim_end_matches(',')).collect();
    groups.len() == 2 && groups.iter().all(|group| group.parse::<f64>().is_ok()) && groups.iter().any(|group| group.contains(['e', 'E']))
}

/// Numbers whose thousands are parted by commas, and which are too large for degrees with a comma before their decimals.
fn has_thousands(text: &str) -> bool {
    let groups: Vec<Vec<&str>> = text.split_whitespace().map(|group| group.trim_end_matches(',').split(',').collect()).collect();
    let figures = |figures: &&str| !figures.is_empty() && figures.len() <= 3 && figures.chars().all(|c| c.is_ascii_digit());
    let parted: Vec<&Vec<&str>> = groups.iter().filter(|group| group.len() > 1).collect();
    let are_thousands = |group: &&Vec<&str>| group.iter().all(figures) && group.iter().skip(1).all(|figures| figures.len() == 3);
    let is_large =
        |group: &&Vec<&str>| group.len() > 2 || group.first().is_some_and(|first| first.parse().is_ok_and(|first: u16| first > 180));
    parted.len() >= 2 && parted.iter().all(are_thousands) && parted.iter().any(is_large)
}
