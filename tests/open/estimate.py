"""What the tool's stated conventions come to, by numpy and the reference geometry alone.

The conventions (spreads, share of wrong readings, what a stretch is) are the tool's; nothing of its code is used.
"""

import functools
import math

import numpy as np

from reference import at_chainage, between, chainages, declinations, fold

# Instruments: one sigma of a reading, of the error that all readings share, and the step of the dial, degrees.
INSTRUMENTS = {"sighting": (1.5, 1.0, 1.0), "baseplate": (2.5, 1.5, 2.0)}
WRONG_READING = 0.02            # share of plainly wrong readings
STRETCHES_HOLD = 0.999          # stretches are cut from the likeliest places that hold this share ...
FLOOR_OF_PEAK = 1e-2            # ... and that are not less likely than this share of the likeliest ...
SPOKEN_FOR = 150.0              # ... but for those that are so many times likelier than with every reading plainly wrong
PARTED = 0.95                   # hills apart in the set that holds this are places of their own
JOIN_M = 30.0                   # shorter gaps do not part two stretches
LEAST_SHARE = 0.001             # smaller stretches are left out
LEG_OWN = (math.radians(3.0), 0.03)     # one sigma of a leg's own bearing and distance
PACE_SHARE = 0.03               # one sigma of a measured pace
PLANE_95 = math.sqrt(-2 * math.log(0.05))   # radius that holds 95 % of a plane normal error, in sigmas
LINE_95 = 1.959964              # the same on a line


class Road:
    """A line cut into pieces of one metre."""

    def __init__(self, line):
        self.line, self.along = line, chainages(line)
        self.step = self.along[-1] / math.ceil(self.along[-1])
        self.s = (np.arange(math.ceil(self.along[-1])) + 0.5) * self.step
        self.runs = np.array([between(a, b)[1] for a, b in zip(line, line[1:])])

    def at(self, s):
        """The place at a distance along it."""
        return at_chainage(self.line, self.along, s)

    def run(self, s):
        """True bearing of the line at distances along it."""
        piece = np.searchsorted(self.along, s, side="right") - 1
        return self.runs[np.clip(piece, 0, len(self.runs) - 1)]

    @functools.lru_cache(maxsize=None)
    def seen(self, landmark):
        """From every metre: distance to a place, its magnetic bearing, and the angle between it and the line."""
        metres, true = np.array([between(self.at(x), landmark) for x in self.s]).T
        return metres, true - declinations(self.line, self.along, self.s), true - self.run(self.s)


@functools.lru_cache(maxsize=None)
def crossings(road, landmark, reading):
    """Where a reading alone puts one: distance along the line, and the angle with the line, 0 to 90."""
    s = np.unique(np.concatenate([np.arange(0.0, road.along[-1], 1.0), road.along]))
    true = np.array([between(road.at(x), landmark)[1] for x in s])
    miss = fold(reading - true + declinations(road.line, road.along, s))
    turns = np.flatnonzero((np.sign(miss[:-1]) != np.sign(miss[1:])) & (np.abs(np.diff(miss)) < 90))
    share = miss[turns] / (miss[turns] - miss[turns + 1])
    found = s[turns] + (s[turns + 1] - s[turns]) * share
    return [(float(x), abs((between(road.at(x), landmark)[1] - float(road.run(x)) + 90) % 180 - 90)) for x in found]


def shared_spread(instrument, declination_spread):
    """One sigma of the error that all bearings share, degrees: the compass's and the model's."""
    return math.hypot(INSTRUMENTS[instrument][1], declination_spread)


def bearing_spreads(instrument, declination_spread, spread_deg, spread_m, map_spread, cut, metres):
    """One sigma of a bearing's own error (reading, rounding, landmark, line) and of the shared one, degrees."""
    reading, _, mark = INSTRUMENTS[instrument]
    across = np.hypot(spread_m, map_spread)  # landmark and line, each so far off in either axis
    own = np.hypot(math.hypot(spread_deg or reading, mark / math.sqrt(12)), np.degrees(across / metres))
    return own, shared_spread(instrument, declination_spread)


def odds(road, sightings, instrument, declination_spread, map_spread):
    """Probability of every metre of the line, and of a metre if every reading were plainly wrong.

    Sightings are (landmark, its spread, reading, spread of the reading).
    """
    parts = []
    for landmark, spread_m, reading, spread_deg in sightings:
        metres, mag, angle = road.seen(landmark)
        own, shared = bearing_spreads(instrument, declination_spread, spread_deg, spread_m, map_spread, angle, metres)
        parts.append((fold(reading - mag), own))
    share, unread = np.zeros_like(road.s), 0.0
    for z in np.linspace(-6, 6, 361):
        unread += math.exp(-z * z / 2) * (WRONG_READING / 360) ** len(parts)
        share += math.exp(-z * z / 2) * np.prod([likely(miss - z * shared, own) for miss, own in parts], axis=0)
    return share / share.sum(), unread / share.sum()


def likely(miss, own):
    """Density of a reading that misses by so much: normal, and with a small chance anything."""
    normal = np.exp(-(miss / own) ** 2 / 2) / (own * math.sqrt(2 * math.pi))
    return (1 - WRONG_READING) * normal + WRONG_READING / 360


def runs_above(road, share, level):
    """First and last metre of every run above a density, short gaps joined."""
    kept = np.flatnonzero(share >= level)
    cuts = np.flatnonzero(np.diff(kept) > JOIN_M / road.step) + 1
    return [(run[0], run[-1]) for run in np.split(kept, cuts)]


def parted(share, run, hills):
    """A run cut at the least likely metre between each two hills in it."""
    inside = [hill for hill in hills if hill[0] >= run[0] and hill[1] <= run[1]]
    cuts = [before[1] + int(share[before[1]:after[0] + 1].argmin()) for before, after in zip(inside, inside[1:])]
    return list(zip([run[0]] + [cut + 1 for cut in cuts], cuts + [run[1]]))


def floor(share, unread):
    """Less likely places are elsewhere."""
    return min(share.max() * FLOOR_OF_PEAK, unread * SPOKEN_FOR)


def stretches(road, share, unread):
    """First and last metre (as numbers) of each stretch, likeliest stretch first."""
    order = np.sort(share)[::-1]
    held = lambda wanted: order[np.searchsorted(np.cumsum(order), wanted)]
    hills = runs_above(road, share, held(PARTED))
    runs = runs_above(road, share, max(held(STRETCHES_HOLD), floor(share, unread)))
    found = [part for run in runs for part in parted(share, run, hills)]
    found = [(a, b) for a, b in found if share[a:b + 1].sum() >= LEAST_SHARE]
    return sorted(found, key=lambda r: -share[r[0]:r[1] + 1].sum())


def grown(share, wanted):
    """How many metres are needed from the likeliest one on, always to the likelier side, to hold so much."""
    first = last = int(share.argmax())
    held = share[first]
    while held < wanted:
        left, right = (share[first - 1] if first else -1.0), (share[last + 1] if last + 1 < len(share) else -1.0)
        if left >= right:
            first, held = first - 1, held + left
        else:
            last, held = last + 1, held + right
    return last - first + 1


def mass(road, share, low, high):
    """Probability between two distances along the line, parts of a metre in proportion."""
    edges, total = np.arange(len(share) + 1) * road.step, np.concatenate([[0.0], np.cumsum(share)])
    return float(np.interp(high, edges, total) - np.interp(low, edges, total))


def spread(road, share, first, last):
    """Root mean square distance along the line from a stretch's likeliest place, metres."""
    s, weight = road.s[first:last + 1], share[first:last + 1]
    return math.sqrt(np.average((s - s[weight.argmax()]) ** 2, weights=weight))


def about(road, share, first, last, place, across):
    """Second moment of a stretch about a place, square metres east and north, with an error across the line at each metre."""
    weight = share[first:last + 1] / share[first:last + 1].sum()
    moment = np.zeros((2, 2))
    for s, part in zip(road.s[first:last + 1], weight):
        metres, true = between(place, road.at(s))
        moment += part * (along_across(true, metres, 0.0) + along_across(float(road.run(s)), 0.0, across))
    return moment


def play(legs, shared_deg, times=200_000, seed=1):
    """Covariances by drawing errors: of the walk's end, and of the end of the way back, metres east and north.

    Legs are (bearing of the plane, metres). Compass and pace are wrong by the same on both ways; each leg's own error is drawn anew.
    """
    draw = np.random.default_rng(seed)
    turned = draw.normal(0, math.radians(shared_deg), times)
    stretched = draw.normal(0, PACE_SHARE, times)
    out = walked(legs, turned, stretched, draw)
    back = walked([(b + 180, m) for b, m in reversed(legs)], turned, stretched, draw)
    return np.cov(out.real, out.imag), np.cov((out + back).real, (out + back).imag)


def walked(legs, turned, stretched, draw):
    """Ends of a walk with drawn errors, east + i north."""
    end = np.zeros(len(turned), complex)
    for bearing, metres in legs:
        off = turned + draw.normal(0, LEG_OWN[0], len(turned))
        length = metres * (1 + stretched + draw.normal(0, LEG_OWN[1], len(turned)))
        end += length * 1j * np.exp(-1j * (math.radians(bearing) + off))
    return end


def half_axes_95(covariance):
    """Greater and smaller half-axis of the 95 % ellipse."""
    small, great = np.linalg.eigvalsh(covariance)
    return PLANE_95 * math.sqrt(great), PLANE_95 * math.sqrt(small)


def along_95(covariance, bearing):
    """Half-width of the 95 % limits along a bearing of the plane."""
    way = np.array([math.sin(math.radians(bearing)), math.cos(math.radians(bearing))])
    return LINE_95 * math.sqrt(way @ covariance @ way)


def along_across(bearing, along, across):
    """Covariance of a place known along and across a bearing."""
    way = np.array([math.sin(math.radians(bearing)), math.cos(math.radians(bearing))])
    right = np.array([way[1], -way[0]])
    return along ** 2 * np.outer(way, way) + across ** 2 * np.outer(right, right)
