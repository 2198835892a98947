"""How many places a second each program turns into references, as ratios of runs that take turns.

Usage: measure.py CONVERTER FOLDER. Every program reads lines "lat lon" and writes one line for each.
"""

import pathlib
import statistics
import subprocess
import sys
import time

sys.dont_write_bytecode = True
HERE = pathlib.Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1] / "peers"), str(HERE.parents[1] / "references")]

import numpy  # noqa: E402  (the folders come first)

import by_pyproj  # noqa: E402
from points import plain, points  # noqa: E402

COUNT = 200_000
ROUNDS = 5


def programs(converter):
    """What is run, in the order of each round."""
    return {
        "ours, MGRS": [converter],
        "GeoConvert, MGRS": ["GeoConvert", "-m", "-p", "0"],
        "pyproj, UTM by arrays": [sys.executable, str(HERE / "by_pyproj.py"), "utm"],
        "pyproj, MGRS spelt in Python": [sys.executable, str(HERE / "by_pyproj.py"), "mgrs"],
    }


def run(arguments, source, target):
    """Seconds of wall clock from start to end, input and output files included."""
    with source.open("rb") as lines, target.open("wb") as told:
        started = time.perf_counter()
        subprocess.run(arguments, stdin=lines, stdout=told, check=True)
        return time.perf_counter() - started


def lines_of(path):
    """The lines of a file."""
    return path.read_text(encoding="ascii").splitlines()


def same_text(folder):
    """How many of our references are GeoConvert's."""
    ours, theirs = (lines_of(folder / f"{name}.txt") for name in ("ours", "GeoConvert"))
    return sum(one == other for one, other in zip(ours, theirs, strict=True))


def arrays_alone(places):
    """Seconds that pyproj needs for arrays in memory, nothing read and nothing written."""
    started = time.perf_counter()
    by_pyproj.coordinates(numpy.array([place[1:] for place in places]))
    return time.perf_counter() - started


def main(converter, folder):
    """Run all programs in turn and print medians and ratios."""
    folder.mkdir(parents=True, exist_ok=True)
    source = folder / "points.txt"
    places = points(COUNT)
    source.write_text("".join(f"{plain(lat)} {plain(lon)}\n" for _, lat, lon in places), encoding="ascii")
    seconds = {name: [] for name in programs(converter)}
    for _ in range(ROUNDS):
        for name, arguments in programs(converter).items():
            seconds[name].append(run(arguments, source, folder / f"{name.split(',')[0]}.txt"))
    ours = seconds["ours, MGRS"]
    print(f"{COUNT} places, {ROUNDS} rounds in turn, whole process; median, and the ratio within each round")
    for name, times in seconds.items():
        ratio = statistics.median(theirs / mine for theirs, mine in zip(times, ours))
        print(f"  {name:30} {COUNT / statistics.median(times):12,.0f} a second; ours is {ratio:.2f} times as fast")
    alone = statistics.median(arrays_alone(places) for _ in range(ROUNDS))
    print(f"  {'pyproj, arrays in memory alone':30} {COUNT / alone:12,.0f} a second; no process, no text")
    print(f"references that are GeoConvert's: {same_text(folder)} of {COUNT}; the rest lie on a whole metre (tests/peers)")


if __name__ == "__main__":
    main(sys.argv[1], pathlib.Path(sys.argv[2]))
