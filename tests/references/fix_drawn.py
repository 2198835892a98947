"""Scenes of a fix on a line, drawn at random; what is in one stands at the head of fix_scenes.py."""

import math

import numpy

from fix_model import OVERLOOKED, TAIL, Model, ray, table

KINDS = (
    "bearing", "bearing_one_of", "bearing_vague", "run_of_line", "feature_here", "trip_meter", "paces", "altimeter",
    "side", "angle_between", "running_fix", "seen", "slope_towards",
)
ONCE = ("run_of_line", "feature_here", "trip_meter", "paces", "altimeter", "running_fix")


class Draw:
    """One scene drawn at random: first the ground and what will be asked, then a truth and what is read there."""

    def __init__(self, seed, number):
        self.random = numpy.random.default_rng([seed, number])
        self.number = number
        while True:
            self.landmarks, self.known_points = [], []
            self.lines = self.draw_lines()
            self.instrument = self.draw_instrument()
            self.model = Model(self.scene([]), nodes=3, cell_m=1.0)
            self.plan = [self.planned(kind) for kind in self.draw_kinds()]
            self.model.landmarks = {mark["id"]: mark for mark in self.landmarks}
            told = self.observed()
            if told:
                self.sightings, self.truth = told
                return

    def scene(self, sightings):
        """The scene as it is written."""
        return {
            "lines": self.lines,
            "known_points": self.known_points,
            "landmarks": self.landmarks,
            "instrument": self.instrument,
            "sightings": sightings,
        }

    def pick(self, *values):
        """One of several values."""
        return values[int(self.random.integers(len(values)))]

    # -- the ground

    def draw_lines(self):
        """One to three lines: apart from each other, or leaving one junction."""
        count = int(self.random.choice([1, 2, 3], p=[0.5, 0.3, 0.2]))
        heading, start = self.random.uniform(0, 360), self.random.uniform(-500, 500, 2)
        fork = count > 1 and self.random.random() < 0.4
        odds = self.random.random() < 0.3 and count > 1
        shares = numpy.round(self.random.dirichlet([3] * count), 2)
        lines = []
        for number in range(count):
            length = self.random.uniform(1000, 5000 if number == 0 else 3000)
            if fork:
                away, course = start, heading + number * self.random.uniform(25, 60)
            else:
                aside = number * self.random.uniform(200, 500)
                across = numpy.radians(heading + 90)
                away, course = start + aside * numpy.array([math.sin(across), math.cos(across)]), heading
            spread = self.pick(3, 6, 12, 20)
            line = {
                "points": self.polyline(away, course, length, self.random.random() < 0.3),
                "spread_across_m": spread,
                "spread_along_m": spread,
            }
            if odds:
                line["odds"] = max(float(shares[number]), 0.05)
            lines.append(line)
            self.points_on(number, length, fork)
        return lines

    def polyline(self, start, heading, length, straight):
        """Two points, or a walk of short pieces that swings about its heading."""
        pieces = [length] if straight else list(self.random.uniform(100, 280, 40))
        points, swing, gone = [numpy.array(start)], 0.0, 0.0
        for piece in pieces:
            piece = min(piece, length - gone)
            if piece < 20:
                break
            course = math.radians(heading + swing)
            points.append(points[-1] + piece * numpy.array([math.sin(course), math.cos(course)]))
            gone += piece
            swing = 0.75 * swing + self.random.normal(0, 28)
        return [[round(float(value), 1) for value in point] for point in points]

    def points_on(self, number, length, fork):
        """Known points of a line; sometimes none."""
        if fork:
            self.known_points.append({"id": "J", "line": number, "along_m": 0.0})
        for extra in range(int(self.random.choice([0, 1, 2], p=[0.25, 0.5, 0.25]))):
            along = round(float(self.random.uniform(0.05, 0.8) * length), 1)
            self.known_points.append({"id": f"K{number}{extra}", "line": number, "along_m": along})

    def draw_instrument(self):
        """From a sighting compass to a quick look."""
        spread, graduation = self.pick((1.5, 1), (2, 1), (3, 2), (5, 5), (0.5, 0.5))
        return {
            "reading_spread_deg": spread,
            "graduation_deg": graduation,
            "shared_spread_deg": self.pick(0.3, 1.0, 1.5, 3.0) if spread < 5 else self.pick(1.5, 3.0),
        }

    def smooth(self, length, middle, swing, least, digits):
        """A smooth table along a line, told every 100 m."""
        along = numpy.arange(0, length + 100, 100)
        waves = sum(
            self.random.normal() * numpy.cos(2 * math.pi * along / self.random.uniform(500, 4000) + self.random.uniform(0, 7))
            for _ in range(4)
        )
        return [round(float(value), digits) for value in numpy.maximum(middle + swing * waves / math.sqrt(2), least)]

    def add_landmark(self, nearest, hidden, spread=None):
        """A landmark beside the lines, never nearer than told; where it lies says nothing about the truth."""
        while True:
            line = self.pick(*self.model.lines)
            east, north = line.at(self.random.uniform(0, line.length))
            away, far = self.random.uniform(0, 2 * math.pi), nearest + self.random.exponential(1100)
            place = (round(float(east + far * math.sin(away)), 1), round(float(north + far * math.cos(away)), 1))
            if min(ray(*line.at(line.mid), place)[1].min() for line in self.model.lines) >= nearest:
                break
        mark = {
            "id": f"M{len(self.landmarks) + 1}",
            "kind": self.pick("building", "tower", "chapel", "summit", "mast", "barn"),
            "east_m": place[0],
            "north_m": place[1],
            "spread_m": spread or self.pick(3, 6, 12, 20),
        }
        if hidden:
            chances = []
            for line in self.model.lines:
                waves = numpy.array(self.smooth(line.length, 0.4, 1.5, -9, 3))
                chances.append([round(1 / (1 + math.exp(-2.5 * float(wave))), 3) for wave in waves])
            mark["in_sight"] = {"step_m": 100, "chance": chances}
        self.landmarks.append(mark)
        return mark["id"]

    # -- what will be asked

    def draw_kinds(self):
        """One to eight kinds; every kind comes first in its turn."""
        count = 1 + self.number // len(KINDS) % 8
        kinds = [KINDS[self.number % len(KINDS)]]
        while len(kinds) < count:
            kind = str(self.random.choice(KINDS, p=[0.2] + [0.8 / 12] * 12))
            if kind not in ONCE or kind not in kinds:
                kinds.append(kind)
        self.again, self.used = None, []
        return kinds

    def planned(self, kind):
        """What of a sighting is settled before anything is read."""
        return {"kind": kind, **getattr(self, f"plan_{kind}")()}

    def hidden(self):
        """Whether a landmark may be out of sight."""
        return self.random.random() < 0.4

    def plan_bearing(self):
        if self.again and self.random.random() < 0.3:
            return {"landmark": self.again, "count": 1}
        self.again = self.add_landmark(300, self.hidden())
        plan = {"landmark": self.again, "count": int(self.random.choice([1, 2, 3], p=[0.7, 0.2, 0.1]))}
        return {**plan, "spread_deg": 4.0} if self.random.random() < 0.15 else plan

    def plan_bearing_one_of(self):
        return {
            "candidates": [self.add_landmark(300, self.hidden()) for _ in range(self.pick(2, 3, 4))],
            "count": self.pick(1, 1, 2),
        }

    def plan_bearing_vague(self):
        name = self.add_landmark(600, False)
        mark = self.landmarks.pop()
        assert mark["id"] == name
        return {"east_m": mark["east_m"], "north_m": mark["north_m"], "spread_m": self.pick(40, 80, 120), "count": 1}

    def plan_run_of_line(self):
        return {"chord_m": 100, "spread_deg": self.pick(3, 5, 8)}

    def unused(self):
        """A known point that no other sighting of the plan names; one is added when there is none."""
        free = [point["id"] for point in self.known_points if point["id"] not in self.used]
        if not free:
            number = int(self.random.integers(len(self.lines)))
            along = round(float(self.random.uniform(0.1, 0.9) * self.model.lines[number].length), 1)
            free = [f"L{len(self.known_points)}"]
            self.known_points.append({"id": free[0], "line": number, "along_m": along})
        self.used.append(self.pick(*free))
        return self.used[-1]

    def plan_feature_here(self):
        point = self.unused()
        what = "junction" if point == "J" else self.pick("bend", "bridge")
        return {"what": what, "known_point": point, "spread_m": self.pick(15, 30, 60)}

    def plan_trip_meter(self):
        step, scale = self.pick((100, 0.02), (161, 0.025), (100, 0.01), (10, 0.04))
        return {"known_point": self.unused(), "step_m": step, "scale_spread": scale, "way": self.pick(1, 1, -1, 0)}

    def plan_paces(self):
        return {"known_point": self.unused(), "spread_share": self.pick(0.02, 0.03, 0.05, 0.1), "way": self.pick(1, 1, -1, 0)}

    def plan_altimeter(self):
        for line in self.model.lines:
            heights = self.smooth(line.length, 500, self.pick(20, 60, 100), 0, 1)
            told = self.lines[self.model.lines.index(line)]
            told["heights"] = line.heights = {"step_m": 100, "height_m": heights, "spread_m": self.pick(1, 3, 8)}
        return {"spread_m": self.pick(3, 5, 10)}

    def plan_side(self):
        axis = self.pick(("left", "right"), ("left", "right"), ("ahead", "behind"))
        return {"landmark": self.add_landmark(40, self.hidden()), "axis": axis, "facing": self.pick(1, -1), "spread_deg": self.pick(5, 10)}

    def plan_angle_between(self):
        return {"from": self.add_landmark(300, self.hidden()), "to": self.add_landmark(300, self.hidden()), "spread_deg": self.pick(0.5, 1, 3)}

    def plan_running_fix(self):
        return {
            "landmark": self.add_landmark(300, False),
            "run_bearing": self.random.uniform(0, 360),
            "run_m": float(self.random.integers(15, 90) * 10),
            "run_spread_share": self.pick(0.02, 0.03, 0.05),
        }

    def plan_seen(self):
        return {"landmark": self.add_landmark(200, True)}

    def plan_slope_towards(self):
        tables = [self.smooth(line.length, 0, self.pick(2, 5), -40, 2) for line in self.model.lines]
        plan = {"bearing_deg": self.pick(0, 45, 90, 200, 310), "step_m": 100, "slopes_deg": tables}
        return {**plan, "spread_deg": self.pick(1, 2), "measured": self.random.random() < 0.4}

    # -- what is read

    def observed(self):
        """A truth and its sightings; draws on which the plan could not have come about are thrown away."""
        prior = self.model.prior()
        share = [mass.sum() for mass in prior]
        for _ in range(60000):
            number = int(self.random.choice(len(share), p=share))
            along = self.random.uniform(0, self.model.lines[number].length)
            told = self.read(number, along)
            if told:
                return told, {"line": number, "along_m": round(along, 1)}
        return None

    def read(self, number, along):
        """All sightings at one place, or None."""
        line = self.model.lines[number]
        self.here = numpy.array([along])
        place = tuple(float(value[0]) for value in line.at(self.here))
        self.b = self.random.normal(0, self.instrument["shared_spread_deg"])
        self.error_of, self.visible, found = {}, {}, {}
        # The rarest first, so that a draw in vain costs little.
        order = sorted(range(len(self.plan)), key=lambda at: self.plan[at]["kind"] not in Model.BY_POINT)
        for at in order:
            plan = dict(self.plan[at])
            found[at] = getattr(self, f"read_{plan['kind']}")(plan, number, along, line, place)
            if found[at] is None:
                return None
        return [found[at] for at in range(len(self.plan))]

    def drawn(self, covariance):
        """A pair drawn from a covariance (ee, en, nn)."""
        ee, en, nn = (float(value[0]) for value in covariance)
        return self.random.multivariate_normal([0, 0], [[ee, en], [en, nn]])

    def in_sight(self, mark, number):
        """Whether a landmark is in sight here; one event for all its sightings."""
        if mark["id"] not in self.visible:
            chance = float(self.model.in_sight(mark, number, self.here)[0])
            self.visible[mark["id"]] = self.random.random() < chance
        return self.visible[mark["id"]]

    def mark(self, name):
        """A landmark by its id."""
        return next(mark for mark in self.landmarks if mark["id"] == name)

    def spread_of(self, plan):
        """The spread of a reading before it is rounded."""
        return plan.get("spread_deg", self.instrument["reading_spread_deg"])

    def rounded(self, bearing, full=360.0):
        """To the nearest mark of the dial."""
        graduation = self.instrument["graduation_deg"]
        return float(round(round(bearing / graduation) * graduation, 3) % full)

    def reading(self, bearing, plan, full=360.0):
        """One reading by compass, now and then plainly wrong."""
        if self.random.random() < TAIL:
            return self.rounded(self.random.uniform(0, full), full)
        return self.rounded(bearing + self.b + self.random.normal(0, self.spread_of(plan)), full)

    @staticmethod
    def turned(place, to, error):
        """Bearing of the ray to a place that the map has wrong by a small pair of metres."""
        bearing, length, right = ray(*place, to)
        return float(bearing + math.degrees((right[0] * error[0] + right[1] * error[1]) / length))

    def sight(self, key, to, place, spread, line):
        """The same for all readings of one thing: its error and the line's are drawn once."""
        if key not in self.error_of:
            self.error_of[key] = self.drawn(line.error(self.here)) + self.random.normal(0, spread, 2)
        return self.turned(place, to, self.error_of[key])

    def read_bearing(self, plan, number, along, line, place):
        mark = self.mark(plan["landmark"])
        if not self.in_sight(mark, number):
            return None
        bearing = self.sight(mark["id"], (mark["east_m"], mark["north_m"]), place, mark["spread_m"], line)
        plan["readings_deg"] = [self.reading(bearing, plan) for _ in range(plan.pop("count"))]
        return plan

    def read_bearing_one_of(self, plan, number, along, line, place):
        mark = self.mark(self.pick(*plan["candidates"]))
        told = self.read_bearing({**plan, "landmark": mark["id"]}, number, along, line, place)
        if told:
            del told["landmark"]
        return told

    def read_bearing_vague(self, plan, number, along, line, place):
        bearing = self.sight(id(plan), (plan["east_m"], plan["north_m"]), place, plan["spread_m"], line)
        plan["readings_deg"] = [self.reading(bearing, plan) for _ in range(plan.pop("count"))]
        return plan

    def read_run_of_line(self, plan, number, along, line, place):
        plan["reading_deg"] = self.reading(float(line.run(self.here, plan["chord_m"])[0]), plan, 180.0)
        return plan

    def points(self, plan, number):
        """Where the plan's known point lies on a line."""
        return [p["along_m"] for p in self.known_points if (p["id"], p["line"]) == (plan["known_point"], number)]

    def elsewhere(self, plan):
        """A place drawn from the lines that have the known point, for a line that has none."""
        prior = self.model.prior()
        share = numpy.array([mass.sum() if self.points(plan, number) else 0.0 for number, mass in enumerate(prior)])
        number = int(self.random.choice(len(share), p=share / share.sum()))
        return number, self.random.uniform(0, self.model.lines[number].length)

    def read_feature_here(self, plan, number, along, line, place):
        if not self.points(plan, number):
            return None
        gap = along - self.points(plan, number)[0]
        return plan if self.random.random() < math.exp(-0.5 * (gap / plan["spread_m"]) ** 2) else None

    def gone(self, plan, number, along):
        """Metres gone from the known point, or None when they were gone the other way."""
        if not self.points(plan, number):
            number, along = self.elsewhere(plan)
        way = plan["way"] or self.pick(1, -1)
        gone = way * (along - self.points(plan, number)[0])
        return gone if gone > 0 else None

    def read_trip_meter(self, plan, number, along, line, place):
        gone = self.gone(plan, number, along)
        if gone is None:
            return None
        metered = gone * (1 + self.random.normal(0, plan["scale_spread"]))
        plan["reading_m"] = int(round(metered / plan["step_m"]) * plan["step_m"])
        return plan if plan["reading_m"] > 0 else None

    def read_paces(self, plan, number, along, line, place):
        gone = self.gone(plan, number, along)
        if gone is None:
            return None
        plan["distance_m"] = round(gone * (1 + self.random.normal(0, plan["spread_share"])), 1)
        return plan if plan["distance_m"] >= 50 else None

    def read_altimeter(self, plan, number, along, line, place):
        ground = float(table(line.heights["height_m"], line.heights["step_m"], along))
        plan["height_m"] = round(ground + self.random.normal(0, math.hypot(plan["spread_m"], line.heights["spread_m"])), 1)
        return plan

    def read_side(self, plan, number, along, line, place):
        if not self.in_sight(self.mark(plan["landmark"]), number):
            return None
        first, second = plan.pop("axis")
        chance = float(self.model.side({**plan, "side": first}, number, line, self.here)[0])
        plan["side"] = first if self.random.random() < chance else second
        return plan

    def read_angle_between(self, plan, number, along, line, place):
        marks = [self.mark(plan[end]) for end in ("from", "to")]
        if not all(self.in_sight(mark, number) for mark in marks):
            return None
        ends, error = [], self.drawn(line.error(self.here))
        for mark in marks:
            moved = error + self.random.normal(0, mark["spread_m"], 2)
            ends.append(self.turned(place, (mark["east_m"], mark["north_m"]), moved))
        angle = ends[1] - ends[0] + self.random.normal(0, plan["spread_deg"])
        angle = self.random.uniform(0, 360) if self.random.random() < TAIL else angle
        plan["angle_deg"] = round(angle % 360, 1) % 360
        return plan

    def read_running_fix(self, plan, number, along, line, place):
        mark = self.mark(plan["landmark"])
        to, ahead, metres = (mark["east_m"], mark["north_m"]), math.radians(plan.pop("run_bearing")), plan["run_m"]
        plan["run_bearing_deg"] = self.rounded(math.degrees(ahead) + self.b + self.random.normal(0, self.spread_of(plan)))
        walked = metres * (1 + self.random.normal(0, plan["run_spread_share"]))
        began = (place[0] - walked * math.sin(ahead), place[1] - walked * math.cos(ahead))
        if math.hypot(began[0] - to[0], began[1] - to[1]) < 250:
            return None
        error = self.drawn(line.error(self.here)) + self.random.normal(0, mark["spread_m"], 2)
        for name, stood in (("first_deg", began), ("second_deg", place)):
            plan[name] = self.reading(self.turned(stood, to, error), plan)
        return plan

    def read_seen(self, plan, number, along, line, place):
        mark = self.mark(plan["landmark"])
        seen = self.in_sight(mark, number) and self.random.random() >= OVERLOOKED
        plan["kind"] = "seen" if seen else "not_seen"
        return plan

    def read_slope_towards(self, plan, number, along, line, place):
        slope = float(table(plan["slopes_deg"][number], plan["step_m"], along))
        if plan.pop("measured"):
            plan["slope_deg"] = round(slope + self.random.normal(0, plan["spread_deg"]), 1)
        else:
            chance = float(self.model.two_way(slope / plan["spread_deg"]))
            plan["says"] = "rises" if self.random.random() < chance else "falls"
        return plan
