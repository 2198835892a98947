//! Floor 1. Bearings with their north, points and spreads in the plane, probability,
//! and the shape in which every room hands a message to [`crate::words`].

mod angle;
mod bearing;
mod mean;
mod message;
mod parts;
mod plane;
mod probability;
mod unit;
mod wild;

pub use angle::{Written, quadrant_of, read_degrees, read_figures, read_turn_deg};
pub use bearing::{
    BearingError, GridBearing, MagneticBearing, NamedBearing, North, NorthDiagram, TrueBearing, signed_difference_deg, typed_step_deg,
    typed_unit, wrap_deg,
};
pub(crate) use mean::parted;
pub use mean::{MeanError, MeanReading, circular_mean_deg, mean_of_readings};
pub use message::{Arg, Message, Telling, decimals_of, turns_text};
pub(crate) use parts::{in_parts, one_by_one};
pub use plane::{Covariance, Ellipse, Point};
pub use probability::{LINE_95, PLANE_68, PLANE_95, normal_between, normal_density, normal_nodes, normal_share, student_95};
pub use unit::{AngleUnit, GRADIANS, MILS};
pub use wild::WILD_SPREADS;
pub(crate) use wild::wild_of;
