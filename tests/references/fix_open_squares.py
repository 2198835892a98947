"""A fix in the open by least squares; what it is told and answers stands at the head of fix_open_ground.py."""

import math

import numpy
from scipy.optimize import least_squares


def wrap(angle_deg):
    """Between -180 and 180."""
    return (angle_deg + 180) % 360 - 180


def bearing(place, mark):
    """Bearing from a place to a mark, degrees."""
    return math.degrees(math.atan2(mark[0] - place[0], mark[1] - place[1])) % 360


def turn(place, mark):
    """Degrees by which the bearing to a mark changes per metre east and north of the walker."""
    de, dn = mark[0] - place[0], mark[1] - place[1]
    square = de * de + dn * dn
    return numpy.degrees(numpy.array([-dn / square, de / square]))


class Fix:
    """Rows of residuals over their spreads, and their derivatives, for the unknowns of one fix."""

    def __init__(self, told, marks_free=False):
        self.told = told
        self.marks = [numpy.array([mark["east_m"], mark["north_m"]]) for mark in told["marks"]]
        self.names = {mark["id"]: at for at, mark in enumerate(told["marks"])}
        self.spread = [mark.get("spread_m", 0.0) for mark in told["marks"]]
        self.shared = told.get("shared_spread_deg", 0)
        self.marks_free = marks_free
        self.places = 2
        self.at_shared = self.claim(1) if self.shared else None
        self.at_mark = {at: self.claim(2) for at, spread in enumerate(self.spread) if spread and marks_free}
        self.at_run = self.claim(2) if any(r["kind"] == "run_fix" for r in told["readings"]) else None
        self.taken_at = [math.inf] * len(self.marks)  # that the weights are taken at; infinite: the map is not weighed

    def claim(self, count):
        """Room for more unknowns."""
        self.places += count
        return self.places - count

    def weight(self, spread_deg, at):
        """Spread of a bearing to a mark with the map in it."""
        extra = 0.0 if self.marks_free else math.degrees(self.spread[at] / self.taken_at[at])
        return math.hypot(spread_deg, extra)

    def mark(self, unknowns, at):
        """Where a mark stands for these unknowns."""
        first = self.at_mark.get(at)
        return self.marks[at] if first is None else self.marks[at] + unknowns[first : first + 2]

    def rows(self, unknowns):
        """Residuals and derivatives, every row over its spread."""
        found = []
        for reading in self.told["readings"]:
            found += getattr(self, reading["kind"])(reading, unknowns)
        if self.shared and self.shared != "free":
            found.append(self.prior(unknowns, self.at_shared, self.shared))
        for at, first in self.at_mark.items():
            found += [self.prior(unknowns, first + axis, self.spread[at]) for axis in (0, 1)]
        return numpy.array([row[0] for row in found]), numpy.array([row[1] for row in found])

    def prior(self, unknowns, at, spread):
        """A row that holds one unknown near nothing."""
        slope = numpy.zeros(self.places)
        slope[at] = 1 / spread
        return unknowns[at] / spread, slope

    def ray(self, unknowns, at, place=None):
        """Bearing to a mark and its derivatives by all unknowns."""
        mark = self.mark(unknowns, at)
        place = unknowns[:2] if place is None else place
        slope, by = numpy.zeros(self.places), turn(place, mark)
        slope[:2] = by
        if at in self.at_mark:
            slope[self.at_mark[at] : self.at_mark[at] + 2] = -by
        return bearing(place, mark), slope, by

    def share(self, unknowns, slope):
        """The shared error, with its derivative put in."""
        if self.at_shared is None:
            return 0.0
        slope[self.at_shared] += 1.0
        return unknowns[self.at_shared]

    def bearing(self, reading, unknowns):
        """Read less foretold."""
        at = self.names[reading["mark"]]
        value, slope, _ = self.ray(unknowns, at)
        value += self.share(unknowns, slope)
        spread = self.weight(reading["spread_deg"], at)
        return [(wrap(value - reading["bearing_deg"]) / spread, slope / spread)]

    def angle(self, reading, unknowns):
        """Clockwise from one mark to another: what is shared is not in it."""
        ends = [self.names[reading[end]] for end in ("from", "to")]
        (one, slope1, _), (two, slope2, _) = (self.ray(unknowns, at) for at in ends)
        spread = reading["spread_deg"]
        for at in ends:
            spread = self.weight(spread, at)
        return [(wrap(two - one - reading["angle_deg"]) / spread, (slope2 - slope1) / spread)]

    def distance(self, reading, unknowns):
        """Metres to a mark."""
        at = self.names[reading["mark"]]
        mark = self.mark(unknowns, at)
        away = unknowns[:2] - mark
        length = float(numpy.hypot(*away))
        slope = numpy.zeros(self.places)
        slope[:2] = away / length
        if at in self.at_mark:
            slope[self.at_mark[at] : self.at_mark[at] + 2] = -away / length
        spread = reading["spread_m"] if self.marks_free else math.hypot(reading["spread_m"], self.spread[at])
        return [((length - reading["distance_m"]) / spread, slope / spread)]

    def run_fix(self, reading, unknowns):
        """Two bearings and the run between: its length and course are unknowns that were measured."""
        at, first = self.names[reading["mark"]], self.at_run
        metres = reading["run_m"] + unknowns[first] * reading["run_spread_m"]
        course = math.radians(reading["run_bearing_deg"] + unknowns[first + 1] * reading["spread_deg"])
        ahead = numpy.array([math.sin(course), math.cos(course)])
        across = numpy.array([math.cos(course), -math.sin(course)])
        one, slope1, by = self.ray(unknowns, at, unknowns[:2] - metres * ahead)
        slope1[first] = -by @ ahead * reading["run_spread_m"]
        slope1[first + 1] = -by @ across * metres * math.radians(reading["spread_deg"])
        two, slope2, _ = self.ray(unknowns, at)
        spread = reading["spread_deg"]
        rows = [(wrap(one - reading["first_deg"]) / spread, slope1 / spread)]
        rows.append((wrap(two - reading["second_deg"]) / spread, slope2 / spread))
        return rows + [self.prior(unknowns, first, 1.0), self.prior(unknowns, first + 1, 1.0)]

    def sought(self, start):
        """The unknowns of the least sum."""
        # Metres and degrees are brought to one size, so that the search stops as near in both.
        size = numpy.ones(self.places)
        size[:2] = 1000.0
        middle = numpy.zeros(self.places)
        middle[:2] = start
        found = least_squares(
            lambda x: self.rows(middle + x * size)[0],
            numpy.zeros(self.places),
            jac=lambda x: self.rows(middle + x * size)[1] * size,
            method="lm",
            xtol=1e-15,
            ftol=1e-15,
            gtol=1e-15,
            max_nfev=2000,
        )
        return middle + found.x * size

    def solved(self):
        """The solution; with the map in the weights it is sought until it stands still."""
        unknowns = self.sought(numpy.array(self.told["start"], float))
        for _ in range(100 if any(self.spread) and not self.marks_free else 0):
            before = unknowns
            self.taken_at = [float(numpy.hypot(*(mark - unknowns[:2]))) for mark in self.marks]
            unknowns = self.sought(unknowns[:2])
            if numpy.hypot(*(unknowns - before)[:2]) < 1e-9:
                break
        return unknowns


def expected(told, marks_free=False):
    """What a fix must answer."""
    fix = Fix(told, marks_free)
    unknowns = fix.solved()
    residuals, slopes = fix.rows(unknowns)
    inverse = numpy.linalg.inv(slopes.T @ slopes)
    covariance = inverse[:2, :2]
    values, vectors = numpy.linalg.eigh(covariance)
    answer = {
        "east_m": unknowns[0],
        "north_m": unknowns[1],
        "covariance_m2": [covariance[0, 0], covariance[0, 1], covariance[1, 1]],
        "axes_m": [math.sqrt(values[1]), math.sqrt(values[0])],
        "major_bearing_deg": math.degrees(math.atan2(vectors[0, 1], vectors[1, 1])) % 180,
        "drms_m": math.sqrt(values.sum()),
        "chi_square": float(residuals @ residuals),
    }
    if fix.at_shared is not None:
        answer["shared_deg"] = unknowns[fix.at_shared]
        answer["shared_spread_deg"] = math.sqrt(inverse[fix.at_shared, fix.at_shared])
    return {key: [float(v) for v in value] if isinstance(value, list) else float(value) for key, value in answer.items()}
