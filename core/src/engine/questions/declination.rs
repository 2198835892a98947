//! The declination at a place on any date: by the model, else by the diagram that the sheet prints.

use crate::earth::{
    Caution, DecimalYear, DeclinationBy, LatLon, MagneticError, MagneticField, PrintedNorths, magnetic_field, nearest_modelled,
};
use crate::measure::{Message, Telling};
use crate::words::by_told;

/// The declination at a place.
pub(in crate::engine) struct Declination {
    pub(in crate::engine) deg: f64,
    /// One sigma, degrees.
    pub(in crate::engine) spread_deg: f64,
    /// The model's whole field; nothing where the diagram told the declination.
    pub(in crate::engine) field: Option<MagneticField>,
    pub(in crate::engine) by: DeclinationBy,
    /// What the model says of a compass there; outside its dates on the nearest day.
    pub(in crate::engine) caution: Option<Caution>,
    /// The decimal year that was asked.
    pub(in crate::engine) year: DecimalYear,
}

impl Declination {
    /// Where the model does not hold, by the printed diagram of a sheet whose grid has this convergence there.
    pub(in crate::engine) fn at(
        (at, height_m): (LatLon, f64),
        year: DecimalYear,
        (printed, convergence_deg): (Option<&PrintedNorths>, f64),
    ) -> Result<Self, MagneticError> {
        let nearest = nearest_modelled(year);
        let field = magnetic_field(at, height_m, nearest)?;
        let of_model = Self {
            deg: field.declination_deg,
            spread_deg: field.declination_spread_deg,
            field: Some(field),
            by: DeclinationBy::Model,
            caution: field.caution,
            year,
        };
        match printed {
            _ if nearest == year => Ok(of_model),
            Some(printed) => Ok(Self {
                deg: printed.declination_deg_in(year.years(), convergence_deg),
                spread_deg: printed.spread_deg_in(year, &field),
                field: None,
                by: printed.declination_by(at, convergence_deg, year),
                ..of_model
            }),
            None => Err(MagneticError::DateOutside(year)),
        }
    }

    /// What to mind of it: that no more than a year is known of the date, that the model does not hold on it, and what it says of a
    /// compass there.
    pub(in crate::engine) fn minded(&self, date: &str) -> impl Iterator<Item = Message> + use<> {
        let of_year = self.year.is_whole_year().then(|| Message::new("norths-of-year").text("date", date));
        of_year.into_iter().chain(by_told(self.by, date)).chain(self.caution.map(|caution| caution.message()))
    }
}
