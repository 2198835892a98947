//! A typed place cut into words and numbers.

/// A run of letters in upper case, or a number as it was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Part {
    /// Letters.
    Word(String),
    /// Digits with at most a sign and a point.
    Number(String),
}

/// The parts of a text, and whether anything else than letters, numbers and blanks stood in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Parts {
    pub(super) all: Vec<Part>,
    pub(super) has_marks: bool,
}

impl Parts {
    pub(super) fn of(text: &str) -> Self {
        let mut all: Vec<Part> = Vec::new();
        let (mut has_marks, mut open) = (false, false);
        for c in text.chars() {
            let is_sign = matches!(c, '-' | '+') && !open;
            match all.last_mut() {
                Some(Part::Word(word)) if open && c.is_ascii_alphabetic() => word.push(c.to_ascii_uppercase()),
                Some(Part::Number(number)) if open && (c.is_ascii_digit() || c == '.') => number.push(c),
                _ if c.is_ascii_alphabetic() => all.push(Part::Word(c.to_ascii_uppercase().into())),
                _ if c.is_ascii_digit() || is_sign => all.push(Part::Number(c.into())),
                _ => has_marks |= !c.is_whitespace(),
            }
            open = c.is_ascii_alphanumeric() || c == '.' || is_sign;
        }
        Self { all, has_marks }
    }

    /// Whether a number has more points than the one before its decimals.
    pub(super) fn has_two_points(&self) -> bool {
        self.all.iter().any(|part| matches!(part, Part::Number(number) if number.matches('.').count() > 1))
    }
}

/// A number and the size of one unit of its last digit.
pub(super) fn number(written: &str) -> Option<(f64, f64)> {
    let value: f64 = written.parse().ok().filter(|value: &f64| value.is_finite())?;
    let decimals = written.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    Some((value, 10f64.powi(-i32::try_from(decimals).unwrap_or(0))))
}

/// Digits before the point.
pub(super) fn whole_digits(written: &str) -> usize {
    written.chars().take_while(|c| *c != '.').filter(char::is_ascii_digit).count()
}

/// Two numbers with or without the letters of easting and northing, behind them or before: `456789 mE 4953012 mN`,
/// `N 4953012 E 456789`, and as German sheets print them `R 3500000 H 5400000`.
pub(super) fn pair(parts: &[Part]) -> Option<(&str, &str)> {
    if let [a, b, c, d] = parts {
        let lettered = |letter: &Part, number: &'_ Part| match (letter, number) {
            (Part::Word(word), Part::Number(_)) if matches!(word.as_str(), "E" | "ME" | "R") => Some(true),
            (Part::Word(word), Part::Number(_)) if matches!(word.as_str(), "N" | "MN" | "H") => Some(false),
            _ => None,
        };
        for ((first, x), (second, y)) in [((a, b), (c, d)), ((b, a), (d, c))] {
            if let (Some(is_east), Some(other), Part::Number(x), Part::Number(y)) = (lettered(first, x), lettered(second, y), x, y) {
                return (is_east != other).then_some(if is_east { (x.as_str(), y.as_str()) } else { (y.as_str(), x.as_str()) });
            }
        }
    }
    let mut numbers = Vec::new();
    for part in parts {
        match (part, numbers.len()) {
            (Part::Number(number), 0 | 1) => numbers.push(number.as_str()),
            (Part::Word(word), 1) if matches!(word.as_str(), "E" | "ME" | "M") => {}
            (Part::Word(word), 2) if matches!(word.as_str(), "N" | "MN" | "M") => {}
            _ => return None,
        }
    }
    match numbers.as_slice() {
        [east, north] => Some((east, north)),
        _ => None,
    }
}
