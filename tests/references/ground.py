"""ground/sights, ground/slopes: rows for small grounds, to be asked of every language once a record can carry heights.

The rows stand under `rows`, each with the ground it is asked of; `cases` stays empty until then. `tests/ground/run` asks
the core for the same rows.
"""

import numpy as np
import pyproj

from casefile import numbered

GEOD = pyproj.Geod(ellps="WGS84")
STEP = 3.0 / 3600.0
FALL = (1.0 - 0.13) / (2.0 * 6_371_008.8)
DRAWS = 100_000
SOURCE = f"numpy {np.__version__}: dense samples of the bilinear surface; pyproj {pyproj.__version__}: distances"


def bowl_and_ridge():
    """An invented ground: a bowl, a ridge across it with a notch, a knob."""
    column, row = np.meshgrid(np.arange(31), np.arange(25))
    z = 400 + 0.6 * ((column - 15) ** 2 + 1.4 * (row - 12) ** 2)
    z = z + 70 * np.exp(-((column - 19 - 0.2 * row) ** 2) / 3.0) * (1 - 0.8 * np.exp(-((row - 9) ** 2) / 2.0))
    z = z + 55 * np.exp(-((column - 6) ** 2 + (row - 17) ** 2) / 4.0)
    return np.round(z)


def level_with_wall():
    """An invented ground: level, with a wall and a step."""
    z = np.full((15, 41), 100.0)
    z[:, 20] += 12
    z[:, 30:] += 5
    return z


GROUNDS = {"bowl and ridge": bowl_and_ridge(), "level with a wall": level_with_wall()}
LAYOUT = {"west_deg": 7.0, "north_deg": 46.0, "step_deg": STEP, "correlation_m": 300.0}


def place(post):
    """Longitude and latitude of a place among the posts."""
    return LAYOUT["west_deg"] + post[0] * STEP, LAYOUT["north_deg"] - post[1] * STEP


def metres(a, b):
    """Geodesic between two places among the posts."""
    return GEOD.inv(*place(a), *place(b))[2]


def height(z, column, row):
    """Bilinear heights."""
    left = np.clip(np.floor(column).astype(int), 0, z.shape[1] - 2)
    top = np.clip(np.floor(row).astype(int), 0, z.shape[0] - 2)
    x, y = column - left, row - top
    return (z[top, left] * (1 - x) + z[top, left + 1] * x) * (1 - y) + (z[top + 1, left] * (1 - x) + z[top + 1, left + 1] * x) * y


def shares(eye, end):
    """Shares of the way: 2000 to a cell, and every edge of a cell."""
    t = [np.linspace(0, 1, int(2000 * max(abs(end[0] - eye[0]), abs(end[1] - eye[1]))) + 50)]
    for start, stop in zip(eye[:2], end[:2]):
        if start != stop:
            low, high = sorted((start, stop))
            t.append((np.arange(np.ceil(low), np.floor(high) + 1) - start) / (stop - start))
    return np.unique(np.concatenate(t))


def gaps(z, eye, end, t):
    """Clearance of a sight at shares of the way."""
    ground = height(z, eye[0] + (end[0] - eye[0]) * t, eye[1] + (end[1] - eye[1]) * t)
    drop = FALL * metres(eye, end) ** 2
    return (ground[0] + eye[2]) * (1 - t) + (ground[-1] + end[2]) * t - drop * t * (1 - t) - ground


def chance(z, eye, end, sigma_m, seed):
    """Share of draws in sight: an error for each post, related to the others' by their distance, bilinear between."""
    t = shares(eye, end)[1:-1]
    t = np.concatenate([[0.0], np.unique(np.concatenate([t[::100], t[np.argsort(gaps(z, eye, end, shares(eye, end))[1:-1])[:20]]])), [1.0]])
    fixed = gaps(z, eye, end, t)
    near = fixed < 4.5 * np.sqrt(2) * sigma_m
    near[[0, -1]] = True
    t, fixed = t[near], fixed[near]
    column, row = np.meshgrid(np.arange(z.shape[1]), np.arange(z.shape[0]))
    weight = np.maximum(1 - np.abs(eye[0] + (end[0] - eye[0]) * t[:, None] - column.ravel()), 0)
    weight *= np.maximum(1 - np.abs(eye[1] + (end[1] - eye[1]) * t[:, None] - row.ravel()), 0)
    used = weight.any(axis=0)
    middle = ((eye[0] + end[0]) / 2, (eye[1] + end[1]) / 2)
    east_m = metres((middle[0] - 0.5, middle[1]), (middle[0] + 0.5, middle[1]))
    south_m = metres((middle[0], middle[1] - 0.5), (middle[0], middle[1] + 0.5))
    at = np.column_stack([column.ravel()[used] * east_m, row.ravel()[used] * south_m])
    shared = np.exp(-np.hypot(*(at[:, None, :] - at[None, :, :]).transpose(2, 0, 1)) / LAYOUT["correlation_m"])
    error = weight[:, used] @ np.linalg.cholesky(shared + 1e-12 * np.eye(len(at)))
    lift = sigma_m * (error[:1] * (1 - t[:, None]) + error[-1:] * t[:, None] - error)[1:-1]
    rng = np.random.default_rng(seed)
    clear = 0
    for _ in range(DRAWS // 5000):
        clear += (fixed[1:-1, None] + lift @ rng.standard_normal((len(at), 5000)) >= 0).all(axis=0).sum()
    return float(clear / DRAWS)


def sight(name, eye, end, sigma_m=0.0, seed=1):
    """One row: a sight with its margin by the definition, and the chance when heights have a spread."""
    z = GROUNDS[name]
    t = shares(eye, end)
    gap = gaps(z, eye, end, t)
    low = np.flatnonzero((gap[1:-1] < gap[:-2]) & (gap[1:-1] <= gap[2:])) + 1
    least = low[np.argmin(gap[low])]
    length = metres(eye, end)
    expect = {"margin_m": round(float(gap[least]), 4), "distance_m": round(length, 3), "drop_m": round(FALL * length**2, 4)}
    expect["chance"] = round(chance(z, eye, end, sigma_m, seed), 4) if sigma_m else float(gap.min() >= 0)
    return {"ground": name, "sigma_m": sigma_m, "eye": list(eye), "object": list(end), "expect": expect}


def slope(name, column, row):
    """One row: the slope at a post by Horn's sums."""
    z = GROUNDS[name]
    nine = z[row - 1:row + 2, column - 1:column + 2]
    weights = np.array([1.0, 2.0, 1.0])
    east = (nine[:, 2] - nine[:, 0]) @ weights / (8 * metres((column - 0.5, row), (column + 0.5, row)))
    south = (nine[2] - nine[0]) @ weights / (8 * metres((column, row - 0.5), (column, row + 0.5)))
    steep = float(np.hypot(east, south))
    expect = {"slope_deg": round(float(np.degrees(np.arctan(steep))), 6), "percent": round(100 * steep, 6)}
    if steep:
        expect["falls_to_deg_true"] = round(float(np.degrees(np.arctan2(-east, south)) % 360), 6)
    return {"ground": name, "post": [column, row], "expect": expect}


def document(topic, about, rows, tolerance):
    """A case file without cases yet."""
    return {
        "topic": topic, "about": about, "source": SOURCE, "made_by": "tests/references/ground.py",
        "units": {"eye, object": "column, row, metres above the ground", "post": "column, row", "deg": "degrees", "m": "metres"},
        "tolerance": {}, "tolerance_why": {}, "cases": [], "invalid": [],
        "layout": LAYOUT, "grounds": {name: [list(map(int, line)) for line in z] for name, z in GROUNDS.items()},
        "row_tolerance": tolerance, "rows": numbered(rows),
    }


def build(tally):
    """The documents."""
    bowl, wall = "bowl and ridge", "level with a wall"
    rows = [
        sight(bowl, (10.0, 12.0, 1.7), (27.0, 12.0, 10.0)),
        sight(bowl, (10.0, 12.0, 1.7), (27.0, 6.5, 10.0)),
        sight(bowl, (2.5, 20.25, 1.7), (12.0, 13.0, 0.0)),
        sight(bowl, (28.0, 3.0, 1.7), (3.0, 22.0, 5.0)),
        sight(wall, (5.0, 7.0, 30.0), (38.0, 9.0, 20.0)),
        sight(wall, (5.0, 7.0, 1.7), (38.0, 9.0, 15.0)),
        sight(bowl, (10.0, 12.0, 1.7), (27.0, 12.0, 42.0), 5.0, 2),
        sight(bowl, (2.5, 20.25, 1.7), (12.0, 13.0, 50.0), 5.0, 3),
        sight(wall, (5.0, 7.0, 12.0), (38.0, 9.0, 15.0), 5.0, 4),
        sight(wall, (5.0, 7.0, 16.0), (29.0, 3.0, 20.0), 3.0, 5),
    ]
    tally.check("ground sights are of all kinds", {0.0, 1.0} < {row["expect"]["chance"] for row in rows})
    yield document(
        "ground/sights", "Sightlines over small invented grounds, margins and chances.", rows,
        {"margin_m": [0.001, "samples miss a lowest place by less"], "distance_m": [0.01, "spacing between geodesics: 1e-6 of the distance"],
         "drop_m": [0.001, "as the distance"], "chance": [0.01, "the accuracy stated for the chance; 100,000 draws: 0.0016 one sigma"]},
    )
    rows = [slope(bowl, *post) for post in ((3, 3), (15, 12), (20, 9), (6, 17), (25, 20))] + [slope(wall, *post) for post in ((19, 7), (20, 7), (10, 7))]
    yield document(
        "ground/slopes", "Slope and aspect at posts of small invented grounds, by Horn's sums.", rows,
        {"slope_deg": [1e-5, "spacing between geodesics"], "percent": [1e-4, "as the slope"], "falls_to_deg_true": [1e-4, "as the slope"]},
    )
