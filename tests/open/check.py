"""Hold the replies of the second run against the truth and against independent geometry.

Reads tests/out/open/: sheet.geojson, records.jsonl, truth.json (from prepare.py) and replies.jsonl (one reply
for each record). Ends with the line "N passed, M failed" and a non-zero exit when anything failed.
"""

import functools
import json
import math
import sys

import numpy as np
from pyproj import Proj

import estimate
from reference import (GRID, OUT, between, convergence, declination_spread, fold, magnetic, middle, nearest_chainage,
                       read_lines, to_grid, walk)

# --- where things stand in a reply: the only section that knows its shape ---------------------------

FIX = {
    "places": "snapshot.fix.places",                # likeliest first; the next lines are inside one of them
    "lat": "lat_deg", "lon": "lon_deg", "along": "along_m", "share": "share", "spread": "spread_along_m",
    "limits_95": ("low_95_m", "high_95_m"), "limits_50": ("low_50_m", "high_50_m"), "half_95": "along_95_m", "across_95": "across_95_m",
    "from": "from", "from_m": "from_m", "from_grid": "from_bearing_deg_grid",
    "elsewhere": "snapshot.fix.elsewhere_share",
    "declination": "snapshot.fix.declination_deg", "declination_spread": "snapshot.fix.declination_spread_deg",
    "convergence": "snapshot.fix.convergence_deg",
    "sightings": "snapshot.fix.sightings",          # the next lines are inside one of them
    "landmark": "landmark", "mag": "bearing_deg_mag", "grid": "bearing_deg_grid", "true": "bearing_deg_true",
    "back_mag": "back_bearing_deg_mag", "back_grid": "back_bearing_deg_grid", "residual": "residual_deg",
    "bearing_spread": "spread_deg", "distance": "distance_m", "cut": "cut_deg",
    "crossings": "crossings",                       # in one of these: distance, cut, along as above, and
    "crossing_spread": "spread_along_m",
}
WHERE = {
    "lat": "snapshot.here.lat_deg", "lon": "snapshot.here.lon_deg", "walked": "snapshot.here.walked_m",
    "major_95": "snapshot.here.major_95_m", "minor_95": "snapshot.here.minor_95_m",
    "home": "snapshot.here.home_m", "home_95": "snapshot.here.home_95_m", "home_mag": "snapshot.here.home_bearing_deg_mag",
    "legs": "snapshot.legs",                        # the next lines are inside one of them
    "end_lat": "end_lat_deg", "end_lon": "end_lon_deg", "leg_major_95": "major_95_m",
}
BACK = {
    "legs": "snapshot.way_back.legs",               # the next lines are inside one of them
    "of": "of_leg", "mag": "bearing_deg_mag", "grid": "bearing_deg_grid", "metres": "metres", "paces": "double_paces",
    "total": "total_m", "end_lat": "end_lat_deg", "end_lon": "end_lon_deg",
    "walk": "snapshot.way_back.walk_m", "closes": "snapshot.way_back.closes_m",
    "miss_major_95": "snapshot.way_back.miss_major_95_m", "miss_minor_95": "snapshot.way_back.miss_minor_95_m",
    "miss_along_95": "snapshot.way_back.miss_along_95_m",
}

# --- tolerances, each with its reason -----------------------------------------------------------------

# Declination and dip: less than the change of one day (0.00034 deg here, pygeomag). The field in single precision
# (0.01 nT of 23,000 nT) makes 0.00003 deg.
FIELD_DEG = 0.0002
# Horizontal field: five steps of single precision at 23,000 nT; one day is 0.024 nT.
FIELD_NT = 0.01
# Grid convergence, degrees, and scale: what the tool states for its differences of 20 m.
CONVERGENCE_DEG, SCALE = 1e-6, 1e-8
# Grid coordinates: PROJ on both sides.
GRID_M = 1e-4
# A plane around the sheet's middle, 7 km to its ends: r^2 / 6 R^2 of 13 km is 3 mm; of the walk's 8.5 km, 2 mm. The
# reference takes the line straight in longitude and latitude (0.2 mm in pieces of 90 m) and the walk in steps of 25 m.
PLANE_M = 0.01
# Sums and quotients of the numbers told: double precision.
EXACT = 1e-6
# How far apart two cuts of the line into metres may put its likeliest metre: half a metre each, and what FIELD_DEG
# shifts the flattest bearing of this run (6 km, cut 3 deg): 0.4 m.
LIKELIEST_M = 1.4
# Probabilities: FIELD_DEG at 4.5 sigma of the sharpest reading (0.58 deg) changes a density by 4.5 x 0.0002 / 0.58; the
# tool states 1e-5 for its sum over the shared error.
DENSITY_SHARE, DENSITY = 0.0016, 1e-5
# Half-axes from drawn errors: 4.5 standard errors of a standard deviation, and the second order of 3 deg.
DRAWN = 200_000
DRAWN_SHARE = 4.5 / math.sqrt(2 * DRAWN) + math.radians(3.0) ** 2 / 2


# --- looking up and counting ------------------------------------------------------------------------

class Missing(Exception):
    """A reply has nothing at a path."""


def look(value, path):
    """What stands at a dotted path; list items by number."""
    if isinstance(path, tuple):
        return [look(value, one) for one in path]
    for step in path.split("."):
        try:
            value = value[int(step)] if isinstance(value, list) else value[step]
        except (KeyError, IndexError, TypeError, ValueError):
            raise Missing(f"nothing at {path}") from None
    if value is None:
        raise Missing(f"nothing at {path}")
    return value


def spot(value, names, lat="lat", lon="lon"):
    """A place of a reply as (lon, lat)."""
    return look(value, names[lon]), look(value, names[lat])


class Tally:
    """Counts checks, prints those that fail."""

    def __init__(self):
        self.passed = self.failed = 0

    def hold(self, name, good, detail=""):
        """One check."""
        self.passed, self.failed = self.passed + bool(good), self.failed + (not good)
        if not good:
            print(f"FAILED {name}: {detail}")

    def near(self, name, found, expected, tolerance):
        """One number against another."""
        good = math.isfinite(found) and abs(found - expected) <= tolerance
        self.hold(name, good, f"{found} instead of {expected} +-{tolerance}")

    def turn(self, name, found, expected, tolerance):
        """One bearing against another."""
        self.hold(name, abs(fold(found - expected)) <= tolerance, f"{found} instead of {expected % 360} +-{tolerance}")

    def same(self, name, found, expected):
        """One word or count against another."""
        self.hold(name, found == expected, f"{found} instead of {expected}")

    def drawn(self, name, found, expected, more=0.0):
        """A half-width against one from drawn errors."""
        self.near(name, found, expected, (DRAWN_SHARE + more) * expected)


class Run:
    """The records with their replies, and the truth."""

    def __init__(self):
        self.records, self.replies = read_lines("records.jsonl"), read_lines("replies.jsonl")
        self.truth = json.loads((OUT / "truth.json").read_text(encoding="utf-8"))
        sheet = json.loads((OUT / "sheet.geojson").read_text(encoding="utf-8"))
        self.declination_spread = self.truth["norths"]["declination_spread"]
        self.map_spread = sheet["sheet"]["position_spread_m"]
        self.marks = {f["properties"]["name"]: f for f in sheet["features"] if f["geometry"]["type"] == "Point"}
        line = next(f["geometry"]["coordinates"] for f in sheet["features"] if f["geometry"]["type"] == "LineString")
        self.road = estimate.Road(line)
        self.car = tuple(self.truth["car"]["place"])
        self.turning_point = tuple(self.truth["turning_point"])
        self.paces = self.truth["double_paces_per_100_m"]
        self.legs = [(float(r["bearing"].split()[0]), r["paces"] * 100 / self.paces) for r in self.records if r["do"] == "leg"]

    def told(self, kind):
        """The records of one kind with their replies."""
        return [(r, a) for r, a in zip(self.records, self.replies) if r["do"] == kind]

    def one(self, kind):
        """The only reply of a kind."""
        return self.told(kind)[0][1]

    def landmark(self, name):
        """The place of a landmark of the sheet."""
        return tuple(self.marks[name]["geometry"]["coordinates"])

    def sightings(self, index):
        """A fix's sightings: landmark, its own spread and the sheet's, reading, spread of the reading."""
        for told in self.told("fix")[index][0]["sightings"]:
            spread = math.hypot(self.marks[told["landmark"]]["properties"].get("spread_m", 0), self.map_spread)
            yield self.landmark(told["landmark"]), spread, float(told["bearing"].split()[0]), told.get("spread_deg")

    @functools.cached_property
    def kept(self):
        """The place from which the log is reckoned: the likeliest one of the last fix."""
        return spot(look(self.told("fix")[-1][1], FIX["places"])[0], FIX)

    @functools.cached_property
    def out(self):
        """Where the legs lead from there by geographiclib: the start, and the end of each."""
        return walk(self.kept, self.legs)

    def instrument(self, index):
        """The instrument of a fix."""
        return self.told("fix")[index][0]["instrument"]

    @functools.cached_property
    def spread_slack(self):
        """How much the declination's spread varies along the road: the tool takes one for the whole sheet."""
        spreads = [declination_spread(self.road.at(x)) for x in self.road.s[::100]]
        return max(spreads) - min(spreads)

    @functools.lru_cache(maxsize=None)
    def odds(self, index):
        """Probability of every metre of the road by one fix, and of one if all were plainly wrong, by numpy alone."""
        return estimate.odds(self.road, self.sightings(index), self.instrument(index), self.declination_spread, self.map_spread)

    @functools.lru_cache(maxsize=None)
    def drawn(self, count):
        """Covariances of the first legs and of the way back from there, from drawn errors."""
        true = [(between(a, b)[1], metres) for a, b, (_, metres) in zip(self.out, self.out[1:], self.legs[:count])]
        return estimate.play(true, estimate.shared_spread(self.instrument(-1), self.declination_spread), DRAWN)


# --- questions --------------------------------------------------------------------------------------

def check_answers(run, tally):
    """All is answered, nothing refused."""
    tally.same("a reply for each record", len(run.replies), len(run.records))
    for n, (record, reply) in enumerate(zip(run.records, run.replies), 1):
        tally.hold(f"record {n} {record['do']}", reply.get("ok") is True, reply.get("refusal"))


def check_norths(run, tally):
    """The three norths at the car, pygeomag and PROJ."""
    answer, known = look(run.one("norths"), "answer"), run.truth["norths"]
    d, gamma = known["declination"], known["convergence"]
    tally.near("norths: declination", look(answer, "declination_deg"), d, FIELD_DEG)
    tally.near("norths: its spread", look(answer, "declination_spread_deg"), known["declination_spread"], EXACT)
    tally.near("norths: inclination", look(answer, "inclination_deg"), known["inclination"], FIELD_DEG)
    tally.near("norths: horizontal field", look(answer, "horizontal_nt"), known["horizontal_nt"], FIELD_NT)
    tally.near("norths: convergence", look(answer, "convergence_deg"), gamma, CONVERGENCE_DEG)
    tally.near("norths: grid-magnetic angle", look(answer, "grid_magnetic_deg"), d - gamma, FIELD_DEG)


def check_place(run, tally):
    """The car's place on the national grid, PROJ."""
    answer, factors = look(run.one("place"), "answer"), Proj(GRID).get_factors(*run.car)
    east, north = to_grid([run.car])[0]
    tally.near("place: easting", look(answer, "easting_m"), east, GRID_M)
    tally.near("place: northing", look(answer, "northing_m"), north, GRID_M)
    tally.near("place: convergence", look(answer, "convergence_deg"), convergence(run.car), CONVERGENCE_DEG)
    tally.near("place: scale", look(answer, "scale"), factors.meridional_scale, SCALE)


# --- the fixes --------------------------------------------------------------------------------------

def near_right_angle(degrees):
    """An angle between two lines, 0 to 90."""
    return abs((degrees + 90) % 180 - 90)


def check_bearings(tally, seen, told, place, label):
    """A reading as the fix tells it at the likeliest place: by all norths, forth and back, against the true bearing."""
    landmark, _, reading, _ = told
    metres, true = between(place, landmark)
    d, gamma = magnetic(place).d, convergence(place)
    tally.turn(f"{label}, magnetic", look(seen, FIX["mag"]), reading, EXACT)
    tally.turn(f"{label}, true", look(seen, FIX["true"]), reading + d, FIELD_DEG)
    tally.turn(f"{label}, grid", look(seen, FIX["grid"]), reading + d - gamma, FIELD_DEG)
    tally.turn(f"{label}, back magnetic", look(seen, FIX["back_mag"]), reading + 180, EXACT)
    tally.turn(f"{label}, back grid", look(seen, FIX["back_grid"]), reading + d - gamma + 180, FIELD_DEG)
    tally.near(f"{label}, residual", look(seen, FIX["residual"]), fold(reading + d - true), FIELD_DEG)
    tally.near(f"{label}, distance", look(seen, FIX["distance"]), metres, PLANE_M)


def check_cut(run, tally, seen, told, x, index, label, slack):
    """Angle with the road at a distance along it, and what it makes of the spreads."""
    landmark, spread_m, _, spread_deg = told
    metres, true = between(run.road.at(x), landmark)
    cut = near_right_angle(true - float(run.road.run(x)))
    # moved by so much along the road, the bearing turns by slack / metres
    cut_slack = FIELD_DEG + math.degrees(slack / metres)
    tally.near(f"{label}, cut", look(seen, FIX["cut"]), cut, cut_slack)
    own, shared = estimate.bearing_spreads(run.instrument(index), run.declination_spread, spread_deg, spread_m, run.map_spread, cut, metres)
    return cut, cut_slack, metres, math.hypot(own, shared)


def check_crossings(run, tally, seen, told, index, label):
    """A reading's crossings with the road."""
    landmark, _, reading, _ = told
    mine, theirs = estimate.crossings(run.road, landmark, reading), look(seen, FIX["crossings"])
    tally.same(f"{label}, crossings", len(theirs), len(mine))
    for (x, angle), other in zip(mine, theirs):
        spot_label = f"{label}, crossing at {x:.0f} m"
        # FIELD_DEG is this much along the road
        slack = PLANE_M + between(run.road.at(x), landmark)[0] * math.radians(FIELD_DEG) / math.sin(math.radians(angle))
        tally.near(spot_label, look(other, FIX["along"]), x, slack)
        cut, cut_slack, metres, spread = check_cut(run, tally, other, told, x, index, spot_label, slack)
        tally.near(f"{spot_label}, distance", look(other, FIX["distance"]), metres, slack)
        along = metres * math.radians(spread) / math.sin(math.radians(cut))
        # the spread goes with the distance and with 1 / sin(cut)
        share = slack / metres + math.radians(cut_slack) / math.tan(math.radians(cut)) + run.spread_slack / spread
        tally.near(f"{spot_label}, spread", look(other, FIX["crossing_spread"]), along, along * share + EXACT)


def check_sightings(run, tally, index, name):
    """What a fix says of each reading."""
    record, reply = run.told("fix")[index]
    best = look(reply, FIX["places"])[0]
    place, x = spot(best, FIX), look(best, FIX["along"])
    for sighting, told, seen in zip(record["sightings"], run.sightings(index), look(reply, FIX["sightings"]), strict=True):
        label = f"{name}: {sighting['landmark']}"
        tally.same(f"{label}, name", look(seen, FIX["landmark"]), sighting["landmark"])
        check_bearings(tally, seen, told, place, label)
        _, _, _, spread = check_cut(run, tally, seen, told, x, index, label, PLANE_M)
        tally.near(f"{label}, spread", look(seen, FIX["bearing_spread"]), spread, run.spread_slack + EXACT)
        check_crossings(run, tally, seen, told, index, label)


def check_on_road(run, tally, place, name):
    """A place is on the road, where it says, as far from the nearest named point as it says."""
    at, along = spot(place, FIX), look(place, FIX["along"])
    x, off = nearest_chainage(run.road.line, run.road.along, at)
    tally.near(f"{name}: metres off the road", off, 0.0, PLANE_M)
    tally.near(f"{name}: along the road", along, x, PLANE_M)
    points = run.truth["line"]["junctions"]
    nearest = min(points, key=lambda p: abs(p["s"] - along))
    tally.same(f"{name}: nearest named point", look(place, FIX["from"]), nearest["name"])
    tally.near(f"{name}: metres from it", look(place, FIX["from_m"]), abs(nearest["s"] - along), PLANE_M)
    metres, _ = between(nearest["place"], at)
    # between the two the meridian turns by metres tan(lat) / R at most
    slack = math.degrees(PLANE_M / metres + metres * math.tan(math.radians(at[1])) / 6.37e6)
    true = middle(nearest["place"], at)[1]
    tally.turn(f"{name}: bearing from it", look(place, FIX["from_grid"]), true - convergence(at), slack)


def check_limits(run, tally, place, share, rest, name):
    """The limits of a place hold what they say, and grow from the likeliest place. `share` is that of its stretch, metre by metre."""
    whole, step = share.sum(), run.road.step
    for path, wanted in (("limits_95", 0.95), ("limits_50", 0.5)):
        (low, high), told = look(place, FIX[path]), wanted * whole / rest
        held, slack = estimate.mass(run.road, share, low, high), DENSITY + DENSITY_SHARE * whole * (1 - wanted)
        # the tool's last metre may hold more than was needed
        tally.hold(f"{name}: {path}", told - slack <= held <= told + share.max() + slack, f"hold {held}, should {told}")
        metres = estimate.grown(share, told) * step
        # Each end may fall one entry off: the density between weighed places is taken to run straight.
        tally.near(f"{name}: length of {path}", high - low, metres, 2 * step + EXACT)
    along, (low, high) = look(place, FIX["along"]), look(place, FIX["limits_95"])
    tally.near(f"{name}: half-width", look(place, FIX["half_95"]), max(along - low, high - along), EXACT)


def check_places(run, tally, index, name):
    """The stretches of a fix against numpy's, and the truth is inside their limits."""
    reply, (share, unread) = run.told("fix")[index][1], run.odds(index)
    places, mine = look(reply, FIX["places"]), estimate.stretches(run.road, share, unread)
    tally.same(f"{name}: places", len(places), len(mine))
    rest = sum(share[a:b + 1].sum() for a, b in mine)
    # where a stretch ends is a matter of one metre that is hardly likely
    edge = 2 * len(mine) * estimate.floor(share, unread)
    tally.near(f"{name}: elsewhere", look(reply, FIX["elsewhere"]), 1 - rest, DENSITY + edge)
    for k, (place, (a, b)) in enumerate(zip(places, mine), 1):
        label, inside = f"{name}: place {k}", np.where((np.arange(len(share)) >= a) & (np.arange(len(share)) <= b), share, 0.0)
        whole = inside.sum()
        tally.near(f"{label}: share", look(place, FIX["share"]), whole, DENSITY + DENSITY_SHARE * min(whole, 1 - whole))
        tally.near(f"{label}: likeliest", look(place, FIX["along"]), run.road.s[inside.argmax()], LIKELIEST_M)
        spread = estimate.spread(run.road, share, a, b)
        # the likeliest place itself is found to LIKELIEST_M
        tally.near(f"{label}: spread", look(place, FIX["spread"]), spread, DENSITY_SHARE * spread + LIKELIEST_M)
        tally.near(f"{label}: across", look(place, FIX["across_95"]), estimate.LINE_95 * run.map_spread, EXACT)
        check_limits(run, tally, place, inside, rest, label)
        check_on_road(run, tally, place, label)
    limits, truth = [look(k, FIX["limits_95"]) for k in places], run.truth["car"]["s"]
    tally.hold(f"{name}: true place in the 95 % limits", any(a <= truth <= b for a, b in limits), f"{truth} in {limits}")


def check_fix(run, tally, index, name):
    """One fix: norths, crossings, places."""
    reply = run.told("fix")[index][1]
    place = spot(look(reply, FIX["places"])[0], FIX)
    tally.near(f"{name}: declination", look(reply, FIX["declination"]), magnetic(place).d, FIELD_DEG)
    spread = declination_spread(place)
    tally.near(f"{name}: spread of the declination", look(reply, FIX["declination_spread"]), spread, run.spread_slack + EXACT)
    tally.near(f"{name}: convergence", look(reply, FIX["convergence"]), convergence(place), CONVERGENCE_DEG)
    check_sightings(run, tally, index, name)
    check_places(run, tally, index, name)


def check_careful_fix(run, tally):
    """The trip's fix: its likeliest stretch is the true one."""
    check_fix(run, tally, 1, "careful fix")
    low, high = look(look(run.told("fix")[1][1], FIX["places"])[0], FIX["limits_95"])
    truth = run.truth["car"]["s"]
    tally.hold("careful fix: the likeliest place is the true one", low <= truth <= high, f"{truth} in {low}..{high}")


# --- the walk ---------------------------------------------------------------------------------------

def walk_slack(a, b):
    """FIELD_DEG turns a whole walk about its start."""
    return PLANE_M + between(a, b)[0] * math.radians(FIELD_DEG)


def check_legs(run, tally):
    """The end of each leg against geographiclib."""
    told = look(run.one("where"), WHERE["legs"])
    tally.same("legs", len(told), len(run.legs))
    for k, (leg, end) in enumerate(zip(told, run.out[1:]), 1):
        off = between(spot(leg, WHERE, "end_lat", "end_lon"), end)[0]
        tally.near(f"leg {k}: metres off geographiclib's end", off, 0.0, walk_slack(run.kept, end))


def check_where(run, tally):
    """Dead reckoning against geographiclib, and against the real walk."""
    reply = run.one("where")
    place, end = spot(reply, WHERE), run.out[-1]
    tally.near("where: metres off geographiclib's place", between(place, end)[0], 0.0, walk_slack(run.kept, end))
    off = between(place, run.turning_point)[0]
    tally.hold("where: real place inside the 95 % ellipse", off <= look(reply, WHERE["minor_95"]), f"{off:.1f} m off")
    tally.near("where: metres walked", look(reply, WHERE["walked"]), sum(m for _, m in run.legs), EXACT)
    tally.near("where: metres home", look(reply, WHERE["home"]), between(place, run.kept)[0], PLANE_M)
    half, true = middle(place, run.kept)
    tally.turn("where: bearing home", look(reply, WHERE["home_mag"]), true - magnetic(half).d, FIELD_DEG)


def car_covariance(run):
    """Second moment, about the place kept, of where the car may be: along the road as it bends, and across it."""
    share, unread = run.odds(1)
    first, last = estimate.stretches(run.road, share, unread)[0]
    return estimate.about(run.road, share, first, last, run.kept, run.map_spread)


def check_ellipses(run, tally):
    """Half-axes at 95 % after one leg and after all, from drawn errors and from the car's place by numpy."""
    car = car_covariance(run)
    for count, reply in ((1, run.told("leg")[0][1]), (len(run.legs), run.one("where"))):
        out, _ = run.drawn(count)
        whole = out + car
        name = f"after {count} of {len(run.legs)} legs"
        last = look(reply, WHERE["legs"])[-1]
        tally.drawn(f"{name}: the last leg's end", look(last, WHERE["leg_major_95"]), estimate.half_axes_95(out)[0])
        # whichever way "across" is taken on a bending road: the map's variance, as a share of twice the smaller one
        more = DENSITY_SHARE + run.map_spread ** 2 / (2 * np.linalg.eigvalsh(whole)[0])
        for path, axis in zip(("major_95", "minor_95"), estimate.half_axes_95(whole)):
            tally.drawn(f"{name}: {path} of the place", look(reply, WHERE[path]), axis, more)


def check_home_spread(run, tally):
    """The limits of the distance home, from drawn errors."""
    out, _ = run.drawn(len(run.legs))
    expected = estimate.along_95(out, between(run.out[-1], run.kept)[1])
    tally.drawn("where: limits of the distance home", look(run.one("where"), WHERE["home_95"]), expected)


# --- the way back -----------------------------------------------------------------------------------

def check_back_legs(run, tally):
    """The way back is the log reversed: bearings turned round, counts kept, totals right."""
    told, total = look(run.one("back"), BACK["legs"]), 0.0
    tally.same("back: legs", len(told), len(run.legs))
    for k, ((mag, metres), found) in enumerate(zip(reversed(run.legs), told), 1):
        total += metres
        of = len(run.legs) + 1 - k
        tally.same(f"back leg {k}: of", look(found, BACK["of"]), of)
        tally.turn(f"back leg {k}: magnetic", look(found, BACK["mag"]), mag + 180, EXACT)
        tally.turn(f"back leg {k}: grid", look(found, BACK["grid"]), mag + 180 + grid_magnetic(run, of), FIELD_DEG)
        tally.near(f"back leg {k}: metres", look(found, BACK["metres"]), metres, EXACT)
        tally.near(f"back leg {k}: double paces", look(found, BACK["paces"]), metres * run.paces / 100, EXACT)
        tally.near(f"back leg {k}: total", look(found, BACK["total"]), total, EXACT)
        off, start = between(spot(found, BACK, "end_lat", "end_lon"), run.out[of - 1])[0], run.out[-1]
        tally.near(f"back leg {k}: metres off geographiclib's end", off, 0.0, walk_slack(run.kept, start))
    tally.near("back: whole way", look(run.one("back"), BACK["walk"]), total, EXACT)
    tally.near("back: closes", look(run.one("back"), BACK["closes"]), 0.0, EXACT)


def grid_magnetic(run, number):
    """Grid-magnetic angle in the middle of a leg of the log."""
    half, _ = middle(run.out[number - 1], run.out[number])
    return magnetic(half).d - convergence(half)


def instructions(run):
    """The way back as one would walk it."""
    return [(look(k, BACK["mag"]), look(k, BACK["metres"])) for k in look(run.one("back"), BACK["legs"])]


def check_back_walk(run, tally):
    """Walked by geographiclib, the way back leads to the fix, and from the real turning point near the real start."""
    reply, here = run.one("back"), spot(run.one("where"), WHERE)
    slack = walk_slack(run.kept, here)
    tally.near("back: walked by geographiclib, metres from the fix", between(walk(here, instructions(run))[-1], run.kept)[0], 0.0, slack)
    off = between(walk(run.turning_point, instructions(run))[-1], run.car)[0]
    minor = look(reply, BACK["miss_minor_95"])
    tally.hold("back: from the real turning point into the 95 % ellipse at the real start", off <= minor, f"{off:.1f} m off, {minor}")
    rounding = between(walk(run.car, run.legs)[-1], run.turning_point)[0]
    tally.near("back: off by what rounding did on the way out", off, rounding, slack)


def check_miss(run, tally):
    """The stated miss of the way back, from drawn errors: what both ways share cancels."""
    reply, (_, miss) = run.one("back"), run.drawn(len(run.legs))
    major, minor = estimate.half_axes_95(miss)
    tally.drawn("back: greater half-axis of the miss", look(reply, BACK["miss_major_95"]), major)
    tally.drawn("back: smaller half-axis of the miss", look(reply, BACK["miss_minor_95"]), minor)
    bearing = float(run.road.run(nearest_chainage(run.road.line, run.road.along, run.kept)[0]))
    tally.drawn("back: miss along the road", look(reply, BACK["miss_along_95"]), estimate.along_95(miss, bearing))


# --- the whole --------------------------------------------------------------------------------------

def in_short(place):
    """A place of a fix as distances along the road."""
    low, high = look(place, FIX["limits_95"])
    return f"{look(place, FIX['along']):.0f} m ({100 * look(place, FIX['share']):.0f} %, {low:.0f} to {high:.0f})"


def summary(run):
    """What was seen, for a person."""
    for index, name in enumerate(("ordinary compass", "careful compass")):
        places = look(run.told("fix")[index][1], FIX["places"])
        parts = ", ".join(in_short(place) for place in places)
        print(f"{name}: {parts}; truth {run.truth['car']['s']:.0f} m, {between(spot(places[0], FIX), run.car)[0]:.1f} m from the likeliest")
    where, back = run.one("where"), run.one("back")
    off, end = between(spot(where, WHERE), run.turning_point)[0], walk(run.turning_point, instructions(run))[-1]
    print(f"{len(run.legs)} legs, {sum(m for _, m in run.legs):.0f} m: reckoned place {off:.1f} m from the real one, "
          f"stated {look(where, WHERE['major_95']):.0f} by {look(where, WHERE['minor_95']):.0f} m (95 %)")
    print(f"way back from the real turning point ends {between(end, run.car)[0]:.1f} m from the real start, "
          f"stated miss {look(back, BACK['miss_major_95']):.0f} by {look(back, BACK['miss_minor_95']):.0f} m (95 %)")


def guarded(tally, name, check, *arguments):
    """Run one group of checks; a reply without the field looked for counts as a failure."""
    try:
        check(*arguments)
    except (Missing, IndexError) as error:
        tally.hold(name, False, error)


GROUPS = {
    "answers": check_answers, "norths": check_norths, "place": check_place,
    "ordinary fix": lambda run, tally: check_fix(run, tally, 0, "ordinary fix"), "careful fix": check_careful_fix,
    "legs": check_legs, "where": check_where, "ellipses": check_ellipses, "home": check_home_spread,
    "back legs": check_back_legs, "back walk": check_back_walk, "miss": check_miss,
}


def main():
    """Run all checks."""
    run, tally = Run(), Tally()
    for name, check in GROUPS.items():
        guarded(tally, name, check, run, tally)
    guarded(tally, "summary", summary, run)
    print(f"{tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
