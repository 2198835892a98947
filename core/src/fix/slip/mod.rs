//! Human mistakes that explain a misfit: each is a hypothesis with its odds. Nothing is corrected by itself.

mod kinds;
mod meant;
mod weigh;

pub use kinds::{Slip, SlipKind, Slips};
pub use weigh::slips;
