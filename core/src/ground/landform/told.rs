//! Landforms as messages.

use super::{Around, Aspect, CutOrFill, Extent, Rise};
use crate::measure::{Arg, LINE_95, Message, NamedBearing, Telling};

/// Weaker landforms are told with a doubt.
const DOUBTFUL: f64 = 0.5;

/// A way that is less likely than all others together is not told as a fact.
const MORE_LIKELY_THAN_NOT: f64 = 0.5;

/// Below so many spreads of its steepness a slope has no aspect to be told.
const TOO_FLAT: f64 = 2.0;

/// A distance to the nearest 1, 2 or 5 of its figures that is no less than half of what it may be off by, and at least as much.
fn no_sharper(distance_m: f64, blur_m: f64) -> f64 {
    let tens = 10.0_f64.powf(blur_m.max(1.0).log10().floor());
    let step_m = [1.0, 2.0, 5.0].into_iter().map(|figure| figure * tens).find(|step_m| *step_m >= blur_m).unwrap_or(10.0 * tens);
    ((distance_m / step_m).round() * step_m).max(step_m)
}

fn doubt(strength: f64) -> &'static str {
    if strength < DOUBTFUL { "yes" } else { "no" }
}

impl Around {
    /// Whether it may be no more than an error of the heights.
    #[must_use]
    pub fn is_doubtful(&self) -> bool {
        self.landform.strength < DOUBTFUL
    }
}

impl Telling for Around {
    fn message(&self) -> Message {
        let ends = if let Extent::Wide(ends) = self.extent { ends } else { [self.bearing; 3] };
        let [from, middle, to] = ends.map(|end| Arg::Bearing(NamedBearing::True(end)));
        Message::new("landform-told")
            .text("extent", self.extent.word())
            .with("from", from)
            .with("middle", middle)
            .with("to", to)
            .text("kind", self.landform.kind.word())
            .with("distance", Arg::Metres(no_sharper(self.distance_m, self.blur_m)))
            .with("bearing", Arg::Bearing(NamedBearing::True(self.bearing)))
            .text("trend", if self.falls_towards.is_some() { "underfoot" } else { self.trend.word() })
            .with("way", Arg::Bearing(NamedBearing::True(self.falls_towards.unwrap_or(self.bearing))))
            .with("relief", Arg::Height(self.landform.relief_m, 0))
            .text("here", if self.is_here { "yes" } else { "no" })
            .text("doubtful", doubt(self.landform.strength))
    }
}

impl Telling for Rise {
    fn message(&self) -> Message {
        let trend = self.likeliest();
        Message::new("ground-rise-told")
            .text("trend", trend.word())
            .with("bearing", Arg::Bearing(NamedBearing::True(self.bearing)))
            .with("distance", Arg::Metres(self.distance_m))
            .with("height", Arg::Height(self.rise_m.abs(), 0))
            .with("slope", Arg::Degrees(self.slope_deg().abs(), 0))
            .with("chance", Arg::Share(self.chance_of(trend)))
            .text("sure", if self.chance_of(trend) < MORE_LIKELY_THAN_NOT { "no" } else { "yes" })
    }
}

impl Telling for Aspect {
    fn message(&self) -> Message {
        let unsure = self.steepness_in_spreads < TOO_FLAT;
        let told = if unsure { Message::new("ground-aspect-unsure") } else { Message::new("ground-aspect-told") };
        told.with("bearing", Arg::Bearing(NamedBearing::True(self.falls_towards)))
            .with("slope", Arg::Degrees(self.slope_deg, 0))
            .with("spread", Arg::Degrees((LINE_95 * self.spread_deg()).min(180.0), 0))
    }
}

impl Telling for CutOrFill {
    fn message(&self) -> Message {
        Message::new("cut-or-fill-told")
            .text("kind", self.kind.word())
            .with("from", Arg::Metres(self.from_m))
            .with("to", Arg::Metres(self.to_m))
            .with("relief", Arg::Height(self.most_m, 0))
            .text("doubtful", doubt(self.strength))
    }
}
