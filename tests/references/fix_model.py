"""What sightings say about where one stands on a line: the posterior, cell by cell.

Written for itself, from the conventions of the reckoning alone; it shares nothing with the core. The scene it reads is
described at the head of fix_scenes.py. The shared compass error is integrated by a fine rule of trapezia, which for
normal densities converges faster than any power of its step; identity and the map's error are summed and integrated in
closed form. Angles are degrees, densities of angles per degree, lengths metres, spreads one sigma.
"""

import itertools
import math

import numpy
from scipy.special import ndtr

TAIL = 0.02  # share of bearings that are plainly wrong, uniform on the circle
SEEN_FLOOR = 0.005  # least chance of being in sight that a bearing or "seen" is weighted with
OVERLOOKED = 0.05  # chance of overlooking what is in sight
CELL_M = 0.25
NODES = 81  # of the shared compass error, over six spreads each way
REACH = 6.0

# Where the conventions leave a choice, the first of each is ours; the others are there to measure what a choice is worth.
CHOICES = {
    "rounding": "graduation",  # uniform over one graduation; "half": over half of one
    "scale_of": "true",  # a share is of the true distance; "recorded": of what was written down
    "identity": "joint",  # 1/n times in sight; "conditional": in sight, divided by the sum over the candidates
    "without_point": "mean",  # a line without the known point: mean over those with it; "one": likelihood 1
    "two_way_tail": TAIL,  # share of "left" for "right", "rises" for "falls" said by mistake
    "point_tail": 0.0,  # share of known points taken for another, uniform over all lines
    "seen": "once",  # in sight is weighted once per landmark; "each": once per reading
    "line_error": "landmark",  # the line's error is drawn anew for each landmark; "place": one for all
}


def wrap(angle_deg, full=360.0):
    """An angle between minus half and plus half of a full turn."""
    return (angle_deg + full / 2) % full - full / 2


class Line:
    """A polyline in the plane, its cells (the last one shorter), and where the map may be wrong."""

    def __init__(self, told, cell_m=CELL_M):
        self.points = numpy.asarray(told["points"], float)
        pieces = numpy.hypot(*numpy.diff(self.points, axis=0).T)
        self.along = numpy.concatenate([[0.0], numpy.cumsum(pieces)])
        self.length = float(self.along[-1])
        edges = numpy.arange(0.0, self.length, cell_m)
        self.edges = numpy.append(edges, self.length)
        self.width = numpy.diff(self.edges)
        self.mid = (self.edges[1:] + self.edges[:-1]) / 2
        self.spread = (told["spread_across_m"], told["spread_along_m"])
        self.odds = told.get("odds")
        self.heights = told.get("heights")

    def at(self, along):
        """East and north at a distance along the line, held within its ends."""
        return tuple(numpy.interp(along, self.along, self.points[:, axis]) for axis in (0, 1))

    def run(self, along, chord=100.0):
        """Bearing of the chord around a place, cut off at the line's ends."""
        east, north = (after - before for after, before in zip(self.at(along + chord / 2), self.at(along - chord / 2)))
        return numpy.degrees(numpy.arctan2(east, north)) % 360

    def off_run(self, along, reading, chord=100.0, reach=100.0):
        """By how much a reading is off the run at places, in the way of reading it that fits best.

        The chord; each straight piece within reach on either side; the direction towards any point of these, which goes on
        from that to one end of a piece to that to the other.
        """
        least = wrap(reading - self.run(along, chord), 180.0)
        here = numpy.array(self.at(along))
        for way in (1, -1):
            end = numpy.clip(along + way * reach, 0, self.length)
            first = numpy.searchsorted(self.along, along, "right") if way > 0 else numpy.searchsorted(self.along, along, "left") - 1
            before, seen, done = here, numpy.full(len(along), numpy.nan), numpy.zeros(len(along), bool)
            for nth in range(len(self.along) + 1):
                index = numpy.clip(first + way * nth, 0, len(self.along) - 1)
                inside = (index == first + way * nth) & (self.along[index] * way < end * way)
                point = numpy.where(inside, self.points[index].T, numpy.array(self.at(end)))
                for run in (point - before, point - here):
                    is_there = ~done & (numpy.hypot(*run) > 1e-3)
                    towards = numpy.degrees(numpy.arctan2(*run))
                    off = wrap(reading - towards, 180.0)
                    least = numpy.where(is_there & (numpy.abs(off) < numpy.abs(least)), off, least)
                arc = wrap(towards - seen, 360.0)
                for at in (wrap(reading - seen, 360.0), wrap(reading + 180.0 - seen, 360.0)):
                    least = numpy.where(is_there & (at * arc >= 0) & (numpy.abs(at) <= numpy.abs(arc)), 0.0, least)
                seen = numpy.where(is_there, towards, seen)
                before, done = numpy.where(done, before, point), done | ~inside
                if done.all():
                    break
        return least

    def error(self, along):
        """Covariance (ee, en, nn) of the line's place on the map, square metres."""
        across, lengthwise = self.spread
        run = numpy.radians(self.run(along))
        sine, cosine = numpy.sin(run), numpy.cos(run)
        return (
            lengthwise**2 * sine**2 + across**2 * cosine**2,
            (lengthwise**2 - across**2) * sine * cosine,
            lengthwise**2 * cosine**2 + across**2 * sine**2,
        )


def table(values, step, along):
    """A table told every `step` metres from the line's beginning, between them in proportion."""
    return numpy.interp(along, numpy.arange(len(values)) * step, values)


def ray(east, north, to):
    """Bearing and length of the ray to a place, and the unit vector to the right of it."""
    de, dn = to[0] - east, to[1] - north
    length = numpy.hypot(de, dn)
    return numpy.degrees(numpy.arctan2(de, dn)), length, (dn / length, -de / length)


def product(left, covariance, right):
    """left' C right for vectors and (ee, en, nn)."""
    ee, en, nn = covariance
    return left[0] * (ee * right[0] + en * right[1]) + left[1] * (en * right[0] + nn * right[1])


def normal(residual, variance):
    """Density of a normal."""
    return numpy.exp(-0.5 * residual**2 / variance) / numpy.sqrt(2 * math.pi * variance)


class Model:
    """One scene, its lines cut into cells."""

    def __init__(self, scene, nodes=NODES, cell_m=CELL_M, **choices):
        self.scene = scene
        self.choices = {**CHOICES, **choices}
        self.lines = [Line(told, cell_m) for told in scene["lines"]]
        self.landmarks = {mark["id"]: mark for mark in scene["landmarks"]}
        shared = scene["instrument"]["shared_spread_deg"]
        self.b = numpy.linspace(-REACH, REACH, nodes if shared else 1) * shared if shared else numpy.zeros(1)
        weight = numpy.exp(-0.5 * (self.b / shared) ** 2) if shared else numpy.ones(1)
        self.weight = weight / weight.sum()

    # -- what every line has beforehand

    def prior(self):
        """Mass of each cell: per metre over all lines together, or the walker's odds for each line."""
        if any(line.odds is not None for line in self.lines):
            total = sum(line.odds for line in self.lines)
            return [line.odds / total * line.width / line.length for line in self.lines]
        total = sum(line.length for line in self.lines)
        return [line.width / total for line in self.lines]

    def own_variance(self, sighting):
        """Of one reading: its spread and the rounding to the graduation."""
        trust = self.scene["instrument"]
        graduation = trust["graduation_deg"] * (1 if self.choices["rounding"] == "graduation" else 0.5)
        return sighting.get("spread_deg", trust["reading_spread_deg"]) ** 2 + graduation**2 / 12

    def in_sight(self, mark, number, along):
        """Chance that a landmark is in sight, as a bearing or "seen" weighs it."""
        return numpy.maximum(self.chance(mark, number, along), SEEN_FLOOR)

    @staticmethod
    def chance(mark, number, along):
        """Chance that a landmark is in sight."""
        told = mark.get("in_sight")
        return table(told["chance"][number], told["step_m"], along) if told else numpy.ones_like(along)

    # -- bearings

    def line_error(self, line, along):
        """The line's covariance, nothing where one error is drawn for the whole place elsewhere."""
        shared = self.choices["line_error"] == "place"
        return tuple(numpy.zeros_like(along) for _ in range(3)) if shared else line.error(along)

    def place(self, line, along):
        """Where the cells lie; moved as a whole while one error of the line is tried out."""
        east, north = line.at(along)
        move = getattr(self, "moved", None)
        if move is None:
            return east, north
        run = numpy.radians(line.run(along))
        across, lengthwise = move[0] * line.spread[0], move[1] * line.spread[1]
        return (
            east + lengthwise * numpy.sin(run) + across * numpy.cos(run),
            north + lengthwise * numpy.cos(run) - across * numpy.sin(run),
        )

    def bearings(self, line, along, to, spread, readings):
        """Density of several readings (degrees, variance) to one thing, whose error on the map they share."""
        east, north = self.place(line, along)
        bearing, length, right = ray(east, north, to)
        metres2 = spread**2 + product(right, self.line_error(line, along), right)
        shared = numpy.degrees(numpy.sqrt(metres2) / length)[:, None] ** 2
        residuals = [wrap(read - bearing[:, None] - self.b) for read, _ in readings]
        return self.together(residuals, [variance for _, variance in readings], shared)

    @staticmethod
    def together(residuals, variances, shared):
        """Sum over which readings are plainly wrong; the others are normal with one error in common."""
        count = len(residuals)
        total = 0.0
        for sound in itertools.product((True, False), repeat=count):
            good = [(r, v) for r, v, is_good in zip(residuals, variances, sound) if is_good]
            weight = (1 - TAIL) ** len(good) * (TAIL / 360) ** (count - len(good))
            if not good:
                total = total + weight
                continue
            precision = sum(1 / v for _, v in good)
            inner = 1 + shared * precision
            square = sum(r**2 / v for r, v in good) - shared * sum(r / v for r, v in good) ** 2 / inner
            scale = math.prod(2 * math.pi * v for _, v in good) * inner
            total = total + weight * numpy.exp(-0.5 * square) / numpy.sqrt(scale)
        return total

    def sure(self, number, line, along):
        """All bearings to landmarks whose identity is certain, grouped by landmark, with their chance of being in sight."""
        groups = {}
        for sighting in self.scene["sightings"]:
            if sighting["kind"] == "bearing":
                variance = self.own_variance(sighting)
                groups.setdefault(sighting["landmark"], []).extend((read, variance) for read in sighting["readings_deg"])
        for name, readings in groups.items():
            mark = self.landmarks[name]
            yield self.bearings(line, along, (mark["east_m"], mark["north_m"]), mark["spread_m"], readings)
            if self.choices["seen"] == "each":
                yield self.in_sight(mark, number, along)[:, None] ** (len(readings) - 1)

    def one_of(self, sighting, number, line, along):
        """A bearing to one of several landmarks."""
        variance = self.own_variance(sighting)
        readings = [(read, variance) for read in sighting["readings_deg"]]
        marks = [self.landmarks[name] for name in sighting["candidates"]]
        chances = [self.in_sight(mark, number, along)[:, None] for mark in marks]
        told = [
            chance * self.bearings(line, along, (mark["east_m"], mark["north_m"]), mark["spread_m"], readings)
            for mark, chance in zip(marks, chances)
        ]
        return sum(told) / (len(marks) if self.choices["identity"] == "joint" else sum(chances))

    def vague(self, sighting, _number, line, along):
        """A bearing to a feature whose place is only roughly known."""
        to = (sighting["east_m"], sighting["north_m"])
        variance = self.own_variance(sighting)
        readings = [(read, variance) for read in sighting["readings_deg"]]
        return self.bearings(line, along, to, sighting["spread_m"], readings)

    def run_of_line(self, sighting, _number, line, along):
        """The bearing of the line here, which reads the same both ways."""
        residual = wrap(line.off_run(along, sighting["reading_deg"], sighting["chord_m"])[:, None] - self.b, 180.0)
        return (1 - TAIL) * normal(residual, self.own_variance(sighting)) + TAIL / 180

    def running_fix(self, sighting, _number, line, along):
        """Two bearings to one landmark, the first from where a measured run began that ended here."""
        mark = self.landmarks[sighting["landmark"]]
        to, own = (mark["east_m"], mark["north_m"]), self.own_variance(sighting)
        east, north = self.place(line, along)
        course, metres = numpy.radians(sighting["run_bearing_deg"] - self.b), sighting["run_m"]
        first, _, _ = ray(east[:, None] - metres * numpy.sin(course), north[:, None] - metres * numpy.cos(course), to)
        ahead = math.radians(sighting["run_bearing_deg"])
        _, length1, right1 = ray(east - metres * math.sin(ahead), north - metres * math.cos(ahead), to)
        second, length2, right2 = ray(east, north, to)
        ee, en, nn = self.line_error(line, along)
        error = (ee + mark["spread_m"] ** 2, en, nn + mark["spread_m"] ** 2)
        lengthwise = (math.sin(ahead) * right1[0] + math.cos(ahead) * right1[1]) * metres * sighting["run_spread_share"]
        crosswise = (math.cos(ahead) * right1[0] - math.sin(ahead) * right1[1]) * metres * math.radians(math.sqrt(own))
        deg2 = math.degrees(1) ** 2
        var1 = (own + deg2 * (product(right1, error, right1) + lengthwise**2 + crosswise**2) / length1**2)[:, None]
        var2 = (own + deg2 * product(right2, error, right2) / length2**2)[:, None]
        both = (deg2 * product(right1, error, right2) / (length1 * length2))[:, None]
        r1 = wrap(sighting["first_deg"] - first - self.b)
        r2 = wrap(sighting["second_deg"] - second[:, None] - self.b)
        inner = var1 * var2 - both**2
        square = (var2 * r1**2 - 2 * both * r1 * r2 + var1 * r2**2) / inner
        joint = numpy.exp(-0.5 * square) / (2 * math.pi * numpy.sqrt(inner))
        wrong = TAIL / 360
        one = normal(r1, var1) + normal(r2, var2)
        return (1 - TAIL) ** 2 * joint + (1 - TAIL) * wrong * one + wrong**2

    def angle_between(self, sighting, _number, line, along):
        """The angle clockwise from one landmark to another: no compass error is in it."""
        marks = [self.landmarks[sighting[end]] for end in ("from", "to")]
        east, north = self.place(line, along)
        rays = [ray(east, north, (mark["east_m"], mark["north_m"])) for mark in marks]
        lever = tuple(rays[1][2][axis] / rays[1][1] - rays[0][2][axis] / rays[0][1] for axis in (0, 1))
        map2 = product(lever, self.line_error(line, along), lever)
        map2 = map2 + sum((mark["spread_m"] / told[1]) ** 2 for mark, told in zip(marks, rays))
        variance = sighting["spread_deg"] ** 2 + math.degrees(1) ** 2 * map2
        residual = wrap(sighting["angle_deg"] - (rays[1][0] - rays[0][0]))
        return (1 - TAIL) * normal(residual, variance) + TAIL / 360

    # -- what is seen

    def sighted(self):
        """Landmarks that some sighting says are in sight; candidates carry their own weight."""
        names = []
        for sighting in self.scene["sightings"]:
            if sighting["kind"] in ("bearing", "running_fix", "side", "seen"):
                names.append(sighting["landmark"])
            elif sighting["kind"] == "angle_between":
                names += [sighting["from"], sighting["to"]]
        return list(dict.fromkeys(names))

    def not_seen(self, sighting, number, _line, along):
        """Looked for and not seen: out of sight, or overlooked."""
        return 1 - (1 - OVERLOOKED) * self.chance(self.landmarks[sighting["landmark"]], number, along)

    def side(self, sighting, _number, line, along):
        """A landmark to the left or right, ahead or behind, as one faces along the line."""
        mark = self.landmarks[sighting["landmark"]]
        east, north = line.at(along)
        bearing, length, _ = ray(east, north, (mark["east_m"], mark["north_m"]))
        facing = line.run(along) + (0 if sighting["facing"] > 0 else 180)
        turn = numpy.radians(bearing - facing)
        sides = {"right": numpy.sin(turn), "left": -numpy.sin(turn), "ahead": numpy.cos(turn), "behind": -numpy.cos(turn)}
        spread2 = mark["spread_m"] ** 2 + line.spread[0 if sighting["side"] in ("left", "right") else 1] ** 2
        spread2 = spread2 + (length * math.radians(sighting["spread_deg"])) ** 2
        return self.two_way(length * sides[sighting["side"]] / numpy.sqrt(spread2))

    def two_way(self, margin):
        """Chance of saying one of two things, by the margin in spreads; now and then the wrong one is said."""
        tail = self.choices["two_way_tail"]
        return (1 - tail) * ndtr(margin) + tail / 2

    def slope_towards(self, sighting, number, _line, along):
        """The ground rises or falls towards a bearing, or does so by a measured angle."""
        slope = table(sighting["slopes_deg"][number], sighting["step_m"], along)
        if "slope_deg" in sighting:
            return normal(sighting["slope_deg"] - slope, sighting["spread_deg"] ** 2)
        return self.two_way((slope if sighting["says"] == "rises" else -slope) / sighting["spread_deg"])

    def altimeter(self, sighting, _number, line, along):
        """A height read, against the heights along the line."""
        ground = table(line.heights["height_m"], line.heights["step_m"], along)
        return normal(sighting["height_m"] - ground, sighting["spread_m"] ** 2 + line.heights["spread_m"] ** 2)

    # -- what is reckoned from known points

    def from_point(self, sighting, distance_of):
        """One likelihood per line by the distance gone from a known point; way 0 means either way."""
        ways = (sighting["way"],) if sighting["way"] else (1, -1)
        found = []
        for number, line in enumerate(self.lines):
            points = [p["along_m"] for p in self.scene["known_points"] if (p["id"], p["line"]) == (sighting["known_point"], number)]
            gone = [way * (line.mid - point) for point in points for way in ways]
            found.append(sum(numpy.where(m > 0, distance_of(numpy.maximum(m, 1e-9)), 0.0) for m in gone) / len(ways) if gone else None)
        return self.fill(found)

    def fill(self, found):
        """A line without the known point: the sighting leaves its odds as they were."""
        prior = self.prior()
        held = [(told, mass) for told, mass in zip(found, prior) if told is not None]
        mean = sum(float(told @ mass) for told, mass in held) / sum(mass.sum() for _, mass in held)
        other = mean if self.choices["without_point"] == "mean" else 1.0
        return [numpy.full(line.mid.shape, other) if told is None else told for told, line in zip(found, self.lines)]

    def trip_meter(self, sighting):
        """Chance of the display's step, the way gone stretched by the meter's scale."""
        low, high = (sighting["reading_m"] + sign * sighting["step_m"] / 2 for sign in (-1, 1))

        def chance(gone):
            spread = sighting["scale_spread"] * (gone if self.choices["scale_of"] == "true" else max(sighting["reading_m"], 1.0))
            return ndtr((high - gone) / spread) - ndtr((low - gone) / spread)

        return self.from_point(sighting, chance)

    def paces(self, sighting):
        """Density of the distance paced."""

        def density(gone):
            base = gone if self.choices["scale_of"] == "true" else sighting["distance_m"]
            return normal(sighting["distance_m"] - gone, (sighting["spread_share"] * base) ** 2)

        return self.from_point(sighting, density)

    def feature_here(self, sighting):
        """A known point is here."""
        found = []
        total = sum(line.length for line in self.lines)
        for number, line in enumerate(self.lines):
            points = [p["along_m"] for p in self.scene["known_points"] if (p["id"], p["line"]) == (sighting["known_point"], number)]
            found.append(sum(normal(line.mid - point, sighting["spread_m"] ** 2) for point in points) if points else None)
        tail = self.choices["point_tail"]
        if tail:
            return [(1 - tail) * (0 if told is None else told) + tail / total + 0 * line.mid for told, line in zip(found, self.lines)]
        return [0 * line.mid if told is None else told for told, line in zip(found, self.lines)]

    # -- the posterior

    BY_COMPASS = {"bearing_one_of": one_of, "bearing_vague": vague, "run_of_line": run_of_line, "running_fix": running_fix}
    BY_PLACE = {
        "angle_between": angle_between,
        "not_seen": not_seen,
        "side": side,
        "slope_towards": slope_towards,
        "altimeter": altimeter,
    }
    BY_POINT = {"trip_meter": trip_meter, "paces": paces, "feature_here": feature_here}

    def evidence(self):
        """Likelihood of all sightings in every cell, line by line."""
        told = [self.on_line(number, line) for number, line in enumerate(self.lines)]
        for sighting in self.scene["sightings"]:
            if sighting["kind"] in self.BY_POINT:
                found = self.BY_POINT[sighting["kind"]](self, sighting)
                told = [before * here for before, here in zip(told, found)]
        return told

    def on_line(self, number, line):
        """What all but the known points say, with the shared compass error integrated out."""
        along = line.mid
        likelihood = numpy.ones((len(along), len(self.b)))
        for factor in self.sure(number, line, along):
            likelihood *= factor
        for sighting in self.scene["sightings"]:
            if sighting["kind"] in self.BY_COMPASS:
                likelihood *= self.BY_COMPASS[sighting["kind"]](self, sighting, number, line, along)
        told = likelihood @ self.weight
        for sighting in self.scene["sightings"]:
            if sighting["kind"] in self.BY_PLACE:
                told *= self.BY_PLACE[sighting["kind"]](self, sighting, number, line, along)
        for name in self.sighted():
            told *= self.in_sight(self.landmarks[name], number, along)
        return told

    def posterior(self):
        """Mass of every cell, line by line; they sum to one."""
        if self.choices["line_error"] == "place":
            told = self.evidence_with_one_error()
        else:
            told = self.evidence()
        masses = [prior * here for prior, here in zip(self.prior(), told)]
        total = sum(mass.sum() for mass in masses)
        return [mass / total for mass in masses]

    def evidence_with_one_error(self, order=5):
        """As `evidence`, one error of the line moving every bearing from the place together."""
        roots, weights = numpy.polynomial.hermite_e.hermegauss(order)
        weights = weights / weights.sum()
        total = None
        for (across, w1), (along, w2) in itertools.product(zip(roots, weights), repeat=2):
            self.moved = (across, along)
            told = [w1 * w2 * here for here in self.evidence()]
            total = told if total is None else [a + b for a, b in zip(total, told)]
        self.moved = None
        return total
