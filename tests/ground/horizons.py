"""How high the ground stands over a bearing, against a dense look along the geodesic, from one step of the posts on."""

import numpy as np

from common import FALL, GEOD, Ground, ask

EYE_M = 1.7
COUNT = 300
NEAR_M, NEAR_STEP_M, FAR_STEP_M = 3_000.0, 0.25, 2.0
AIM_M = 4_000.0
# The line of the core is straight among the posts and aimed 4 km off: at 36 degrees of latitude it leaves the bearing by 0.013
# degrees, where a slope of 45 degrees athwart changes the angle by as much.
WORST_DEG = 0.02
MOST_DEG = 0.002


def angle_deg(ground, z, eye):
    """The greatest angle of the samples, from the height of the eye; nothing is known beyond the border."""
    lat, lon, bearing = eye
    rows, columns = z.shape
    # Ground nearer than a step of the posts does not count.
    aim_lon, aim_lat, _ = GEOD.fwd(lon, lat, bearing, AIM_M)
    step_m = AIM_M / np.hypot((aim_lon - lon) / ground.step[0], (aim_lat - lat) / ground.step[1])
    away = np.concatenate([np.arange(step_m, NEAR_M, NEAR_STEP_M), np.arange(NEAR_M, 60_000.0, FAR_STEP_M)])
    there = GEOD.fwd(np.full(away.shape, lon), np.full(away.shape, lat), np.full(away.shape, bearing), away)[1::-1]
    column = (np.concatenate([[lon], there[1]]) - ground.west) / ground.step[0]
    row = (ground.north - np.concatenate([[lat], there[0]])) / ground.step[1]
    outside = (column < 0) | (column > columns - 1) | (row < 0) | (row > rows - 1)
    end = int(np.argmax(outside)) if outside.any() else len(column)
    height = ground.at(column[:end], row[:end])
    away = away[: end - 1]
    rise = (height[1:] - FALL * away**2 - (height[0] + EYE_M)) / away
    # The level of the sea stands where all else lies lower.
    dip = -2 * np.sqrt(max(height[0] + EYE_M - min(np.nanmin(height), 0.0), 0.0) * FALL)
    return float(np.degrees(np.arctan(max(dip, rise.max(initial=-np.inf)))))


def angles(tally, binary, z):
    """Random eyes and bearings."""
    ground = Ground("real", z)
    dice = np.random.default_rng(20260704)
    rows, columns = z.shape
    lon, lat = ground.places(dice.uniform(20, columns - 20, COUNT), dice.uniform(20, rows - 20, COUNT))
    eyes = np.stack([lat, lon, dice.uniform(0, 360, COUNT)], axis=1)
    answer = ask(binary, ground, {"horizon": {"eyes": eyes.tolist(), "eye_m": EYE_M}})
    off = np.array([abs(told[0] - angle_deg(ground, z, eye)) for told, eye in zip(answer["told"], eyes)])
    told = f"worst {off.max():.4f} deg, median {np.median(off):.5f} deg; {1e6 * answer['took_s'] / COUNT:.0f} us a bearing"
    tally.check(f"{COUNT} horizon angles", off.max() < WORST_DEG and np.median(off) < MOST_DEG, told)
