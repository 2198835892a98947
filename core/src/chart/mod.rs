//! Floor 7. One display list of what to draw: plain data in final coordinates, drawn alike by the
//! phones' canvases and by [`svg`].
//!
//! Every ink is a role, never a colour, and no role is told by its ink alone: each has its own
//! stroke, pattern or mark. The letters come through [`Lettering`]; nothing here measures text.

mod along;
mod band;
mod blank;
mod bytes;
mod fix_chart;
mod furniture;
mod geometry;
mod ground_chart;
mod hill;
mod hollow;
mod inks;
mod label;
mod lettering;
mod list;
mod marks;
mod open_chart;
mod outline;
mod regions;
mod relief;
mod ruler;
mod scene;
mod svg;
mod symbol;
#[cfg(test)]
mod tests;
mod view;
mod walk_chart;
mod walked;

pub use bytes::bytes;
pub use fix_chart::fix_chart;
pub use ground_chart::ground_chart;
pub use inks::{Theme, colour};
pub use lettering::Lettering;
pub use list::{Anchor, Area, Cap, DisplayList, HALO_DP, Ink, Item, Size, Spot, Stroke, TARGET_DP, Target, Touched};
pub use open_chart::open_chart;
pub use relief::Relief;
pub use scene::Drawn;
pub use svg::{begins_as_svg, svg};
pub use walk_chart::{Walk, walk_chart};
