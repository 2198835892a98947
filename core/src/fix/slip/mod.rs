//! Human mistakes that explain a misfit: each is a hypothesis with its odds. Nothing is corrected by itself.

mod alike;
mod elsewhere;
mod kinds;
mod meant;
mod odds;
mod run;
mod telling;
mod then;
mod together;
mod turned;
mod weigh;

pub use elsewhere::Beside;
pub use kinds::{Also, OnOther, Slip, SlipKind, Slips, Then, ThenPlace};
pub(super) use meant::{Meant, again, misread, of_sighting};
pub(super) use odds::{DEFLECTED_DEG, EXPOSED_SIGMAS, Found, Like, WRONG_BESIDE_SLIPS, of_all, shows, spread, told};
pub(super) use run::of_run;
pub(super) use together::{all_reversed, exchanged_marks, of_two, repeated};
pub(super) use turned::{Turned, turned};
pub use weigh::{slips, slips_beside_place};
