"""Fixes in the open by least squares, three-point resections, cut angles, the triangle of error and the running fix,
written to tests/tables/fix/open_ground.json.

    python tests/references/fix_open_ground.py --check    reckons everything again and holds it against the file
    python tests/references/fix_open_ground.py --write    writes the file, then checks

numpy 2.4.6, scipy 1.17.1 (scipy.optimize.least_squares, method "lm", and scipy.stats).

A FIX. Plane metres east and north, bearings in degrees clockwise from the plane's north, spreads one sigma. `marks` with
their places and, where the map is weighed too, spread_m per axis. `readings`, each with `kind` and:

    bearing    mark, bearing_deg from the walker to the mark, spread_deg
    angle      from, to, angle_deg clockwise at the walker, spread_deg
    distance   mark, distance_m, spread_m
    run_fix    mark, first_deg, run_bearing_deg, run_m, second_deg, spread_deg of all three bearings, run_spread_m: the run
               ends where the walker stands

`shared_spread_deg` above 0: all bearings share one error with that spread, estimated along; "free": without any spread.
No case has both this and a run_fix. `start` is where the search begins. `expect` holds east_m, north_m, covariance_m2 (ee, en, nn: the inverse of the normal
matrix at the solution, all else estimated along left out), axes_m (major, minor, one sigma), major_bearing_deg (0 to 180),
drms_m, chi_square (sum of squared residuals over their spreads, that of the shared error among them), and shared_deg
where it is estimated. `expect` counts the map by weights: the variance of a bearing grows by (spread / distance)^2 at the solution, held while
the solution is sought, sought again until it stands still. `expect_marks_free` (only where the map is weighed) lets the
marks move instead, each with its spread: another way to weigh, given to show how little it matters.
`indeterminate` stands in place of `expect` where the readings do not fix a place.
"""

import argparse
import json
import math
import sys

sys.dont_write_bytecode = True

import numpy
from scipy.optimize import approx_fprime
from scipy.stats import chi2, norm

from casefile import Tally, path_of
from fix_open_squares import Fix, bearing, expected, wrap

TOPIC = "fix/open_ground"
SEED = 7



def mark(name, east, north, spread=0.0):
    """A mark, with its spread where the map is weighed."""
    return {"id": name, "east_m": east, "north_m": north, **({"spread_m": spread} if spread else {})}


def sight(name, bearing_deg, spread_deg):
    """A bearing."""
    return {"kind": "bearing", "mark": name, "bearing_deg": bearing_deg, "spread_deg": spread_deg}


def between(one, two, angle_deg, spread_deg):
    """An angle clockwise."""
    return {"kind": "angle", "from": one, "to": two, "angle_deg": angle_deg, "spread_deg": spread_deg}


def fix(note, source, marks, readings, start, **more):
    """One case with its answer."""
    told = {"note": note, "source": source, "marks": marks, "readings": readings, "start": start, **more}
    told["expect"] = expected(told)
    if any("spread_m" in one for one in marks):
        told["expect_marks_free"] = expected(told, marks_free=True)
    return told


def cuts(place, marks):
    """Least angle at which two rays cross."""
    rays = [bearing(place, (one["east_m"], one["north_m"])) for one in marks]
    found = [abs(wrap(a - b)) for at, a in enumerate(rays) for b in rays[at + 1 :]]
    return min(min(angle, 180 - angle) for angle in found)


def off_circle(place, marks):
    """How far a place lies from the circle through three marks, as a share of its radius; infinite when they stand in line."""
    a, b, c = (numpy.array([one["east_m"], one["north_m"]]) for one in marks[:3])
    matrix = 2 * numpy.array([b - a, c - a])
    if abs(numpy.linalg.det(matrix)) < 1e-6:
        return math.inf
    centre = numpy.linalg.solve(matrix, [b @ b - a @ a, c @ c - a @ a])
    radius = float(numpy.hypot(*(a - centre)))
    return abs(float(numpy.hypot(*(place - centre))) / radius - 1)


class Random:
    """Marks round a walker and what is read of them."""

    def __init__(self, seed):
        self.random = numpy.random.default_rng(seed)
        self.truth = numpy.zeros(2)

    def marks(self, count, spread=0.0, least_cut=15.0, angles=False):
        """Marks whose rays cross at a fair angle."""
        while True:
            self.truth = numpy.round(self.random.uniform(-2000, 2000, 2), 1)
            away, far = self.random.uniform(0, 360, count), self.random.uniform(500, 4000, count)
            found = [
                mark(f"M{at + 1}", round(float(self.truth[0] + d * math.sin(math.radians(a))), 1), round(float(self.truth[1] + d * math.cos(math.radians(a))), 1), spread)
                for at, (a, d) in enumerate(zip(away, far))
            ]
            if cuts(self.truth, found) >= least_cut and (not angles or off_circle(self.truth, found) > 0.15):
                return found

    def read(self, one, spread, shared=0.0):
        """A bearing read, to a tenth of a degree."""
        true = bearing(self.truth, (one["east_m"], one["north_m"]))
        return sight(one["id"], round((true + shared + self.random.normal(0, spread)) % 360, 1), spread)

    def angle(self, one, two, spread):
        """An angle read, to a tenth of a degree."""
        true = bearing(self.truth, (two["east_m"], two["north_m"])) - bearing(self.truth, (one["east_m"], one["north_m"]))
        return between(one["id"], two["id"], round((true + self.random.normal(0, spread)) % 360, 1), spread)

    def distance(self, one, share):
        """A distance read, to a metre."""
        true = math.hypot(one["east_m"] - self.truth[0], one["north_m"] - self.truth[1])
        return {"kind": "distance", "mark": one["id"], "distance_m": round(true * (1 + self.random.normal(0, share))), "spread_m": round(true * share, 1)}

    def start(self):
        """Near enough to the truth that there is one least sum."""
        return [round(float(value), 0) for value in self.truth + self.random.uniform(-60, 60, 2)]

    def spread(self):
        """From a careful reading to a quick one."""
        return float(self.random.choice([0.5, 1.5, 2, 3]))


def random_fixes():
    """Readings drawn at random, ten or more of each sort."""
    draw, found, source = Random(SEED), [], "constructed, drawn at random; scipy 1.17.1 least_squares"
    for sort, count in (("two bearings", 20), ("three bearings", 20), ("five bearings", 5)):
        for _ in range(count):
            marks = draw.marks({"two": 2, "three": 3, "five": 5}[sort.split()[0]], least_cut=15 if count == 20 else 5)
            found.append(fix(sort, source, marks, [draw.read(one, draw.spread()) for one in marks], draw.start()))
    for _ in range(10):
        marks, shared = draw.marks(3), float(draw.random.choice([1.0, 1.5, 3.0]))
        error = draw.random.normal(0, shared)
        readings = [draw.read(one, draw.spread(), error) for one in marks]
        found.append(fix("three bearings with one error in common", source, marks, readings, draw.start(), shared_spread_deg=shared))
    for _ in range(10):
        marks = draw.marks(2)
        readings = [draw.read(marks[0], draw.spread()), draw.distance(marks[0], 0.1), draw.distance(marks[1], 0.1)]
        found.append(fix("one bearing and two distances", source, marks, readings, draw.start()))
    for _ in range(10):
        marks = draw.marks(3, angles=True)
        readings = [draw.angle(marks[0], marks[1], 0.5), draw.angle(marks[1], marks[2], 1.0)]
        found.append(fix("two angles between three marks, no north", source, marks, readings, draw.start()))
    for _ in range(10):
        marks = draw.marks(3, spread=float(draw.random.choice([6.0, 12.0, 20.0])))
        readings = [draw.read(one, draw.spread()) for one in marks]
        found.append(fix("three bearings, the map's error weighed", source, marks, readings, draw.start()))
    return found


def degrees(deg, minutes, seconds):
    """Degrees from their parts."""
    return deg + minutes / 60 + seconds / 3600


def three_points(tally):
    """Two printed examples, and places that angles cannot fix."""
    marks = [mark("A", 430.659, 143.556), mark("M", 294.678, 553.630), mark("B", 172.268, 191.406)]
    text = "a surveying text whose name was not taken down (read in it); the text writes (Y, X), here east, north"
    one = fix("angles A-L-M 145 and M-L-B 130", text, marks, [between("A", "M", 215, 0.01), between("M", "B", 230, 0.01)], [300, 300])
    for name, printed in (("east_m", 303.913), ("north_m", 310.678)):
        tally.near(f"three points a, {name}", one["expect"][name], printed, 0.0005)
    marks = [mark("A", 5721.25, 21802.48), mark("B", 13542.99, 22497.95), mark("C", 20350.09, 24861.22)]
    angles = [between("A", "B", degrees(48, 53, 12), 0.01), between("B", "C", degrees(41, 20, 35), 0.01)]
    text = "inputs from memory (Ghilani and Wolf, Elementary Surveying); the answer computed with scipy 1.17.1"
    two = fix("angles APB 48-53-12 and BPC 41-20-35", text, marks, angles, [14000, 16000])
    for name, known in (("east_m", 14377.217), ("north_m", 16011.049)):
        tally.near(f"three points b, {name}", two["expect"][name], known, 0.0006)
    return [one, two] + [undetermined(*told) for told in UNDETERMINED] + near_circle()


CIRCLE = [mark("A", 0.0, 1000.0), mark("B", 600.0, 800.0), mark("C", 960.0, -280.0)]
UNDETERMINED = (
    ("on the circle through the three marks: any place on it fits", CIRCLE, (-800.0, -600.0)),
    ("on the same circle, between two marks", CIRCLE, (800.0, 600.0)),
    ("in one line with the three marks", [mark("A", 0.0, 500.0), mark("B", 0.0, 1500.0), mark("C", 0.0, 2600.0)], (0.0, -700.0)),
)


def angles_at(place, marks, spread):
    """Both angles as they are at a place."""
    rays = [bearing(place, (one["east_m"], one["north_m"])) for one in marks]
    return [between(a["id"], b["id"], (two - one) % 360, spread) for a, b, one, two in zip(marks, marks[1:], rays, rays[1:])]


def undetermined(note, marks, place):
    """Readings that fix no place: the smaller singular value of the derivatives is nothing beside the larger."""
    told = {"note": note, "source": "constructed with exact arithmetic (3-4-5 and 7-24-25 triangles)", "marks": marks}
    told |= {"readings": angles_at(place, marks, 1.0), "start": [place[0] + 5, place[1] - 5]}
    _, slopes = Fix(told).rows(numpy.array(place))
    values = numpy.linalg.svd(slopes, compute_uv=False)
    assert values[1] < 1e-9 * values[0], (note, values)
    return {**told, "place": list(place), "indeterminate": True}


def near_circle():
    """Two and ten per cent inside the circle: a place is fixed, poorly."""
    source = "constructed; scipy 1.17.1 least_squares"
    found = []
    for inside in (0.02, 0.1):
        place = (-800.0 * (1 - inside), -600.0 * (1 - inside))
        note = f"{inside:.0%} of the radius inside the circle through the three marks: the long axis tells"
        found.append(fix(note, source, CIRCLE, angles_at(place, CIRCLE, 0.5), list(place)))
    return found


# sigma 2 degrees: (distance 1, distance 2, cut) -> major, minor, drms; computed before by the project to a tenth.
TWO_BEARINGS = (
    (1000, 1000, 90, 34.9, 34.9, 49.4), (1000, 1000, 60, 49.4, 28.5, 57.0), (1000, 1000, 30, 95.4, 25.6, 98.7),
    (1000, 1000, 15, 189.1, 24.9, 190.7), (2000, 3000, 60, 130.0, 64.9, 145.3),
)
ALONG = {
    500: (17.5, 20.2, 24.7, 34.9, 51.0, 100.5), 1000: (34.9, 40.3, 49.4, 69.8, 102.1, 201.0),
    2000: (69.8, 80.6, 98.7, 139.6, 204.1, 402.0), 4000: (139.6, 161.2, 197.5, 279.3, 408.2, 804.1),
}
CUTS = (90, 60, 45, 30, 20, 10)


def two_bearing_cases(tally):
    """Two bearings of 2 degrees at stated distances and cuts, and the closed form of their drms."""
    found = []
    for d1, d2, cut, major, minor, drms in TWO_BEARINGS:
        angle = math.radians(cut)
        marks = [mark("A", 0.0, float(d1)), mark("B", d2 * math.sin(angle), d2 * math.cos(angle))]
        source = "constructed; scipy 1.17.1; drms = sqrt((s d1)^2 + (s d2)^2) / sin(cut)"
        told = fix(f"two bearings of 2 degrees, {d1} and {d2} m, cut {cut}", source, marks, [sight("A", 0.0, 2.0), sight("B", float(cut), 2.0)], [10, -10])
        answer = told["expect"]
        closed = math.radians(2) * math.hypot(d1, d2) / math.sin(angle)
        tally.near(f"{told['note']}, closed form", answer["drms_m"], closed, 1e-6)
        for name, got, known in (("major", answer["axes_m"][0], major), ("minor", answer["axes_m"][1], minor), ("drms", answer["drms_m"], drms)):
            tally.near(f"{told['note']}, {name}", got, known, 0.051)
        if d1 == d2 and cut < 90:
            tally.near(f"{told['note']}, tan of half the cut", answer["axes_m"][1] / answer["axes_m"][0], math.tan(angle / 2), 1e-9)
        found.append(told)
    direction = found[-1]["expect"]["major_bearing_deg"]
    tally.near("major axis from line 1", min(direction, 180 - direction), 13.2, 0.051)
    return found


def along_table(tally):
    """Spread along a straight line of one bearing of 2 degrees: d s / sin(cut)."""
    rows = []
    for metres, known in ALONG.items():
        for cut, printed in zip(CUTS, known):
            value = metres * math.radians(2) / math.sin(math.radians(cut))
            tally.near(f"along the line, {metres} m, cut {cut}", value, printed, 0.051)
            rows.append({"distance_m": metres, "cut_deg": cut, "spread_deg": 2, "along_m": value})
    return rows


HAT = [mark("A", 0.0, 2000.0), mark("B", 1800.0, -900.0), mark("C", -1500.0, -1200.0)]


def hat(error_deg):
    """Corners of the triangle that three bearings from (0, 0) draw, errors as (n, 3) degrees."""
    places = numpy.array([[one["east_m"], one["north_m"]] for one in HAT])
    rays = numpy.radians(numpy.degrees(numpy.arctan2(places[:, 0], places[:, 1])) + error_deg)
    along = numpy.stack([numpy.sin(rays), numpy.cos(rays)], -1)
    corners = []
    for one, two in ((0, 1), (1, 2), (2, 0)):
        # Mark 1 - t u1 = mark 2 - r u2, solved by the cross product.
        gap = places[two] - places[one]
        cross = along[:, one, 0] * along[:, two, 1] - along[:, one, 1] * along[:, two, 0]
        step = (gap[0] * along[:, two, 1] - gap[1] * along[:, two, 0]) / cross
        corners.append(places[one] + step[:, None] * along[:, one])
    return numpy.stack(corners, 1)


def inside(corners):
    """Whether (0, 0) lies in each triangle."""
    ahead = numpy.roll(corners, -1, axis=1)
    cross = corners[..., 0] * ahead[..., 1] - corners[..., 1] * ahead[..., 0]
    return (cross > 0).all(1) | (cross < 0).all(1)


def triangle(tally, count=200_000):
    """How often the triangle of error holds the walker, without and with one turn common to all."""
    random = numpy.random.default_rng(SEED)
    errors = random.normal(0, 2, (count, 3))
    free, turned = hat(errors), hat(errors + 7.6)
    share, share_turned = float(inside(free).mean()), float(inside(turned).mean())
    sides = numpy.median(numpy.hypot(*(turned - numpy.roll(turned, 1, axis=1)).transpose(2, 0, 1)), axis=0).tolist()
    tally.near("triangle holds the walker", share, 0.25, 0.01)
    tally.near("turned triangle holds the walker", share_turned, 0.9997, 0.0003)
    tally.near("median side of the turned triangle on the ray to B", sides[1], 832, 5)
    return {
        "source": "1 - n / 2^(n-1) for n lines with errors as likely to either side: Stuart 2019, Journal of Navigation,"
        " quoting Daniels 1951 and Williams 1991 (read in it); shares simulated with numpy 2.4.6",
        "marks": HAT,
        "walker": [0.0, 0.0],
        "spread_deg": 2,
        "runs": count,
        "inside": 0.25,
        "inside_simulated": share,
        "common_turn_deg": 7.6,
        "inside_with_turn_simulated": share_turned,
        "median_sides_with_turn_m": sides,
        "sides": "on the rays to A, B, C",
        "tolerance": {"inside": 0.01, "inside_with_turn_simulated": 0.001, "median_sides_with_turn_m": 5},
        "tolerance_why": "the rule is exact for straight rays of small error; at 2 degrees the rays of near marks bend it by"
        " a quarter of a percent, and another 20,000 runs scatter by 0.3 %",
    }


def turned_fixes(tally):
    """The triangle's marks with every bearing turned by the same amount: one constant takes it away."""
    source = "constructed; scipy 1.17.1 least_squares"
    true = [bearing((0, 0), (one["east_m"], one["north_m"])) for one in HAT]
    readings = [sight(one["id"], (value + 7.6) % 360, 2.0) for one, value in zip(HAT, true)]
    free = fix("all bearings turned by 7.6 degrees, the turn sought along", source, HAT, readings, [0, 0], shared_spread_deg="free")
    tally.near("turn found", free["expect"]["shared_deg"], 7.6, 1e-9)
    tally.near("turn found, place", math.hypot(free["expect"]["east_m"], free["expect"]["north_m"]), 0, 1e-6)
    tally.near("turn found, nothing left", free["expect"]["chi_square"], 0, 1e-12)
    kept = fix("all bearings turned by 7.6 degrees, not told", source, HAT, readings, [0, 0])
    tally.check("turn not told shows", kept["expect"]["chi_square"] > chi2.ppf(0.99, 1), kept["expect"])
    half = fix("all bearings turned by 7.6 degrees, shared error of 3 degrees", source, HAT, readings, [0, 0], shared_spread_deg=3.0)
    return [free, kept, half]


def running(tally):
    """The walk on 040 past a tower on 075 and 110, its multipliers, and running fixes in the plane."""
    tower = (0.0, 0.0)
    near = 800 * math.sin(math.radians(35)) / math.sin(math.radians(35))
    far = 800 * math.sin(math.radians(70)) / math.sin(math.radians(35))
    abeam = near * math.sin(math.radians(70))
    for name, got, known in (("first distance", far, 1310.64), ("second distance", near, 800.0), ("abeam", abeam, 751.75)):
        tally.near(f"running fix, {name}", got, known, 0.006)
    rows = []
    for first, second, run_to, beam in ((22.5, 45, 1.0, 0.707), (26.5, 45, 1.406, 0.994), (30, 60, 1.0, 0.866), (45, 90, 1.0, 1.0), (20, 30, 1.970, 0.985)):
        ratio = math.sin(math.radians(first)) / math.sin(math.radians(second - first))
        tally.near(f"bow angles {first} and {second}", ratio, run_to, 0.0006)
        tally.near(f"bow angles {first} and {second}, abeam", ratio * math.sin(math.radians(second)), beam, 0.0006)
        rows.append({"first_deg": first, "second_deg": second, "times_run": ratio, "abeam_times_run": ratio * math.sin(math.radians(second))})
    source = "constructed; scipy 1.17.1; distances by the rule of sines, multipliers as printed in navigators' tables"
    run = {"kind": "run_fix", "mark": "T", "first_deg": 75.0, "run_bearing_deg": 40.0, "run_m": 800.0, "second_deg": 110.0}
    start = [-800 * math.sin(math.radians(110)) + 30, -800 * math.cos(math.radians(110)) - 20]
    fixes = [
        fix(f"running fix, bearings of {spread} degrees, run of 800 m to {metres} m", source, [mark("T", *tower)], [{**run, "spread_deg": spread, "run_spread_m": metres}], start)
        for spread, metres in ((2.0, 24.0), (1.0, 8.0), (3.0, 80.0))
    ]
    for told in fixes:
        found = math.hypot(told["expect"]["east_m"], told["expect"]["north_m"])
        tally.near(f"{told['note']}, distance", found, near, 1e-6)
    table = {"course_deg": 40, "first_deg": 75, "second_deg": 110, "run_m": 800, "first_m": far, "second_m": near, "abeam_m": abeam}
    return fixes, {"source": source, "walk": table, "multipliers": rows}


def check_slopes(tally, told):
    """The derivatives against differences, a few metres off the solution."""
    for marks_free in (False, True):
        model = Fix(told, marks_free)
        model.taken_at = [1000.0] * len(model.marks)
        unknowns = numpy.zeros(model.places)
        unknowns[:2] = numpy.array(told["start"]) + (3, -2)
        _, slopes = model.rows(unknowns)
        differences = approx_fprime(unknowns, lambda x: model.rows(x)[0], 1e-4)
        worst = float(numpy.abs(slopes - differences).max() / numpy.abs(slopes).max())
        tally.check(f"derivatives, {told['note']}", worst < 1e-5, worst)


def document(tally):
    """The file."""
    fixes, run = running(tally)
    every = random_fixes() + three_points(tally) + two_bearing_cases(tally) + turned_fixes(tally) + fixes
    for told in every:
        check_slopes(tally, told)
    return {
        "topic": TOPIC,
        "about": "Fixes in the open by least squares, with tables of cuts, the triangle of error and the running fix; the"
        " layout stands at the head of the script.",
        "source": "stated beside each case; scipy 1.17.1 and numpy 2.4.6",
        "made_by": "tests/references/fix_open_ground.py",
        "relative_tolerance": {"expect": 1e-6},
        "relative_tolerance_why": "places relative to the long axis of the spread, covariances and axes relative to themselves:"
        " the search stops at 1e-9 m, the derivatives are exact. The printed three-point examples are held to their last"
        " printed digit by the script; major_bearing_deg is undefined where the axes are equal",
        "cases": [],
        "fixes": [{"id": str(number), **told} for number, told in enumerate(every, 1)],
        "along_the_line": along_table(tally),
        "triangle_of_error": triangle(tally),
        "running_fix": run,
        "factors": {
            "source": "scipy 1.17.1, scipy.stats norm and chi2",
            "line_95": float(norm.ppf(0.975)),
            "plane_39": 1.0,
            "plane_39_holds": float(chi2.cdf(1.0, 2)),
            "plane_50": math.sqrt(chi2.ppf(0.5, 2)),
            "plane_95": math.sqrt(chi2.ppf(0.95, 2)),
        },
    }


def text_of(told):
    """One line per fix and per row."""
    parts = []
    for key, value in told.items():
        if key in ("fixes", "along_the_line"):
            lines = ",\n".join("    " + json.dumps(item) for item in value)
            parts.append(f'  "{key}": [\n{lines}\n  ]')
        else:
            parts.append(f'  "{key}": {json.dumps(value)}')
    return "{\n" + ",\n".join(parts) + "\n}\n"


def same(one, other):
    """Equal but for the last digits that another machine may round otherwise."""
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return len(one) == len(other) and all(same(a, b) for a, b in zip(one, other))
    if isinstance(one, float) or isinstance(other, float):
        return abs(one - other) <= 1e-7 + 1e-8 * abs(other)
    return one == other


def main():
    """Check, after writing if asked to."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for name in ("check", "write"):
        parser.add_argument(f"--{name}", action="store_true")
    tally = Tally()
    told = json.loads(json.dumps(document(tally)))
    if parser.parse_args().write and not tally.failed:
        path_of(TOPIC).parent.mkdir(parents=True, exist_ok=True)
        path_of(TOPIC).write_text(text_of(told), encoding="ascii")
    kept = json.loads(path_of(TOPIC).read_text(encoding="ascii"))
    for key, value in told.items():
        tally.check(f"{TOPIC} {key}", same(value, kept.get(key)), "the file is not what the script writes; see --write")
    print(f"{TOPIC}: {len(kept['fixes'])} fixes; {tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
