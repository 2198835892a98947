//! The marks of degrees, minutes and seconds as keyboards have them: the ordinal sign for the degree's, the letters d, m, s, or colons.

/// The text with the usual marks in the place of those that stand for them.
pub(super) fn plain_marks(text: &str) -> String {
    // Seconds are typed as two marks of minutes, too.
    let text = ["''", "′′", "’’"].iter().fold(without_words(text), |text, twice| text.replace(twice, "\""));
    let marked: Vec<char> = text.chars().map(of_keyboard).collect();
    let letters = has_minutes(&marked);
    let mark = |(index, c): (usize, &char)| match c {
        'd' if letters && follows_figure(&marked, index) => '°',
        'm' if letters && follows_figure(&marked, index) => '\'',
        's' if letters && follows_figure(&marked, index) => '"',
        other => *other,
    };
    with_colons(marked.iter().enumerate().map(mark).collect())
}

/// The text with the degree's mark in the place of its word behind both angles (`52.5 deg N 13.4 deg E`), and without the name of its form
/// before it (`MGRS 33TVK56964953`). Once alone the word is no mark: `55DEG6909` is a reference in the square EG.
fn without_words(text: &str) -> String {
    let starts = |rest: &str, word: &str| rest.get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word));
    let ends = |rest: &str| !rest.starts_with(|c: char| c.is_alphabetic());
    let text = text.trim_start();
    let named = text.get(4..).filter(|rest| starts(text, "MGRS") && ends(rest));
    let text = named.map_or(text, |rest| rest.trim_start_matches([':', ' ']));
    let (mut marked, mut words) = (String::new(), 0);
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let word = ["degrees", "degree", "deg"].into_iter().find(|word| starts(rest, word));
        let behind = word.and_then(|word| rest.get(word.len()..)).filter(|behind| ends(behind));
        if let Some(behind) = behind.filter(|_| marked.trim_end().ends_with(|c: char| c.is_ascii_digit())) {
            marked.truncate(marked.trim_end().len());
            marked.push('°');
            words += 1;
            rest = behind.strip_prefix('.').unwrap_or(behind);
        } else {
            marked.push(c);
            rest = rest.get(c.len_utf8()..).unwrap_or_default();
        }
    }
    if words == 2 { marked } else { text.to_owned() }
}

/// The mark of a keyboard for one that looks like it: the ordinal sign and the ring above, primes and accents, hyphens and dashes.
fn of_keyboard(c: char) -> char {
    match c {
        '\u{ba}' | '\u{2da}' => '°',
        '\u{2b9}' | '\u{b4}' => '\'',
        '\u{2ba}' => '"',
        '\u{2010}'..='\u{2013}' => '-',
        other => other,
    }
}

/// Colons between the figures of angles as the marks of degrees and minutes, `47:30:15` as `47°30'15`; a text with other letters than
/// those of the halves of the world stays as it is.
fn with_colons(text: String) -> String {
    let chars: Vec<char> = text.chars().collect();
    let is_angles = chars.iter().all(|c| !c.is_alphabetic() || matches!(c.to_ascii_uppercase(), 'N' | 'S' | 'E' | 'W'));
    let figure = |index: usize| chars.get(index).is_some_and(char::is_ascii_digit);
    let parts_figures = |(index, c): (usize, &char)| *c != ':' || index > 0 && figure(index - 1) && figure(index + 1);
    if !is_angles || !text.contains(':') || !chars.iter().enumerate().all(parts_figures) {
        return text;
    }
    let mut marks = ['°', '\''].into_iter();
    let mut marked = String::new();
    for c in chars {
        match c {
            ':' => marked.push(marks.next().unwrap_or(':')),
            _ => {
                // An angle ends where neither figures, points nor colons go on.
                if !c.is_ascii_digit() && c != '.' {
                    marks = ['°', '\''].into_iter();
                }
                marked.push(c);
            }
        }
    }
    marked
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

/// The text without the apostrophes that part thousands: `2'600'000`. One before two figures is a minute's mark and stays.
pub(super) fn without_thousands(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let figure = |index: usize| chars.get(index).is_some_and(char::is_ascii_digit);
    let parts_thousands = |index: usize, c: char| {
        let stands = index > 0 && figure(index - 1) && (1..=3).all(|ahead| figure(index + ahead)) && !figure(index + 4);
        matches!(c, '\'' | '\u{2019}') && stands
    };
    chars.iter().enumerate().filter(|(index, c)| !parts_thousands(*index, **c)).map(|(_, c)| *c).collect()
}
