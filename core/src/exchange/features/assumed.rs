//! How sure the places of landmarks count of which a file does not say it.

use crate::measure::{Arg, LINE_95, Message};
use crate::sheet::{MAP_SPREAD_M, SheetDraft};

/// Landmarks of a file that state no spread.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Assumed {
    count: usize,
    spread_m: f64,
}

impl Assumed {
    /// Counts one for which so much is assumed, one sigma per axis in metres.
    pub(super) fn add(&mut self, spread_m: f64) {
        (self.count, self.spread_m) = (self.count + 1, self.spread_m.max(spread_m));
    }

    /// Tells it together with the error of the map, as both count on this sheet; nothing where the sheet's own spread stands alone.
    #[must_use]
    pub fn message(&self, draft: &SheetDraft) -> Option<Message> {
        let map_m = draft.position_spread_m.or(draft.paper.spread_m()).unwrap_or(MAP_SPREAD_M);
        let count = Arg::Count(i64::try_from(self.count).unwrap_or(i64::MAX));
        let told = || Message::new("import-spread").with("count", count);
        (self.count > 0 && self.spread_m > 0.0).then(|| told().with("spread", Arg::Metres(LINE_95 * self.spread_m.hypot(map_m))))
    }
}
