"""Every pair of square letters near the poles: ours are read where GeoConvert reads them and the square lies in the polar area.

Usage: poles.py COMMAND FOLDER. Exit code 1 when the two differ.
"""

import json
import pathlib
import string
import subprocess
import sys

# The polar areas overlap with the zones of UTM by half a degree (NGA.STND.0036, from memory); GeoConvert reads their squares farther.
NORTH_DEG, SOUTH_DEG = 83.5, -79.5
SAME_DEG = 1e-6


def answers(arguments, lines):
    """The lines a program answers to lines."""
    done = subprocess.run(arguments, input="\n".join(lines) + "\n", capture_output=True, text=True, check=False)
    return done.stdout.splitlines()


def latitude(line):
    """The latitude that GeoConvert tells; none for letters that do not exist."""
    return None if line.startswith("ERROR") else float(line.split()[0])


def main(command, folder):
    """Ask both, and tell what differs."""
    letters = string.ascii_uppercase
    references = [zone + column + row + "55" for zone in "ABYZ" for column in letters for row in letters]
    theirs = [latitude(line) for line in answers(["GeoConvert", "-g", "-p", "3"], references)]
    book = str(pathlib.Path(folder) / "poles.gatepost")
    records = [json.dumps({"do": "place", "place": reference}) for reference in references]
    ours = [json.loads(line).get("answer") for line in answers([command, "--logbook", book, "records"], records)]
    wrong = 0
    for reference, lat, answer in zip(references, theirs, ours, strict=True):
        is_polar = lat is not None and (lat >= NORTH_DEG or lat <= SOUTH_DEG)
        same = is_polar == (answer is not None) and (not is_polar or abs(answer["lat_deg"] - lat) < SAME_DEG)
        if not same:
            wrong += 1
            print(f"{reference}: GeoConvert {lat}, ours {answer and answer['lat_deg']}")
    print(f"{len(references)} pairs of letters near the poles, {sum(answer is not None for answer in ours)} read, {wrong} otherwise than GeoConvert")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
