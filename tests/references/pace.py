"""travel/pace: the pace as a text, with its half-width at 95 %."""

import statistics

from casefile import case, numbered, refused

AT = "2026-07-01T09:00:00Z"
SHEET = """name = "Pace"
[[line]]
name = "Road"
points = ["46.0 N 13.5 E", "46.0 N 13.51 E"]
"""
CARRY = {"do": "carry", "at": AT, "format": "toml", "text": SHEET}
# Taken from the core: the spread of a measured pace (common practice, no source), in per cent.
MEASURED_PERCENT = 3.0
LINE_95 = statistics.NormalDist().inv_cdf(0.975)

CASES = (
    # kind of pace, paces to 100 m, spread in per cent or none, note
    ("double", 61, None, "whole: no decimals"),
    ("double", 62.5, None, "a tenth is told"),
    ("double", 64.96, 2, "65 after rounding: no decimals"),
    ("single", 125, None, "single paces are told as double ones"),
    ("single", 131, 5, None),
    ("double", 58, 0, "no spread is told as nothing"),
    ("double", 250, 49, "the widest that is taken"),
)


def told(double_paces, percent):
    """The text: a decimal unless it is zero."""
    figures = f"{double_paces:.1f}".removesuffix(".0")
    half = LINE_95 * percent / 100 * double_paces
    return f"{figures}\u00a0double paces to 100\u00a0m, \u00b1\u00a0{half:.1f} (95\u00a0%)"


def pace_case(kind, count, percent, note):
    """A pace that is set, and what the snapshot says of it."""
    record = {"do": "pace", "at": AT, f"{kind}_paces_per_100_m": count}
    if percent is not None:
        record["spread_percent"] = percent
    spread = MEASURED_PERCENT if percent is None else percent
    double_paces = count / 2 if kind == "single" else count
    expect = {
        "snapshot.pace.double_paces_per_100_m": double_paces,
        "snapshot.pace.spread_percent": spread,
        "snapshot.pace.told": told(double_paces, spread),
    }
    return with_sheet(case(record, expect, note))


def with_sheet(item):
    """The same on an open trip."""
    record = item.pop("record")
    return {"before": [CARRY], "record": record, **item}


def invalid():
    """What no one walks."""
    asked = {"do": "pace", "at": AT}
    return [
        with_sheet(refused({**asked, "double_paces_per_100_m": 19}, "pace-unreadable")),
        with_sheet(refused({**asked, "single_paces_per_100_m": 501}, "pace-unreadable")),
        with_sheet(refused({**asked, "double_paces_per_100_m": 60, "spread_percent": 50}, "pace-unreadable")),
        with_sheet(refused(asked, "pace-missing")),
        refused({**asked, "double_paces_per_100_m": 60}, "sheet-needed", "no trip is open"),
    ]


def build(tally):
    """The case file of paces."""
    cases = [pace_case(*row) for row in CASES]
    tally.near("the 97.5 % point of the normal", LINE_95, 1.959964, 5e-7)
    why = "a number as it was written, halved or not"
    return [
        {
            "topic": "travel/pace",
            "about": "A pace that is set, as the snapshot tells it: double paces to 100 m and their half-width at 95 %.",
            "source": "constructed: the 97.5 % point of the normal distribution by Python 3.11 `statistics.NormalDist`. The"
            " spread of a measured pace is the core's own (common practice, no source)",
            "made_by": "tests/references/pace.py",
            "units": {
                "double_paces_per_100_m": "double paces",
                "spread_percent": "per cent, one sigma",
                "told": "text: double paces, half-width at 95 % in double paces",
            },
            "tolerance": {f"snapshot.pace.{path}": 1e-9 for path in ("double_paces_per_100_m", "spread_percent")},
            "tolerance_why": {f"snapshot.pace.{path}": why for path in ("double_paces_per_100_m", "spread_percent")},
            "cases": numbered(cases),
            "invalid": numbered(invalid()),
        }
    ]
