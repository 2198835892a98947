"""sheet/cliffs: the cliffs that are told from a place, on ground whose drops are known by construction."""

import base64
import math

import pyproj

from casefile import case, numbered
from sheet_asked import AT, HEIGHTS

# 81 by 81 posts of 20 m in zone 33; the eye stands on the middle one.
EAST, NORTH, STEP, SIDE = 456_000, 5_095_000, 20, 81
MIDDLE = (SIDE - 1) // 2 * STEP
PLACE = f"33 north {EAST + MIDDLE} {NORTH + MIDDLE}"
SHEET = {"do": "sheet", "at": AT, "name": "Cliffs", "grid": "33N", "scale": 25000,
         "lines": [{"name": "Rim track", "kind": "track", "points": [f"{EAST} {NORTH}", f"{EAST} {NORTH + 1600}"]}]}
SCALE = pyproj.Proj("EPSG:32633").get_factors(*pyproj.Transformer.from_crs("EPSG:32633", "EPSG:4326", always_xy=True).transform(EAST + MIDDLE, NORTH + MIDDLE)).meridional_scale


def ground(height):
    """Heights by metres east and north of the eye, as an import."""
    head = f"ncols {SIDE}\nnrows {SIDE}\nxllcenter {EAST}\nyllcenter {NORTH}\ncellsize {STEP}\n"
    row = lambda r: " ".join(f"{height(c * STEP - MIDDLE, MIDDLE - r * STEP):.0f}" for c in range(SIDE))
    text = head + "\n".join(row(r) for r in range(SIDE)) + "\n"
    return {**HEIGHTS, "name": "cliffs.asc", "base64": base64.b64encode(text.encode()).decode()}


def told(east, north, drop, way, ends=None):
    """A cliff by the upper post where it comes nearest, metres east and north of the eye: its answer and its sentence. `ends` are the posts between which it
    runs over 90 degrees and more, clockwise."""
    away, bearing = math.hypot(east, north) / SCALE, lambda e, n: math.degrees(math.atan2(e, n)) % 360
    text = f"A cliff {round(away / STEP) * STEP}\u00a0m away, bearing {bearing(east, north):03.0f}°\u00a0grid, up to {drop}\u00a0m high: the ground {way} at it"
    if ends:
        first, last = (bearing(*end) for end in ends)
        middle = first + ((last - first) % 360) / 2
        text += f"; it runs from {first:03.0f}°\u00a0grid round by {middle:03.0f}°\u00a0grid to {last:03.0f}°\u00a0grid, and this is where it comes nearest"
    return {"distance_m": away, "relief_m": float(drop), "told": text + "."}


def asked(height, cliffs, note, more=None):
    """The landforms told from the eye, nearest first, and what is said of the cliffs that are only counted."""
    expect = {f"answer.landforms.{place}.{name}": value for place, cliff in enumerate(cliffs) for name, value in cliff.items()}
    expect |= {f"answer.landforms.{len(cliffs)}": None}
    if more:
        expect[f"said.{len(cliffs) + 1}"] = more
    return {"before": [SHEET, ground(height)], **case({"do": "seen", "at": AT, "place": PLACE, "to": "grid"}, expect, note)}


def step(east, north):
    """A drop of 25 m along a line to the north; beyond a place on it one of 90 m, which its last post before shows by the one aslant of it."""
    return (-90 if north > 300 else -25) if east > 100 else 0


def canyon(east, north):
    """A canyon 60 m deep with a closed head."""
    return -60 if 100 < east < 300 and north < 200 else 0


def flight(east, north):
    """Twelve ledges, 33 m to 121 m high, each higher than the one before."""
    return -sum(25 + 8 * ledge for ledge in range(1, 13) if east > 60 * ledge)


def build(tally):
    """The one case file."""
    tally.near("the scale of zone 33 near its meridian", SCALE, 0.9996, 1e-3)
    edge = MIDDLE
    # Nothing farther than 1 km counts.
    reach = lambda east: min(edge, math.sqrt((1000 * SCALE) ** 2 - east**2) // STEP * STEP)
    ledge = lambda east, drop: told(east, 0, drop, "falls", ((east, reach(east)), (east, -reach(east))))
    valley = {"kind": "valley"}
    cases = [
        asked(step, [told(100, 0, 25, "falls", ((100, edge), (100, -edge))), told(100, 300, 90, "falls")], "a low cliff that is high farther off"),
        asked(canyon, [told(100, 0, 60, "falls", ((100, 180), (100, -edge))), valley, told(100, 200, 60, "rises", ((100, 200), (300, -edge)))],
              "the near wall of a canyon, which falls, and its head with its far wall, which rise"),
        asked(flight, [ledge(60, 33), ledge(180, 49), ledge(300, 65), ledge(480, 89), ledge(660, 113)], "ledges behind one as high are counted",
              "7 more cliffs stand within 1000\u00a0m of here, the nearest 120\u00a0m off, up to 121\u00a0m high, and the ground falls away at all of them. "
              "They are not told one by one: look at the contours before you walk on."),
    ]
    paths = sorted({path for item in cases for path, value in item["expect"].items() if isinstance(value, float)})
    within = {"distance_m": (0.1, "the sheet's plane against the grid's scale"), "relief_m": (0.01, "heights to whole metres")}
    known = lambda path: within[path.rsplit(".", 1)[1]]
    return [{
        "topic": "sheet/cliffs", "about": "What falls away from the walker is told apart from what rises before him, and a high part of a cliff from a low one.",
        "source": "constructed by hand; the scale by pyproj 3.7.2 (MIT licence)", "made_by": "tests/references/seen_cliffs.py",
        "units": {"_m": "metres"}, "tolerance": {path: known(path)[0] for path in paths}, "tolerance_why": {path: known(path)[1] for path in paths},
        "cases": numbered(cases), "invalid": [],
    }]
