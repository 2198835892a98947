//! Characters that do not belong in a reference: which one it is, and what it may have been meant for.

/// Letters of other alphabets that look like a Latin letter, and what they look like.
///
/// # References
/// Unicode 15.1, confusables.txt (UTS 39), capitals and small letters of Cyrillic and Greek, by hand (from memory).
const LOOK_ALIKE: [(&str, &str); 2] =
    [("АВЕЅІЈКМНОРСТУХҮаеѕіјорсух", "ABESIJKMHOPCTYXYaesijopcyx"), ("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧο", "ABEZHIKMNOPTYXo")];
/// Letters that are taken for figures, and the figure.
const AS_FIGURE: &str = "lI|OoЗОоΟο";
const FIGURE: &str = "1110030000";

/// A character that does not belong where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Odd {
    pub(super) character: char,
    /// What it may have been meant for.
    pub(super) meant: Option<char>,
    pub(super) part: &'static str,
}

/// The first character that does not belong in a grid reference or in the figures of one.
pub(super) fn odd_in(text: &str) -> Option<Odd> {
    let chars: Vec<char> = text.chars().collect();
    let figure = |index: usize| chars.get(index).is_some_and(char::is_ascii_digit);
    let odd = |(index, character): (usize, &char)| {
        let among_figures = figure(index + 1) || index > 0 && figure(index - 1);
        foreign(*character, among_figures).or_else(|| in_figures(&chars, index))
    };
    chars.iter().enumerate().find_map(odd)
}

/// The part that is wrong with the characters of a text; nothing when all belong in a grid reference.
pub(super) fn part_of(text: &str) -> Option<&'static str> {
    odd_in(text).map(|odd| odd.part)
}

/// The first character beside letters that does not belong in latitude and longitude; a sign stands before an angle alone.
pub(super) fn odd_in_angle(text: &str) -> Option<char> {
    let is_mark = |c: char| matches!(c, '.' | '°' | '\'' | '"' | '\u{2019}' | '\u{201d}' | '\u{2032}' | '\u{2033}' | ',' | ';');
    let is_sign = |c: char| matches!(c, '-' | '+' | '\u{2212}');
    let mut before = ',';
    text.chars().filter(|c| !c.is_whitespace()).find(|c| {
        let begins = matches!(before, ',' | ';');
        before = *c;
        !(c.is_ascii_alphanumeric() || is_mark(*c) || is_sign(*c) && begins)
    })
}

fn foreign(character: char, among_figures: bool) -> Option<Odd> {
    if character.is_ascii_alphanumeric() || character.is_whitespace() {
        return None;
    }
    if character == '.' {
        return Some(Odd { character, meant: None, part: "part-point" });
    }
    let as_figure = meant_by(character, AS_FIGURE, FIGURE).filter(|_| among_figures).or_else(|| figure_of(character));
    if let Some(figure) = as_figure {
        return Some(Odd { character, meant: Some(figure), part: "part-look-alike-figure" });
    }
    let looks_like = LOOK_ALIKE.iter().find_map(|(letters, latin)| meant_by(character, letters, latin));
    let part = if looks_like.is_some() { "part-look-alike" } else { "part-characters" };
    Some(Odd { character, meant: looks_like, part })
}

/// A letter behind the first figure of the last numbers: `32TPT l23 678`, `32TPT 1O3 678`.
fn in_figures(chars: &[char], index: usize) -> Option<Odd> {
    let character = *chars.get(index).filter(|c| c.is_ascii_alphabetic())?;
    let group = |c: &&char| !c.is_whitespace();
    let before: Vec<char> = chars.get(..index)?.iter().rev().take_while(group).copied().collect();
    let behind: Vec<char> = chars.get(index + 1..)?.iter().take_while(group).copied().collect();
    let is_figures = |part: &[char]| part.iter().all(|c| c.is_ascii_digit() || meant_by(*c, AS_FIGURE, FIGURE).is_some());
    let meant = meant_by(character, AS_FIGURE, FIGURE);
    let has_figure = before.iter().chain(&behind).any(char::is_ascii_digit);
    // At the beginning a figure before letters is the zone.
    let begins = chars.get(..index)?.iter().all(|c| c.is_ascii_digit() || c.is_whitespace());
    (meant.is_some() && has_figure && !begins && is_figures(&before) && is_figures(&behind)).then_some(Odd {
        character,
        meant,
        part: "part-look-alike-figure",
    })
}

fn meant_by(character: char, from: &str, to: &str) -> Option<char> {
    from.chars().zip(to.chars()).find(|(one, _)| *one == character).map(|(_, meant)| meant)
}

/// The figure that a figure of another script stands for.
///
/// # References
/// Unicode 15.1: blocks of ten figures, Arabic-Indic, extended Arabic-Indic, Devanagari, fullwidth.
fn figure_of(character: char) -> Option<char> {
    const NOUGHTS: [u32; 4] = [0x660, 0x6f0, 0x966, 0xff10];
    let code = u32::from(character);
    let value = NOUGHTS.iter().find_map(|nought| code.checked_sub(*nought).filter(|value| *value < 10))?;
    char::from_digit(value, 10)
}

#[cfg(test)]
mod tests {
    use super::{Odd, odd_in, odd_in_angle};

    /// By hand.
    #[test]
    fn the_odd_character_is_named_with_what_it_may_have_been() {
        let odd = |text| odd_in(text).map(|Odd { character, meant, part }| (character, meant, part));
        assert_eq!(odd("32TPT l23 678"), Some(('l', Some('1'), "part-look-alike-figure")));
        assert_eq!(odd("32TPT 1O3 678"), Some(('O', Some('0'), "part-look-alike-figure")));
        assert_eq!(odd("32TP\u{422} 123 678"), Some(('\u{422}', Some('T'), "part-look-alike")));
        assert_eq!(odd("32TPT 12\u{417} 678"), Some(('\u{417}', Some('3'), "part-look-alike-figure")));
        assert_eq!(odd("32TPT \u{661}23 678"), Some(('\u{661}', Some('1'), "part-look-alike-figure")));
        assert_eq!(odd("32TPT 123.4 678.9"), Some(('.', None, "part-point")));
        assert_eq!(odd("32TPT 123; 678"), Some((';', None, "part-characters")));
        for sound in ["32TPT123678", "32 T PT 123 678", "OS 123 678", "I 123 678", "32t pt 1 2", "NN 166 712"] {
            assert_eq!(odd(sound), None, "{sound}");
        }
    }

    /// By hand.
    #[test]
    fn what_belongs_in_no_angle_is_named() {
        for (text, odd) in [("(52.5, 13.4)", '('), ("{52.5,13.4}", '{'), ("52-30-15N 13-24-10E", '-'), ("52.5#, 13.4", '#')] {
            assert_eq!(odd_in_angle(text), Some(odd), "{text}");
        }
        for sound in ["-33.8568, -151.2153", "52°30'15\"N, 13°24'10\"E", "+5.5; \u{2212}13.4"] {
            assert_eq!(odd_in_angle(sound), None, "{sound}");
        }
    }
}
