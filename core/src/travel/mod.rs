//! Floor 5. Pace, legs, and dead reckoning with its spread.

mod leg;
mod reckoning;

pub use leg::{DEFAULT_DOUBLE_PACES_PER_100_M, Detour, Distance, Leg, LegError, Pace, PaceKind, Side};
pub use reckoning::{LegEnd, Reckoning, WalkSpreads, reckon};
