//! The fix in the open: no line is stood on, the place is sought in the plane.
//!
//! Where the probability is near normal about the place of least squares, the fix is that place with its ellipse; where it is
//! not (one bearing and a distance, a bearing and a landform, rays that hardly cut), it is told as regions with their shares.

mod caution;
mod chance;
mod equation;
mod likelihood;
mod next;
mod odds;
mod otherwise;
mod place;
mod region;
mod report;
mod resection;
mod scene;
mod seen;
mod shape;
mod slips;
mod squares;
mod start;
mod take;
mod turn;
mod warn;

pub use caution::{OpenCaution, OpenError};
pub use next::open_next;
pub use odds::{Cell, OpenOdds};
pub use region::Region;
pub use report::{OpenPlace, OpenReport, OpenSeenReport};
pub use resection::{ResectionError, resect};
pub use scene::{Bounds, OpenGround, OpenScene, OpenSighting, OpenWitness};
pub use seen::{Measured, OpenSeen};
pub use slips::{open_slips, open_slips_beside_place};
pub use squares::Squares;
pub use take::{OpenFix, OpenShape, take_open};
pub use turn::SharedTurn;

#[cfg(test)]
mod tests;
