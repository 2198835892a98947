"""The places at which programs are compared: strewn over the globe, and where rules change. The same at every run.

`python points.py COUNT` prints as many of them as lines "lat lon".
"""

import math
import random
import sys

import pyproj

SEED = 20260701
SHARES = {"global": 9, "norway": 2, "svalbard": 2, "polar": 2, "zone edge": 2, "band edge": 1.5, "whole metre": 1.5}
STEPS_DEG = (0.0, 1e-12, 1e-9, 1e-7, 1e-5, 1e-4)
STEPS_M = (0.0, 1e-5, 1e-4, 1e-3)


def globally(dice):
    """Anywhere, as often on each square kilometre."""
    return math.degrees(math.asin(dice.uniform(-1, 1))), dice.uniform(-180, 180)


def in_norway(dice):
    """In and around the widened zone 32."""
    return dice.uniform(55.5, 64.5), dice.uniform(-1, 13)


def in_svalbard(dice):
    """In and around the widened zones 31 to 37."""
    return dice.uniform(71.5, 84.5), dice.uniform(-1, 43)


def polar(dice):
    """Where UPS is used, and a little beyond; the poles themselves now and then."""
    if dice.random() < 0.01:
        return dice.choice((90.0, -90.0)), dice.choice((0.0, -180.0, 77.0))
    lat = dice.choice((dice.uniform(83.9, 90), dice.uniform(-90, -79.9)))
    return lat, dice.uniform(-180, 180)


def beside(dice, edge):
    """On an edge, or a little to one side of it."""
    return edge + dice.choice((-1, 1)) * dice.choice(STEPS_DEG)


def at_zone_edge(dice):
    """At a meridian where a zone ends by the rule or by an exception; at 180 too."""
    lat = dice.uniform(-80, 84)
    edge = dice.choice((dice.randrange(-180, 181, 6), dice.choice((3, 9, 21, 33, 42))))
    return lat, max(-180.0, min(180.0, beside(dice, edge)))


def at_band_edge(dice):
    """At a parallel where a band of letters ends; the equator and both ends of UTM among them."""
    edge = dice.choice((*range(-80, 81, 8), 84))
    return beside(dice, edge), dice.uniform(-180, 180)


def at_whole_metre(dice):
    """Where the easting or the northing is a whole metre, or nearly."""
    zone, south = dice.randrange(1, 61), dice.choice((0, 1))
    projection = pyproj.Proj(f"EPSG:{326 + south}{zone:02d}")
    north = dice.randrange(1_200_000, 9_000_000)
    whole = [float(dice.randrange(350_000, 650_000)), float(north)]
    whole[dice.choice((0, 1))] += dice.choice((-1, 1)) * dice.choice(STEPS_M)
    lon, lat = projection(*whole, inverse=True)
    return lat, lon


KINDS = {
    "global": globally,
    "norway": in_norway,
    "svalbard": in_svalbard,
    "polar": polar,
    "zone edge": at_zone_edge,
    "band edge": at_band_edge,
    "whole metre": at_whole_metre,
}


def points(count):
    """So many places as (kind, lat, lon)."""
    dice = random.Random(SEED)
    whole = sum(SHARES.values())
    made = [(kind, *KINDS[kind](dice)) for kind, share in SHARES.items() for _ in range(round(count * share / whole))]
    return made[:count] + [("global", *globally(dice)) for _ in range(count - len(made))]


def plain(value):
    """A number of degrees without an exponent, with every digit it has."""
    text = format(value, ".20f").rstrip("0")
    return text + "0" if text.endswith(".") else text


if __name__ == "__main__":
    for _, lat, lon in points(int(sys.argv[1])):
        print(plain(lat), plain(lon))
