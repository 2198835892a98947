//! The probability along the line, as a table of equal steps.

/// Probability per metre along a line, at the middle of equal steps; it sums to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Odds {
    /// Metres between two entries.
    pub step_m: f64,
    /// Probability per metre; entry `i` stands for `i·step` to `(i+1)·step`.
    pub per_m: Vec<f64>,
}

impl Odds {
    /// The odds that belong to unnormalised weights. `None` when nothing has any weight.
    #[must_use]
    pub fn from_weights(step_m: f64, mut weights: Vec<f64>) -> Option<Self> {
        let total: f64 = weights.iter().sum::<f64>() * step_m;
        if !(total.is_finite() && total > 0.0) {
            return None;
        }
        for weight in &mut weights {
            *weight /= total;
        }
        Some(Self { step_m, per_m: weights })
    }

    /// The middle of entry `index`, metres along the line.
    #[must_use]
    pub fn along_m(&self, index: usize) -> f64 {
        (index as f64 + 0.5) * self.step_m
    }

    /// Density per metre at a distance along the line; 0 outside.
    #[must_use]
    pub fn density(&self, along_m: f64) -> f64 {
        if along_m < 0.0 {
            return 0.0;
        }
        self.per_m.get((along_m / self.step_m) as usize).copied().unwrap_or(0.0)
    }

    /// The greatest density.
    #[must_use]
    pub fn peak(&self) -> f64 {
        self.per_m.iter().copied().fold(0.0, f64::max)
    }

    /// The density above which a set of places holds `share` of the probability: the highest-density set.
    #[must_use]
    pub fn level_of_share(&self, share: f64) -> f64 {
        let mut sorted = self.per_m.clone();
        sorted.sort_by(|a, b| b.total_cmp(a));
        let mut held = 0.0;
        for density in sorted {
            held += density * self.step_m;
            if held >= share {
                return density;
            }
        }
        0.0
    }
}
