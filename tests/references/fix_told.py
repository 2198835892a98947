"""What is told of a posterior on lines: bins, highest-density sets, stretches and the distance of two."""

import math

import numpy


BIN_M = 5.0


def bins(line, mass, width=BIN_M):
    """Mass per bin from the line's beginning; the last bin may be short."""
    return numpy.bincount((line.mid / width).astype(int), weights=mass, minlength=math.ceil(line.length / width))


def highest(lines, masses, share):
    """The highest-density set that holds a share: one truth value per cell, line by line."""
    density = numpy.concatenate([mass / line.width for line, mass in zip(lines, masses)])
    mass = numpy.concatenate(masses)
    order = numpy.argsort(-density, kind="stable")
    count = int(numpy.searchsorted(numpy.cumsum(mass[order]), share)) + 1
    inside = numpy.zeros(len(mass), bool)
    inside[order[:count]] = True
    return numpy.split(inside, numpy.cumsum([len(line.mid) for line in lines])[:-1])


def runs(inside):
    """First and one past the last cell of each run."""
    steps = numpy.flatnonzero(numpy.diff(numpy.concatenate([[0], inside.astype(int), [0]])))
    return list(zip(steps[::2], steps[1::2]))


def grown(mass, share):
    """Cells from the likeliest one outward, always to the likelier side, until they hold the share of the mass."""
    first = last = int(numpy.argmax(mass))
    held, wanted = mass[first], share * mass.sum()
    while held < wanted and (first > 0 or last + 1 < len(mass)):
        before = mass[first - 1] if first > 0 else -1.0
        after = mass[last + 1] if last + 1 < len(mass) else -1.0
        if after >= before:
            last += 1
        else:
            first -= 1
        held += max(before, after)
    return first, last + 1


def stretches(lines, masses, share=0.999, gap_m=30.0, least=0.001):
    """Runs of the highest-density set, near ones joined, thin ones dropped, the likeliest first.

    Limits are conditional on the stretch, and a little wider so that all together still hold the nominal share.
    """
    found = []
    for number, (line, mass, inside) in enumerate(zip(lines, masses, highest(lines, masses, share))):
        joined = []
        for first, last in runs(inside):
            if joined and line.edges[first] - line.edges[joined[-1][1]] < gap_m:
                joined[-1] = (joined[-1][0], last)
            else:
                joined.append((first, last))
        for first, last in joined:
            held = float(mass[first:last].sum())
            if held < least:
                continue
            best = first + int(numpy.argmax(mass[first:last] / line.width[first:last]))
            found.append({"line": number, "cells": (first, last), "share": held, "best_m": line.mid[best]})
    told = sum(stretch["share"] for stretch in found)
    for stretch in found:
        first, last = stretch.pop("cells")
        line, mass = lines[stretch["line"]], masses[stretch["line"]][first:last]
        stretch["from_m"], stretch["to_m"] = line.edges[first], line.edges[last]
        for name, nominal in (("half_m", 0.5), ("most_m", 0.95)):
            stretch[name] = [line.edges[first + cell] for cell in grown(mass, min(1.0, nominal / told))]
    return sorted(found, key=lambda stretch: -stretch["share"])


def distance(one, other):
    """Total variation distance of two posteriors told per bin."""
    return 0.5 * sum(float(numpy.abs(a - b).sum()) for a, b in zip(one, other))
