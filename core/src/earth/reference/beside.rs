//! A beginning of MGRS beside a grid whose references it does not complete.

use super::parts::{Part, Parts};
use super::{Read, Terms, lettered, mgrs};

/// Refuses figures that may be either the digits of a short reference, completed by the beginning that was given with them, or numbers
/// of a grid of its own: nothing where only one of them can be meant.
///
/// Digits of a short reference are one or two whole numbers of up to five figures a piece. One number alone is none of a grid, but on
/// the British National Grid it may be the digits in one of its squares.
pub(super) fn read(parts: &Parts, terms: &Terms) -> Option<Read> {
    let grid = terms.grid.filter(|grid| !grid.is_utm_ups() && grid.utm_zone().is_none())?;
    let beginning = terms.beginning.map(str::trim).filter(|beginning| mgrs::holds_square(beginning))?;
    let is_lettered = lettered::is_lettered(grid);
    if is_lettered && beginning.len() == 2 {
        return None;
    }
    let may_be_either = match parts.all.as_slice() {
        [Part::Number(east), Part::Number(north)] => are_digits(east, 5) && are_digits(north, 5),
        [Part::Number(both)] => is_lettered && are_digits(both, 10),
        _ => false,
    };
    may_be_either.then_some(Err("part-beginning-beside-grid"))
}

fn are_digits(text: &str, most: usize) -> bool {
    text.len() <= most && text.chars().all(|c| c.is_ascii_digit())
}
