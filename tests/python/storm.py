"""Random calls through the Python binding: no crash, no unreadable logbook, every refusal with its sentence.

Usage: storm.py FOLDER [COUNT], where FOLDER holds the generated module `gatepost` and the library beside it.
"""

import json
import pathlib
import random
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, sys.argv[1])

import gatepost  # noqa: E402  (generated; its folder comes as an argument)

SHEET = (ROOT / "tests/demo/velm-valley.toml").read_text(encoding="utf-8")
TIMES = ("2026-09-12T08:00:00Z", "2026-09-12T23:59:59+05:00", "2019-01-01T00:00:00Z", "noon", "", None)
BEARINGS = ("016 mag", "088 mag", "361 mag", "359.9 grid", "000 true", "-1 mag", "nan mag", "16", "", "016 mag ")
NAMES = ("Sorn chapel", "Hallik mast", "Old kiln", "no such", "", "\u0000", "Ü" * 300)
NUMBERS = (0, 1, 90, 1e-9, -5, 1e308, 250.5, None)
PLACES = ("43TEG 5691 4962", "43TEG56914962", "99ZZZ", "91, 0", "42.0, 75.7", "", "4 2 , x")


def pick(dice, *kinds):
    """One value of the given kinds, now and then one of a wrong type."""
    return dice.choice(([], {}, True, "x", 7)) if dice.random() < 0.02 else dice.choice(dice.choice(kinds))


def record(dice):
    """A random record: mostly sound, often odd."""
    at = pick(dice, TIMES[:2], TIMES[:2], TIMES)
    task = dice.choice(("carry", "pace", "fix", "check", "keep", "leg", "where", "back", "turn-round", "reached", "draft", "undo", "close", "place"))
    if task == "carry":
        text = SHEET if dice.random() < 0.7 else SHEET[: dice.randrange(len(SHEET))]
        return {"do": task, "at": at, "format": dice.choice(("toml", "toml", "geojson")), "text": text}
    if task == "fix":
        sightings = [{"landmark": pick(dice, NAMES[:2], NAMES), "bearing": pick(dice, BEARINGS[:2], BEARINGS)} for _ in range(dice.randrange(4))]
        return {"do": task, "at": at, "line": pick(dice, ("Velm Road", None), NAMES), "sightings": sightings}
    if task == "leg":
        leg = {"do": task, "at": at, "bearing": pick(dice, BEARINGS[:1], BEARINGS), "paces": pick(dice, (90, 120), NUMBERS)}
        return {**leg, "detour": {"side": "left", "paces": pick(dice, NUMBERS)}} if dice.random() < 0.2 else leg
    if task == "pace":
        return {"do": task, "at": at, "double_paces_per_100_m": pick(dice, (60, 62.5), NUMBERS)}
    if task in ("check", "place"):
        return {"do": task, "at": at, "place": pick(dice, PLACES)} if task == "check" else {"do": task, "place": pick(dice, PLACES)}
    if task == "draft":
        return {"do": task, "text": pick(dice, NAMES)}
    return {"do": task, "at": at, "stretch": pick(dice, (1, 2, 0, 99, None))} if task == "keep" else {"do": task, "at": at}


def told(book, dice):
    """One call; the reply as a value."""
    line = json.dumps(record(dice))
    if dice.random() < 0.01:
        line = line[: dice.randrange(len(line))]
    return json.loads(book.tell(line))


def opens(path):
    """Whether the logbook opens anew and answers."""
    book = gatepost.FieldBook.open(gatepost.OpenConfig(logbook_path=path))
    reply = json.loads(book.tell(json.dumps({"do": "place", "place": "42, 75.7"})))
    book.shut()
    return reply["ok"]


def main():
    """COUNT calls on logbooks of at most 2,000 calls each, every one opened anew at its end."""
    count, dice = int(sys.argv[2]) if len(sys.argv) > 2 else 100_000, random.Random(20260912)
    passed = failed = refused = 0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(0, count, 2_000):
            path = str(pathlib.Path(folder) / f"{number}.gatepost")
            book = gatepost.FieldBook.open(gatepost.OpenConfig(logbook_path=path))
            for _ in range(min(2_000, count - number)):
                reply = told(book, dice)
                sound = reply["ok"] or bool(reply["refusal"]["sentence"]) and reply["refusal"]["code"] != "internal"
                passed, failed, refused = passed + sound, failed + (not sound), refused + (not reply["ok"])
                if not sound:
                    print(f"FAILED {reply}")
            book.shut()
            failed += not opens(path)
    print(f"{count} calls, {refused} of them refused")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
