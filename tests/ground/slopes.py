"""Slope and aspect against gdaldem, their spreads against correlated draws, profiles against samples."""

import subprocess

import numpy as np
import pyproj

from common import GEOD, OUT, Ground, ask, has, raster, run

# gdaldem writes 32-bit floats: half a unit of their last place is 2e-6 of a slope of 45 degrees and 1.5e-5 of an aspect of 300. Three and
# six of them, for the steps before that it works in the same numbers.
SLOPE_DEG, ASPECT_DEG = 6e-6, 1e-4


def of_gdal(z, step):
    """Slope and aspect of the middle row of a raster of three rows, by gdaldem."""
    file = raster("three", z, step=step)
    told = []
    for what in ("slope", "aspect"):
        out = OUT / f"three-{what}.bil"
        run("gdaldem", what, "-q", "-of", "EHdr", file, out)
        told.append(np.fromfile(out, "<f4").reshape(z.shape)[1, 1:-1].astype(float))
    slope, turned = told
    # gdaldem takes the aspect from differences of height, as if posts stood equally far apart both ways.
    turned = np.radians(turned)
    aspect = np.degrees(np.arctan2(np.sin(turned) / step[0], np.cos(turned) / step[1])) % 360.0
    return slope, np.where(told[1] < 0, -1.0, aspect)


def round_off(a, b):
    """Difference of two directions."""
    return np.abs((a - b + 180.0) % 360.0 - 180.0)


def against_gdal(tally, binary, z):
    """Rows of the open heights, with the spacing that geodesics give there; and the same heights on a grid of UTM."""
    if not has("gdaldem"):
        print("   skipped: no gdaldem (Debian package gdal-bin)")
        return
    version = subprocess.run(["gdaldem", "--version"], capture_output=True, text=True, check=False).stdout.split(",")[0]
    rows = range(1, z.shape[0] - 1, 19)
    for name, ground in (("degrees", Ground("real", z)), ("UTM", utm(z))):
        worst = [0.0, 0.0]
        count = 0
        for row in rows:
            step, turn_deg, scale = spacing(ground, row, z.shape[1])
            slope, aspect = of_gdal(z[row - 1:row + 2], step)
            # gdaldem takes one spacing for a whole row. The metres of the earth between posts of a conformal grid change along the row by its
            # scale k: the slope there is atan(tan(s) k / k of the row's middle), the aspect is the same.
            slope = np.degrees(np.arctan(np.tan(np.radians(slope)) * scale))
            posts = [[float(column), float(row)] for column in range(1, z.shape[1] - 1)]
            ours = ask(binary, ground, {"slopes": {"posts": posts}})
            ours_slope = np.array([told[0] for told in ours])
            ours_aspect = np.array([np.nan if told[3] is None else told[3] for told in ours])
            steep = (slope > 0.5) & (aspect >= 0)
            worst[0] = max(worst[0], np.abs(ours_slope - slope).max())
            worst[1] = max(worst[1], round_off(ours_aspect, aspect + turn_deg)[steep].max())
            count += len(posts)
        told = f"{count} posts, slope within {worst[0]:.6f}, aspect within {worst[1]:.5f} degrees ({version})"
        tally.check(f"slope and aspect on a grid of {name}", worst[0] < SLOPE_DEG and worst[1] < ASPECT_DEG, told)


def utm(z):
    """The same heights as if they stood 90 m apart on zone 16, where north is not the grid's."""
    return Ground("utm", z, west=700_000.0, north=4_050_000.0, step=(75.0, 90.0), grid="EPSG:32616")


def spacing(ground, row, columns):
    """Metres from post to post, by geodesics; true north from the grid's; the scale of each post over that of the row's middle."""
    if ground.grid is None:
        lon, lat = ground.places([0, 1, 0, 0], [row, row, row - 0.5, row + 0.5])
        return (GEOD.inv(lon[0], lat[0], lon[1], lat[1])[2], GEOD.inv(lon[2], lat[2], lon[3], lat[3])[2]), 0.0, 1.0
    proj = pyproj.Proj(ground.grid)
    x, y = ground.west + np.arange(1, columns - 1) * ground.step[0], ground.north - row * ground.step[1]
    lon, lat = proj(x, np.full(x.shape, y), inverse=True)
    factors = proj.get_factors(lon, lat)
    middle = len(x) // 2
    scale = factors.meridional_scale
    return (ground.step[0] / scale[middle], ground.step[1] / scale[middle]), factors.meridian_convergence, scale / scale[middle]


def spreads(tally, binary):
    """The spread of slope and aspect on a tilted plane, against draws of correlated errors."""
    rng = np.random.default_rng(3)
    step_m, sigma_m, correlation_m, draws = 30.0, 5.0, 300.0, 200_000
    for rise in (0.2, 0.6):
        x, y = np.meshgrid(np.arange(5) * step_m, np.arange(5) * step_m)
        z = 1000.0 + rise * (0.8 * x + 0.6 * y)
        ground = Ground("plane", z, 500_000.0, 4_000_000.0, (step_m, step_m), "EPSG:32616", sigma_m, correlation_m)
        told = ask(binary, ground, {"slopes": {"posts": [[2.0, 2.0], [1.5, 2.25]]}})
        at = np.column_stack([x[1:4, 1:4].ravel(), y[1:4, 1:4].ravel()])
        apart = np.hypot(*(at[:, None] - at[None]).transpose(2, 0, 1))
        errors = sigma_m * rng.standard_normal((draws, 9)) @ np.linalg.cholesky(np.exp(-apart / correlation_m)).T
        nine = (z[1:4, 1:4].ravel() + errors).reshape(draws, 3, 3)
        weights = np.array([1.0, 2.0, 1.0])
        east = ((nine[:, :, 2] - nine[:, :, 0]) @ weights) / (8 * step_m)
        south = ((nine[:, 2] - nine[:, 0]) @ weights) / (8 * step_m)
        slope_deg = np.degrees(np.arctan(np.hypot(east, south)))
        aspect_deg = np.degrees(np.arctan2(-east, south))
        off = (aspect_deg - aspect_deg.mean() + 180) % 360 - 180
        text = f"slope {told[0][2]:.3f} and {slope_deg.std():.3f}, aspect {told[0][4]:.2f} and {off.std():.2f} degrees"
        right = abs(told[0][2] / slope_deg.std() - 1) < 0.05 and abs(told[0][4] / off.std() - 1) < 0.1
        tally.check(f"spread of slope and aspect on a plane of {100 * rise:.0f} %", right, text)


def profiles(tally, binary, z):
    """Profiles against samples by numpy at the places of geodesic length."""
    ground = Ground("real", z)
    rng = np.random.default_rng(11)
    worst = 0.0
    for _ in range(20):
        columns, rows = rng.uniform(1, 400, 2), rng.uniform(1, 340, 2)
        lon, lat = ground.places(columns, rows)
        step_m = float(rng.uniform(20, 300))
        told = ask(binary, ground, {"profile": {"from": [lat[0], lon[0]], "to": [lat[1], lon[1]], "step_m": step_m}})
        length_m = GEOD.inv(lon[0], lat[0], lon[1], lat[1])[2]
        t = np.append(np.arange(0, length_m, step_m), length_m) / length_m
        want = ground.at(columns[0] + (columns[1] - columns[0]) * t, rows[0] + (rows[1] - rows[0]) * t)
        rises = np.diff(want)
        slopes = np.degrees(np.arctan2(rises, np.diff(t * length_m)))
        worst = max(worst, np.abs(np.array(told["heights_m"]) - want).max(), abs(told["length_m"] - length_m),
                    abs(told["climb_m"] - rises[rises > 0].sum()), abs(told["descent_m"] + rises[rises < 0].sum()),
                    abs(abs(told["steepest"][2]) - np.abs(slopes).max()))
    tally.check("20 profiles: heights, length, climb, descent, steepest step", worst < 1e-6, f"within {worst:.1e}")
