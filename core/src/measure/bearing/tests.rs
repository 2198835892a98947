//! How bearings are typed.

use super::{BearingError, NamedBearing, North, typed_step_deg};

#[test]
fn what_is_wrong_with_a_bearing_is_named() {
    let wrong = |text: &str| NamedBearing::parse(text).err();
    assert_eq!(wrong("N91E mag"), Some(BearingError::Quarter("N91E mag".into())));
    assert_eq!(wrong("36 60 mag"), Some(BearingError::Minutes("36 60 mag".into())));
    assert_eq!(wrong("214,5 mag"), Some(BearingError::Comma("214,5 mag".into())));
    assert_eq!(wrong("abc mag"), Some(BearingError::Unreadable("abc mag".into())));
    assert_eq!(wrong("214 north"), Some(BearingError::WithoutNorth("214 north".into())));
    let north = |text: &str| NamedBearing::parse(text).map(NamedBearing::north);
    assert_eq!((north("214 true north"), north("214 Grid North")), (Ok(North::True), Ok(North::Grid)));
}

#[test]
fn the_last_figure_typed_has_a_worth() {
    for (text, wanted) in [("214 mag", 1.0), ("214.5 mag", 0.1), ("3200 mil mag", 0.056_25), ("200.5 gon true", 0.09), ("S36E mag", 1.0)] {
        assert!((typed_step_deg(text) - wanted).abs() < 1e-9, "{text}");
    }
}
