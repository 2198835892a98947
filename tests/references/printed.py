"""earth/printed: a sheet's printed declination diagram brought to a date, beside the model."""

import datetime
import math

import pygeomag

import grid
from casefile import case, numbered, refused, tolerances
from declination import change_deg_per_year, decimal_year, field

OLD_AFTER_YEARS = 20
RICHARDSON = (61.25, -149.65)
BENNING = (32.36, -84.95)
LINE = (36.59, -84.25)
MARGIN = "margin read in TC 3-25.26"

PRINTED = (
    # place, date, printed diagram, note
    (RICHARDSON, "2026.5", (23, None, 1993, 0), f"{MARGIN}: 23 E in 1993; left as it was it is 8.9 degrees off"),
    (RICHARDSON, "2026.5", (18, None, 2013, 0), f"{MARGIN}: 18 E in 2013; not yet 20 years old"),
    (RICHARDSON, "2026.5", (23, None, 1993, -15), f"{MARGIN}: 23 E in 1993 and 18 E in 2013, which is 15 minutes a year"),
    (RICHARDSON, "2020.0", (23, None, 1993, -15), f"{MARGIN}, at the first instant of WMM2020"),
    (BENNING, "2026.5", (-2, None, 1993, 0), f"{MARGIN}: 2 W in 1993"),
    (BENNING, "2026.5", (-4, None, 2013, 0), f"{MARGIN}: 4 W in 2013"),
    (BENNING, "2026.5", (-2, None, 1993, -6), f"{MARGIN}: 2 W in 1993 and 4 W in 2013, which is 6 minutes a year"),
    (LINE, "2026.0", (-3.5, None, 1994, -6), "constructed: 31.5 years at 6 minutes from the middle of 1994 make 3.15 degrees"),
    (LINE, "2026", (-3.5, None, 1994, -6), "constructed: year less year, 32 at 6 minutes make 3.2 degrees"),
    (LINE, "2026.0", (-3.5, None, 1994.5, -6), "constructed: the middle of the year, told"),
    (LINE, "2026.0", (None, -5.25, 1994, -6), "constructed: a grid-magnetic angle; the convergence is added"),
    (LINE, "2026.0", (None, -7.5, 2025, 0), "constructed: a fresh sheet"),
    (LINE, "2026.0", (-6, None, 2006, 0), "constructed: of the middle of its year it is 19.5 years old"),
    (LINE, "2026.0", (-6, None, 2005, 0), "constructed: and this 20.5"),
    (LINE, "2026-01-01", (-6, None, 2006, 0), "constructed: the same as a date"),
    (LINE, "2026-07-03", (-6, None, 2006, 0), "constructed: half a day past 20 years from the middle of its year"),
    (LINE, "2026-07-02", (-6, None, 2006, 0), "constructed: half a day before"),
    (LINE, "2026", (-6, None, 2006, 0), "constructed: from middle to middle, 20 years, which are not past 20 years"),
    (LINE, "2025", (-6, None, 2006, 0), "constructed: 19 years"),
    (LINE, "2026-07-02", (-6, None, 2006.5, 0), "constructed: a margin of the middle of 2006, half a day before 20 years"),
    (LINE, "2026-07-03", (-6, None, 2006.5, 0), "constructed: half a day past them"),
    (LINE, "2026-07-02", (-6, None, 2006, 1), "constructed: nearly 20; the change is eastward"),
    (LINE, "2026.0", (-6, None, 2026, -6), "constructed: printed this very year"),
    (LINE, "2026.0", (-6, None, 2030, -6), "constructed: printed for a year to come, brought back by four years"),
    (LINE, "2025.0", (179, None, 1965, 2), "constructed: nonsense on the margin shows as the difference it makes"),
)


def year_of(date):
    """The decimal year that a record's date stands for; of a year alone its middle."""
    if "." not in date and "-" not in date:
        return int(date) + 0.5
    return decimal_year(datetime.date.fromisoformat(date)) if "-" in date else float(date)


def own_year(printed_year):
    """The decimal year of a margin: of a whole one its middle."""
    return printed_year + 0.5 if printed_year == int(printed_year) else printed_year


def diagram(declination_deg, grid_magnetic_deg, year, change_min):
    """The printed diagram as a record has it."""
    angle = {"declination_deg": declination_deg} if grid_magnetic_deg is None else {"grid_magnetic_deg": grid_magnetic_deg}
    return {**angle, "year": year, "annual_change_min": change_min}


def brought(printed, age_years, convergence_deg):
    """Declination and grid-magnetic angle of a printed diagram after so many years."""
    declination, grid_magnetic, _, change_min = printed
    moved = change_min / 60 * age_years
    if grid_magnetic is None:
        return declination + moved, declination + moved - convergence_deg
    return grid_magnetic + moved + convergence_deg, grid_magnetic + moved


def spreads_deg(place, date, printed, own_deg):
    """One sigma of a diagram brought to a date, and of its difference from the model: a quarter of a degree as printed, the model's own, its change by a fifth
    more or less, a tenth of a degree a year at least, and what changes within a year of which no day is known."""
    year, change_min = year_of(date), printed[3]
    per_year = max(0.1, 0.2 * abs(change_deg_per_year(*place, 0, year)))
    widths = [1 / math.sqrt(12) if is_whole else 0.0 for is_whole in (printed[2] == int(printed[2]), date.isdigit())]
    spread = math.hypot(0.25, own_deg, per_year * (year - own_year(printed[2])), change_min / 60 * math.hypot(*widths))
    return min(spread, 90.0), math.hypot(min(spread, 90.0), own_deg)


def printed_case(tally, place, date, printed, note):
    """A printed diagram: sums for the diagram, pygeomag for the model, PROJ for the convergence."""
    year = year_of(date)
    model = field(*place, 0, year)
    convergence = grid.utm(tally, *place).convergence_deg
    age = year - own_year(printed[2])
    declination, grid_magnetic = brought(printed, age, convergence)
    spread, joint = spreads_deg(place, date, printed, model.calculate_uncertainty().d)
    record = {"do": "norths", "place": grid.degrees_text(*place), "date": date, "printed": diagram(*printed)}
    values = {
        "age_years": round(age, 4),
        "declination_deg": round(declination, 5),
        "declination_spread_deg": round(spread, 5),
        "grid_magnetic_deg": round(grid_magnetic, 5),
        "differs_deg": round((declination - model.d + 180) % 360 - 180, 4),
        "differs_spread_deg": round(joint, 5),
    }
    expect = {f"answer.printed.{key}": value for key, value in values.items()}
    return case(record, {**expect, "answer.printed.old": age > OLD_AFTER_YEARS}, note)


def invalid():
    """Diagrams that cannot be."""
    asked = {"do": "norths", "place": "36.59, -84.25", "date": "2026.0"}
    steep = diagram(-6, None, 1994, 600)
    turned = diagram(-360, None, 1994, 0)
    early = diagram(-6, None, 94, 0)
    both = {**diagram(-6, None, 1994, 0), "grid_magnetic_deg": -7.5}
    neither = {"year": 1994, "annual_change_min": -6}
    wrong = (
        (steep, "ten degrees a year"),
        (turned, "more than half a turn"),
        (early, "a year of two figures"),
        (both, "two angles: which one is brought to the date?"),
        (neither, "no angle"),
    )
    return [refused({**asked, "printed": printed}, "printed-norths-unreadable", note) for printed, note in wrong]


def build(tally):
    """The case file of printed diagrams."""
    known = field(*RICHARDSON, 0, 2026.5).d, field(*BENNING, 0, 2026.5).d
    tally.near("Fort Richardson, mid 2026", known[0], 14.13, 0.05)
    tally.near("Fort Benning, mid 2026", known[1], -5.11, 0.05)
    tally.check("pygeomag's year", pygeomag.decimal_year_from_date(datetime.date(2026, 1, 1)) == 2026, "not 2026.0")
    angle = (0.0001, "a sum of given angles, written to 1e-5; the convergence on UTM is held to 0.00002")
    tolerance, why = tolerances(
        **{
            "printed.age_years": (0.0001, "half the last digit written, doubled"),
            "printed.declination_deg": angle,
            "printed.declination_spread_deg": (0.001, "half the last digit written, and a numerical difference of the model over the years"),
            "printed.differs_spread_deg": (0.001, "the same"),
            "printed.grid_magnetic_deg": angle,
            "printed.differs_deg": (0.0002, "half the last digit written, and what earth/norths allows the model"),
        }
    )
    document = {
        "topic": "earth/printed",
        "about": "The diagram printed on a sheet brought to a date by its annual change, and its difference from the model.",
        "source": "constructed sums; the margins of two sheets as read in TC 3-25.26 (US Army, public domain); model:"
        f" pygeomag 1.1.0 (MIT licence); convergence: {grid.PROJ_SOURCE}",
        "made_by": "tests/references/printed.py",
        "units": {
            "printed.annual_change_min": "minutes of arc a year, east positive",
            "printed.age_years": "years from the printed year to the date; of a year alone its middle",
            "printed.declination_deg": "degrees, east positive, brought to the date",
            "printed.declination_spread_deg": "degrees, one sigma",
            "printed.grid_magnetic_deg": "degrees, east positive, brought to the date",
            "printed.differs_deg": "degrees: printed minus model, from -180 to 180",
            "printed.differs_spread_deg": "degrees, one sigma of both",
            "printed.old": "whether the age is more than 20 years (the caution of TC 3-25.26)",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered([printed_case(tally, *row) for row in PRINTED]),
        "invalid": numbered(invalid()),
    }
    return [document]
