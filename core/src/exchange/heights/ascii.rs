//! ASCII grids, `.asc`: words and numbers of a header in any order, then the heights row by row from the north-west.
//!
//! # References
//! Esri ASCII raster format: `ncols`, `nrows`, `xllcorner` or `xllcenter`, `yllcorner` or `yllcenter`, `cellsize`,
//! optional `nodata_value`, which is -9999 when absent. `dx` and `dy` for steps of two lengths are common practice, no source.

use super::part::{Part, Voids, tell};
use super::{HeightsFileError, HeightsProgress, LineFault, WantedHeights};
use crate::ground::{HeightsError, Layout, Window};

const USUAL_VOID: f64 = -9999.0;
const MOST_COUNT: f64 = 1e9;
/// Words and their place in [`Header`].
const WORDS: [&str; 10] = ["ncols", "nrows", "xllcorner", "xllcenter", "yllcorner", "yllcenter", "cellsize", "dx", "dy", "nodata_value"];
const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// Whether bytes begin as such a grid does.
pub(super) fn begins(bytes: &[u8]) -> bool {
    let first = Tokens::over(bytes).next();
    first.is_some_and(|token| WORDS.iter().any(|word| token.text.eq_ignore_ascii_case(word.as_bytes())))
}

pub(super) fn read(bytes: &[u8], wanted: &WantedHeights, progress: &mut HeightsProgress) -> Result<Part, HeightsFileError> {
    let mut tokens = Tokens::over(bytes);
    let header = Header::read(&mut tokens)?;
    let (east, south) = header.steps()?;
    let (columns, rows) = header.size()?;
    let west = header.first(2, east / 2.0, 3)?;
    let last = header.first(4, south / 2.0, 5)?;
    let north = last + rows.saturating_sub(1) as f64 * south;
    let lattice = wanted.lattice.clone().ok_or_else(|| ungridded(west, north))?;
    let unit_m = super::unsaid_unit_m(wanted, &lattice)?;
    let whole = Layout { lattice, columns, rows, west, north, step_east: east, step_south: south };
    let voids = Voids { named: Some(header.value(9).or(wanted.void).unwrap_or(USUAL_VOID)), unit_m };
    let mut part = Part::of(&whole, wanted)?;
    part.reserve(bytes.len());
    let window = part.window;
    let odd = |fault: LineFault, line: usize| HeightsFileError::Line { line: odd_line(bytes, &header, columns).unwrap_or(line), fault };
    for row in 0..rows {
        read_row(&mut tokens, &mut part.values_m, columns, row, &window, voids).map_err(|error| {
            if let HeightsFileError::Line { line, fault: LineFault::Few } = error { odd(LineFault::Few, line) } else { error }
        })?;
        tell(progress, row + 1, rows)?;
    }
    match tokens.next() {
        Some(token) => Err(odd(LineFault::Many, token.line)),
        None => Ok(part),
    }
}

/// The first line of heights that has another count of them than the grid has columns, in a file that writes a row on a line.
fn odd_line(bytes: &[u8], header: &Header, columns: usize) -> Option<usize> {
    let count = |line: &[u8]| line.split(u8::is_ascii_whitespace).filter(|word| !word.is_empty()).count();
    let lines = bytes.split(|byte| *byte == b'\n').enumerate().map(|(number, line)| (number + 1, count(line)));
    let lines: Vec<(usize, usize)> = lines.filter(|(number, count)| *number > header.line && *count > 0).collect();
    let by_rows = lines.iter().filter(|(_, count)| *count == columns).count();
    if 2 * by_rows < lines.len() { None } else { lines.iter().find(|(_, count)| *count != columns).map(|(number, _)| *number) }
}

/// What is told of a corner in no named grid: numbers beyond all degrees are those of a grid.
fn ungridded(west: f64, north: f64) -> HeightsFileError {
    let degrees = (-180.0..=360.0).contains(&west) && (-90.0..=90.0).contains(&north);
    if degrees { HeightsFileError::GridNeeded } else { HeightsFileError::GridOfNumbers { west, north } }
}

/// Every number of the file is read, so that a damaged one is told even outside the wanted part.
fn read_row(
    tokens: &mut Tokens,
    values_m: &mut Vec<f32>,
    columns: usize,
    row: usize,
    window: &Window,
    voids: Voids,
) -> Result<(), HeightsFileError> {
    let wanted = window.left..window.left + window.columns;
    let row_wanted = (window.top..window.top + window.rows).contains(&row);
    for column in 0..columns {
        let last = tokens.line;
        let token = tokens.next().ok_or(HeightsFileError::Line { line: last, fault: LineFault::Few })?;
        let height_m = voids.height_m(token.number()?).ok_or_else(|| token.fault(LineFault::Height))?;
        if row_wanted && wanted.contains(&column) {
            values_m.push(height_m);
        }
    }
    Ok(())
}

/// The numbers of the header by the words of [`WORDS`] with their lines, and the line where it ends.
struct Header {
    values: [Option<f64>; WORDS.len()],
    lines: [usize; WORDS.len()],
    line: usize,
}

impl Header {
    fn read(tokens: &mut Tokens) -> Result<Self, HeightsFileError> {
        let mut header = Self { values: [None; WORDS.len()], lines: [0; WORDS.len()], line: 1 };
        while let Some(word) = tokens.peek().filter(Token::is_word) {
            tokens.next();
            let at = WORDS.iter().position(|known| word.text.eq_ignore_ascii_case(known.as_bytes()));
            let place = at.and_then(|at| header.values.get_mut(at)).ok_or_else(|| word.fault(LineFault::Word))?;
            let number = tokens.next().filter(|number| !number.is_word() && number.line == word.line);
            let number = number.ok_or_else(|| word.fault(LineFault::NoNumber))?;
            let value = number.number()?;
            if place.replace(value).is_some() {
                return Err(word.fault(LineFault::Twice));
            }
            at.and_then(|at| header.lines.get_mut(at)).into_iter().for_each(|line| *line = word.line);
            header.line = number.line;
        }
        Ok(header)
    }

    fn value(&self, word: usize) -> Option<f64> {
        self.values.get(word).copied().flatten()
    }

    /// A fault of one of some words: on the line of the first that is there, else where the header ends.
    fn fault(&self, fault: LineFault, words: &[usize]) -> HeightsFileError {
        let line = words.iter().filter_map(|word| self.lines.get(*word)).copied().find(|line| *line > 0);
        HeightsFileError::Line { line: line.unwrap_or(self.line), fault }
    }

    /// The numbers of columns and rows.
    fn size(&self) -> Result<(usize, usize), HeightsFileError> {
        let (columns, rows) = (self.count(0)?, self.count(1)?);
        // So many in one row or column alone are too many.
        if columns.max(rows) >= MOST_COUNT {
            return Err(HeightsFileError::Heights(HeightsError::TooMany((columns * rows).min(1e18) as usize)));
        }
        Ok((columns as usize, rows as usize))
    }

    fn count(&self, word: usize) -> Result<f64, HeightsFileError> {
        let value = self.value(word).filter(|value| value.fract().abs() < f64::EPSILON && *value >= 1.0);
        value.ok_or_else(|| self.fault(LineFault::Size, &[word]))
    }

    /// Steps to the east and to the south.
    fn steps(&self) -> Result<(f64, f64), HeightsFileError> {
        let steps = self.value(6).map(|step| (step, step)).or_else(|| self.value(7).zip(self.value(8)));
        let sound = steps.filter(|(east, south)| *east > 0.0 && *south > 0.0 && east.is_finite() && south.is_finite());
        sound.ok_or_else(|| self.fault(LineFault::Step, &[6, 7, 8]))
    }

    /// The first post from the corner of its cell, or from its middle.
    fn first(&self, corner: usize, half: f64, middle: usize) -> Result<f64, HeightsFileError> {
        let first = self.value(corner).map(|corner| corner + half).or_else(|| self.value(middle));
        first.filter(|first| first.is_finite()).ok_or_else(|| self.fault(LineFault::Corner, &[corner, middle]))
    }
}

/// A word or number, and its line.
#[derive(Clone, Copy)]
struct Token<'a> {
    text: &'a [u8],
    line: usize,
}

impl Token<'_> {
    fn fault(&self, fault: LineFault) -> HeightsFileError {
        HeightsFileError::Line { line: self.line, fault }
    }

    /// Words begin with a letter; "nan" is a number.
    fn is_word(&self) -> bool {
        self.text.first().is_some_and(u8::is_ascii_alphabetic) && !self.text.eq_ignore_ascii_case(b"nan")
    }

    fn number(&self) -> Result<f64, HeightsFileError> {
        let number = std::str::from_utf8(self.text).ok().and_then(|text| text.parse().ok());
        let fault = if self.text.contains(&b',') { LineFault::Comma } else { LineFault::NoNumber };
        number.ok_or_else(|| self.fault(fault))
    }
}

/// Words and numbers between white space, with the line they stand on.
#[derive(Clone)]
struct Tokens<'a> {
    rest: &'a [u8],
    line: usize,
}

impl<'a> Tokens<'a> {
    fn over(bytes: &'a [u8]) -> Self {
        Self { rest: bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(bytes), line: 1 }
    }

    fn peek(&self) -> Option<Token<'a>> {
        self.clone().next()
    }

    fn next(&mut self) -> Option<Token<'a>> {
        while let Some((first, rest)) = self.rest.split_first().filter(|(first, _)| first.is_ascii_whitespace()) {
            self.line += usize::from(*first == b'\n');
            self.rest = rest;
        }
        let length = self.rest.iter().position(u8::is_ascii_whitespace).unwrap_or(self.rest.len());
        let (text, rest) = self.rest.split_at_checked(length).filter(|(text, _)| !text.is_empty())?;
        self.rest = rest;
        Some(Token { text, line: self.line })
    }
}
