"""Scenes of a fix on a line, with the posterior by fix_model.py, written to tests/tables/fix/scenes.json.

    python tests/references/fix_scenes.py --check     a tenth of the scenes reckoned again and held against the file
    python tests/references/fix_scenes.py --all       every scene
    python tests/references/fix_scenes.py --write     draw the scenes and write the file
    python tests/references/fix_scenes.py --calibrate N   draw N scenes, tell how often the sets hold the truth
    python tests/references/fix_scenes.py --choices   what each choice that the conventions leave is worth

numpy 2.4.6, scipy 1.17.1 (scipy.special.ndtr).

THE SCENE. Plane metres east and north; bearings and runs in degrees clockwise from the plane's north (so they are grid
bearings with nothing left to convert); along a line in metres from its first point; spreads one sigma. A table is told
at 0, `step_m`, 2 `step_m`, ... along the line, in proportion between, the last value held to the end.

    lines          points [[east, north], ...]; spread_across_m, spread_along_m of the map; odds, if the walker gives
                   any (then for all lines, as masses of whole lines); heights {step_m, height_m, spread_m}, if an
                   altimeter is read
    known_points   id, line (index from 0), along_m; one id may stand on several lines (a fork), or be missing on some
    landmarks      id, kind, east_m, north_m, spread_m (per axis); in_sight {step_m, chance: one table per line}, if
                   it may be hidden; otherwise it is in sight everywhere
    instrument     reading_spread_deg, graduation_deg, shared_spread_deg
    sightings      kind and:
        bearing         landmark, readings_deg [...]; spread_deg instead of the instrument's, if given. Several
                        sightings of one landmark are the same as several readings in one
        bearing_one_of  candidates [ids], readings_deg (all of the same thing); no candidate is in another sighting
        bearing_vague   east_m, north_m, spread_m of the feature, readings_deg
        run_of_line     reading_deg from 0 to 180, chord_m, spread_deg
        feature_here    what (bend, junction, bridge), known_point, spread_m
        trip_meter      known_point, reading_m (rounded to the step), step_m, scale_spread (share), way: 1 the way the
                        line is told, -1 against it, 0 not known
        paces           known_point, distance_m, spread_share, way
        altimeter       height_m, spread_m (drift included)
        side            landmark, side (left, right, ahead, behind), facing: 1 the way the line is told, -1 against
                        it; spread_deg with which "abeam" or "straight ahead" is judged
        angle_between   from, to, angle_deg clockwise between them, spread_deg (of the angle, rounding included)
        running_fix     landmark, first_deg, then a run of run_m (share run_spread_share) on run_bearing_deg, which
                        ends here, then second_deg
        seen, not_seen  landmark
        slope_towards   bearing_deg; step_m and slopes_deg (one table per line: how the ground rises that way);
                        spread_deg; either says (rises, falls) or slope_deg as measured

THE POSTERIOR. `lines`: for each line the probability in each bin of 5 m from its beginning (the last may be shorter) in
millionths, as [first bin, [values]] runs; bins left out hold less than half a millionth. `within_m`: length in metres of
the highest-density set that holds 50, 95 and 99.9 %. `stretches`: as reported, with the limits of 50 % (`half_m`) and
95 % (`most_m`). `coarse`: total variation distance that cells of 1 m alone would cost.

THE MODEL. A cell is a quarter of a metre; b is the compass error that all bearings share. A reading to a landmark at bearing T(s) and
distance d(s) has 0.98 times a normal around T + b and 0.02 / 360 per degree. The normal's variance is the reading's own,
graduation^2 / 12 for rounding, and (m / d)^2 of the map, m being the landmark's spread and the line's error across the
ray in quadrature, to first order. Readings of one landmark share m; readings of different landmarks do not. The rest
stands in fix_model.py beside each sighting, and CHOICES there names what could be read otherwise.
"""

import argparse
import json
import math
import sys

sys.dont_write_bytecode = True

import numpy

from casefile import path_of
from fix_drawn import Draw
from fix_model import CHOICES, TAIL, Model
from fix_told import bins, distance, highest, runs, stretches

TOPIC = "fix/scenes"
SEED = 20260701
SCENES = 200


def packed(per_bin):
    """Millionths per bin as [first bin, [values]] runs; gaps of up to two empty bins are written out."""
    parts = numpy.round(per_bin * 1e6).astype(int)
    joined = []
    for first, last in runs(parts > 0):
        if joined and first - joined[-1][1] <= 2:
            joined[-1] = (joined[-1][0], last)
        else:
            joined.append((first, last))
    return [[int(first), parts[first:last].tolist()] for first, last in joined]


def unpacked(line, told):
    """The bins of a line, from the runs."""
    found = numpy.zeros(math.ceil(line.length / 5.0))
    for first, values in told:
        found[first : first + len(values)] = numpy.asarray(values) / 1e6
    return found


def metres(value):
    """Written to a tenth."""
    return [metres(part) for part in value] if isinstance(value, list) else round(float(value), 1)


def reckoned(scene):
    """The posterior of a scene as it is written; `coarse` is what cells of a whole metre would cost."""
    model = Model(scene)
    masses = model.posterior()
    coarse = distance(per_bin(scene, cell_m=1.0), [bins(line, mass) for line, mass in zip(model.lines, masses)])
    sets = {
        name: metres(sum(line.width[inside].sum() for line, inside in zip(model.lines, highest(model.lines, masses, share))))
        for name, share in (("50", 0.5), ("95", 0.95), ("99.9", 0.999))
    }
    told = [
        {key: value if key == "line" else round(value, 4) if key == "share" else metres(value) for key, value in found.items()}
        for found in stretches(model.lines, masses)
    ]
    lines = [packed(bins(line, mass)) for line, mass in zip(model.lines, masses)]
    return {"lines": lines, "within_m": sets, "stretches": told, "coarse": round(coarse, 5)}


def drawn(seed, count):
    """Scenes, each with its truth."""
    for number in range(count):
        draw = Draw(seed, number)
        yield draw.scene(draw.sightings), draw.truth


def document():
    """The file."""
    scenes = []
    for number, (scene, truth) in enumerate(drawn(SEED, SCENES), 1):
        scene = json.loads(json.dumps(scene))
        scenes.append({"id": str(number), **scene, "truth": truth, "posterior": reckoned(scene)})
    return {
        "topic": TOPIC,
        "about": "Two hundred scenes of a fix on a line with their posterior per 5 m; the layout and the model stand at"
        " the head of the script that makes them.",
        "source": "constructed, drawn from the model's own assumptions; posterior computed with numpy 2.4.6 and scipy 1.17.1",
        "made_by": "tests/references/fix_scenes.py",
        "seed": SEED,
        "bin_m": 5,
        "bound": {"total_variation": 0.01},
        "bound_why": "another size of cell and another rule for the shared error move it by 0.002 at most; most wrong"
        " conventions move it by more than 0.01 (--choices)",
        "cases": [],
        "scenes": scenes,
    }


def text_of(told):
    """One line per scene."""
    parts = [f'  "{key}": {json.dumps(value)}' for key, value in told.items() if key != "scenes"]
    lines = ",\n".join("    " + json.dumps(scene, separators=(",", ":")) for scene in told["scenes"])
    return "{\n" + ",\n".join(parts) + ',\n  "scenes": [\n' + lines + "\n  ]\n}\n"


def kept():
    """The scenes on disk."""
    return json.loads(path_of(TOPIC).read_text(encoding="ascii"))["scenes"]


def per_bin(scene, **choices):
    """Bins of a scene's posterior, reckoned now."""
    model = Model(scene, **choices)
    return [bins(line, mass) for line, mass in zip(model.lines, model.posterior())]


def closed_form_holds():
    """One error shared by three readings, in closed form against a fine rule of trapezia; the worst share by which they differ."""
    random = numpy.random.default_rng(SEED)
    u = numpy.linspace(-9, 9, 4001)
    weight = numpy.exp(-0.5 * u**2) / numpy.exp(-0.5 * u**2).sum()
    worst = 0.0
    for _ in range(20):
        residuals, variances, spread = random.normal(0, 4, 3), random.uniform(0.3, 9, 3), random.uniform(0.1, 4)
        normal = numpy.exp(-0.5 * (residuals[:, None] - spread * u) ** 2 / variances[:, None]) / numpy.sqrt(2 * math.pi * variances[:, None])
        fine = float(numpy.prod((1 - TAIL) * normal + TAIL / 360, axis=0) @ weight)
        closed = Model.together([numpy.array([[r]]) for r in residuals], list(variances), numpy.array([[spread**2]]))
        worst = max(worst, abs(float(closed[0, 0]) / fine - 1))
    print(f"closed form against quadrature, worst {worst:.2e}")
    return worst < 1e-9


def check(every):
    """Scenes reckoned again; the worst distance from the file."""
    worst = 0.0
    for scene in kept()[::every]:
        model = Model(scene, nodes=161, cell_m=0.2)
        now = [bins(line, mass) for line, mass in zip(model.lines, model.posterior())]
        on_disk = [unpacked(line, told) for line, told in zip(model.lines, scene["posterior"]["lines"])]
        worst = max(worst, distance(now, on_disk))
    print(f"{len(kept()[::every])} scenes, worst total variation distance {worst:.6f}")
    return worst < 0.001


def calibrate(count, seed=SEED + 1):
    """How often the highest-density sets hold the truth, over scenes drawn anew."""
    held = {0.5: 0, 0.95: 0}
    limits = {"half_m": 0, "most_m": 0}
    for scene, truth in drawn(seed, count):
        model = Model(scene, nodes=81, cell_m=1.0)
        masses = model.posterior()
        line = model.lines[truth["line"]]
        cell = min(int(numpy.searchsorted(line.edges, truth["along_m"], "right")) - 1, len(line.mid) - 1)
        for share in held:
            held[share] += bool(highest(model.lines, masses, share)[truth["line"]][cell])
        found = stretches(model.lines, masses)
        for name in limits:
            limits[name] += any(s["line"] == truth["line"] and s[name][0] <= truth["along_m"] <= s[name][1] for s in found)
    for name, value in {**held, **limits}.items():
        print(f"{name}: {value / count:.4f} +- {math.sqrt(value / count * (1 - value / count) / count):.4f}")


def choices():
    """Distance of the posterior under each other choice from ours: worst, and in how many scenes above the bound."""
    others = {
        "rounding": ("half",), "scale_of": ("recorded",), "identity": ("conditional",), "without_point": ("one",),
        "two_way_tail": (0.0,), "point_tail": (TAIL,), "seen": ("each",), "line_error": ("place",),
    }
    assert set(others) == set(CHOICES)
    scenes = kept()
    ours = [per_bin(scene, nodes=41, cell_m=1.0) for scene in scenes]
    for name, values in others.items():
        every = 4 if name == "line_error" else 1  # it takes a score of passes
        for value in values:
            pairs = zip(scenes[::every], ours[::every])
            far = numpy.array([distance(mine, per_bin(scene, nodes=41, cell_m=1.0, **{name: value})) for scene, mine in pairs])
            above = ", ".join(f"above {bound} in {int((far > bound).sum())}" for bound in (0.1, 0.01, 0.001))
            shown = " ".join(scene["id"] for scene, value_far in zip(scenes[::every], far) if value_far > 0.01)
            print(f"{name} = {value}: {len(far)} scenes, worst {far.max():.4f}, {above}; above 0.01: {shown}", flush=True)


def main():
    """One of the five."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    for name in ("check", "all", "write", "choices"):
        parser.add_argument(f"--{name}", action="store_true")
    parser.add_argument("--calibrate", type=int, metavar="N")
    asked = parser.parse_args()
    if asked.write:
        path_of(TOPIC).parent.mkdir(parents=True, exist_ok=True)
        path_of(TOPIC).write_text(text_of(document()), encoding="ascii")
    if asked.calibrate:
        return calibrate(asked.calibrate)
    if asked.choices:
        return choices()
    return 0 if closed_form_holds() and check(1 if asked.all else 10) else 1


if __name__ == "__main__":
    sys.exit(main())
