//! The numbers that PROJ's database holds, so that others are refused without asking.
//!
//! The binding of PROJ (0.31) holds for ever what a refused number took up: the connection to the database with what was
//! read through it, 25 kB to some MB each time.

/// One line an authority and sort: numbers and runs of them, or names. Held against the database by the conformance tests.
const TABLE: &str = include_str!("codes.txt");

/// Whether PROJ knows a system by this: "EPSG:27700", "EPSG:27700+5701" for a grid and its heights, "IGNF:LAMB93", or the
/// long way to write it, "urn:ogc:def:crs:EPSG::27700".
///
/// # References
/// OGC 07-092r3 (names of definitions), 7.2 and 7.5.
pub(super) fn is_registered(definition: &str) -> bool {
    if let Some(named) = definition.strip_prefix("urn:ogc:def:crs") {
        // One, or several behind commas: a grid, and what its heights count from.
        return named.trim_start_matches(',').split(',').all(|part| is_of_urn(part.trim_start_matches("crs")));
    }
    let Some((authority, code)) = definition.split_once(':') else { return false };
    match code.split_once('+') {
        Some((flat, heights)) => is_held(authority, &["flat"], flat) && is_held(authority, &["heights"], heights),
        None => is_held(authority, &["flat", "heights", "other"], code),
    }
}

/// ":EPSG::27700", with or without the version of the register.
fn is_of_urn(part: &str) -> bool {
    let mut pieces = part.split(':').skip(1);
    match (pieces.next(), pieces.next(), pieces.next(), pieces.next()) {
        (Some(authority), Some(_), Some(code), None) => is_held(authority, &["flat", "heights", "other"], code),
        _ => false,
    }
}

fn is_held(authority: &str, sorts: &[&str], code: &str) -> bool {
    let of = |line: &'static str| line.split_once(' ').and_then(|(name, rest)| Some((name, rest.split_once(' ')?)));
    let wanted = |(name, (sort, _)): &(&str, (&str, &str))| name.eq_ignore_ascii_case(authority) && sorts.contains(sort);
    TABLE.lines().filter_map(of).filter(wanted).flat_map(|(_, (_, codes))| codes.split(' ')).any(|entry| is_in(entry, code))
}

/// In a run "2000-2180", or the one.
fn is_in(entry: &str, code: &str) -> bool {
    let number = |text: &str| text.parse::<u32>().ok();
    match entry.split_once('-').map(|(first, last)| (number(first), number(last), number(code))) {
        Some((Some(first), Some(last), Some(wanted))) => (first..=last).contains(&wanted) && !code.starts_with(['0', '+']),
        Some((Some(_), Some(_), None)) => false,
        _ => entry == code,
    }
}

#[cfg(test)]
mod tests {
    use super::is_registered;

    #[test]
    fn only_numbers_of_the_registers_are_registered() {
        let known = ["EPSG:27700", "epsg:27700", "EPSG:27700+5701", "EPSG:2227+6360", "EPSG:4326", "EPSG:900913", "ESRI:102003"];
        let written = ["IGNF:LAMB93", "OGC:CRS84", "urn:ogc:def:crs:EPSG::2056", "urn:ogc:def:crs:EPSG:9.6:2056"];
        for definition in known.iter().chain(&written).chain(&["urn:ogc:def:crs,crs:EPSG::27700,crs:EPSG::5701"]) {
            assert!(is_registered(definition), "{definition}");
        }
        let numbers = ["EPSG:1", "EPSG:027700", "EPSG:+27700", "EPSG:90000", "EPSG:99999999999", "EPSG:27700+", "EPSG:27700+27700"];
        let others =
            ["EPSG:5701+27700", "ESRI:lambert", "IGNF:LAMB", "EPSG:2000-2180", "urn:ogc:def:crs:EPSG:2056", "urn:ogc:def:crs", "EPSG", ""];
        for definition in numbers.iter().chain(&others) {
            assert!(!is_registered(definition), "{definition}");
        }
    }
}
