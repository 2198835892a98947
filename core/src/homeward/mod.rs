//! Floor 6. How far it is home, and the way back: the log in reverse.

mod closing;
mod here;
mod reversed;

pub use closing::{Closing, closing};
pub use here::{Here, Home, here};
pub use reversed::{BackLeg, WayBack, reversed_log, turned_round};
