"""Landforms worked out from the publication and from first principles, to hold the tool's own against.

The shape of a post: J. Jasiewicz and T. F. Stepinski (2013), Geomorphons - a pattern recognition approach to
classification and mapping of landforms, Geomorphology 182, 147-156: zenith and nadir angles of eight lines of sight, a
threshold, the table of its figure 4 (from memory). Distances by pyproj's geodesics. The height of a hill above the pass to
higher ground: the way whose lowest point is highest, by a priority queue from the summit.

Written from these, not from the tool's code: arrays and angles here, lists and tangents there.
"""

import heapq

import numpy as np
from pyproj import Geod
from scipy import ndimage

GEOD = Geod(ellps="WGS84")
# North-west, north, north-east, east and so on.
LINES = [(-1, -1), (-1, 0), (-1, 1), (0, 1), (1, 1), (1, 0), (1, -1), (0, -1)]
# Keys: how many lines lie higher; values: the shape by how many lie lower, 0 to 8 less the key.
TABLE = {
    0: "Flat Flat Flat Shoulder Shoulder Ridge Ridge Ridge Summit",
    1: "Flat Flat Shoulder Shoulder Shoulder Ridge Ridge Ridge",
    2: "Flat Footslope Slope Slope Spur Spur Ridge",
    3: "Footslope Footslope Slope Slope Slope Spur",
    4: "Footslope Footslope Hollow Slope Slope",
    5: "Valley Valley Hollow Hollow",
    6: "Valley Valley Valley",
    7: "Valley Valley",
    8: "Pit",
}


def spacing(west, north, step, shape):
    """Metres from column to column and from row to row, for every row."""
    lats = north - step * np.arange(shape[0])
    east = np.array([GEOD.inv(west, lat, west + step, lat)[2] for lat in lats])
    south = np.array([GEOD.inv(west, lat + step / 2, west, lat - step / 2)[2] for lat in lats])
    return east, south


def moved(z, down, right):
    """The heights so many rows down and columns to the right of every post; NaN beyond the border."""
    out = np.full(z.shape, np.nan)
    rows, columns = z.shape
    if abs(down) < rows and abs(right) < columns:
        to = np.s_[max(-down, 0):rows - max(down, 0), max(-right, 0):columns - max(right, 0)]
        source = np.s_[max(down, 0):rows - max(-down, 0), max(right, 0):columns - max(-right, 0)]
        out[to] = z[source]
    return out


def line_angles(z, east, south, line, sight_m):
    """Zenith less nadir depth, degrees: 90 less the zenith angle is the steepest rise, 90 less the nadir angle the steepest fall."""
    down, right = line
    step = np.hypot(right * east, down * south)
    count = np.maximum(np.floor(sight_m / step).astype(int), 1)
    zenith = np.full(z.shape, np.inf)
    nadir = np.full(z.shape, np.inf)
    complete = np.ones(z.shape, bool)
    for taken in range(1, count.max() + 1):
        rise = moved(z, down * taken, right * taken) - z
        elevation = np.degrees(np.arctan2(rise, taken * step[:, None]))
        within = (taken <= count)[:, None] & np.ones(z.shape, bool)
        complete &= ~(within & np.isnan(elevation))
        zenith = np.where(within, np.fmin(zenith, 90 - elevation), zenith)
        nadir = np.where(within, np.fmin(nadir, 90 + elevation), nadir)
    difference = np.full(z.shape, np.nan)
    difference[complete] = nadir[complete] - zenith[complete]
    return difference


def shapes(z, east, south, sight_m, level_deg):
    """The shape of every post ("" where a line of sight leaves the grid), and the least distance to the threshold, degrees."""
    higher = np.zeros(z.shape, int)
    lower = np.zeros(z.shape, int)
    known = np.ones(z.shape, bool)
    margin = np.full(z.shape, np.inf)
    for line in LINES:
        difference = line_angles(z, east, south, line, sight_m)
        known &= ~np.isnan(difference)
        higher += difference > level_deg
        lower += difference < -level_deg
        margin = np.fmin(margin, np.abs(np.abs(difference) - level_deg))
    found = np.full(z.shape, "", dtype="U9")
    for up, names in TABLE.items():
        for down, name in enumerate(names.split()):
            found[known & (higher == up) & (lower == down)] = name
    return found, margin


def around(row, column, shape):
    """The up to eight posts around one."""
    for down, right in LINES:
        if 0 <= row + down < shape[0] and 0 <= column + right < shape[1]:
            yield row + down, column + right


def pass_above(z, summit):
    """The height of the highest pass from a summit to higher ground; None when there is none on the grid.

    Equal heights: the post that comes first, row by row, counts as higher, so that of two summits as high one leads to the other.
    """
    top = z[summit]
    seen = {summit}
    queue = [(-top, summit)]
    lowest = top
    while queue:
        height, post = heapq.heappop(queue)
        lowest = min(lowest, -height)
        if z[post] > top or (z[post] == top and post < summit):
            return lowest
        for other in around(*post, z.shape):
            if other not in seen:
                seen.add(other)
                heapq.heappush(queue, (-z[other], other))
    return None


def way_out(z, east, south, summit, around_m):
    """The height of the lowest place on the highest way from a summit to the rim of the square that reaches so far to each side."""
    row, column = summit
    right, down = int(around_m / east[row]), int(around_m / south[row])
    top, left = max(row - down, 0), max(column - right, 0)
    part = z[top:row + down + 1, left:column + right + 1]
    # The lowest level at which the ground that is no lower and holds the summit does not touch the rim yet: halved, level by level.
    levels = np.unique(part)
    low, high = 0, len(levels)
    while high - low > 1:
        middle = (low + high) // 2
        islands, _ = ndimage.label(part >= levels[middle], structure=np.ones((3, 3)))
        own = islands == islands[row - top, column - left]
        touches = islands[row - top, column - left] > 0 and (own[0].any() or own[-1].any() or own[:, 0].any() or own[:, -1].any())
        low, high = (middle, high) if touches else (low, middle)
    return levels[low]


def summits(z):
    """Every post off the border that no post around stands above; of a level top the first, row by row."""
    rows, columns = z.shape
    higher = [moved(z, *line) for line in LINES]
    maximum = np.all([~(other > z) for other in higher], axis=0)
    posts = zip(*np.nonzero(maximum))
    return [(int(r), int(c)) for r, c in posts if 0 < r < rows - 1 and 0 < c < columns - 1]


def lowest_around(z, east, south, post, around_m):
    """The lowest height in the square that reaches so far to each side."""
    row, column = post
    down = int(around_m / south[len(south) // 2])
    lowest = np.inf
    for r in range(max(row - down, 0), min(row + down + 1, z.shape[0])):
        right = int(around_m / east[r])
        lowest = min(lowest, z[r, max(column - right, 0):column + right + 1].min())
    return lowest
