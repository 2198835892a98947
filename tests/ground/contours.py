"""Contours against gdal_contour."""

import json

import numpy as np

from common import OUT, Ground, ask, has, raster, run


def of_gdal(z, interval_m, base_m):
    """Lines of gdal_contour by height, in columns and rows of posts."""
    rows = z.shape[0]
    file = raster("contoured", z, west=0.0, north=float(rows - 1))
    out = OUT / "contours.json"
    out.unlink(missing_ok=True)
    run("gdal_contour", "-q", "-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=9", "-a", "h", "-i", interval_m, "-off", base_m, file, out)
    lines = {}
    for feature in json.loads(out.read_text(encoding="utf-8"))["features"]:
        line = np.array(feature["geometry"]["coordinates"])[:, :2]
        lines.setdefault(round(feature["properties"]["h"], 6), []).append(np.column_stack([line[:, 0], rows - 1 - line[:, 1]]))
    return lines


def segments(lines):
    """Beginnings and ends of all segments."""
    return np.concatenate([line[:-1] for line in lines]), np.concatenate([line[1:] for line in lines])


def reach(points, lines):
    """Distance of each point from the nearest segment, cells; only segments of the cells around are looked at."""
    begin, end = segments(lines)
    middle = np.floor((begin + end) / 2).astype(int)
    cells = {}
    for number, key in enumerate(map(tuple, middle)):
        cells.setdefault(key, []).append(number)
    far = np.full(len(points), np.inf)
    for i, point in enumerate(points):
        column, row = np.floor(point).astype(int)
        near = [n for dc in (-2, -1, 0, 1, 2) for dr in (-2, -1, 0, 1, 2) for n in cells.get((column + dc, row + dr), ())]
        if near:
            a, along = begin[near], end[near] - begin[near]
            square = np.maximum((along**2).sum(1), 1e-30)
            share = np.clip(((point - a) * along).sum(1) / square, 0, 1)
            far[i] = np.sqrt(((point - a - along * share[:, None]) ** 2).sum(1)).min()
    return far


def length(lines, shape):
    """Length inside the outermost posts, cells."""
    begin, end = segments(lines)
    middle = (begin + end) / 2
    inside = (middle > 0).all(1) & (middle[:, 0] < shape[1] - 1) & (middle[:, 1] < shape[0] - 1)
    return np.hypot(*(end - begin)[inside].T).sum()


def against_gdal(tally, binary, z):
    """The same levels, and each line within a part of a cell of the other program's."""
    if not has("gdal_contour"):
        print("   skipped: no gdal_contour (Debian package gdal-bin)")
        return
    for interval_m, base_m, within in ((20.0, 0.5, 1e-3), (20.0, 0.0, 0.5), (6.096, 0.3, 1e-3)):
        ground = Ground("real", z)
        told = ask(binary, ground, {"contours": {"interval_m": interval_m, "base_m": base_m, "tolerance_m": None, "lines": True}})
        ours = {}
        for line in told["lines"]:
            ours.setdefault(round(line["height_m"], 6), []).append(np.array(line["posts"]))
        ours = {height: [line for line in lines if len(line) > 1] for height, lines in ours.items()}
        ours = {height: lines for height, lines in ours.items() if lines}
        theirs = of_gdal(z, interval_m, base_m)
        same = set(ours) == set(theirs)
        name = f"contours every {interval_m} m from {base_m} m"
        tally.check(f"{name}: the same levels", same, f"{len(ours)} and {len(theirs)}")
        worst = [0.0, 0.0]
        points = [0, 0]
        for height in sorted(set(ours) & set(theirs))[:: 1 if interval_m > 10 else 7]:
            for side, (mine, other) in enumerate(((ours[height], theirs[height]), (theirs[height], ours[height]))):
                some = np.concatenate(mine)
                # The other program goes on over the outermost posts to the border of their cells.
                inside = (some >= 0).all(1) & (some[:, 0] <= z.shape[1] - 1) & (some[:, 1] <= z.shape[0] - 1)
                some = some[inside][:: max(len(some) // 4000, 1)]
                points[side] += len(some)
                worst[side] = max(worst[side], reach(some, other).max(initial=0.0))
        told_text = f"ours within {worst[0]:.5f} cells of theirs ({points[0]} places), theirs within {worst[1]:.5f} of ours ({points[1]})"
        tally.check(f"{name}: the same lines", max(worst) <= within, told_text)
        lengths = [sum(length(lines, z.shape) for lines in side.values()) for side in (ours, theirs)]
        tally.check(f"{name}: the same length", abs(lengths[0] / lengths[1] - 1) < (2e-3 if base_m else 0.03), f"{lengths[0]:.0f} and {lengths[1]:.0f} cells")


def shape(tally, binary, z):
    """Rings are closed, lines end at borders and voids only, higher ground lies to the left, simplified lines stay near."""
    holed = z.copy()
    holed[100:110, 200:215] = np.nan
    ground = Ground("holed", holed)
    task = {"interval_m": 20.0, "base_m": 0.5, "tolerance_m": None, "lines": True}
    lines = ask(binary, ground, {"contours": task})["lines"]
    open_ends = [np.array(end) for line in lines if not line["closed"] for end in (line["posts"][0], line["posts"][-1])]
    filled = np.pad(holed, 1, constant_values=np.nan)

    def at_edge(end):
        column, row = end
        beside = [(row, column + d) for d in (-1e-6, 1e-6)] + [(row + d, column) for d in (-1e-6, 1e-6)]
        cells = {(int(np.floor(r)), int(np.floor(c))) for r, c in beside}
        return any(np.isnan(filled[r + 1:r + 3, c + 1:c + 3]).any() for r, c in cells)

    stray = sum(not at_edge(end) for end in open_ends)
    tally.check("lines end at borders and voids only", stray == 0 and len(open_ends) > 0, f"{len(open_ends)} ends, {stray} stray")
    torn = sum(line["closed"] != (line["posts"][0] == line["posts"][-1]) for line in lines)
    tally.check("rings come back to their first place", torn == 0, f"{sum(line['closed'] for line in lines)} rings")
    left = right = 0
    for line in lines:
        posts = np.array(line["posts"])
        step = np.diff(posts, axis=0)
        size = np.hypot(*step.T)
        middle, step = ((posts[:-1] + posts[1:]) / 2)[size > 0.2], (step / size[:, None])[size > 0.2]
        beside = middle + 0.1 * np.column_stack([step[:, 1], -step[:, 0]])
        ok = (beside >= 0).all(1) & (beside[:, 0] < z.shape[1] - 1) & (beside[:, 1] < z.shape[0] - 1)
        higher = Ground.at(ground, *beside[ok].T) - line["height_m"]
        left += int((higher > 0).sum())
        right += int((higher < 0).sum())
    share = left / (left + right)
    tally.check("higher ground lies to the left", share > 0.99, f"at {100 * share:.2f} % of {left + right} places")
    fifth = {line["height_m"] for line in lines if line["index"]}
    tally.check("every fifth is an index contour", all(abs((height - 0.5) % 100) < 1e-6 for height in fifth) and len(fifth) > 5)
    thin = ask(binary, ground, {"contours": {**task, "tolerance_m": 0.2}})["lines"]
    worst = max(
        reach(np.array(line["posts"])[:: max(len(line["posts"]) // 300, 1)], [np.array(few["posts"])]).max()
        for line, few in zip(lines, thin) if len(few["posts"]) > 300
    )
    counts = [sum(len(line["posts"]) for line in some) for some in (lines, thin)]
    tally.check("simplified lines stay within the tolerance", worst <= 0.2 + 1e-9, f"{worst:.3f} of 0.2 cells, {counts[1]} of {counts[0]} places left")
