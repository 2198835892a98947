"""The probability over the plane of fixes in the open, by a plain grid, written to tests/tables/fix/open_odds.json.

    python tests/references/fix_open_odds.py --check    reckons everything again and holds it against the file
    python tests/references/fix_open_odds.py --write    writes the file, then checks

numpy 2.4.6. Plane metres east and north, bearings in degrees clockwise from the plane's north, spreads one sigma.

A SCENE. `marks` with their places and spread_m per axis; a square area from (low, low) to (high, high), every square metre of
it equally likely beforehand; `readings`, each with `kind` and:

    bearing    marks (one, or all that it may be), bearing_deg, spread_deg; bearings to the same mark share the error of its place
    angle      from, to, angle_deg clockwise at the walker, spread_deg
    distance   mark, distance_m, spread_m
    ridge      bearing_deg, through, spread_m, floor: the ground says "on a straight ridge": floor + (1 - floor) exp(-(off / spread)^2 / 2)

98 % of readings are normal about the truth, 2 % uniform: on the circle, or over the area's diagonal. All bearings share one normal error
of shared_spread_deg. `expect`: boxes (shares of 8 by 8 equal squares, row by row from the south-west), mean_m, covariance_m2 (ee, en, nn),
area_95_m2 of the highest-density set, and density_per_m2 at `probes`.
"""

import argparse
import json
import math
import sys

sys.dont_write_bytecode = True

import numpy

from casefile import Tally, path_of

TOPIC = "fix/open_odds"
STEP_M = 5.0
NODES = 31
WRONG = 0.02


def normal(x, sigma):
    """Density."""
    return numpy.exp(-0.5 * (x / sigma) ** 2) / (sigma * math.sqrt(2 * math.pi))


def nodes(sigma):
    """Equal steps over six sigmas to either side."""
    if not sigma:
        return [(0.0, 1.0)]
    at = numpy.linspace(-6, 6, NODES)
    weight = numpy.exp(-0.5 * at**2)
    return list(zip(at * sigma, weight / weight.sum()))


def wrap(angle):
    """Between -180 and 180."""
    return (angle + 180) % 360 - 180


class Scene:
    """One scene at many places."""

    def __init__(self, told):
        self.told = told
        self.marks = {one["id"]: one for one in told["marks"]}
        self.far = (told["high"] - told["low"]) * math.sqrt(2)

    def ray(self, name, east, north):
        """Bearing, and the map's part of the spread in degrees."""
        one = self.marks[name]
        de, dn = one["east_m"] - east, one["north_m"] - north
        away = numpy.maximum(numpy.hypot(de, dn), 1.0)
        return numpy.degrees(numpy.arctan2(de, dn)), numpy.minimum(numpy.degrees(one["spread_m"] / away), 90.0)

    def bearings(self):
        """Bearings by what was sighted."""
        found = {}
        for one in self.told["readings"]:
            if one["kind"] == "bearing":
                found.setdefault(tuple(one["marks"]), []).append(one)
        return found

    def group(self, names, readings, east, north):
        """A function of the shared error: likelihood of all bearings to one thing."""
        rays = [self.ray(name, east, north) for name in names]

        def one(reading, ray, spread, off):
            return (1 - WRONG) * normal(wrap(reading["bearing_deg"] - ray - off), spread) + WRONG / 360

        def given(shared):
            total = 0.0
            for ray, map_deg in rays:
                if len(readings) == 1:
                    total = total + one(readings[0], ray, numpy.hypot(readings[0]["spread_deg"], map_deg), shared)
                    continue
                for step, weight in nodes(1.0):
                    product = weight
                    for reading in readings:
                        product = product * one(reading, ray, reading["spread_deg"], shared + step * map_deg)
                    total = total + product
            return total / len(rays)

        return given

    def plain(self, reading, east, north):
        """Likelihood without a compass."""
        if reading["kind"] == "angle":
            (one, map1), (two, map2) = (self.ray(reading[end], east, north) for end in ("from", "to"))
            spread = numpy.sqrt(reading["spread_deg"] ** 2 + map1**2 + map2**2)
            return (1 - WRONG) * normal(wrap(reading["angle_deg"] - two + one), spread) + WRONG / 360
        if reading["kind"] == "distance":
            mark = self.marks[reading["mark"]]
            away = numpy.hypot(mark["east_m"] - east, mark["north_m"] - north)
            spread = math.hypot(reading["spread_m"], mark["spread_m"])
            return (1 - WRONG) * normal(reading["distance_m"] - away, spread) + WRONG / self.far
        angle = math.radians(reading["bearing_deg"])
        off = (east - reading["through"][0]) * math.cos(angle) - (north - reading["through"][1]) * math.sin(angle)
        return reading["floor"] + (1 - reading["floor"]) * numpy.exp(-0.5 * (off / reading["spread_m"]) ** 2)

    def likelihood(self, east, north):
        """Everything, the shared error summed out."""
        rest = numpy.ones(numpy.broadcast(east, north).shape)
        for one in self.told["readings"]:
            if one["kind"] != "bearing":
                rest = rest * self.plain(one, east, north)
        groups = [self.group(names, readings, east, north) for names, readings in self.bearings().items()]
        if not groups:
            return rest
        total = 0.0
        for shared, weight in nodes(self.told["shared_spread_deg"]):
            product = weight
            for given in groups:
                product = product * given(shared)
            total = total + product
        return rest * total


def expected(told):
    """Shares, moments and the area of a scene."""
    scene, low, high = Scene(told), told["low"], told["high"]
    count = round((high - low) / STEP_M)
    middles = low + (numpy.arange(count) + 0.5) * STEP_M
    density = numpy.vstack([scene.likelihood(middles[None, :], middles[at : at + 40, None]) for at in range(0, count, 40)])
    total = density.sum() * STEP_M**2
    share = density / density.sum()
    boxes = share.reshape(8, count // 8, 8, count // 8).sum((1, 3))
    mean = numpy.array([(share.sum(0) * middles).sum(), (share.sum(1) * middles).sum()])
    off = middles - mean[0], middles - mean[1]
    covariance = [(share.sum(0) * off[0] ** 2).sum(), float(off[1] @ share @ off[0]), (share.sum(1) * off[1] ** 2).sum()]
    ordered = numpy.sort(share.ravel())[::-1]
    area = (numpy.searchsorted(numpy.cumsum(ordered), 0.95) + 1) * STEP_M**2
    random = numpy.random.default_rng(3)
    drawn = random.choice(share.size, 12, p=share.ravel())
    probes = [[float(middles[at % count]), float(middles[at // count])] for at in drawn]
    densities = [float(scene.likelihood(numpy.array([e]), numpy.array([n]))[0] / total) for e, n in probes]
    return {
        "boxes": [round(float(value), 9) for value in boxes.ravel()],
        "mean_m": [float(value) for value in mean],
        "covariance_m2": [float(value) for value in covariance],
        "area_95_m2": float(area),
        "probes": probes,
        "density_per_m2": densities,
    }


def mark(name, east, north, spread=0.0):
    """A mark."""
    return {"id": name, "east_m": float(east), "north_m": float(north), "spread_m": float(spread)}


def sight(names, degrees, spread=1.5):
    """A bearing."""
    return {"kind": "bearing", "marks": names.split(), "bearing_deg": degrees, "spread_deg": spread}


def distance(name, metres, spread):
    """A distance."""
    return {"kind": "distance", "mark": name, "distance_m": metres, "spread_m": spread}


def angle(one, two, degrees, spread):
    """An angle."""
    return {"kind": "angle", "from": one, "to": two, "angle_deg": degrees, "spread_deg": spread}


A, B, C = mark("A", 300, 1500, 6), mark("B", 1400, -200, 6), mark("C", -1300, 700, 20)
SCENES = (
    ("two bearings that cut well", [A, B], [sight("A", 10.0), sight("B", 98.0)], 1.0),
    ("two bearings that hardly cut", [A, mark("D", 420, 1700, 6)], [sight("A", 10.0), sight("D", 14.0)], 1.0),
    ("one bearing and a rough distance", [A, B], [sight("A", 10.0), distance("B", 1500.0, 200.0)], 1.0),
    ("two distances: two places", [A, B], [distance("A", 1500.0, 60.0), distance("B", 1300.0, 60.0)], 1.0),
    ("three bearings, one of them plainly wrong", [A, B, C], [sight("A", 10.0), sight("B", 98.0), sight("C", 215.0)], 1.5),
    ("three bearings to one mark and one to another", [A, C], [sight("C", 299.0), sight("C", 301.0), sight("C", 302.5), sight("A", 10.0)], 1.0),
    ("a bearing to one of two, and an angle", [A, B, C], [sight("A C", 10.0, 2.0), angle("C", "A", 72.0, 2.0)], 2.0),
    (
        "one bearing and a ridge",
        [B],
        [sight("B", 98.0, 2.5), {"kind": "ridge", "bearing_deg": 120.0, "through": [-500.0, 300.0], "spread_m": 40.0, "floor": 0.02}],
        1.5,
    ),
)


def document():
    """The file."""
    scenes = []
    for number, (note, marks, readings, shared) in enumerate(SCENES, 1):
        told = {"id": str(number), "note": note, "low": -2000.0, "high": 2000.0, "marks": marks, "readings": readings, "shared_spread_deg": shared}
        scenes.append({**told, "expect": expected(told)})
    return {
        "topic": TOPIC,
        "about": "The probability over the plane of fixes in the open; the layout stands at the head of the script.",
        "source": f"constructed; numpy 2.4.6, a grid of {STEP_M} m and {NODES} nodes over each error that readings share",
        "made_by": "tests/references/fix_open_odds.py",
        "tolerance": {"total_variation": 0.01, "mean_sigmas": 0.02, "covariance_relative": 0.02, "area_relative": 0.03, "density_relative": 0.01},
        "tolerance_why": "cells of both grids are small but finite; half of the summed differences of 64 shares is the total"
        " variation; the edge of the 95 % set runs through cells",
        "cases": [],
        "scenes": scenes,
    }


def text_of(told):
    """One line per scene."""
    lines = ",\n".join("    " + json.dumps(item) for item in told["scenes"])
    parts = [f'  "{key}": [\n{lines}\n  ]' if key == "scenes" else f'  "{key}": {json.dumps(value)}' for key, value in told.items()]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def same(one, other):
    """Equal but for the last digits that another machine may round otherwise."""
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return len(one) == len(other) and all(same(a, b) for a, b in zip(one, other))
    if isinstance(one, float) or isinstance(other, float):
        return abs(one - other) <= 1e-8 + 1e-7 * abs(other)
    return one == other


def main():
    """Check, after writing if asked to."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for name in ("check", "write"):
        parser.add_argument(f"--{name}", action="store_true")
    tally = Tally()
    told = json.loads(json.dumps(document()))
    if parser.parse_args().write:
        path_of(TOPIC).write_text(text_of(told), encoding="ascii")
    kept = json.loads(path_of(TOPIC).read_text(encoding="ascii"))
    for key, value in told.items():
        tally.check(f"{TOPIC} {key}", same(value, kept.get(key)), "the file is not what the script writes; see --write")
    print(f"{TOPIC}: {len(kept['scenes'])} scenes; {tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
