"""Holds the tool's landforms against the reference on a real grid of heights, and tells what differs.

The grid: elevation of `jacksboro_fault_dem.npz` in the wheel of matplotlib 3.11.2 (data of the Shuttle Radar Topography
Mission, public domain). The file's own "ymin" and "ymax" do not fit its rows: 36.44625 is the north edge.
The summits and valleys named below are derived from its heights, not from a map.
"""

import hashlib
import heapq
import io
import json
import subprocess
import sys
import zipfile
from pathlib import Path

import numpy as np
from pyproj import Proj

ROOT = Path(__file__).resolve().parents[2]
OUT = ROOT / "tests" / "out" / "landforms"
sys.path.insert(0, str(ROOT / "tests" / "references"))
import landforms as reference  # noqa: E402

MEMBER = "matplotlib/mpl-data/sample_data/jacksboro_fault_dem.npz"
SHA256 = "d493f50a33e82a4420494c54d1fca1539d177bdc27ab190bc5fe6e92f62fb637"
STEP = 1 / 1200
WEST, NORTH = -84.41375 + STEP / 2, 36.44625 - STEP / 2
# One sigma and correlation of such heights: our own choice, for the strength alone.
SPREAD = {"sigma_m": 5.0, "correlation_m": 300.0}

STRONG_DEG = 0.1        # a post is strong when none of its eight lines is nearer to the threshold than this
LEAST_STRONG = 0.999    # the two work in single and double precision and with two libraries for lengths
LEAST_ALL = 0.995
STRONG = 0.5            # a landform told without a doubt
LEAST_NAMED = 0.85
SUMMITS = {"1076 m": (297, 219), "1040 m": (251, 190)}
LOWS = {"236 m": (288, 347)}
DRY_POSTS = 4           # what drains over a crest: hardly more than itself
STREAM_POSTS = 12       # what drains over a thalweg at the least: 8 hectares
# Shares that must hold; beside each the share of all posts is told, which is what chance would give. A draw's head drains little.
LEAST_DRY = {"ridge": 0.90, "spur": 0.90}
LEAST_WET = {"valley": 0.90, "draw": 0.80}
CLASSES = [(0.2, 0.4), (0.4, 0.6), (0.6, 0.8), (0.8, 1.0)]
AGAIN_M = 150.0         # two posts: the point of a landform may move to the next post
LEAST_AGAIN = 0.90
WALKERS = 2000
BEARING_SPREAD_DEG, FACTOR = 10.0, 1.5
LEVELS = {0.5: (0.45, 0.65), 0.95: (0.93, 1.0)}

failed = 0


def passed(what, good, figures):
    """Prints one check."""
    global failed
    failed += not good
    print("PASSED" if good else "FAILED", what + ":", figures)


def grid():
    """The heights, held against the pinned sum."""
    wheel = next(OUT.glob("matplotlib-*.whl"))
    content = zipfile.ZipFile(wheel).read(MEMBER)
    if hashlib.sha256(content).hexdigest() != SHA256:
        raise SystemExit(f"{MEMBER}: another content than pinned")
    return np.load(io.BytesIO(content))["elevation"].astype(float)


def write(z, step, name):
    """The file that the program reads."""
    layout = {"columns": z.shape[1], "rows": z.shape[0], "west": WEST, "north": NORTH, "step_east": step, "step_south": step}
    path = OUT / name
    path.write_text(json.dumps({**layout, **SPREAD, "values_m": z.ravel().tolist()}), encoding="utf-8")
    return path


def ask(program, *arguments):
    """What the program tells."""
    return json.loads(subprocess.run([program, *map(str, arguments)], check=True, capture_output=True, text=True).stdout)


def check_shapes(told, z, east, south):
    """Every post's shape against the publication's method."""
    wanted, margin = reference.shapes(z, east, south, told["sight_m"], told["level_deg"])
    found = np.array([form or "" for form in told["forms"]], dtype="U9").reshape(z.shape)
    passed("posts with a full view", bool(((wanted == "") == (found == "")).all()), f"{(wanted != '').sum()} of {z.size}")
    known = wanted != ""
    strong = known & (margin >= STRONG_DEG)
    for name, posts, least in [("shape of strong posts", strong, LEAST_STRONG), ("shape of all posts", known, LEAST_ALL)]:
        share = (wanted == found)[posts].mean()
        passed(name, share >= least, f"{(wanted == found)[posts].sum()} of {posts.sum()} agree, {share:.4%} (bar {least:.1%})")
    # A ridge between the eight lines of sight falls along all of them: a summit by its pattern.
    kinds = {"ridge": {"Ridge", "Spur", "Summit"}, "spur": {"Ridge", "Spur", "Summit"}, "valley": {"Valley", "Hollow", "Pit"}, "draw": {"Valley", "Hollow", "Pit"}}
    points = [one for one in told["landforms"] if one["kind"] in kinds]
    fits = sum(wanted[int(one["row"]), int(one["column"])] in kinds[one["kind"]] for one in points)
    passed("points of ridges, spurs, valleys, draws in the reference's shapes", fits >= 0.999 * len(points), f"{fits} of {len(points)}")
    named = {**kinds, "ridge": {"Ridge", "Spur"}, "spur": {"Ridge", "Spur"}}
    strong_points = [one for one in points if strong[int(one["row"]), int(one["column"])] and one["strength"] >= STRONG]
    fits = sum(wanted[int(one["row"]), int(one["column"])] in named[one["kind"]] for one in strong_points)
    share = fits / len(strong_points)
    passed("strong ones in the shape of their own name", share >= LEAST_NAMED, f"{fits} of {len(strong_points)}, {share:.1%} (bar {LEAST_NAMED:.0%})")


def strength(relief, apart):
    """The share told for a relief between heights so far apart, from its definition."""
    doubt = 2.5 * SPREAD["sigma_m"] * np.sqrt(2 * (1 - np.exp(-apart / SPREAD["correlation_m"])))
    return relief**2 / (relief**2 + doubt**2)


def check_hills(told, z, east, south):
    """Every hill and its relief against the ways between summits."""
    wanted = {}
    passes = set()
    for post in reference.summits(z):
        above = reference.pass_above(z, post)
        lowest = reference.lowest_around(z, east, south, post, told["around_m"])
        out = reference.way_out(z, east, south, post, told["around_m"])
        relief = z[post] - max(lowest, out, above if above is not None else -np.inf)
        if relief >= told["least_relief_m"]:
            wanted[post] = relief
        if z[post] - max(lowest, above if above is not None else -np.inf) >= told["least_relief_m"]:
            passes.add(above)
    found = {(int(one["row"]), int(one["column"])): one["relief_m"] for one in told["landforms"] if one["kind"] == "hill"}
    # A flat top is cut into pieces: those beside the one on the summit tell the same hill.
    on_top = {post for post in found if post not in wanted and any(
        found[post] == wanted.get(other) and z[other] - max(1.0, 0.02 * wanted[other]) <= z[post] <= z[other] for other in found)}
    found = {post: relief for post, relief in found.items() if post not in on_top}
    # The weak ones that the tool leaves out are those of little relief.
    sure = {post for post, relief in wanted.items() if strength(relief, told["around_m"]) >= told["least_strength"]}
    passed("hills found", sure <= set(found) <= set(wanted), f"{len(found)} found ({len(on_top)} more pieces of flat tops), {len(sure)} sure and {len(wanted)} in all by the reference")
    same = sum(found[post] == relief for post, relief in wanted.items() if post in found)
    passed("relief of hills", same == len(found), f"{same} of {len(found)} equal to the metre")
    for name, post in SUMMITS.items():
        # Two posts side by side may be as high: the hill stands on one of them.
        here = [other for other in [post, *reference.around(*post, z.shape)] if other in found and z[other] == z[post]]
        passed(f"summit {name}", len(here) == 1, f"row {post[0]} column {post[1]}, relief {[found[other] for other in here]} m")
    saddles = [one for one in told["landforms"] if one["kind"] == "saddle"]
    at_pass = sum(one["height_m"] in passes for one in saddles)
    passed("saddles at the height of a pass", at_pass == len(saddles) > 0, f"{at_pass} of {len(saddles)}")


def drained(z):
    """How many posts drain over every post: the sea floods the grid from its border, water runs back the way the flood came."""
    rows, columns = z.shape
    comes_from = {}
    queue = [(z[r, c], r, c) for r in range(rows) for c in range(columns) if r in (0, rows - 1) or c in (0, columns - 1)]
    comes_from.update({(r, c): None for _, r, c in queue})
    heapq.heapify(queue)
    order = []
    level = z.copy()
    while queue:
        height, r, c = heapq.heappop(queue)
        order.append((r, c))
        for other in reference.around(r, c, z.shape):
            if other not in comes_from:
                comes_from[other] = (r, c)
                level[other] = max(z[other], height)
                heapq.heappush(queue, (level[other], *other))
    posts = np.ones(z.shape)
    for post in reversed(order):
        if comes_from[post] is not None:
            posts[comes_from[post]] += posts[post]
    return posts


def check_water(told, z):
    """Crests hold no water, thalwegs do, and valleys more than draws: a second, unlike way to tell them."""
    posts = drained(z)
    most = np.max([np.nan_to_num(reference.moved(posts, *line)) for line in reference.LINES] + [posts], axis=0)
    of = {kind: [(int(one["row"]), int(one["column"])) for one in told["landforms"] if one["kind"] == kind]
          for kind in ["ridge", "spur", "valley", "draw"]}
    for kind, least in LEAST_DRY.items():
        dry, chance = np.mean([posts[post] <= DRY_POSTS for post in of[kind]]), np.mean(posts <= DRY_POSTS)
        figures = f"{dry:.1%} of {len(of[kind])} drain {DRY_POSTS} posts or fewer (bar {least:.0%}, all posts {chance:.1%})"
        passed(f"{kind}s hold no water", dry >= least, figures)
    for kind, least in LEAST_WET.items():
        wet, chance = np.mean([most[post] >= STREAM_POSTS for post in of[kind]]), np.mean(most >= STREAM_POSTS)
        figures = f"{wet:.1%} of {len(of[kind])} drain {STREAM_POSTS} posts or more (bar {least:.0%}, all posts {chance:.1%})"
        passed(f"{kind}s lead water", wet >= least, figures)
    valley, draw = (np.median([most[post] for post in of[kind]]) for kind in ["valley", "draw"])
    passed("valleys lead more water than draws", valley >= 3 * draw, f"medians {valley:.0f} and {draw:.0f} posts")
    return of


def check_lows(of, east, south):
    """The valleys read off the heights."""
    for name, (row, column) in LOWS.items():
        apart = [np.hypot((r - row) * south[row], (c - column) * east[row]) for r, c in of["valley"]]
        passed(f"valley at {name}", min(apart) <= 500, f"row {row} column {column}, the nearest {min(apart):.0f} m off (bar 500 m)")


def errors(shape, east_m, south_m, random):
    """A draw of normal errors, covariance sigma squared times exp(-distance / correlation), by a circle of twice the size."""
    rows, columns = (2 * n for n in shape)
    down = np.minimum(np.arange(rows), rows - np.arange(rows)) * south_m
    right = np.minimum(np.arange(columns), columns - np.arange(columns)) * east_m
    covariance = SPREAD["sigma_m"]**2 * np.exp(-np.hypot(down[:, None], right) / SPREAD["correlation_m"])
    power = np.maximum(np.fft.fft2(covariance).real, 0)
    white = random.standard_normal((rows, columns)) + 1j * random.standard_normal((rows, columns))
    return np.fft.fft2(np.sqrt(power / (rows * columns)) * white).real[:shape[0], :shape[1]]


def again_m(told, again, kind, metres):
    """Strength of every landform of a kind, and how far the nearest of the other run is, metres."""
    there = metres * [(one["row"], one["column"]) for one in again["landforms"] if one["kind"] == kind]
    mine = [one for one in told["landforms"] if one["kind"] == kind]
    apart = [np.hypot(*(there - metres * (one["row"], one["column"])).T).min() for one in mine]
    return np.array([(one["strength"], far) for one, far in zip(mine, apart)])


def check_strength(program, told, z, east, south):
    """What is there again when the heights are wrong by another draw of such errors.

    Hills and saddles, points that are rare enough not to be met by chance: in each class at least as many as their strength says.
    Lines, whose point may slide along them: most of the strong ones within half the sight.
    """
    half = len(east) // 2
    wrong = z + errors(z.shape, east[half], south[half], np.random.default_rng(11))
    again = ask(program, write(wrong, STEP, "wrong.json"))
    metres = np.array([south[half], east[half]])
    points = np.vstack([again_m(told, again, kind, metres) for kind in ["hill", "saddle"]])
    for low, high in CLASSES:
        strengths, apart = points[(points[:, 0] >= low) & (points[:, 0] < high)].T
        share = (apart <= AGAIN_M).mean()
        doubt = 2 * np.sqrt(share * (1 - share) / len(apart))
        figures = f"{share:.1%} of {len(apart)} are there again, mean strength {strengths.mean():.2f}"
        passed(f"hills and saddles of strength {low} to {high}", strengths.mean() <= share + doubt, figures)
    for kind in ["ridge", "spur", "valley", "draw"]:
        strengths, apart = again_m(told, again, kind, metres).T
        share = (apart[strengths >= CLASSES[-1][0]] <= told["sight_m"] / 2).mean()
        passed(f"strong {kind}s in other heights", share >= LEAST_AGAIN, f"{share:.1%} are there again (bar {LEAST_AGAIN:.0%})")


def walkers(told, plane, random):
    """Walkers on lines of 2 km from west to east who name a landform within 1 km, the nearest of its kind, as well as they can."""
    points = {}
    for one in told["landforms"]:
        if one["strength"] >= 0.5:
            points.setdefault(one["kind"], []).append((*plane(one["lon"], one["lat"]), one["reach_m"]))
    points = {kind: np.array(list_) for kind, list_ in points.items()}
    while True:
        truth = random.uniform(-10_000, 10_000, 2)
        steps = {kind: list_ - (*truth, 0) for kind, list_ in points.items()}
        nearest = {kind: step[np.hypot(*step.T[:2]).argmin()] for kind, step in steps.items()}
        near = [kind for kind in sorted(nearest) if 50 <= np.hypot(*nearest[kind][:2]) <= 1000]
        if not near:
            continue
        kind = near[random.integers(len(near))]
        # Nobody looks at the very point of a long landform.
        east, north = nearest[kind][:2] + random.normal(0, nearest[kind][2] / np.sqrt(3), 2)
        read = np.degrees(np.arctan2(east, north)) + random.normal(0, BEARING_SPREAD_DEG)
        said = np.hypot(east, north) * np.exp(random.normal(0, np.log(FACTOR)))
        place = random.integers(0, 201)
        eyes = truth + np.column_stack([(np.arange(201) - place) * 10.0, np.zeros(201)])
        yield place, {"kind": kind, "bearing_deg": read, "bearing_spread_deg": BEARING_SPREAD_DEG, "distance_m": said,
                      "distance_factor": FACTOR, "eyes_m": eyes.tolist()}


def check_walkers(program, path, told, z):
    """How often the 50 % and the 95 % of a line that fit best hold the place where the walker stood."""
    middle = {"lat_0": NORTH - STEP * z.shape[0] / 2, "lon_0": WEST + STEP * z.shape[1] / 2}
    drawn = walkers(told, Proj(proj="aeqd", ellps="WGS84", **middle), np.random.default_rng(7))
    cases = [next(drawn) for _ in range(WALKERS)]
    (OUT / "seen.json").write_text(json.dumps([seen for _, seen in cases]), encoding="utf-8")
    masses, widths = [], []
    for (place, _), fits in zip(cases, ask(program, path, "weigh", OUT / "seen.json")):
        share = np.exp(fits) / np.exp(fits).sum()
        better = np.sort(share)[::-1]
        # Places that fit as well as the true one count by half.
        masses.append(share[share > share[place]].sum() + share[share == share[place]].sum() / 2)
        widths.append(10 * (np.searchsorted(np.cumsum(better), 0.5) + 1))
    held = {level: np.mean(np.array(masses) <= level) for level in LEVELS}
    for level, (least, most) in LEVELS.items():
        figures = f"{held[level]:.1%} of {WALKERS} walkers (bar {least:.0%} to {most:.0%})"
        passed(f"the best {level:.0%} of a line holds the place", least <= held[level] <= most, figures)
    print(f"half of the chance lies on {np.median(widths):.0f} m of 2010 m (median)")


def time(program, z):
    """Milliseconds on the same ground with 1201 x 1201 posts, one second of arc apart: linear between the posts of three."""
    rows, columns = np.arange(1201) / 3, np.arange(1201) / 3
    c = np.minimum(columns.astype(int), z.shape[1] - 2)
    # The grid has fewer rows than that: it is repeated upside down below its last row, so that no step arises.
    tall = np.vstack([z, z[::-1]])
    r = rows.astype(int)
    v, u = (rows - r)[:, None], (columns - c)[None]
    upper, lower = (tall[r + k][:, c] * (1 - u) + tall[r + k][:, c + 1] * u for k in (0, 1))
    print("milliseconds:", json.dumps(ask(program, write(upper * (1 - v) + lower * v, STEP / 3, "fine.json"), "time")))


def main():
    """Runs the checks, and the clock when asked."""
    program = sys.argv[1]
    z = grid()
    if sys.argv[2] == "time":
        time(program, z)
    east, south = reference.spacing(WEST, NORTH, STEP, z.shape)
    path = write(z, STEP, "heights.json")
    told = ask(program, path)
    counts = {}
    for one in told["landforms"]:
        counts[one["kind"]] = counts.get(one["kind"], 0) + 1
    print("landforms:", ", ".join(f"{count} {kind}" for kind, count in sorted(counts.items())))
    check_shapes(told, z, east, south)
    check_hills(told, z, east, south)
    print(*told["said"], sep="\n")
    passed("sentences", len(told["said"]) >= 10 and not any("{" in line or "landform-" in line for line in told["said"]), len(told["said"]))
    check_lows(check_water(told, z), east, south)
    check_strength(program, told, z, east, south)
    check_walkers(program, path, told, z)
    print("all passed" if not failed else f"{failed} failed")
    sys.exit(failed > 0)


if __name__ == "__main__":
    main()
