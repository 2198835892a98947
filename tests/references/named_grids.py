"""earth/named_grids and earth/datum_shift: grids on another datum, by PROJ without shift grids and by OSTN15."""

import math

import numpy
import pyproj
from convertbng import cutil as ostn15

from casefile import case, numbered, refused, tolerances
from grid import PROJ_SOURCE, UNITS, degrees_text, grid_expect, named, safe_reference, utm

SHIFT_TOLERANCE_M = 10

NAMED = (
    ("EPSG:27700", 52.2, 0.12),
    ("EPSG:27700", 57.0, -4.0),
    ("EPSG:27700", 50.1, -5.5),
    ("EPSG:2056", 46.2, 6.1),
    ("EPSG:2056", 46.95, 7.44),
    ("EPSG:2056", 46.6, 10.3),
    ("EPSG:21781", 46.2, 6.1),
    ("EPSG:31467", 49.5, 9.2),
    ("EPSG:31467", 52.4, 9.7),
    ("EPSG:31467", 47.8, 8.1),
    ("EPSG:2154", 45.2, 5.7),
    ("EPSG:2154", 48.8, -3.0),
    ("EPSG:2154", 43.0, 1.9),
)

BRITISH = ((52.2, 0.12), (57.0, -4.0), (50.1, -5.5), (54.5, -3.1), (58.6, -3.3), (51.3, 1.2), (60.2, -1.2))

# Zone, place, and how far the same numbers lie apart on NAD27 and WGS84 (dE, dN), as the project computed before.
NAD27 = (
    ("EPSG:26710", 47.6, -122.3, (-93.7, 196.3)),
    ("EPSG:26713", 39.742476, -105.1786, (-49.2, 208.6)),
    ("EPSG:26717", 36.2, -81.7, (16.7, 210.6)),
    ("EPSG:26717", 38.9, -80.1, None),
)


def named_case(tally, code, lat, lon):
    """A place on a named grid."""
    place = named(tally, code, lat, lon)
    expect = grid_expect(place, lat, lon, 0, safe_reference(tally, lat, lon, utm(tally, lat, lon)))
    return case({"do": "place", "place": degrees_text(lat, lon), "grid": code}, expect, place.how)


# J. P. Snyder (1987), Map Projections, a working manual, USGS Professional Paper 1395: the example of the ellipsoidal transverse
# Mercator projection on Clarke's ellipsoid of 1866 (inputs and outputs from memory): x, y, k as printed.
SNYDER = (40.5, -73.5), (127_106.5, 4_484_124.4), 0.9997989
SNYDER_GRID = "+proj=tmerc +lat_0=0 +lon_0=-75 +k=0.9996 +x_0=0 +y_0=0 +ellps=clrk66 +units=m"


def snyder_case(tally):
    """The printed example: PROJ meets its digits, the case holds PROJ's own."""
    (lat, lon), (x, y), k = SNYDER
    projection = pyproj.Proj(SNYDER_GRID)
    easting, northing = projection(lon, lat)
    factors = projection.get_factors(lon, lat)
    for name, got, printed, half in (("x", easting, x, 0.05), ("y", northing, y, 0.05), ("k", factors.meridional_scale, k, 5e-8)):
        tally.near(f"Snyder's example, {name}", got, printed, half)
    values = {"easting_m": round(easting, 3), "northing_m": round(northing, 3), "convergence_deg": round(factors.meridian_convergence, 5)}
    # The scale is told per metre on WGS84 and is not the printed one.
    expect = {**{f"answer.{key}": value for key, value in values.items()}, "answer.accuracy_m": None}
    note = "Snyder's example: x 127106.5, y 4484124.4 as printed; no shift from WGS84 is known, so none is made"
    return case({"do": "place", "place": degrees_text(lat, lon), "grid": SNYDER_GRID}, expect, note)


def build_named(tally):
    """The case file of named grids, the shift being the one EPSG registers."""
    place = {"do": "place", "place": "-33.9, 151.2"}
    tolerance, why = tolerances(
        lat_deg=(1e-9, "the place is given in degrees and comes back as it was given"),
        lon_deg=(1e-9, "as the latitude"),
        easting_m=(0.01, "the same registered shift must give the same centimetre; the note says what it is worth"),
        northing_m=(0.01, "as the easting"),
        convergence_deg=(
            0.002,
            "taken from WGS84 true north through the shift; the projection's own convergence at WGS84 or at local"
            " coordinates differs by up to 0.002",
        ),
        scale=(1e-6, "half the last digit written, and the step of the numerical derivative"),
        square_m=(0, "exact"),
    )
    return {
        "topic": "earth/named_grids",
        "about": "National grids by their EPSG code: British, Swiss, German Gauss-Krueger, French.",
        "source": f"{PROJ_SOURCE}; the note of a case names the shift from the EPSG dataset and its stated accuracy; J. P. Snyder"
        " (1987), USGS Professional Paper 1395, for its example",
        "made_by": "tests/references/named_grids.py",
        "units": UNITS,
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered([named_case(tally, *row) for row in NAMED] + [snyder_case(tally)]),
        "invalid": numbered(
            [
                refused({**place, "grid": "EPSG:999999"}, "grid-unknown", "no such code"),
                refused({**place, "grid": "the old sheet"}, "grid-unknown", "no code at all"),
                refused({**place, "grid": "EPSG:27700"}, "place-outside-grid", "Australia on the British grid"),
                refused({"do": "place", "place": "-66.5, 140.0", "grid": "EPSG:2985"}, "grid-unreckoned", "in its area; PROJ has no mathematics for polar stereographic, variant C"),
                refused({"do": "place", "place": "567 928", "grid": "EPSG:31467"}, "reference-unreadable", "the figures in the margin of a German map"),
                refused({"do": "place", "place": "32TPT 14000,06300"}, "reference-unreadable", "a comma in a grid reference"),
            ]
        ),
    }


def check_shift_shows(tally, code, lat, lon, easting, northing):
    """A shift left out must miss by more than the tolerance, or the case could not fail."""
    east, north = pyproj.Proj(code)(lon, lat)
    miss = max(abs(east - easting), abs(north - northing))
    tally.check(f"{code} at {lat}, {lon} unshifted", miss > SHIFT_TOLERANCE_M, f"only {miss} m off")


def british_case(tally, lat, lon):
    """A place by the national shift grid, which the registered seven-parameter shift only approaches."""
    easting, northing = (float(axis[0]) for axis in ostn15.convert_to_osgb36(numpy.array([lon]), numpy.array([lat])))
    simple = named(tally, "EPSG:27700", lat, lon)
    miss = math.hypot(easting - simple.easting_m, northing - simple.northing_m)
    tally.check(f"seven parameters at {lat}, {lon}", miss < 5, f"{miss} m from OSTN15")
    check_shift_shows(tally, "EPSG:27700", lat, lon, easting, northing)
    expect = {"answer.easting_m": round(easting, 3), "answer.northing_m": round(northing, 3)}
    note = f"OSTN15; the seven-parameter shift lies {miss:.1f} m off"
    return case({"do": "place", "place": degrees_text(lat, lon), "grid": "EPSG:27700"}, expect, note)


def nad27_case(tally, code, lat, lon, known):
    """A place on UTM of NAD27, three parameters, and the shift against UTM of WGS84."""
    old, new = named(tally, code, lat, lon), utm(tally, lat, lon)
    shift = (new.easting_m - old.easting_m, new.northing_m - old.northing_m)
    if known:
        for got, want in zip(shift, known):
            tally.near(f"{code} shift", got, want, 3)
    check_shift_shows(tally, code, lat, lon, old.easting_m, old.northing_m)
    expect = {"answer.easting_m": round(old.easting_m, 1), "answer.northing_m": round(old.northing_m, 1)}
    note = f"{old.how}; WGS84 - NAD27 {shift[0]:+.1f} E, {shift[1]:+.1f} N"
    return case({"do": "place", "place": degrees_text(lat, lon), "grid": code}, expect, note)


def build_datum_shift(tally):
    """The case file of datum shifts, to what they are worth on the ground."""
    cases = [british_case(tally, *row) for row in BRITISH] + [nad27_case(tally, *row) for row in NAD27]
    tolerance, why = tolerances(
        easting_m=(
            SHIFT_TOLERANCE_M,
            "without shift grids a datum shift is worth metres: 4 m at worst against OSTN15 in Britain, 1 m"
            " between WGS84 and ETRS89, 10 m stated for NAD27 by three parameters; a shift left out shows as 86 m or"
            " more in Britain and 15 m or more on NAD27, UTM of WGS84 taken for UTM of NAD27 as 211 m",
        ),
        northing_m=(10, "as the easting"),
    )
    return {
        "topic": "earth/datum_shift",
        "about": "How near a sheet's own grid comes to the truth when the sheet's datum is not WGS84.",
        "source": "convertbng 2.0.0 (BlueOak-1.0.0 licence) with the shift grid OSTN15 for Britain, WGS84 taken as"
        f" ETRS89; {PROJ_SOURCE} for NAD27, mean parameters of NIMA TR8350.2 as the EPSG dataset registers them",
        "made_by": "tests/references/named_grids.py",
        "units": {"easting_m": "metres", "northing_m": "metres"},
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": [],
    }


def build(tally):
    """Both case files of this script."""
    return [build_named(tally), build_datum_shift(tally)]
