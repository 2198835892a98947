//! Messages as data: an identifier and its arguments. `words` turns them into sentences.

/// One argument of a [`Message`], with the unit it carries.
#[derive(Debug, Clone, PartialEq)]
pub enum Arg {
    /// Text as the person typed it or as the sheet names it.
    Text(String),
    /// Text of a register, told whole.
    Register(String),
    /// A count of things.
    Count(i64),
    /// A number without unit, with the decimals to show.
    Number(f64, u8),
    /// A distance in metres.
    Metres(f64),
    /// A height, or a difference of heights, in metres with the decimals to show; told in the unit in which the map writes heights.
    Height(f64, u8),
    /// An angle in degrees that is not a bearing, with the decimals to show.
    Degrees(f64, u8),
    /// An angle between bearings, or a spread of one, degrees with the decimals to show; told in the unit of bearings.
    Turn(f64, u8),
    /// A bearing with its north.
    Bearing(super::NamedBearing),
    /// A bearing with its north, told to so many decimals of a degree.
    FineBearing(super::NamedBearing, u8),
    /// A share of the probability, 0 to 1.
    Share(f64),
    /// An instant, milliseconds since 1970-01-01 UTC.
    Time(i64),
    /// An instant by a clock so many minutes ahead of UTC; its date is told too when it is not this one, days since 1970-01-01.
    Clock(i64, i32, i64),
}

/// Whether a character is not seen itself and turns the order in which others are: a name that holds it reads otherwise than it is written.
///
/// # References
/// Unicode Standard Annex 9, 2: the explicit formatting characters (from memory).
#[must_use]
pub fn turns_text(character: char) -> bool {
    matches!(character, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// So many decimals, three at the most, as it takes to tell a number as it is.
#[must_use]
pub fn decimals_of(number: f64) -> u8 {
    let is_told = |decimals: &u8| {
        let scaled = number * 10_f64.powi(i32::from(*decimals));
        (scaled - scaled.round()).abs() < 1e-6
    };
    (0..3).find(is_told).unwrap_or(3)
}

/// A message: the identifier of a sentence in the Fluent resources, and its arguments.
#[derive(Debug, Clone, PartialEq)]
pub struct Message {
    /// Identifier in the Fluent resources; for a refusal also its code.
    pub id: &'static str,
    /// Arguments by name.
    pub args: Vec<(&'static str, Arg)>,
}

impl Message {
    /// A message without arguments.
    #[must_use]
    pub fn new(id: &'static str) -> Self {
        Self { id, args: Vec::new() }
    }

    /// The message with one more argument.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: Arg) -> Self {
        self.args.push((name, arg));
        self
    }

    /// The same arguments for another sentence.
    #[must_use]
    pub fn renamed(mut self, id: &'static str) -> Self {
        self.id = id;
        self
    }

    /// The message with one more text argument.
    #[must_use]
    pub fn text(self, name: &'static str, text: impl Into<String>) -> Self {
        self.with(name, Arg::Text(text.into()))
    }
}

/// What every error and caution of the core can do: say which sentence tells it.
pub trait Telling {
    /// The message that tells this to a person.
    fn message(&self) -> Message;
}
