//! The marks of degrees, minutes and seconds as keyboards have them: the ordinal sign for the degree's, or the letters d, m, s.

/// The text with the usual marks in the place of those that stand for them.
pub(super) fn plain_marks(text: &str) -> String {
    // Seconds are typed as two marks of minutes, too.
    let text = ["''", "′′", "’’"].iter().fold(text.to_owned(), |text, twice| text.replace(twice, "\""));
    let marked: Vec<char> = text.chars().map(|c| if matches!(c, '\u{ba}' | '\u{2da}') { '°' } else { c }).collect();
    let letters = has_minutes(&marked);
    let mark = |(index, c): (usize, &char)| match c {
        'd' if letters && follows_figure(&marked, index) => '°',
        'm' if letters && follows_figure(&marked, index) => '\'',
        's' if letters && follows_figure(&marked, index) => '"',
        other => *other,
    };
    marked.iter().enumerate().map(mark).collect()
}

fn follows_figure(text: &[char], index: usize) -> bool {
    index.checked_sub(1).and_then(|before| text.get(before)).is_some_and(char::is_ascii_digit)
}

/// Degrees and minutes by their letters, `44d41m`: a small d and a small m behind one or two figures. Nothing else has them.
fn has_minutes(text: &[char]) -> bool {
    let behind = |index: usize| text.get(index + 1..).unwrap_or_default();
    let minutes = |rest: &[char]| {
        let rest: Vec<&char> = rest.iter().skip_while(|c| c.is_whitespace()).collect();
        let figures = rest.iter().take_while(|c| c.is_ascii_digit() || ***c == '.').count();
        let whole = rest.iter().take_while(|c| c.is_ascii_digit()).count();
        (1..=2).contains(&whole) && rest.get(figures).is_some_and(|c| **c == 'm')
    };
    text.iter().enumerate().any(|(index, c)| *c == 'd' && follows_figure(text, index) && minutes(behind(index)))
}
