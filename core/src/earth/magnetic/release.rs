//! The releases of the model that are carried, and how the publisher's files are read.

use std::sync::OnceLock;

use super::DecimalYear;

/// Highest degree of the model.
const DEGREE: u8 = 12;

/// One pair of coefficients with their yearly changes, nanotesla.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Term {
    pub(super) degree: u8,
    pub(super) order: u8,
    pub(super) cosine: f64,
    pub(super) sine: f64,
    pub(super) cosine_rate: f64,
    pub(super) sine_rate: f64,
}

/// What the publisher says the model may be off, one sigma.
#[derive(Debug)]
pub(super) struct ErrorModel {
    /// The part of the declination's spread that holds everywhere, degrees.
    pub(super) declination_deg: f64,
    /// The part that grows where the horizontal field is weak, degrees times nanotesla.
    pub(super) declination_deg_nt: f64,
    pub(super) inclination_deg: f64,
    pub(super) horizontal_nt: f64,
    pub(super) total_nt: f64,
}

/// A release: five years of the model.
#[derive(Debug)]
pub(super) struct Release {
    name: &'static str,
    epoch: f64,
    text: &'static str,
    error_model: ErrorModel,
    terms: OnceLock<Option<Vec<Term>>>,
}

/// The newest first: where two meet, the newer one holds.
///
/// # References
/// Error models: technical reports of the two releases, as carried by pygeomag 1.1.0; the coefficients are its files
/// `WMM_2025.COF` (13 November 2024) and `WMM_2020.COF` (10 December 2019), which are the publisher's unchanged.
static RELEASES: [Release; 2] = [
    Release {
        name: "WMM2025",
        epoch: 2025.0,
        text: include_str!("../wmm/WMM2025.COF"),
        error_model: ErrorModel {
            declination_deg: 0.26,
            declination_deg_nt: 5_417.0,
            inclination_deg: 0.20,
            horizontal_nt: 133.0,
            total_nt: 138.0,
        },
        terms: OnceLock::new(),
    },
    Release {
        name: "WMM2020",
        epoch: 2020.0,
        text: include_str!("../wmm/WMM2020.COF"),
        error_model: ErrorModel {
            declination_deg: 0.26,
            declination_deg_nt: 5_625.0,
            inclination_deg: 0.21,
            horizontal_nt: 128.0,
            total_nt: 148.0,
        },
        terms: OnceLock::new(),
    },
];

/// The years that the releases reach, the last one not included.
pub(super) fn reach() -> (f64, f64) {
    let epochs = || RELEASES.iter().map(|release| release.epoch);
    (epochs().fold(f64::INFINITY, f64::min), epochs().fold(f64::NEG_INFINITY, f64::max) + 5.0)
}

impl Release {
    /// The release that holds for a day or an instant, none when no release holds all of it.
    pub(super) fn in_force(year: DecimalYear) -> Option<&'static Self> {
        RELEASES.iter().find(|release| year.lies_within(release.epoch, release.epoch + 5.0))
    }

    pub(super) fn name(&self) -> &'static str {
        self.name
    }

    pub(super) fn epoch(&self) -> f64 {
        self.epoch
    }

    pub(super) fn error_model(&self) -> &ErrorModel {
        &self.error_model
    }

    /// The coefficients by order, then degree; none when the file cannot be read (a test holds that it can).
    pub(super) fn terms(&self) -> Option<&[Term]> {
        self.terms.get_or_init(|| read(self.text, self.epoch)).as_deref()
    }
}

/// Reads the publisher's file, none unless every line is what it must be: the epoch, 90 terms in their order, the end.
pub(super) fn read(text: &str, epoch: f64) -> Option<Vec<Term>> {
    let mut lines = text.lines();
    let begins: f64 = lines.next()?.split_whitespace().next()?.parse().ok()?;
    let expected = (1..=DEGREE).flat_map(|degree| (0..=degree).map(move |order| (degree, order)));
    let mut terms: Vec<Term> = expected.map(|place| read_term(lines.next()?, place)).collect::<Option<_>>()?;
    let ended = lines.clone().count() >= 1 && lines.all(|line| !line.is_empty() && line.chars().all(|c| c == '9'));
    terms.sort_by_key(|term| (term.order, term.degree));
    ((begins - epoch).abs() < 1e-9 && ended).then_some(terms)
}

fn read_term(line: &str, (degree, order): (u8, u8)) -> Option<Term> {
    let mut words = line.split_whitespace();
    let is_it = words.next()?.parse() == Ok(degree) && words.next()?.parse() == Ok(order);
    let mut number = || words.next()?.parse().ok().filter(|value: &f64| value.is_finite());
    let term = Term { degree, order, cosine: number()?, sine: number()?, cosine_rate: number()?, sine_rate: number()? };
    (is_it && words.next().is_none()).then_some(term)
}
