//! Readings that stand out of several which agree.

/// A value this many robust spreads from the median stands out.
///
/// # References
/// B. Iglewicz, D. C. Hoaglin (1993), How to Detect and Handle Outliers, ASQC Basic References in Quality Control 16: modified
/// z-scores above 3.5, of the median absolute deviation (as the NIST/SEMATECH e-Handbook, 1.3.5.17, quotes it; from memory).
pub const WILD_SPREADS: f64 = 3.5;

/// One sigma of a normal in terms of its median absolute deviation: the inverse of its quartile, 0.6745.
const SIGMA_OF_MAD: f64 = 1.482_602_218_505_602;

/// The numbers of the values that stand out, one after the other, the farthest first; fewer than half of them, and of less than
/// three none. Values that happen to agree do not scatter less than `least_spread`, in the unit of the values.
pub(crate) fn wild_of(values: &[f64], least_spread: f64) -> Vec<usize> {
    let mut kept: Vec<(usize, f64)> = values.iter().copied().enumerate().collect();
    let mut wild = Vec::new();
    while kept.len() > 2 && 2 * (wild.len() + 1) < values.len() {
        let Some(index) = farthest(&kept, least_spread) else { break };
        kept.retain(|(other, _)| *other != index);
        wild.push(index);
    }
    wild
}

fn farthest(kept: &[(usize, f64)], least_spread: f64) -> Option<usize> {
    let middle = median(kept.iter().map(|(_, value)| *value))?;
    let off = |value: f64| (value - middle).abs();
    let spread = (SIGMA_OF_MAD * median(kept.iter().map(|(_, value)| off(*value)))?).max(least_spread);
    let (index, value) = kept.iter().max_by(|a, b| off(a.1).total_cmp(&off(b.1)))?;
    (off(*value) > WILD_SPREADS * spread).then_some(*index)
}

fn median(values: impl Iterator<Item = f64>) -> Option<f64> {
    let mut sorted: Vec<f64> = values.collect();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    let upper = *sorted.get(half)?;
    let lower = if sorted.len().is_multiple_of(2) { *sorted.get(half.checked_sub(1)?)? } else { upper };
    Some(0.5 * (lower + upper))
}

#[cfg(test)]
mod tests {
    use super::wild_of;

    /// By hand: of 3, 3, 25, 3, 3 the deviations' median is 0, of 0, 10, 25 it is 10.
    #[test]
    fn what_stands_out_of_values_that_agree_is_named() {
        assert_eq!(wild_of(&[3.0, 3.0, 25.0, 3.0, 3.0], 2.5), [2]);
        assert_eq!(wild_of(&[3.0, 3.0, 11.0, 3.0, 3.0], 2.5), Vec::<usize>::new());
        assert_eq!(wild_of(&[0.0, 10.0, 25.0], 1.0), Vec::<usize>::new());
        assert_eq!(wild_of(&[0.0, 25.0], 1.0), Vec::<usize>::new());
        assert_eq!(wild_of(&[40.0, 1.0, 0.0, -30.0, 0.5], 1.0), [0, 3]);
        assert_eq!(wild_of(&[0.0, 0.0, 90.0, 90.0], 1.0), Vec::<usize>::new());
    }
}
