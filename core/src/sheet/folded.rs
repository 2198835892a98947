//! Names as they are sought: without case and accents.

/// Latin letters with a mark, by the letter that is typed without one.
///
/// # References
/// The Unicode Standard, chapters Latin-1 Supplement and Latin Extended-A, all of their small letters; those that it takes apart (NFKD by
/// Python's `unicodedata` 15) have their base letter, ligatures and barred letters are as they are commonly typed.
const MARKED: [(&str, &str); 25] = [
    ("a", "àáâãäåāăą"),
    ("ae", "æ"),
    ("c", "çćĉċč"),
    ("d", "ďđð"),
    ("e", "èéêëēĕėęě"),
    ("g", "ĝğġģ"),
    ("h", "ĥħ"),
    ("i", "ìíîïĩīĭįı"),
    ("ij", "ĳ"),
    ("j", "ĵ"),
    ("k", "ķĸ"),
    ("l", "ĺļľŀł"),
    ("n", "ñńņňŉŋ"),
    ("o", "òóôõöøōŏő"),
    ("oe", "œ"),
    ("r", "ŕŗř"),
    ("s", "śŝşšſș"),
    ("ss", "ß"),
    ("t", "ţťŧț"),
    ("th", "þ"),
    ("u", "ùúûüũūŭůűų"),
    ("w", "ŵ"),
    ("y", "ýÿŷ"),
    ("z", "źżž"),
    ("'", "’ʼ"),
];

/// A name without case, accents and blanks around it: "Église" and "eglise" are one.
#[must_use]
pub fn folded(name: &str) -> String {
    let is_accent = |c: &char| ('\u{300}'..='\u{36f}').contains(c);
    let mut whole = String::new();
    for c in name.trim().chars().flat_map(char::to_lowercase).filter(|c| !is_accent(c)) {
        match MARKED.iter().find(|(_, marked)| marked.contains(c)) {
            Some((plain, _)) => whole.push_str(plain),
            None => whole.push(c),
        }
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::folded;

    /// Composed and decomposed forms are those of the Unicode Standard, annex 15 (NFC and NFD).
    #[test]
    fn a_name_is_found_without_its_accents() {
        for (name, plain) in [
            ("Église", "eglise"),
            ("E\u{301}glise", "eglise"),
            ("Großer Čmrlj", "grosser cmrlj"),
            ("Łódź Ørsted Æbelø", "lodz orsted aebelo"),
            (" İznik ", "iznik"),
            ("plain 12", "plain 12"),
        ] {
            assert_eq!(folded(name), plain, "{name}");
        }
    }
}
