"""The heights of the second run: reading, summits by prominence, one dense line of sight."""

import numpy as np

from reference import OUT, to_earth

CELL_M = 5.0
BLOCK = 4               # prominence is worked out on the highest cell of each 20 m block
LEAST_PROMINENCE_M = 10.0
EDGE_M = 250.0          # a maximum nearer to the edge than this may go on rising outside
EYE_M = 1.6
LEAST_CLEAR_M = 5.0     # more than the heights are off
DROP_M_PER_KM2 = 0.0675  # curvature less refraction: (1 - 0.14) / (2 x 6371 km)


class Heights:
    """A grid of heights, row 0 north, values at the centres of the cells."""

    def __init__(self, name="test.asc"):
        path = OUT / name
        with open(path, encoding="ascii") as stream:
            head = dict(stream.readline().split() for _ in range(5))
        if float(head["cellsize"]) != CELL_M:
            raise SystemExit(f"{name}: cells are not {CELL_M} m")
        self.z = np.loadtxt(path, skiprows=5)
        self.west, self.south = float(head["xllcorner"]), float(head["yllcorner"])
        self.east = self.west + CELL_M * self.z.shape[1]
        self.north = self.south + CELL_M * self.z.shape[0]

    def holds(self, points):
        """Whether all grid points lie on it."""
        x, y = points.T
        return bool((x > self.west).all() and (x < self.east).all() and (y > self.south).all() and (y < self.north).all())

    def at(self, points):
        """Heights at grid points, linear both ways between cell centres."""
        column = (points[:, 0] - self.west) / CELL_M - 0.5
        row = (self.north - points[:, 1]) / CELL_M - 0.5
        i = np.clip(row.astype(int), 0, self.z.shape[0] - 2)
        j = np.clip(column.astype(int), 0, self.z.shape[1] - 2)
        v, u = row - i, column - j
        upper = self.z[i, j] * (1 - u) + self.z[i, j + 1] * u
        lower = self.z[i + 1, j] * (1 - u) + self.z[i + 1, j + 1] * u
        return upper * (1 - v) + lower * v

    def centre(self, row, column):
        """The grid point of a cell's centre."""
        return self.west + CELL_M * (column + 0.5), self.north - CELL_M * (row + 0.5)

    def blocks(self):
        """The highest value of each block."""
        rows, columns = (n // BLOCK for n in self.z.shape)
        return self.z.reshape(rows, BLOCK, columns, BLOCK).max((1, 3))


def root(parent, cell):
    """The highest cell of the island that a cell belongs to."""
    while parent[cell] != cell:
        parent[cell] = parent[parent[cell]]
        cell = parent[cell]
    return cell


def neighbours(cell, shape):
    """The up to eight cells around one."""
    row, column = divmod(cell, shape[1])
    for r in range(max(row - 1, 0), min(row + 2, shape[0])):
        for c in range(max(column - 1, 0), min(column + 2, shape[1])):
            if (r, c) != (row, column):
                yield r * shape[1] + c


def prominences(blocks):
    """Prominence of every local maximum: sink the sea, join islands, the lower one ends there."""
    height = blocks.ravel()
    parent = np.full(height.size, -1)
    ended = {}
    for cell in np.argsort(-height, kind="stable"):
        islands = {root(parent, n) for n in neighbours(cell, blocks.shape) if parent[n] >= 0}
        order = sorted(islands, key=lambda n: (-height[n], n))
        parent[cell] = order[0] if order else cell
        for lower in order[1:]:
            ended[lower] = height[lower] - height[cell]
            parent[lower] = order[0]
    ended[root(parent, 0)] = height.max() - height.min()
    return ended


def summits(heights):
    """Derived maxima away from the edge, highest first, named by their height."""
    blocks = heights.blocks()
    found = []
    for cell, prominence in prominences(blocks).items():
        if prominence < LEAST_PROMINENCE_M:
            continue
        top, left = (BLOCK * n for n in divmod(cell, blocks.shape[1]))
        block = heights.z[top:top + BLOCK, left:left + BLOCK]
        row, column = np.unravel_index(block.argmax(), block.shape)
        grid = heights.centre(top + row, left + column)
        edge = min(grid[0] - heights.west, heights.east - grid[0], grid[1] - heights.south, heights.north - grid[1])
        if edge >= EDGE_M:
            found.append({"height_m": float(block.max()), "prominence_m": float(prominence), "grid": grid, "place": to_earth(grid)})
    return named(sorted(found, key=lambda s: (-s["height_m"], s["grid"])))


def named(found):
    """Give each summit its height as a name, with a letter where two are alike."""
    names = [f"Summit {s['height_m']:.0f}" for s in found]
    for k, summit in enumerate(found):
        twin = f" {chr(65 + names[:k].count(names[k]))}" if names.count(names[k]) > 1 else ""
        summit["name"] = names[k] + twin
    return found


def sight_margin(heights, eye, summit, near_m=20.0, far_m=60.0):
    """By how many metres the line of sight clears the ground, the ends left out."""
    target = np.array(summit["grid"])
    length = float(np.hypot(*(target - eye)))
    along = np.linspace(0, 1, int(length / 2.5))[:, None]
    metres = along[:, 0] * length
    ground = heights.at(eye + along * (target - eye)) - DROP_M_PER_KM2 * (metres / 1000) ** 2
    start = heights.at(eye[None])[0] + EYE_M
    end = summit["height_m"] - DROP_M_PER_KM2 * (length / 1000) ** 2
    clear = start + (end - start) * along[:, 0] - ground
    return float(clear[(metres > near_m) & (metres < length - far_m)].min())
