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


# Crossings are often short decimals that end in 5: moved a little, both programs' noise of 1e-9 rounds them alike.
OFF_TIES = 2.13131e-6


def pieces(lines, shape):
    """All segments inside the outermost posts, whichever way they run, rounded."""
    found = set()
    for line in lines:
        ends = list(map(tuple, np.round(line + OFF_TIES, 5)))
        found |= {(min(a, b), max(a, b)) for a, b in zip(ends[:-1], ends[1:])}
    inside = lambda end: 0 <= end[0] <= shape[1] - 1 + 1e-4 and 0 <= end[1] <= shape[0] - 1 + 1e-4
    return {piece for piece in found if inside(piece[0]) and inside(piece[1])}


def in_saddles(z, height, odd):
    """How many of some segments lie in cells whose corners are above and below in turns, where the two programs part lines otherwise."""
    count = 0
    for a, b in odd:
        column, row = np.floor((np.array(a) + b) / 2).astype(int)
        above = z[row:row + 2, column:column + 2] >= height
        count += above.shape == (2, 2) and above[0, 0] == above[1, 1] and above[0, 1] == above[1, 0] and above[0, 0] != above[0, 1]
    return count


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
        points, rings = [0, 0], 0
        for height in sorted(set(ours) & set(theirs))[:: 1 if interval_m > 10 else 7]:
            for side, (mine, other) in enumerate(((ours[height], theirs[height]), (theirs[height], ours[height]))):
                some = np.concatenate(mine)
                # The other program goes on over the outermost posts to the border of their cells.
                inside = (some >= 0).all(1) & (some[:, 0] <= z.shape[1] - 1) & (some[:, 1] <= z.shape[0] - 1)
                some = some[inside][:: max(len(some) // 1500, 1)]
                points[side] += len(some)
                far = reach(some, other)
                # Around a single post of the contour's very height the other program draws a ring of a millionth of a cell; we draw none.
                alone = (np.abs(some - np.round(some)) < 1e-5).all(1) & (np.abs(ground.at(*np.round(some).T) - height) < 1e-9)
                rings += int((alone & (far > within)).sum())
                worst[side] = max(worst[side], far[~alone].max(initial=0.0))
        told_text = f"ours within {worst[0]:.5f} cells of theirs ({points[0]} places), theirs within {worst[1]:.5f} of ours ({points[1]}; {rings} at single posts)"
        tally.check(f"{name}: the same lines", max(worst) <= within, told_text)
        if base_m:
            same_pieces(tally, name, z, (ours, theirs))


def same_pieces(tally, name, z, sides):
    """Segment by segment; for heights that no post has."""
    same = odd = saddles = 0
    for height in sorted(sides[0])[::3]:
        ours, theirs = (pieces(side[height], z.shape) for side in sides)
        same += len(ours & theirs)
        odd += len(ours ^ theirs)
        saddles += in_saddles(z, height, ours ^ theirs)
    tally.check(f"{name}: the same segments but in saddles", odd == saddles and same > 0, f"{same} the same, {odd} otherwise, {saddles} of them in saddles")


def higher_to_the_left(z, lines):
    """Segments whose cell has higher corners to the left of them only and lower ones to the right only; saddles left out."""
    right = told = 0
    for line in lines:
        posts = np.array(line["posts"])
        begin, step = posts[:-1], np.diff(posts, axis=0)
        cell = np.floor(begin + step / 2).astype(int)
        inside = (cell >= 0).all(1) & (cell[:, 0] < z.shape[1] - 1) & (cell[:, 1] < z.shape[0] - 1)
        begin, step, cell = begin[inside], step[inside], cell[inside]
        corners = np.array([[0, 0], [1, 0], [1, 1], [0, 1]])
        at = cell[:, None] + corners[None]
        above = z[at[:, :, 1], at[:, :, 0]] >= line["height_m"]
        apart = at - begin[:, None]
        side = step[:, None, 0] * apart[:, :, 1] - step[:, None, 1] * apart[:, :, 0]
        saddle = (above[:, 0] == above[:, 2]) & (above[:, 1] == above[:, 3]) & (above[:, 0] != above[:, 1])
        wrong = ((side < -1e-9) & ~above) | ((side > 1e-9) & above)
        told += int((~saddle).sum())
        right += int((~saddle & ~wrong.any(axis=1)).sum())
    return right, told


def hollowed():
    """A cone with a crater, a plain with round sinks, a ring of hills round a knob in a hollow; heights of posts."""
    column, row = np.meshgrid(np.arange(161.0), np.arange(141.0))
    z = 200.0 + 0.11 * column - 0.07 * row
    away = np.hypot(column - 40, row - 40)
    z += np.clip(90 - 3 * away, 0, None) - 2 * np.clip(40 - 4 * away, 0, None)
    for east, south, deep in ((110, 20, 12.0), (135, 35, 7.0), (120, 60, 25.0)):
        z -= deep * np.exp(-((column - east) ** 2 + (row - south) ** 2) / 60.0)
    away = np.hypot(column - 70, row - 105)
    return z + 40 * np.exp(-((away - 22) / 6) ** 2) + 30 * np.exp(-((away / 6) ** 2))


def holds(ring, points):
    """Which points lie inside a ring, by how often a ray to the east crosses it."""
    (x, y), (ax, ay), (bx, by) = points.T[:, :, None], ring[:-1].T[:, None], ring[1:].T[:, None]
    over = (ay > y) != (by > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        east = x < ax + (y - ay) / (by - ay) * (bx - ax)
    return (over & east).sum(1) % 2 == 1


def hollows(tally, binary, real):
    """A ring is a hollow when the posts next to it on its inside are lower: asked of the posts themselves, not of the way it runs."""
    for name, z, interval_m in (("made", hollowed(), 5.0), ("real", real, 20.0)):
        task = {"interval_m": interval_m, "base_m": 0.5, "tolerance_m": None, "lines": True}
        rings = [line for line in ask(binary, Ground(name, z), {"contours": task})["lines"] if line["closed"]]
        wrong, marked = 0, 0
        for line in rings:
            ring = np.array(line["posts"])
            corners = np.array([[0, 0], [1, 0], [0, 1], [1, 1]])
            near = np.unique((np.floor((ring[:-1] + ring[1:]) / 2).astype(int)[:, None] + corners).reshape(-1, 2), axis=0)
            inner = near[holds(ring, near.astype(float))]
            above = z[inner[:, 1], inner[:, 0]] >= line["height_m"]
            # Posts beyond another contour of the same height in a saddle's cell stand on the other side: most of them decide.
            wrong += len(inner) == 0 or line["depression"] != (above.mean() < 0.5)
            marked += line["depression"]
        tally.check(f"{name}: rings round lower ground are marked, and no others", wrong == 0 and 3 < marked < len(rings), f"{marked} of {len(rings)} rings, {wrong} wrong")
        if name == "made" and has("gdal_contour"):
            theirs = of_gdal(z, interval_m, 0.5)
            levels = {round(line["height_m"], 6) for line in rings}
            tally.check("their levels are those of the other program", levels <= set(theirs), f"{len(levels)} levels")


def reach_all(points, line):
    """The greatest distance of points from a line, cells; every segment looked at."""
    begin, along = line[:-1], np.diff(line, axis=0)
    square = np.maximum((along**2).sum(1), 1e-30)
    worst = 0.0
    for point in points:
        share = np.clip(((point - begin) * along).sum(1) / square, 0, 1)
        worst = max(worst, np.sqrt(((point - begin - along * share[:, None]) ** 2).sum(1).min()))
    return worst


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
    left, segments_told = higher_to_the_left(holed, lines)
    tally.check("higher ground lies to the left", left == segments_told, f"beside {left} of {segments_told} segments")
    fifth = {line["height_m"] for line in lines if line["index"]}
    tally.check("every fifth is an index contour", all(abs((height - 0.5) % 100) < 1e-6 for height in fifth) and len(fifth) > 5)
    thin = ask(binary, ground, {"contours": {**task, "tolerance_m": 0.2}})["lines"]
    worst = max(
        reach_all(np.array(line["posts"])[:: max(len(line["posts"]) // 300, 1)], np.array(few["posts"]))
        for line, few in zip(lines, thin) if len(few["posts"]) > 300
    )
    counts = [sum(len(line["posts"]) for line in some) for some in (lines, thin)]
    tally.check("simplified lines stay within the tolerance", worst <= 0.2 + 1e-9, f"{worst:.3f} of 0.2 cells, {counts[1]} of {counts[0]} places left")
