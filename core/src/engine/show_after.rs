//! A closed trip as it is shown: values copied into records, nothing reckoned.

use super::state::Trip;
use super::view::{AfterView, ClosingView};
use crate::homeward::{Closing, closing};
use crate::words::Words;

/// What a closed trip comes to; none before it is closed, or without a leg. Legs that were followed back close on themselves: their
/// closing error says nothing.
pub(super) fn view(trip: &Trip, words: &Words) -> Option<AfterView> {
    let (car, walk) = trip.walk().filter(|(_, walk)| trip.closed && !walk.ends.is_empty())?;
    let closed = closing(&walk);
    let last = trip.legs.last().map_or(car.at, |(at, _)| *at);
    let followed = trip.back.and_then(|walked| Some(words.followed(&trip.way_back()?.2, walked, &car.name)));
    let closes = followed.is_none().then(|| closing_view(&closed, words));
    let logged = words.logged(walk.ends.len(), closed.legs_m, walk.walked_m, (car.at, last));
    let told = [Some(logged), followed.or_else(|| Some(words.closing(&closed, &car.name)))];
    Some(AfterView { closing: closes, told: told.into_iter().flatten().collect() })
}

fn closing_view(closed: &Closing, words: &Words) -> ClosingView {
    ClosingView {
        off_m: closed.off_m,
        one_in: closed.one_in,
        expected_95_m: closed.expected_95_m,
        verdict: closed.verdict.word().into(),
        off_told: words.metres(closed.off_m),
    }
}
