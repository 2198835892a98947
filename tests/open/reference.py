"""Reference geometry for prepare.py and check.py: geodesics, the magnetic and the grid north.

Nothing here comes from the tool under test: geographiclib 2.1, pyproj 3.7.2, pygeomag 1.1.0.
Places are (lon, lat) in degrees WGS 84 unless a name says grid; bearings in degrees.
"""

import json
import math
from pathlib import Path

import numpy as np
from geographiclib.geodesic import Geodesic
from pygeomag import GeoMag
from pyproj import Proj, Transformer

OUT = Path(__file__).resolve().parents[1] / "out" / "open"
GRID = "EPSG:2154"
DATE = "2026-07-01"
DECIMAL_YEAR = 2026 + 181 / 365
MODEL = GeoMag(coefficients_file="wmm/WMM_2025.COF")
TO_GRID = Transformer.from_crs(4326, 2154, always_xy=True)
TO_EARTH = Transformer.from_crs(2154, 4326, always_xy=True)


def fold(degrees):
    """An angle as a difference in -180..180."""
    return (degrees + 180.0) % 360.0 - 180.0


def between(a, b):
    """Distance in metres and true bearing at `a` of the geodesic from `a` to `b`."""
    line = Geodesic.WGS84.Inverse(a[1], a[0], b[1], b[0])
    return line["s12"], line["azi1"] % 360.0


def ahead(a, bearing_true, metres):
    """The place `metres` from `a` along the geodesic that starts at a true bearing."""
    line = Geodesic.WGS84.Direct(a[1], a[0], bearing_true, metres)
    return line["lon2"], line["lat2"]


def magnetic(place, height_m=0.0):
    """The model's answer at a place on the date of the run."""
    return MODEL.calculate(place[1], place[0], height_m / 1000.0, DECIMAL_YEAR)


def declination_spread(place):
    """One sigma of the declination by the model's own error model, degrees."""
    return magnetic(place).calculate_uncertainty().d


def convergence(place):
    """Grid north against true north, east positive."""
    return Proj(GRID).get_factors(*place).meridian_convergence


def to_grid(places):
    """Places as an array of grid metres."""
    places = np.asarray(places, float)
    return np.column_stack(TO_GRID.transform(places[:, 0], places[:, 1]))


def to_earth(point):
    """A grid point as (lon, lat), seven decimals (about a centimetre)."""
    lon, lat = TO_EARTH.transform(*point)
    return round(lon, 7), round(lat, 7)


def chainages(line):
    """Geodesic distance of each vertex of a line from its first."""
    steps = [between(a, b)[0] for a, b in zip(line, line[1:])]
    return np.concatenate([[0.0], np.cumsum(steps)])


def at_chainage(line, along, s):
    """The place at distance `s` along a line, straight between vertices; `along` its chainages."""
    line = np.asarray(line)
    return tuple(float(np.interp(s, along, line[:, axis])) for axis in (0, 1))


def nearest_chainage(line, along, place):
    """Distance along the line of its point nearest to a place, and how far that is, metres."""
    grid, p = to_grid(line), to_grid([place])[0]
    step = np.diff(grid, axis=0)
    share = np.clip(((p - grid[:-1]) * step).sum(1) / (step * step).sum(1), 0, 1)
    foot = grid[:-1] + share[:, None] * step
    k = int(np.hypot(*(foot - p).T).argmin())
    s = float(along[k] + share[k] * (along[k + 1] - along[k]))
    return s, between(at_chainage(line, along, s), place)[0]


def declinations(line, along, s, step_m=25.0):
    """Declination at distances along a line: computed every so often, linear between (to 0.00002 deg round a hairpin)."""
    nodes = np.append(np.arange(0.0, along[-1], step_m), along[-1])
    return np.interp(s, nodes, [magnetic(at_chainage(line, along, x)).d for x in nodes])


def walk(start, legs, step_m=25.0):
    """Where one comes to who keeps the needle on magnetic bearings for so many metres: the start, and the end of each leg.

    Short geodesics, each with the true bearing that the compass has in its middle.
    """
    places = [start]
    for mag, metres in legs:
        steps = math.ceil(metres / step_m)
        for _ in range(steps):
            start = step(start, mag, metres / steps)
        places.append(start)
    return places


def step(start, mag, metres):
    """A short geodesic whose middle has a magnetic bearing."""
    half = Geodesic.WGS84.Direct(start[1], start[0], mag + magnetic(start).d, metres / 2)
    true = mag + magnetic((half["lon2"], half["lat2"])).d
    return ahead(start, true - (half["azi2"] - half["azi1"]), metres)


def middle(a, b):
    """The middle of the geodesic from `a` to `b`, and its true bearing there."""
    line = Geodesic.WGS84.InverseLine(a[1], a[0], b[1], b[0])
    half = line.Position(line.s13 / 2)
    return (half["lon2"], half["lat2"]), half["azi2"] % 360.0


def read_lines(name):
    """The records of a file of tests/out/open, one JSON object per line."""
    text = (OUT / name).read_text(encoding="utf-8")
    return [json.loads(line) for line in text.splitlines() if line.strip()]


def write_lines(name, records):
    """Write records, one JSON object per line."""
    text = "".join(json.dumps(r, ensure_ascii=False) + "\n" for r in records)
    (OUT / name).write_text(text, encoding="utf-8")


def write_json(name, value):
    """Write one JSON document."""
    (OUT / name).write_text(json.dumps(value, indent=1) + "\n", encoding="utf-8")
