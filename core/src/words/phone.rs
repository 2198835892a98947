//! What the phone believes, in sentences.

use super::{Words, numbers};
use crate::earth::{Attracted, Attraction, MagneticField, SENSOR_DIP_DEG, SENSOR_STRENGTH_NT};
use crate::fix::Check;
use crate::measure::{AngleUnit, Arg, GridBearing, LINE_95, MagneticBearing, Message, NamedBearing};

/// Nanotesla in a microtesla.
const NT_PER_UT: f64 = 1_000.0;
/// Nothing is certain that rests on a belief beforehand: told as "> 99 %".
const MOST_SHARE: f64 = 0.999;

impl Words {
    /// The field that the phone feels beside the model's; what to do when they differ.
    #[must_use]
    pub fn attraction(&self, told: &Attraction, model: &MagneticField) -> Vec<String> {
        let message = Message::new("attraction-told")
            .with("strength", Arg::Number(told.strength_nt / NT_PER_UT, 1))
            .with("strength-spread", Arg::Number(LINE_95 * SENSOR_STRENGTH_NT / NT_PER_UT, 1))
            .with("dip", Arg::Degrees(told.dip_deg, 0))
            .with("dip-spread", Arg::Degrees(LINE_95 * SENSOR_DIP_DEG, 0))
            .with("model-strength", Arg::Number(model.total_nt / NT_PER_UT, 1))
            .with("model-strength-spread", Arg::Number(LINE_95 * model.total_spread_nt / NT_PER_UT, 1))
            .with("model-dip", Arg::Degrees(model.inclination_deg, 1))
            .with("model-dip-spread", Arg::Degrees(LINE_95 * model.inclination_spread_deg, 1))
            .with("share", Arg::Share(told.share.min(MOST_SHARE)))
            .text("verdict", told.verdict().word());
        vec![self.say(&message), self.attraction_next(told, model)]
    }

    /// What to do about the field that the phone feels.
    #[must_use]
    pub fn attraction_next(&self, told: &Attraction, model: &MagneticField) -> String {
        // No field of the earth is ten times another, and few magnets beside a phone make it so: the unit is more likely wrong.
        let is_unearthly = !(0.1..=10.0).contains(&(told.strength_nt / model.total_nt));
        self.say(&Message::new(match told.verdict() {
            _ if is_unearthly => "attraction-units",
            _ if told.is_upside_down => "attraction-axes",
            Attracted::Clean => "attraction-clean",
            Attracted::Doubtful | Attracted::Near => "attraction-step",
        }))
    }

    /// Which way the phone's top edge points, as one sentence.
    #[must_use]
    pub fn attraction_heading(&self, told: Option<&str>) -> String {
        self.say(&match told {
            Some(heading) => Message::new("attraction-heading").text("heading", heading),
            None => Message::new("attraction-no-heading"),
        })
    }

    /// Where the phone points: "062° mag ± 13° (95 %)"; without its half-width at 95 % where metal makes it anything.
    #[must_use]
    pub fn heading(&self, heading: MagneticBearing, half_95_deg: Option<f64>) -> String {
        let bearing = self.whole_bearing(NamedBearing::Magnetic(heading));
        let message = match half_95_deg {
            Some(half_deg) => Message::new("heading-told").with("spread", Arg::Turn(half_deg, 0)),
            None => Message::new("heading-unsure"),
        };
        self.say(&message.text("bearing", bearing))
    }

    /// The figures of a heading as one types them, whole degrees by the magnet: "062".
    #[must_use]
    pub fn heading_figures(&self, heading: MagneticBearing) -> String {
        numbers::bearing_figures(heading.degrees(), AngleUnit::Degrees, 0).replace('°', "")
    }

    /// A receiver's place with its spread and age, and how it lies to the fix.
    #[must_use]
    pub fn witness(&self, reference: &str, half_axis_95_m: f64, age_s: f64, check: Option<(&Check, GridBearing)>) -> String {
        let message = Message::new("witness-told")
            .text("reference", reference)
            .with("spread", Arg::Metres(half_axis_95_m))
            .text("age", self.age_to_the_second(age_s));
        let Some((check, bearing)) = check else { return self.say(&message.text("verdict", "none")) };
        let message = message
            .with("distance", Arg::Metres(check.distance_m))
            .with("bearing", Arg::Bearing(NamedBearing::Grid(bearing)))
            .text("verdict", check.verdict().word());
        self.say(&message)
    }

    /// "± 14 m".
    #[must_use]
    pub fn plus_minus(&self, metres: f64) -> String {
        self.say(&Message::new("chart-plus-minus").with("spread", Arg::Metres(metres)))
    }
}
