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

impl Instrument {
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
