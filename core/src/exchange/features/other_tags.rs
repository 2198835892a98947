//! The column `other_tags`, in which GDAL/OGR leaves what an OpenStreetMap extract says beyond the columns of its layers.
//!
//! # References
//! GDAL documentation, "OSM - OpenStreetMap XML and PBF": `other_tags`, text as hstore of PostgreSQL (`"key"=>"value"` with commas between, quotes
//! and backslashes behind a backslash), or JSON.

/// The name of the column.
pub(super) const COLUMN: &str = "other_tags";
/// Pairs of one record that are read.
const MOST_PAIRS: usize = 200;

/// The pairs that stand in that column among those of a record.
pub(super) fn beside<'a>(pairs: impl Iterator<Item = (&'a str, &'a str)>) -> Vec<(String, String)> {
    pairs.filter(|(key, _)| key.eq_ignore_ascii_case(COLUMN)).flat_map(|(_, text)| self::pairs(text)).collect()
}

/// The pairs of such a text; those before its first fault where it has one.
pub(super) fn pairs(text: &str) -> Vec<(String, String)> {
    let text = text.trim();
    if text.starts_with('{') {
        let object: serde_json::Map<String, serde_json::Value> = serde_json::from_str(text).unwrap_or_default();
        let told = |(key, value): (String, serde_json::Value)| Some((key, value.as_str()?.to_owned()));
        return object.into_iter().filter_map(told).take(MOST_PAIRS).collect();
    }
    let mut rest = text;
    std::iter::from_fn(|| pair(&mut rest)).take(MOST_PAIRS).collect()
}

/// The next pair, taken off the text with the comma behind it.
fn pair(rest: &mut &str) -> Option<(String, String)> {
    let key = quoted(rest)?;
    *rest = rest.trim_start().strip_prefix("=>")?;
    let value = quoted(rest)?;
    *rest = rest.trim_start();
    *rest = rest.strip_prefix(',').unwrap_or(rest);
    Some((key, value))
}

/// The next text in quotes, taken off.
fn quoted(rest: &mut &str) -> Option<String> {
    let inner = rest.trim_start().strip_prefix('"')?;
    let (mut text, mut escaped) = (String::new(), false);
    for (at, letter) in inner.char_indices() {
        match letter {
            _ if escaped => (escaped, _) = (false, text.push(letter)),
            '\\' => escaped = true,
            '"' => {
                *rest = inner.get(at + 1..)?;
                return Some(text);
            }
            _ => text.push(letter),
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::pairs;

    fn told(text: &str) -> Vec<String> {
        pairs(text).into_iter().map(|(key, value)| format!("{key} {value}")).collect()
    }

    /// The texts as `ogr2ogr` of GDAL writes them (its documentation of the driver).
    #[test]
    fn tags_are_read_as_they_are_written() {
        assert_eq!(told(r#""tunnel"=>"culvert","layer"=>"-1""#), ["tunnel culvert", "layer -1"]);
        assert_eq!(told(r#""note"=>"say \"a, b\" => \\ c","bridge"=>"yes""#), [r#"note say "a, b" => \ c"#, "bridge yes"]);
        assert_eq!(told(r#"{"tunnel":"yes","layer":"-1"}"#), ["layer -1", "tunnel yes"]);
        assert_eq!(told(r#""a"=>"b","c"=>"d"#), ["a b"], "an end that is cut off");
        for odd in ["", "tunnel", "\"a\"", "\"a\"=>", "\"a\"=b", "{", "{\"a\":1}"] {
            assert!(told(odd).is_empty(), "{odd}");
        }
    }
}
