//! Floor 7. Every sentence a person reads, made from Fluent resources.
//!
//! Rooms hand over a [`Message`] or a structured result; nothing else in the core holds a sentence.

mod after;
mod compass;
mod field;
mod fix;
mod ground;
mod minded;
mod norths;
mod numbers;
mod open;
mod phone;
mod strip;
mod walk;

pub use fix::HeldTold;
pub use norths::{by_told, date_told, printed_told};

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use crate::ground::HeightUnit;
use crate::measure::{AngleUnit, Arg, Message, NamedBearing, North, typed_unit};

const ENGLISH: &str = include_str!("en.ftl");
const ENGLISH_LABELS: &str = include_str!("en_labels.ftl");

/// The sentences of one language.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    /// Minutes that the walker's clock is ahead of UTC.
    utc_offset_min: i32,
    /// How bearings are written.
    unit: AngleUnit,
    /// How heights are written.
    height_unit: HeightUnit,
}

impl std::fmt::Debug for Words {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str("Words")
    }
}

impl Default for Words {
    fn default() -> Self {
        Self::english()
    }
}

impl Words {
    /// English.
    #[must_use]
    pub fn english() -> Self {
        let mut bundle = FluentBundle::new_concurrent(vec!["en".parse::<LanguageIdentifier>().unwrap_or_default()]);
        bundle.set_use_isolating(false);
        bundle.set_transform(Some(numbers::bound));
        // A resource with an error still holds every sound message; a test reads them all.
        for text in [ENGLISH, ENGLISH_LABELS] {
            bundle.add_resource_overriding(FluentResource::try_new(text.into()).unwrap_or_else(|(resource, _)| resource));
        }
        Self { bundle, utc_offset_min: 0, unit: AngleUnit::Degrees, height_unit: HeightUnit::Metres }
    }

    /// The same sentences with times of day told by a clock so many minutes ahead of UTC.
    #[must_use]
    pub fn at_offset(mut self, utc_offset_min: i32) -> Self {
        self.utc_offset_min = utc_offset_min;
        self
    }

    /// Minutes that the walker's clock is ahead of UTC.
    #[must_use]
    pub fn utc_offset_min(&self) -> i32 {
        self.utc_offset_min
    }

    /// The same sentences with bearings written in this unit.
    #[must_use]
    pub fn in_unit(mut self, unit: AngleUnit) -> Self {
        self.unit = unit;
        self
    }

    /// From now on heights are written in this unit.
    pub fn write_heights_in(&mut self, unit: HeightUnit) {
        self.height_unit = unit;
    }

    /// The sentence of a message. An unknown identifier comes back as itself.
    #[must_use]
    pub fn say(&self, message: &Message) -> String {
        let mut args = FluentArgs::new();
        for (name, arg) in &message.args {
            args.set(*name, self.value(arg));
        }
        let Some(pattern) = self.bundle.get_message(message.id).and_then(|found| found.value()) else {
            return message.id.to_owned();
        };
        let mut errors = Vec::new();
        self.bundle.format_pattern(pattern, Some(&args), &mut errors).into_owned()
    }

    fn value(&self, arg: &Arg) -> FluentValue<'static> {
        match arg {
            Arg::Text(text) => numbers::plain(text).into(),
            Arg::Register(text) => text.clone().into(),
            Arg::Count(count) => FluentValue::from(*count),
            Arg::Number(value, decimals) => numbers::number(*value, *decimals).into(),
            Arg::Metres(metres) => numbers::metres(*metres).into(),
            Arg::Height(metres, decimals) => numbers::height(*metres, self.height_unit, *decimals).into(),
            Arg::Degrees(degrees, decimals) => numbers::degrees(*degrees, *decimals).into(),
            Arg::Turn(degrees, decimals) => numbers::turn(*degrees, self.unit, *decimals).into(),
            Arg::Share(share) => numbers::share(*share).into(),
            Arg::Bearing(bearing) => self.bearing(*bearing).into(),
            Arg::FineBearing(bearing, decimals) => self.bearing_in(*bearing, self.unit, *decimals).into(),
            Arg::Time(unix_ms) => numbers::time(*unix_ms).into(),
            Arg::Clock(unix_ms, utc_offset_min, day) => numbers::clock_on(*unix_ms, *utc_offset_min, *day).into(),
        }
    }

    /// A bearing with its north, in degrees "019° mag", or in the unit that was set: "0338 mil mag".
    #[must_use]
    pub fn bearing(&self, bearing: NamedBearing) -> String {
        self.bearing_in(bearing, self.unit, 1)
    }

    /// An angle between bearings, or a spread of one, in a unit.
    #[must_use]
    pub fn turn_in(&self, degrees: f64, unit: AngleUnit, decimals: u8) -> String {
        numbers::turn(degrees, unit, decimals)
    }

    /// A bearing in a unit with at most so many decimals.
    #[must_use]
    pub fn bearing_in(&self, bearing: NamedBearing, unit: AngleUnit, decimals: u8) -> String {
        let north = self.say(&Message::new(match bearing.north() {
            North::Magnetic => "north-mag",
            North::Grid => "north-grid",
            North::True => "north-true",
        }));
        format!("{}\u{a0}{north}", numbers::bearing_figures(bearing.degrees(), unit, decimals))
    }

    /// A bearing as one walks it, in whole degrees or mils: "019° mag".
    #[must_use]
    pub fn whole_bearing(&self, bearing: NamedBearing) -> String {
        self.bearing_in(bearing, self.unit, 0)
    }

    /// A bearing as it was typed, in the unit in which it was: "52 mag" is "052° mag". What is no bearing stays as it is.
    #[must_use]
    pub fn typed_bearing(&self, typed: &str) -> String {
        NamedBearing::parse(typed).map_or_else(|_| numbers::plain(typed), |bearing| self.bearing_in(bearing, typed_unit(typed), 1))
    }

    /// A count of double paces: "90 double paces".
    #[must_use]
    pub fn double_paces(&self, count: f64) -> String {
        self.say(&Message::new("paces-told").with("count", Arg::Number(count, 0)))
    }

    /// The label of a control, by an identifier that begins with `label-`; `name` is what it speaks of.
    #[must_use]
    pub fn label(&self, id: &str, name: &str) -> String {
        let mut args = FluentArgs::new();
        args.set("name", FluentValue::from(numbers::plain(name)));
        let pattern = self.bundle.get_message(id).filter(|_| id.starts_with("label-")).and_then(|found| found.value());
        pattern.map_or_else(|| id.to_owned(), |pattern| self.bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned())
    }

    /// A share of the probability: "65 %".
    #[must_use]
    pub fn share(&self, share: f64) -> String {
        numbers::share(share)
    }

    /// A distance: "430 m", "12.4 km".
    #[must_use]
    pub fn metres(&self, metres: f64) -> String {
        numbers::metres(metres)
    }

    /// An angle: "72°", "7.5°".
    #[must_use]
    pub fn degrees(&self, degrees: f64) -> String {
        numbers::degrees(degrees, if degrees.fract() == 0.0 { 0 } else { 1 })
    }

    /// A sentence without arguments by an identifier made at run time; empty when there is none.
    #[must_use]
    pub fn say_by_name(&self, id: &str) -> String {
        let pattern = self.bundle.get_message(id).and_then(|found| found.value());
        pattern.map_or_else(String::new, |pattern| self.bundle.format_pattern(pattern, None, &mut Vec::new()).into_owned())
    }

    /// A distance on a scale or ruler: kilometres from 1 km on, "1.5 km".
    #[must_use]
    pub fn metres_or_kilometres(&self, metres: f64) -> String {
        numbers::metres_or_kilometres(metres)
    }

    /// Whether a sentence of this identifier exists.
    #[must_use]
    pub fn knows(&self, id: &str) -> bool {
        self.bundle.has_message(id)
    }
}

#[cfg(test)]
mod tests;
