//! Metres and feet of height.

/// The unit in which a map writes heights.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeightUnit {
    /// Metres.
    Metres,
    /// Feet.
    Feet,
}

impl HeightUnit {
    /// Metres in it.
    ///
    /// # References
    /// The international foot of 1959. The survey foot of older US sheets is longer by two millionths: 2 mm in 1000 m.
    #[must_use]
    pub fn metres(self) -> f64 {
        match self {
            Self::Metres => 1.0,
            Self::Feet => 0.3048,
        }
    }

    /// The word by which sentences select it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Metres => "metres",
            Self::Feet => "feet",
        }
    }

    /// From contour to contour when nothing is said, in this unit. Common practice, no source.
    #[must_use]
    pub fn usual_interval(self) -> f64 {
        match self {
            Self::Metres => 10.0,
            Self::Feet => 40.0,
        }
    }
}
