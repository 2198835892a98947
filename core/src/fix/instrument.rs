//! What a bearing is worth, by the instrument and the way it is held.

use crate::measure::{Message, Telling};

/// An instrument with its usual spreads.
///
/// # References
/// The figures are starting values of our own choice inside what the manuals allow: US Army Soldier's
/// Manual of Common Tasks, task 071-329-1003 passes 3° at the cheek and 10° at the centre hold;
/// NWCG PMS 475 (2007) gives 2° marks on a baseplate dial. The shared part is common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instrument {
    /// Sighting, mirror or lensatic compass at the eye.
    Sighting,
    /// Baseplate compass in the hand.
    Baseplate,
    /// Any compass read quickly at the waist.
    Quick,
    /// The phone's magnetometer.
    Phone,
}

/// No instrument of this name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("instrument-unknown")]
pub struct InstrumentError(pub String);

impl Telling for InstrumentError {
    fn message(&self) -> Message {
        Message::new("instrument-unknown").text("name", self.0.clone())
    }
}

/// What a reading with an instrument is worth: its usual spreads, or those that a check gave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trust {
    /// One sigma of a single reading, degrees.
    pub reading_spread_deg: f64,
    /// One sigma of the error that all readings here share, degrees, the magnetic model left out.
    pub shared_spread_deg: f64,
    /// Distance between two marks of the dial, degrees.
    pub graduation_deg: f64,
}

impl Trust {
    /// One sigma of a reading taken by itself, degrees: its own error and the shared one together.
    #[must_use]
    pub fn spread_deg(&self) -> f64 {
        self.reading_spread_deg.hypot(self.shared_spread_deg)
    }

    /// The same with what a check gave: the spread of the shared error that is left, and that of a reading where it is known.
    ///
    /// A check is made with the dial's own rounding in it and under good conditions: a reading is not taken to be better
    /// than half of what is usual for the instrument (common practice, no source).
    #[must_use]
    pub fn checked(self, shared_spread_deg: f64, reading_spread_deg: Option<f64>) -> Self {
        let reading_spread_deg = reading_spread_deg.unwrap_or(self.reading_spread_deg).max(self.reading_spread_deg / 2.0);
        Self { shared_spread_deg, reading_spread_deg, ..self }
    }

    /// One sigma of a reading itself, the rounding to the dial's marks in it, degrees; with the spread that was told for it where one was.
    #[must_use]
    pub fn own_deg(&self, told_deg: Option<f64>) -> f64 {
        told_deg.unwrap_or(self.reading_spread_deg).hypot(self.graduation_deg / 12f64.sqrt())
    }
}

impl Instrument {
    /// The word for it in records: sighting, baseplate, quick or phone.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Sighting => "sighting",
            Self::Baseplate => "baseplate",
            Self::Quick => "quick",
            Self::Phone => "phone",
        }
    }

    /// What a reading with it is usually worth.
    #[must_use]
    pub fn trust(self) -> Trust {
        Trust {
            reading_spread_deg: self.reading_spread_deg(),
            shared_spread_deg: self.shared_spread_deg(),
            graduation_deg: self.graduation_deg(),
        }
    }

    /// The instrument of this name: sighting, baseplate, quick or phone.
    ///
    /// # Errors
    /// [`InstrumentError`] for any other.
    pub fn named(name: &str) -> Result<Self, InstrumentError> {
        match name.trim().to_lowercase().as_str() {
            "sighting" => Ok(Self::Sighting),
            "baseplate" => Ok(Self::Baseplate),
            "quick" => Ok(Self::Quick),
            "phone" => Ok(Self::Phone),
            _ => Err(InstrumentError(name.into())),
        }
    }

    /// One sigma of a single reading, degrees.
    #[must_use]
    pub fn reading_spread_deg(self) -> f64 {
        match self {
            Self::Sighting => 1.5,
            Self::Baseplate => 2.5,
            Self::Quick | Self::Phone => 5.0,
        }
    }

    /// One sigma of the error that all readings with it here share, degrees, the magnetic model left out.
    #[must_use]
    pub fn shared_spread_deg(self) -> f64 {
        match self {
            Self::Sighting => 1.0,
            Self::Baseplate => 1.5,
            Self::Quick => 2.0,
            Self::Phone => 4.0,
        }
    }

    /// Distance between two marks of the dial, degrees.
    #[must_use]
    pub fn graduation_deg(self) -> f64 {
        match self {
            Self::Sighting | Self::Phone => 1.0,
            Self::Baseplate => 2.0,
            Self::Quick => 5.0,
        }
    }
}
