"""Values for photographs of a sheet laid over its grid: scipy 1.17.1 and numpy 2.4.6 (BSD-3-Clause).

    python tests/rasters/photo.py --check    photo.json is what this script would write (exit code 1 if not)
    python tests/rasters/photo.py --write    writes it

The marks are invented. The fit minimises the squared distances in pixels between the marks and the fitted crossings, in pixels
and kilometres themselves: affine by numpy.linalg.lstsq, projective by scipy.optimize.least_squares with exact derivatives
left to it (3-point differences). A tap's place is found by scipy.optimize.fsolve, its covariance by central differences of
that place over the parameters and the tap.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import fsolve, least_squares

FILE = Path(__file__).with_name("photo.json")
MIDDLE = np.array([420500.0, 5090500.0])


def grid(east_km, north_km):
    """A crossing by kilometres from (420 000, 5 090 000)."""
    return [420000.0 + 1000 * east_km, 5090000.0 + 1000 * north_km]


def view(numbers, at):
    """Pixels of grid places; numbers are 6, or 8 for a view aslant."""
    return view_km(numbers, (np.asarray(at) - MIDDLE) / 1000)


def view_km(numbers, km):
    """Pixels of places by kilometres from the middle."""
    x, y = km.T
    g, h = numbers[6:8] if len(numbers) == 8 else (0, 0)
    w = g * x + h * y + 1
    a, b, c, d, e, f = numbers[:6]
    return np.stack([(a * x + b * y + c) / w, (d * x + e * y + f) / w], axis=-1)


def fit(marks, kind):
    """The numbers of the least squares and the inverse of their normal matrix."""
    px, at = np.array([m[:2] for m in marks]), np.array([m[2:] for m in marks])
    km = (at - MIDDLE) / 1000
    plain = np.column_stack([km, np.ones(len(km))])
    rows = np.linalg.lstsq(plain, px, rcond=None)[0]
    start = np.concatenate([rows[:, 0], rows[:, 1]])
    if kind == "affine":
        normal = np.kron(np.eye(2), plain.T @ plain)
        return start, np.linalg.inv(normal)
    def miss(numbers):
        return (view(numbers, at) - px).ravel()

    found = least_squares(miss, [*start, 0, 0], method="lm", jac="3-point", x_scale=[100, 100, 1000, 100, 100, 1000, 0.1, 0.1],
                          xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=20000)
    step = np.maximum(np.abs(found.x), 1e-3) * 1e-6
    slopes = np.column_stack([(miss(found.x + e) - miss(found.x - e)) / (2 * e.max()) for e in np.diag(step)])
    return found.x, np.linalg.inv(slopes.T @ slopes)


def place(numbers, tap):
    """The place under a tap, kilometres from the middle: metres from the equator would leave no digits for differences."""
    return fsolve(lambda km: view_km(numbers, km[None])[0] - tap, np.zeros(2), xtol=1e-13)


def spread(numbers, inverse, tap, sigma_px):
    """Covariance of the place under a tap: numbers and tap each with a spread of sigma_px, grid units."""
    step = np.maximum(np.abs(numbers), 1e-3) * 1e-6
    by_numbers = np.column_stack([(place(numbers + e, tap) - place(numbers - e, tap)) / (2 * e.max()) for e in np.diag(step)])
    by_tap = np.column_stack([(place(numbers, tap + e) - place(numbers, tap - e)) / 0.02 for e in 0.01 * np.eye(2)])
    return (1000 * sigma_px) ** 2 * (by_numbers @ inverse @ by_numbers.T + by_tap @ by_tap.T)


def case(name, marks, kind, taps, mark_spread_px=3.0, cautions=(), square=1000.0):
    """A case with its expected values, rounded far below the tolerances."""
    numbers, inverse = fit(marks, kind)
    px, at = np.array([m[:2] for m in marks]), np.array([m[2:] for m in marks])
    misses = np.linalg.norm(view(numbers, at) - px, axis=1)
    over = 2 * len(marks) - len(numbers)
    sigma = max(mark_spread_px, np.sqrt((misses**2).sum() / over)) if over else mark_spread_px
    told = []
    for tap in taps:
        tap = np.array(tap, float)
        found, cov = place(numbers, tap), spread(numbers, inverse, tap, sigma)
        told.append({"tap": tap.tolist(), "at": np.round(MIDDLE + 1000 * found, 6).tolist(),
                     "covariance": [float(f"{cov[i][j]:.9g}") for i, j in ((0, 0), (0, 1), (1, 1))]})
    return {"name": name, "grid": "33N", "kind": kind, "mark_spread_px": mark_spread_px, "square": square, "marks": marks,
            "residuals_px": np.round(misses, 9).tolist(), "spread_px": round(float(sigma), 9), "cautions": list(cautions), "taps": told}


def marked(numbers, crossings, noise):
    """Marks of crossings under a true view, moved by the noise of a finger."""
    at = np.array([grid(*crossing) for crossing in crossings])
    px = np.round(view(np.array(numbers, float), at) + noise, 1)
    return [[*pixel, *place] for pixel, place in zip(px.tolist(), at.tolist())]


def build():
    """All cases."""
    scan = [310.0, 4.0, 1500.0, -3.5, -309.0, 1100.0]
    aslant = [300.0, 22.0, 1600.0, 15.0, -260.0, 1200.0, 0.004, 0.035]
    steep = [260.0, -40.0, 1800.0, -30.0, -150.0, 1250.0, -0.01, 0.09]
    four, five = [(-2, -2), (3, -2), (3, 3), (-2, 3)], [(-2, -2), (3, -2), (3, 3), (-2, 3), (0, 1)]
    six = [*four, (0, 0), (1, 2)]
    nine = [(e, n) for e in (-3, 0, 4) for n in (-2, 1, 4)]
    dice = np.random.default_rng(20260912)

    def noise(count, sigma):
        return dice.normal(0, sigma, (count, 2))

    taps = [(1500, 1100), (900, 700), (2600, 1900)]
    slipped = marked(aslant, six + [(2, -1)], noise(7, 2))
    slipped[4][2] += 1000
    slipped_scan = marked(scan, six + [(2, -1)], noise(7, 2))
    slipped_scan[2][3] -= 2000
    # The others lie on one line with marks 1 and 3: leaving out either explains it alike.
    either = marked(scan, five, noise(5, 2))
    either[2][3] -= 2000
    misfit = marked(aslant, nine, noise(9, 2))
    misfit[3][0] += 160
    bent = marked(aslant, nine, noise(9, 60))
    one_of_four = marked(scan, four, noise(4, 2))
    one_of_four[1][2] += 1000
    other = np.random.default_rng(20261127)
    eight = [*six, (2, -1), (-2, 1)]
    near = [marked(*one, other.normal(0, 2, (len(one[1]), 2))) for one in ((aslant, nine), (scan, six), (aslant, eight))]
    near[0][6][1] += 22
    near[1][3][0] -= 22
    near[2][1][0] += 20
    # The corners see a slight slant, which no plane fits: beside that the fifth stands out, though not for sure.
    mild = marked([310.0, 4.0, 1500.0, -3.5, -309.0, 1100.0, 0.003, 0.008], [*four, (-1, 2)], 0)
    mild[4][2] += 1000
    return {
        "source": "scipy 1.17.1 and numpy 2.4.6 (BSD-3-Clause); invented marks; made by tests/rasters/photo.py",
        "units": "marks: x right and y down in pixels, easting and northing in metres; covariance: east, east-north, north in square metres",
        "cases": [
            case("a scan, three marks", marked(scan, four[:3], 0), "affine", taps, cautions=["photo-unchecked"]),
            case("a scan, five marks", marked(scan, five, noise(5, 2)), "affine", taps),
            case("aslant, four marks", marked(aslant, four, 0), "projective", taps, cautions=["photo-unchecked"]),
            case("aslant, six marks", marked(aslant, six, noise(6, 3)), "projective", taps),
            case("steep, nine marks", marked(steep, nine, noise(9, 3)), "projective", taps, mark_spread_px=2.0),
            case("aslant, mark 5 typed one square east", slipped, "projective", taps, cautions=["photo-slip 5 1 0"]),
            case("a scan, mark 3 typed two squares south", slipped_scan, "affine", taps, cautions=["photo-slip 3 0 2"]),
            case("a scan, mark 1 or mark 3 typed wrongly", either, "affine", taps, cautions=["photo-one-wrong 1 3"]),
            case("aslant, mark 4 half a square off", misfit, "projective", taps, cautions=["photo-misfit 4"]),
            case("aslant, all marks bad", bent, "projective", taps, cautions=["photo-loose 0"]),
            case("aslant, mark 7 of nine 22 px out of place", near[0], "projective", taps, cautions=["photo-misfit 7"]),
            case("a scan, mark 4 of six 22 px out of place, mark 2 across from it explains it as well", near[1], "affine", taps, cautions=["photo-one-wrong 2 4"]),
            case("aslant, mark 2 of eight 20 px out of place, mark 7 beside it explains it as well", near[2], "projective", taps, cautions=["photo-one-wrong 2 7"]),
            case("a little aslant, laid as a scan, mark 5 typed one square east", mild, "affine", taps, cautions=["photo-loose 5"]),
            case("a scan, one of four typed wrongly", one_of_four, "affine", taps, cautions=["photo-one-wrong 0 0"]),
        ],
    }


def alike(one, other, key=None):
    """Whether two results are the same but for the last digits, which the processor's own arithmetic makes: places to a millimetre, covariances to
    a hundred-thousandth of the largest, all else to a millionth."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(alike(one[name], other[name], name) for name in one)
    if key in ("at", "covariance"):
        off = 1e-3 if key == "at" else 1e-5 * max(map(abs, one))
        return bool(np.allclose(one, other, rtol=0, atol=off))
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(alike, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return bool(np.isclose(one, other, rtol=1e-6, atol=1e-6))
    return one == other


def main():
    """Write the file, or hold it against what would be written."""
    made = json.loads(json.dumps(build()))
    if "--write" in sys.argv:
        FILE.write_text(json.dumps(made, indent=1) + "\n", encoding="ascii")
    same = alike(json.loads(FILE.read_text(encoding="ascii")), made)
    print(f"photo.json: {len(made['cases'])} cases, {'as made' if same else 'NOT as made'}")
    return 0 if same else 1


if __name__ == "__main__":
    sys.exit(main())
