"""fix/ground: what is said of the ground and of what is here, on a straight road over an invented ground.

The ground is a formula, told to the core as rounded heights on a grid; the posterior along the road is reckoned here from the
same rounded heights with numpy, metre by metre, and cut into places by the rule of the conventions. Nothing of the core is used.
"""

import base64
import json
import math

import numpy
from pyproj import CRS, Geod, Transformer
from scipy.special import ndtr
from scipy.stats import norm

from casefile import case, numbered, refused

AT = "2026-07-02T09:00:00Z"
ORIGIN = (46.0, 9.05)
HALF_M = 1800.0
CREEKS_M = (-1150.0, -520.0, 280.0, 1010.0)
MAST_M = (900.0, 1200.0)
POSTS_M = 50.0
UTM = "EPSG:32632"
PLANE = CRS.from_proj4(f"+proj=aeqd +lat_0={ORIGIN[0]} +lon_0={ORIGIN[1]} +datum=WGS84")
TO_EARTH = Transformer.from_crs(PLANE, "EPSG:4326", always_xy=True)
TO_UTM = Transformer.from_crs("EPSG:4326", UTM, always_xy=True)
GEOD = Geod(ellps="WGS84")

# Taken from the core, common practice without a source: what is usual when a walker says no more.
HERE_M, UNDRAWN = 15.0, 0.1
LEVEL_DEG, EYE_DEG, SAID_WRONG = 2.0, 1.0, 0.02
ALTIMETER_M, ALTIMETER_SET_M, DRIFT_M, WARMTH, WIDE_M = 30.0, 5.0, 5.0, 0.03, 1000.0
# SRTM: the mission's specification of 16 m at 90 %; alike over 300 m is common practice without a source.
HEIGHT_M, ALIKE_M = 9.73, 300.0
# Sheet and landmark, as the case states them.
MAP_M = 5.0


def place(east, north):
    """Longitude and latitude of a point of the plane."""
    return TO_EARTH.transform(east, north)


def waves(east, north):
    """Ridges across the road, all tilted to the south."""
    return 600 + 120 * numpy.sin(2 * math.pi * east / 1600) + 0.25 * north


def hill(east, north):
    """One round hill on a plain."""
    return 600 + 150 * numpy.exp(-((east - 650) ** 2 + (north - 350) ** 2) / (2 * 200**2))


class Ground:
    """Rounded heights on a grid of posts, and what lies between."""

    def __init__(self, formula, north_m):
        east, north = TO_UTM.transform(*place(0, 0))
        self.west = round((east - 1950) / 50) * 50
        self.south = round((north + north_m[0]) / 50) * 50
        columns, rows = 79, round((north_m[1] - north_m[0]) / POSTS_M) + 1
        self.east = self.west + POSTS_M * numpy.arange(columns)
        self.north = self.south + POSTS_M * numpy.arange(rows)
        self.heights = numpy.round(formula(self.east[None, :] - east, self.north[:, None] - north)).astype(int)

    def record(self):
        """The grid as a file in a record."""
        head = f"ncols {len(self.east)}\nnrows {len(self.north)}\nxllcenter {self.west}\nyllcenter {self.south}\ncellsize {POSTS_M:g}\n"
        rows = "\n".join(" ".join(str(value) for value in row) for row in self.heights[::-1])
        text = base64.b64encode((head + rows + "\n").encode()).decode()
        return {"do": "import", "at": AT, "name": "ground.asc", "base64": text, "grid": UTM}

    def at(self, lon, lat):
        """Bilinear height."""
        east, north = TO_UTM.transform(lon, lat)
        x, y = (numpy.asarray(east) - self.west) / POSTS_M, (numpy.asarray(north) - self.south) / POSTS_M
        i, j = numpy.floor(x).astype(int), numpy.floor(y).astype(int)
        u, v = x - i, y - j
        h = self.heights
        low = (1 - u) * h[j, i] + u * h[j, i + 1]
        return (1 - v) * low + v * ((1 - u) * h[j + 1, i] + u * h[j + 1, i + 1])

    def beside(self, lon, lat, bearing, metres):
        """Heights so far off on a true bearing."""
        lons, lats, _ = GEOD.fwd(lon, lat, numpy.full(lon.shape, bearing), numpy.full(lon.shape, metres))
        return self.at(lons, lats)


def apart(metres):
    """One sigma of the difference of two heights."""
    return HEIGHT_M * numpy.sqrt(2 * (1 - numpy.exp(-numpy.asarray(metres) / ALIKE_M)))


ALONG = numpy.arange(0.5, 2 * HALF_M, 1.0)
LON, LAT = place(ALONG - HALF_M, numpy.zeros(ALONG.shape))


def stream():
    """A creek is crossed here: any of the four, or one that the sheet does not show."""
    count, length = len(CREEKS_M), 2 * HALF_M
    drawn = sum(norm.pdf(ALONG - HALF_M, creek, HERE_M) for creek in CREEKS_M)
    return drawn + count * UNDRAWN / (1 - UNDRAWN) / length


def slope(ground, says, bearing, degrees=None, spread=4.0):
    """What the ground does over 100 m."""
    rise = ground.beside(LON, LAT, bearing, 100.0) - ground.at(LON, LAT)
    if degrees is not None:
        own = numpy.degrees(apart(100.0) * 100.0 / (100.0**2 + rise**2))
        fits = norm.pdf(degrees, numpy.degrees(numpy.arctan2(rise, 100.0)), numpy.hypot(spread, own))
        return SAID_WRONG / 180 + (1 - SAID_WRONG) * fits
    band, spread = (100 * math.tan(math.radians(LEVEL_DEG)), numpy.hypot(apart(100.0), 100 * math.tan(math.radians(EYE_DEG))))
    falls, rises = ndtr((-band - rise) / spread), ndtr((rise - band) / spread)
    said = {"rises": rises, "falls": falls, "level": 1 - rises - falls}[says]
    return SAID_WRONG / 3 + (1 - SAID_WRONG) * said


def aspect(ground, falls, spread=20.0):
    """Where the slope underfoot falls to: the direction of a normal pair of slopes."""
    bearings = numpy.arange(8) * 45.0
    heights = numpy.array([ground.beside(LON, LAT, bearing, 50.0) for bearing in bearings])
    east, north = 50 * numpy.sin(numpy.radians(bearings)), 50 * numpy.cos(numpy.radians(bearings))
    solve = numpy.linalg.pinv(numpy.column_stack([east, north, numpy.ones(8)]))
    fitted = solve @ heights
    gaps = numpy.hypot(east[:, None] - east[None, :], north[:, None] - north[None, :])
    covariance = solve @ (HEIGHT_M**2 * numpy.exp(-gaps / ALIKE_M)) @ solve.T
    steep = numpy.hypot(fitted[0], fitted[1])
    kappa = 1 / numpy.hypot(math.sqrt(covariance[0, 0]) / steep, math.radians(spread))
    off = numpy.radians(falls) - numpy.arctan2(-fitted[0], -fitted[1])
    along = kappa * numpy.cos(off)
    density = norm.pdf(0) * numpy.exp(-0.5 * kappa**2) / norm.pdf(0) / (2 * math.pi) + along * ndtr(along) * norm.pdf(kappa * numpy.sin(off))
    return SAID_WRONG + (1 - SAID_WRONG) * 2 * math.pi * density


def height(ground, read, spread=ALTIMETER_M, set_at=None, set_m=None, hours=0.0, drift=DRIFT_M):
    """An altimeter."""
    here = ground.at(LON, LAT)
    own = math.hypot(spread, hours * drift)
    if set_at is None:
        off, climbed, map_m = read - here, 0.0 if set_m is None else here - set_m, HEIGHT_M
    else:
        climbed = here - float(ground.at(*place(*set_at)))
        start = float(ground.at(*place(*set_at))) if set_m is None else set_m
        off, map_m = read - start - climbed, apart(numpy.hypot(ALONG - HALF_M - set_at[0], set_at[1]))
    return SAID_WRONG / WIDE_M + (1 - SAID_WRONG) * norm.pdf(off, 0, numpy.sqrt(own**2 + (WARMTH * climbed) ** 2 + map_m**2))


def landform(ground, bearing=None, metres=20.0, spread=10.0, factor=1.5):
    """A hill: its highest post, as strong as its height above the lowest ground within a kilometre is sure."""
    row, column = numpy.unravel_index(ground.heights.argmax(), ground.heights.shape)
    east, north = TO_UTM.transform(LON, LAT)
    gaps = numpy.hypot(ground.east[None, :] - ground.east[column], ground.north[:, None] - ground.north[row])
    relief = ground.heights.max() - ground.heights[gaps <= 1000].min()
    weak = (2 * apart(1000.0)) ** 2
    strength = relief**2 / (relief**2 + weak)
    away = numpy.maximum(numpy.hypot(ground.east[column] - east, ground.north[row] - north), 20.0)
    ray, _, _ = GEOD.inv(LON, LAT, *(numpy.full(LON.shape, value) for value in TO_UTM.transform(ground.east[column], ground.north[row], direction="INVERSE")))
    square = (numpy.log(away / max(metres, 20.0)) / math.log(factor)) ** 2
    if bearing is not None:
        square = square + (((ray - bearing + 180) % 360 - 180) / spread) ** 2
    return SAID_WRONG + (1 - SAID_WRONG) * strength * numpy.exp(-square / 2)


def distance(metres, spread):
    """A distance to the mast."""
    away = numpy.hypot(ALONG - HALF_M - MAST_M[0], MAST_M[1])
    return 0.02 / 10_000 + 0.98 * norm.pdf(away, metres, math.sqrt(spread**2 + 2 * MAP_M**2))


def places(likelihood):
    """Runs of the 99.9 % highest-density set above a hundredth of the peak: share and likeliest place, and what is elsewhere."""
    mass = likelihood / likelihood.sum()
    order = numpy.sort(mass)[::-1]
    level = max(order[numpy.searchsorted(numpy.cumsum(order), 0.999)], 0.01 * order[0])
    inside = numpy.concatenate([[False], mass >= level, [False]])
    edges = numpy.flatnonzero(inside[1:] != inside[:-1]).reshape(-1, 2)
    found = [(float(mass[low:high].sum()), float(ALONG[low + mass[low:high].argmax()])) for low, high in edges]
    found = sorted((one for one in found if one[0] >= 0.001), reverse=True)
    return found, 1 - sum(share for share, _ in found)


def feature(shape, points, **told):
    """A feature of the sheet, degrees to 1e-9."""
    points = [[round(value, 9) for value in place(*point)] for point in points]
    coordinates = points[0] if shape == "Point" else points
    return {"type": "Feature", "geometry": {"type": shape, "coordinates": coordinates}, "properties": told}


def sheet():
    """The record that carries it."""
    road = feature("LineString", [(-HALF_M, 0), (HALF_M, 0)], name="Straight Road", kind="road")
    creeks = [feature("LineString", [(at, -150), (at, 150)], name=f"Creek {number}", kind="creek") for number, at in enumerate(CREEKS_M, 1)]
    mast = feature("Point", [MAST_M], name="Mast", kind="mast")
    known = feature("Point", [(-HALF_M + 100, 0)], name="Gate", on="Straight Road")
    told = {"type": "FeatureCollection", "sheet": {"name": "Made up", "position_spread_m": MAP_M}, "features": [road, *creeks, mast, known]}
    return {"do": "carry", "at": AT, "format": "geojson", "text": json.dumps(told)}


HERE = {"what": "here", "kind": "stream"}


def told_case(note, ground, sightings, likelihood):
    """One fix: the share and the likeliest metre of every place."""
    found, elsewhere = places(likelihood)
    before = [sheet()] + ([ground.record()] if ground else [])
    record = {"do": "fix", "at": AT, "line": "Straight Road", "sightings": sightings}
    expect = {"snapshot.fix.elsewhere_share": round(elsewhere, 6)}
    shares = [share for share, _ in found] + [0.0]
    for index, (share, along) in enumerate(found):
        expect[f"snapshot.fix.places.{index}.share"] = round(share, 6)
        # Which of two equally likely places comes first is chance.
        if all(abs(share - other) > 0.02 for other in shares[:index] + shares[index + 1 :]):
            expect[f"snapshot.fix.places.{index}.along_m"] = round(along, 1)
    return {"before": before, **case(record, expect, note)}


def cases():
    """Every kind of sighting, the stream at hand deciding where it may be."""
    ground, knob = Ground(waves, (-250, 250)), Ground(hill, (-700, 1400))
    gate = (-HALF_M + 100, 0.0)
    slope_of = lambda says, bearing, **more: {"what": "slope", "ground": says, "towards": f"{bearing} true", **more}
    rows = (
        ("any of four creeks", None, [HERE], 1.0),
        ("the ground rises to the east", ground, [HERE, slope_of("rises", 90)], slope(ground, "rises", 90)),
        ("it falls to the east", ground, [HERE, slope_of("falls", 90)], slope(ground, "falls", 90)),
        ("it is level to the north-east", ground, [HERE, slope_of("level", 45)], slope(ground, "level", 45)),
        ("it falls by 18 degrees to the east", ground, [HERE, slope_of("falls", 90, slope_deg=18)], slope(ground, "falls", 90, -18)),
        ("the slope underfoot falls to the south-west", ground, [HERE, {"what": "aspect", "falls": "235 true"}], aspect(ground, 235.0)),
        ("an altimeter that nobody set", ground, [HERE, {"what": "height", "read_m": 500}], height(ground, 500.0)),
        (
            "an altimeter set to the sheet's height at the gate, two hours ago",
            ground,
            [HERE, {"what": "height", "read_m": 690, "set_at": "Gate", "hours_since_set": 2}],
            height(ground, 690.0, ALTIMETER_SET_M, gate, None, 2.0),
        ),
        (
            "the same, set 40 m too low there and drifting fast",
            ground,
            [HERE, {"what": "height", "read_m": 470, "set_at": "Gate", "set_m": 562, "hours_since_set": 3, "drift_m_per_hour": 12}],
            height(ground, 470.0, ALTIMETER_SET_M, gate, 562.0, 3.0, 12.0),
        ),
        ("an altimeter set somewhere to 650 m", ground, [HERE, {"what": "height", "read_m": 715, "set_m": 650}], height(ground, 715.0, ALTIMETER_SET_M, None, 650.0)),
        (
            "a hill to the north-east, 500 m by eye",
            knob,
            [HERE, {"what": "landform", "kind": "knob", "bearing": "47 true", "distance_m": 500}],
            landform(knob, 47.0, 500.0),
        ),
        (
            "a hill to the north-west at any distance",
            knob,
            [HERE, {"what": "landform", "kind": "hill", "bearing": "310 true", "spread_deg": 15}],
            landform(knob, 310.0, 300.0, 15.0, 3.0),
        ),
        ("so far from the mast", None, [HERE, {"what": "distance", "landmark": "Mast", "distance_m": 1340, "spread_m": 40}], distance(1340.0, 40.0)),
        ("the same by eye", None, [HERE, {"what": "distance", "landmark": "Mast", "distance_m": 1340}], distance(1340.0, 335.0)),
    )
    return [told_case(note, on, sightings, stream() * said) for note, on, sightings, said in rows]


def invalid():
    """What cannot be weighed."""
    ground = Ground(waves, (-250, 250)).record()
    rows = (
        ([{"what": "slope", "ground": "rises", "towards": "90 true"}], "heights-needed", False),
        ([{"what": "slope", "ground": "up", "towards": "90 true"}], "trend-unknown", True),
        ([{"what": "slope", "ground": "rises", "towards": "90"}], "bearing-without-north", True),
        ([{"what": "slope", "ground": "level", "towards": "90 true", "slope_deg": 3}], "slope-level", True),
        ([{"what": "slope", "ground": "rises", "towards": "90 true", "slope_deg": 88}], "number-unreadable", True),
        ([{"what": "landform", "kind": "bump", "bearing": "90 true"}], "landform-unknown", True),
        ([{"what": "landform", "kind": "hill", "distance_m": 300}], "landform-where", True),
        ([{"what": "landform", "kind": "hill", "bearing": "90 true", "distance_factor": 0.5}], "number-unreadable", True),
        ([{"what": "aspect", "falls": "south"}], "bearing-unreadable", True),
        ([{"what": "aspect", "falls": "180 true", "spread_deg": 90}], "spread-unreadable", True),
        ([{"what": "height", "read_m": 99_000}], "number-unreadable", True),
        ([{"what": "height", "read_m": 600, "set_at": "46.5, 9.5"}], "altimeter-set", True),
        ([{"what": "here"}], "here-what", False),
        ([{"what": "here", "kind": "stream", "known": "Gate"}], "here-what", False),
        ([{"what": "here", "kind": "stile"}], "here-kind-unknown", False),
        ([{"what": "here", "kind": "bend"}], "here-kind-none", False),
        ([{"what": "distance", "landmark": "Mast", "distance_m": 0}], "number-unreadable", False),
    )
    found = []
    for sightings, code, on_ground in rows:
        record = {"do": "fix", "at": AT, "line": "Straight Road", "sightings": sightings}
        found.append({"before": [sheet()] + ([ground] if on_ground else []), **refused(record, code)})
    return found


def build(tally):
    """The case file."""
    found = cases()
    paths = sorted({path for item in found for path in item["expect"]})
    tolerance = {path: (4.0 if path.endswith("along_m") else 0.01) for path in paths}
    why = {
        path: "a flat slope moves the top of a normal of 15 m by metres, and the core goes straight between places 20 m apart"
        if path.endswith("along_m")
        else "the core asks the ground every 20 m and goes straight between"
        for path in paths
    }
    tally.check("places of the creeks", len(places(stream())[0]) == 4, "not four")
    return [
        {
            "topic": "fix/ground",
            "about": "What is said of the ground, and of what is here or so far away, on a straight road over an invented ground:"
            " the share and the likeliest metre of each place.",
            "source": "constructed with numpy 2.4.6, scipy 1.17.1 and pyproj 3.7.2 from the conventions of the reckoning; usual"
            " spreads are the core's own (common practice, no source)",
            "made_by": "tests/references/fix_ground.py",
            "units": {"share": "probability", "along_m": "metres along the road", "elsewhere_share": "probability"},
            "tolerance": tolerance,
            "tolerance_why": why,
            "cases": numbered(found),
            "invalid": numbered(invalid()),
        }
    ]
