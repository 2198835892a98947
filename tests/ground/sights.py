"""Sightlines against a dense line of sight, the chance against draws of the errors, dead ground against samples."""

import numpy as np

from common import FALL, GEOD, Ground, ask

EYE_M = 1.7
ABOVES_M = (0.0, 10.0)
NARROW_M = 0.5
GRAZING_M = 0.5
LEAST_EQUAL = 0.995
DRAWS = 20_000
PER_PIECE = 8
WORST_CHANCE, MEAN_CHANCE = 0.1, 0.01


def distances_m(ground, eye, columns, rows):
    """Geodesics from the eye (pyproj)."""
    lon, lat = ground.places(columns, rows)
    lon0, lat0 = ground.places(np.full(lon.shape, eye[0]), np.full(lon.shape, eye[1]))
    return GEOD.inv(lon0, lat0, lon, lat)[2]


def least_m(ground, eye, columns, rows, aboves_m):
    """Least clearance to every target from an eye on a post, for each height of the targets, ends left out.

    Samples stand where the sight goes from cell to cell and halfway between the edges along its longer axis.
    """
    length_m = distances_m(ground, eye, columns, rows)
    apart = np.abs(np.stack([columns - eye[0], rows - eye[1]]))
    least = np.full((len(aboves_m), len(columns)), np.inf)
    for count in (2 * apart.max(axis=0), apart.min(axis=0)):
        for samples in np.unique(count[count > 1]):
            some = np.flatnonzero(count == samples)
            t = np.arange(1, samples)[None, :] / samples
            gap = gaps_m(ground, eye, (columns[some], rows[some]), length_m[some], t)
            for i, above_m in enumerate(aboves_m):
                least[i, some] = np.minimum(least[i, some], (gap + above_m * t).min(axis=1))
    return least


def gaps_m(ground, eye, target, length_m, t):
    """Clearance above the ground of sights to the ground at their targets, at shares of the way."""
    column, row = (np.asarray(part, float)[:, None] for part in target)
    under_m = ground.at(eye[0] + (column - eye[0]) * t, eye[1] + (row - eye[1]) * t)
    eye_m = ground.at(np.array([float(eye[0])]), np.array([float(eye[1])]))[0] + eye[2]
    return eye_m * (1 - t) + ground.at(column, row) * t - FALL * length_m[:, None] ** 2 * t * (1 - t) - under_m


def views(tally, binary, z):
    """Every post as an object, from a peak, a slope and a hollow."""
    ground = Ground("real", z)
    rows, columns = (part.ravel() for part in np.indices(z.shape))
    for name, eye in (("peak", (219, 297, EYE_M)), ("slope", (150, 150, EYE_M)), ("hollow", (347, 288, EYE_M))):
        there = (columns != eye[0]) | (rows != eye[1])
        for above_m, least in zip(ABOVES_M, least_m(ground, eye, columns[there], rows[there], ABOVES_M)):
            answer = ask(binary, ground, {"view": {"eye": list(map(float, eye)), "above_m": above_m}})
            ours = np.array([np.nan if margin is None else margin for margin in answer["margins_m"]])
            seen = ours[there] >= -1e-6
            # Between the samples the ground may stand higher: what they let pass narrowly is decided by fine ones.
            doubtful = np.flatnonzero(((least >= 0.0) & (least < NARROW_M)) | (seen != (least >= 0.0)))
            for i in doubtful:
                pair = [list(map(float, eye)), [float(columns[there][i]), float(rows[there][i]), above_m]]
                least[i] = margin_m(ground, pair)[1]
            differ = np.flatnonzero(seen != (least >= -1e-6))
            fine = least[differ] if len(differ) else np.zeros(1)
            equal = 1.0 - len(differ) / len(least)
            worst_m = np.abs(fine).max()
            told = (f"{100 * equal:.3f} % of {len(least)} equal, the others within {worst_m:.3f} m of grazing; "
                    f"{100 * seen.mean():.1f} % in sight; {1e6 * answer['took_s'] / len(least):.1f} us a sight")
            tally.check(f"view from the {name} to {above_m} m above every post", equal >= LEAST_EQUAL and worst_m < GRAZING_M, told)


def margin_m(ground, pair):
    """The margin by its definition (nothing where that is at an end), from samples at every edge of a cell and 200 to a cell; and whether all is above the ground."""
    (column, row, eye_m), (to_column, to_row, above_m) = pair
    t = np.linspace(0, 1, int(200 * max(abs(to_column - column), abs(to_row - row))) + 50)
    t = np.unique(np.concatenate([t, edges(pair)]))
    z = ground.at(column + (to_column - column) * t, row + (to_row - row) * t)
    gap = (z[0] + eye_m) * (1 - t) + (z[-1] + above_m) * t - FALL * reach_m(ground, pair) ** 2 * t * (1 - t) - z
    low = np.flatnonzero((gap[1:-1] < gap[:-2]) & (gap[1:-1] <= gap[2:])) + 1
    return gap[low].min() if len(low) else None, gap.min()


def margins(tally, binary, z):
    """Least clearances of sights in any direction, against the same by samples."""
    rng = np.random.default_rng(5)
    ground = Ground("real", z)
    pairs = [
        [[*rng.uniform(1, 342, 2), float(rng.choice([0.0, 1.7, 5.0]))], [*rng.uniform(1, 342, 2), float(rng.choice([0.0, 2.0, 30.0]))]]
        for _ in range(400)
    ]
    # On posts, along edges and diagonals, as a grid of objects has them.
    pairs += [[[*map(float, rng.integers(1, 342, 2)), 1.7], [*map(float, rng.integers(1, 342, 2)), 4.0]] for _ in range(200)]
    pairs += [[[float(c), 50.0, 1.7], [float(c + d), 50.0 + e, 9.0]] for c in range(60, 160, 10) for d, e in ((60, 0), (0, 60), (60, 60), (-40, 40))]
    sights = ask(binary, ground, {"sights": {"pairs": pairs}})
    worst = wrong = none = 0
    for pair, sight in zip(pairs, sights):
        wanted, least = margin_m(ground, pair)
        none += wanted is None
        # Without a lowest place on the way the least is at one of the ends.
        worst = max(worst, abs(sight["margin_m"] - (least if wanted is None else wanted)))
        wrong += abs(least) > 1e-3 and (sight["seen"] == "clear") != (least >= 0)
    told = f"{len(pairs)} sights, worst {worst:.5f} m, {none} without a lowest place, {wrong} judged otherwise"
    tally.check("margins against samples at every edge and 200 to a cell", worst < 2e-3 and wrong == 0, told)


def doubtful(binary, ground, rng, count):
    """Sights in the open country that pass within a few metres of the ground."""
    tries = 20_000
    eyes = np.column_stack([rng.uniform(5, 397, tries), rng.uniform(5, 338, tries)])
    step = rng.uniform(4, 60, tries)
    turn = rng.uniform(0, 2 * np.pi, tries)
    ends = eyes + np.column_stack([np.cos(turn), np.sin(turn)]) * step[:, None]
    inside = (ends[:, 0] > 2) & (ends[:, 0] < 400) & (ends[:, 1] > 2) & (ends[:, 1] < 341)
    heights = rng.choice([0.0, 2.0, 10.0, 30.0], tries)
    pairs = [[[*eye, EYE_M], [*end, high]] for eye, end, high in zip(eyes[inside], ends[inside], heights[inside])]
    sights = ask(binary, ground, {"sights": {"pairs": pairs}})
    near = [i for i, sight in enumerate(sights) if sight["margin_m"] is not None and abs(sight["margin_m"]) < 15]
    picked = rng.choice(near, count, replace=False)
    return [pairs[i] for i in picked], [sights[i] for i in picked]


def edges(pair):
    """Shares of the way at which it goes from cell to cell, both ends among them."""
    (column, row, _), (to_column, to_row, _) = pair
    t = [np.array([0.0, 1.0])]
    for start, end in ((column, to_column), (row, to_row)):
        if start != end:
            low, high = sorted((start, end))
            t.append((np.arange(np.ceil(low), np.floor(high) + 1) - start) / (end - start))
    return np.concatenate(t)


def doubtful_shares(ground, pair, sigma_m):
    """Shares of the way where the ground is less than 4.5 sigma of a difference below the sight, and both ends.

    In each cell the errors and the ground run as parabolas. So much may happen in the shortest piece between two edges, a metre before a
    crest or the object, that each gets its own samples, `PER_PIECE` of them.
    """
    t = np.unique(edges(pair))
    t = np.append((t[:-1, None] + np.diff(t)[:, None] * np.arange(PER_PIECE) / PER_PIECE).ravel(), 1.0)
    near = fixed_m(ground, pair, t) < 4.5 * np.sqrt(2) * sigma_m
    near[[0, -1]] = True
    return t[near]


def posts_under(ground, pair, t):
    """For each share of the way the four posts with their weights."""
    eye, end = (np.array(part[:2]) for part in pair)
    x, y = eye[0] + (end[0] - eye[0]) * t, eye[1] + (end[1] - eye[1]) * t
    left, top = np.floor(x).astype(int), np.floor(y).astype(int)
    x, y = x - left, y - top
    corners = [(0, 0, (1 - x) * (1 - y)), (1, 0, x * (1 - y)), (0, 1, (1 - x) * y), (1, 1, x * y)]
    number = np.stack([(top + down) * ground.z.shape[1] + left + right for right, down, _ in corners])
    return number, np.stack([weight for _, _, weight in corners])


def over_plane(ground, pair, sigma_m, correlation_m, rng, draws=DRAWS):
    """Share of draws in which an object is in sight: an error for each post, related to the others' by their distance, bilinear between."""
    t = doubtful_shares(ground, pair, sigma_m)
    number, weight = posts_under(ground, pair, t)
    posts, place = np.unique(number, return_inverse=True)
    east_m, south_m = spacing_m(ground, pair[0][1])
    at = np.column_stack([posts % ground.z.shape[1] * east_m, posts // ground.z.shape[1] * south_m])
    shares = np.zeros((len(t), len(posts)))
    for corner in range(4):
        np.add.at(shares, (np.arange(len(t)), place.reshape(number.shape)[corner]), weight[corner])
    apart_m = np.hypot(*(at[:, None, :] - at[None, :, :]).transpose(2, 0, 1))
    return clear_share(ground, pair, t, shares, sigma_m, np.exp(-apart_m / correlation_m), rng, draws)


def clear_share(ground, pair, t, shares, sigma_m, correlation, rng, draws):
    """Share of the draws in which no sample stands above the sight; `shares`: what of each error comes to each sample."""
    root = np.linalg.cholesky(correlation + 1e-9 * np.eye(len(correlation)))
    errors = sigma_m * shares @ root
    lifts = (errors[:1] * (1 - t[:, None]) + errors[-1:] * t[:, None] - errors)[1:-1].astype(np.float32)
    least = (-1e-6 - fixed_m(ground, pair, t)[1:-1, None]).astype(np.float32)
    clear = 0
    for _ in range(draws // 2000):
        clear += (lifts @ rng.standard_normal((len(root), 2000), np.float32) >= least).all(axis=0).sum()
    return clear / draws


def fixed_m(ground, pair, t):
    """Clearance of a sight over the heights as they stand."""
    (column, row, eye_m), (to_column, to_row, above_m) = pair
    z = ground.at(column + (to_column - column) * t, row + (to_row - row) * t)
    return (z[0] + eye_m) * (1 - t) + (z[-1] + above_m) * t - FALL * reach_m(ground, pair) ** 2 * t * (1 - t) - z


def spacing_m(ground, row):
    """Metres from post to post."""
    lon, lat = ground.places([0, 1, 0], [row, row, row + 1])
    return (GEOD.inv(lon[0], lat[0], lon[1], lat[1])[2], GEOD.inv(lon[0], lat[0], lon[2], lat[2])[2])


def reach_m(ground, pair):
    """Metres from the eye to the object."""
    return float(distances_m(ground, pair[0][:2], np.array([pair[1][0]]), np.array([pair[1][1]]))[0])


def chances(tally, binary, z):
    """The chance of being in sight near grazing."""
    rng = np.random.default_rng(20261125)
    for sigma_m, correlation_m, count in ((5.0, 300.0, 80), (10.0, 300.0, 40), (2.0, 100.0, 40)):
        ground = Ground("real", z, sigma_m=sigma_m, correlation_m=correlation_m)
        pairs, sights = doubtful(binary, ground, rng, count)
        ours = np.array([sight["chance"] for sight in sights])
        drawn = np.array([over_plane(ground, pair, sigma_m, correlation_m, rng) for pair in pairs])
        off = np.abs(ours - drawn)
        told = f"{count} sights near grazing: worst {off.max():.4f}, mean {off.mean():.4f}; mean chance {ours.mean():.3f} and {drawn.mean():.3f}"
        name = f"chance with {sigma_m} m over {correlation_m} m against draws of every post"
        tally.check(name, off.max() < WORST_CHANCE and off.mean() < MEAN_CHANCE, told)
        normal = np.array([one_normal(sight["margin_m"], sigma_m) for sight in sights])
        print(f"   one normal at the least margin would be off by {np.abs(normal - drawn).mean():.3f} on the mean")


def plains(tally, binary):
    """The chance over a plain, where a long stretch is near the sight and no place decides alone."""
    rng = np.random.default_rng(11)
    sigma_m, correlation_m = 9.73, 300.0
    ours, drawn = [], []
    for step_m in (10, 30, 90):
        for reach_m, above_m, across in ((500, 10.0, 0.3), (1000, 10.0, 0.3), (1000, 30.0, 300 / step_m), (3000, 30.0, 0.3)):
            step = step_m / 111_195.0
            rows, columns = (int(across) + 40, int(reach_m / step_m) + 20)
            ground = Ground("plain", np.zeros((rows, columns)), west=0.0, north=rows / 2 * step, step=(step, step),
                            sigma_m=sigma_m, correlation_m=correlation_m)
            pair = [[8.3, 20.4, EYE_M], [8.3 + reach_m / step_m, 20.4 + across, above_m]]
            ours.append(ask(binary, ground, {"sights": {"pairs": [pair]}})[0]["chance"])
            drawn.append(over_plane(ground, pair, sigma_m, correlation_m, rng))
    off = np.abs(np.array(ours) - np.array(drawn))
    told = f"{len(off)} sights over plains: worst {off.max():.4f}, mean {off.mean():.4f}; mean chance {np.mean(ours):.3f} and {np.mean(drawn):.3f}"
    tally.check("chance over plains with posts every 10, 30 and 90 m against draws of every post", off.max() < 0.025 and off.mean() < 0.01, told)


def one_normal(margin_m, sigma_m):
    """What one normal at the least margin would say."""
    from statistics import NormalDist
    return NormalDist(0, sigma_m).cdf(margin_m)


def dead_ground(tally, binary, z):
    """Stretches that cannot be seen, against samples of the rise from the eye."""
    rng = np.random.default_rng(7)
    ground = Ground("real", z)
    pairs = [[[*rng.uniform(3, 340, 2), EYE_M], [*rng.uniform(3, 340, 2), float(high)]] for high in (0, 0, 0, 2, 2, 10, 30, 30)] * 5
    pairs = [[[*rng.uniform(3, 340, 2), EYE_M], [*rng.uniform(3, 340, 2), pair[1][2]]] for pair in pairs]
    answers = ask(binary, ground, {"dead": {"pairs": pairs}})
    wrong = samples = 0
    for pair, stretches in zip(pairs, answers):
        length_m = reach_m(ground, pair)
        (column, row, eye_m), (to_column, to_row, above_m) = pair
        t = np.arange(1, 40_000) / 40_000
        z_m = ground.at(column + (to_column - column) * t, row + (to_row - row) * t)
        eye = ground.at(np.array([column]), np.array([row]))[0] + eye_m
        d = t * length_m
        rise = (z_m - FALL * d * d - eye) / d
        highest = np.concatenate([[-np.inf], np.maximum.accumulate(rise)[:-1]])
        gap_m = ((z_m + above_m - FALL * d * d - eye) / d - highest) * d
        ours = np.zeros(len(t), bool)
        for start, end in stretches:
            ours |= (d >= start) & (d <= end)
        clear_cut = np.abs(gap_m) > 0.02
        wrong += int(((gap_m < 0) != ours)[clear_cut].sum())
        samples += int(clear_cut.sum())
    told = f"{len(pairs)} rays, {wrong} of {samples} samples off that are not within 2 cm of grazing"
    tally.check("dead ground against dense samples", wrong <= samples * 1e-4, told)
