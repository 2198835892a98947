"""The pull at the stations of a traverse: every set of turned stations and misread lines weighed one by one."""

import itertools
import math

import numpy as np


def arc(degrees, minutes=0):
    """Degrees and minutes as the published traverse prints them."""
    return degrees + minutes / 60


def rounding_deg(written):
    """One sigma of a figure that was rounded to its last digit: uniform over that digit."""
    decimals = len(f"{written:g}".partition(".")[2])
    return 10.0**-decimals / math.sqrt(12)


# Taken from the core, its choices: how often a station is turned and by how much, how often a line is misread (as uniform as
# a circle), from which odds a station is named or may be called clean, and the turn worth naming.
TURNED, TURNED_DEG, MISREAD, MISREAD_DEG = 0.1, 20.0, 0.04, 143.6
NAMED_FROM, CLEAN_BELOW, WORTH_DEG = 0.9, 0.05, 5.0
COUNTED_FROM, WIDENED, SILENT = 0.02, 2.0, 0.2


class Stations:
    """Every set of turned stations and misread lines, weighed one by one: no search, no elimination."""

    def __init__(self, closures, known, sigma):
        """Closures by (from, to); known readings as (station, off), of bearings known to a degree; one sigma of a reading."""
        self.names = list(dict.fromkeys([name for ends in closures for name in ends] + [name for name, _ in known]))
        rows = len(closures) + len(known)
        self.columns = np.zeros((rows, len(self.names) + len(closures)))
        self.shared = np.zeros((rows, 1))
        self.read = np.array([*closures.values(), *(off for _, off in known)], dtype=float)
        self.variance = np.array([2 * sigma**2] * len(closures) + [sigma**2 + rounding_deg(0) ** 2] * len(known))
        for row, (start, end) in enumerate(closures):
            self.columns[row, self.names.index(start)], self.columns[row, self.names.index(end)] = 1, -1
            self.columns[row, len(self.names) + row] = 1
        for row, (name, _) in enumerate(known, len(closures)):
            self.columns[row, self.names.index(name)] = self.shared[row] = 1
        self.sets = self.weighed()

    def weighed(self):
        """All sets with their shares, the likeliest first: the density of what was read under each."""
        unknowns = self.columns.shape[1]
        priors = [(TURNED, TURNED_DEG) if k < len(self.names) else (MISREAD, MISREAD_DEG) for k in range(unknowns)]
        logs = []
        for size in range(unknowns + 1):
            for free in itertools.combinations(range(unknowns), size):
                covariance = np.diag(self.variance) + 1e8 * self.shared @ self.shared.T
                log = 0.0
                for unknown, (chance, sigma) in enumerate(priors):
                    log += math.log(chance if unknown in free else 1 - chance)
                    if unknown in free:
                        covariance += sigma**2 * np.outer(self.columns[:, unknown], self.columns[:, unknown])
                log -= 0.5 * (np.linalg.slogdet(covariance)[1] + self.read @ np.linalg.solve(covariance, self.read))
                logs.append((log, free))
        best = max(log for log, _ in logs)
        shares = [(math.exp(log - best), free) for log, free in logs]
        whole = sum(share for share, _ in shares)
        return sorted(((share / whole, free) for share, free in shares), reverse=True)

    def solved(self, free):
        """Least squares with these unknowns free: values and covariance by unknown; none where they are not determined."""
        design = np.hstack([self.columns[:, list(free)], self.shared[:, : int(self.shared.any())]])
        if design.shape[1] == 0:
            return {}, np.zeros((0, 0))
        normal = design.T @ (design / self.variance[:, None])
        if np.linalg.matrix_rank(design, tol=1e-9) < design.shape[1]:
            return None
        values = np.linalg.solve(normal, design.T @ (self.read / self.variance))
        return dict(zip(free, values)), np.linalg.inv(normal)

    def if_freed(self, free, number):
        """Value and variance of a station's attraction where it is free besides a set; none where it is not determined."""
        free = tuple(sorted({*free, number}))
        solved = self.solved(free)
        place = free.index(number)
        return (solved[0][number], solved[1][place, place]) if solved else (None, None)

    def station(self, name):
        """Attraction, its spread, the share of the odds and the verdict of a station."""
        number = self.names.index(name)
        share = sum(share for share, free in self.sets if number in free)
        counted = [(share, free) for share, free in self.sets if share >= COUNTED_FROM and self.solved(free)]
        told = [(part, *self.if_freed(free, number)) for part, free in counted]
        part, value, own = told[0]
        says = [(p, v, variance) for p, v, variance in told if v is not None]
        attraction = None
        if value is not None and sum(p for p, *_ in says) >= (1 - SILENT) * sum(p for p, *_ in told):
            variance = sum(p * (variance + (v - value) ** 2) for p, v, variance in says) / sum(p for p, *_ in says)
            if variance <= WIDENED**2 * own:
                attraction = (float(value), math.sqrt(variance))
        shows = attraction is not None and abs(attraction[0]) + 1.644854 * attraction[1] <= WORTH_DEG
        verdict = "attracted" if share >= NAMED_FROM else "clean" if share <= CLEAN_BELOW and shows else "not-to-be-told"
        return attraction, share, verdict

    def expected(self):
        """What each station is told to be."""
        expect = {}
        for index, name in enumerate(self.names):
            attraction, share, verdict = self.station(name)
            told = (None, None) if attraction is None else (round(attraction[0], 9) + 0.0, round(attraction[1], 6))
            expect[f"answer.stations.{index}.station"] = name
            expect[f"answer.stations.{index}.attraction_deg"], expect[f"answer.stations.{index}.spread_deg"] = told
            expect[f"answer.stations.{index}.attracted_share"] = round(share, 6)
            expect[f"answer.stations.{index}.verdict"] = verdict
        return expect


def closures_of(pairs):
    """Fore less back less 180 of each line, within half a circle."""
    return {(a, b): (arc(*fore) - arc(*back)) % 360 - 180 for a, b, fore, back in pairs}
