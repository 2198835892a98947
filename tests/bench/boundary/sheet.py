#!/usr/bin/env python3
"""Prints a sheet as GeoJSON: a straight road, two landmarks, and a creek of COUNT points that winds around the place of the fix.

Usage: sheet.py COUNT. Everything in it is invented. The creek is drawn whole on the chart of the fix, point by point.
"""
import json
import math
import sys

LAT, LON = 46.0, 13.5
# Metres in a degree, near enough for an invented place.
NORTH_M, EAST_M = 111_150, 111_320 * math.cos(math.radians(LAT))
STEP_M, HALF_M, ROW_M = 2, 60, 3


def at(east_m, north_m):
    return [LON + east_m / EAST_M, LAT + north_m / NORTH_M]


def creek(count):
    """To and fro, a row further south each time; no row runs along the road."""
    row = 2 * HALF_M // STEP_M
    for index in range(count):
        line, step = divmod(index, row)
        east = -HALF_M + step * STEP_M
        yield at(east if line % 2 == 0 else -east, HALF_M - 1.5 - line * ROW_M)


def feature(geometry, coordinates, **properties):
    return {"type": "Feature", "properties": properties, "geometry": {"type": geometry, "coordinates": coordinates}}


features = [
    feature("LineString", [at(-2000, 0), at(2000, 0)], name="Long Road", kind="road"),
    feature("Point", at(0, 900), name="North tower", kind="tower"),
    feature("Point", at(900, 900), name="East tower", kind="tower"),
]
count = int(sys.argv[1])
if count:
    features.append(feature("LineString", list(creek(count)), name="Winding Creek", kind="creek"))
print(json.dumps({"type": "FeatureCollection", "sheet": {"name": "Bench"}, "features": features}))
