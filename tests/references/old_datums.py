"""fix/old_datums: where a place really lies whose numbers were counted on an older datum and taken as if on WGS 84.

The rows are for the core alone (`core/src/earth/datum.rs`): it names the slip "another datum" where a place does not fit.
"""

import math

import pyproj

from casefile import numbered

# name, ellipsoid, transformation to WGS84 by its EPSG code, a finer one to measure it by, spread in the core, metres, places
DATUMS = (
    ("NAD27", "clrk66", 1173, None, 10, ((39.0, -105.0), (44.0, -72.5), (33.1, -117.2))),
    ("ED50", "intl", 1133, None, 10, ((48.1, 11.6), (40.4, -3.7), (59.9, 10.7))),
    ("OSGB36", "airy", 1195, 1314, 10, ((51.5, -0.1), (57.0, -4.0), (60.3, -1.2), (50.2, -5.2), (54.5, -3.1))),
    ("Pulkovo 1942", "krass", 1254, 1267, 15, ((55.7, 37.6), (43.0, 45.0), (62.0, 90.0), (54.0, 83.0), (42.0, 75.0))),
    ("Tokyo", "bessel", 1230, None, 29, ((35.7, 139.7), (43.1, 141.3))),
    ("AGD66", "aust_SA", 1108, None, 6, ((-37.95, 144.4), (-12.5, 131.0))),
)
METRES_PER_DEGREE = 111_200


def moved(code, lat, lon):
    """A latitude and longitude of the old datum on WGS84, by the registered transformation."""
    return pyproj.Transformer.from_pipeline(f"urn:ogc:def:coordinateOperation:EPSG::{code}").transform(lat, lon)


def same_numbers(ellipsoid, lat, lon):
    """Latitude and longitude on the old ellipsoid of the UTM coordinates that a place has on WGS84."""
    zone = int((lon + 180) // 6) + 1
    coordinates = pyproj.Proj(proj="utm", zone=zone, ellps="WGS84")(lon, lat)
    old_lon, old_lat = pyproj.Proj(proj="utm", zone=zone, ellps=ellipsoid)(*coordinates, inverse=True)
    return old_lat, old_lon


def apart_m(one, other):
    """How far two places lie apart, north and east."""
    east = (one[1] - other[1]) * math.cos(math.radians(one[0]))
    return (one[0] - other[0]) * METRES_PER_DEGREE, east * METRES_PER_DEGREE


def check_spread(tally, name, code, finer, spread_m, places):
    """The mean shift lies within two spreads an axis of a finer one, and the spread is not wide for nothing."""
    off = [axis for place in places for axis in apart_m(moved(code, *place), moved(finer, *place))]
    rms = math.sqrt(sum(axis * axis for axis in off) / len(off))
    tally.check(f"{name}: within two spreads", max(map(abs, off)) < 2 * spread_m, f"{max(map(abs, off))} m")
    tally.check(f"{name}: the spread", spread_m / 2 < rms < 1.2 * spread_m, f"{rms} m an axis over {len(places)} places")


def rows_of(tally, name, ellipsoid, code, finer, spread_m, places):
    """Every place by both kinds of numbers."""
    if finer:
        check_spread(tally, name, code, finer, spread_m, places)
    for lat, lon in places:
        for counted, numbers in (("utm", same_numbers(ellipsoid, lat, lon)), ("degrees", (lat, lon))):
            there = moved(code, *numbers)
            shows = math.hypot(*apart_m(there, (lat, lon)))
            tally.check(f"{name} {counted} at {lat}, {lon} shows", shows > 5, f"only {shows} m")
            row = {"datum": name, "counted": counted, "lat_deg": lat, "lon_deg": lon}
            yield {**row, "moved_lat_deg": round(there[0], 9), "moved_lon_deg": round(there[1], 9), "spread_m": spread_m}


def build(tally):
    """The table."""
    colorado = apart_m(moved(1173, *same_numbers("clrk66", 39.0, -105.0)), (39.0, -105.0))
    # The rule of thumb that maps print for NAD27: about 200 m, almost due north.
    tally.near("UTM numbers of NAD27 in Colorado, north", colorado[0], 200, 15)
    rows = [row for datum in DATUMS for row in rows_of(tally, *datum)]
    return [
        {
            "topic": "fix/old_datums",
            "about": "Where a place lies whose UTM numbers, or latitude and longitude, were counted on an older datum.",
            "source": f"pyproj {pyproj.__version__} with PROJ {pyproj.proj_version_str}: EPSG transformations "
            + ", ".join(f"{code} ({name})" for name, _, code, *_ in DATUMS)
            + "; spreads of OSGB36 and Pulkovo 1942 measured against EPSG 1314 (2 m) and 1267 (4 m), the others as EPSG states",
            "made_by": "tests/references/old_datums.py",
            "units": {
                "lat_deg": "degrees on WGS84, as if the numbers were counted there",
                "moved_lat_deg": "degrees on WGS84, where the numbers lead on the old datum",
                "spread_m": "metres, one sigma an axis, of the mean shift",
            },
            "tolerance": {},
            "tolerance_why": {},
            "cases": [],
            "invalid": [],
            "rows": numbered(rows),
        }
    ]
