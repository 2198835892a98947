"""earth/turned: bearings from one north to another through the diagram of a place and a date, with their spreads."""

import math

from casefile import case, numbered, refused, tolerances
from declination import convergence_of, field, year_of
import grid

AT_PLACES = (
    # bearing, from, to, latitude, longitude, date, grid or None, spread as read or None, note
    (190.0, "mag", "grid", 36.59, -84.25, "2026-07-02", None, None, "declination and convergence"),
    (190.0, "mag", "grid", 36.59, -84.25, "2021-07-02", None, None, "the same in another year: the date chooses the declination"),
    (190.0, "mag", "true", 36.59, -84.25, "2026-07-02", None, 1.0, "how well it was read is in the spread"),
    (12.5, "true", "mag", 61.25, -149.65, "2026.5", None, 0.5, "over north, a decimal year"),
    (300.0, "grid", "mag", 45.2, 5.7, "2026-07-02", "EPSG:2154", 2.0, "from the north of a named grid"),
    (47.0, "grid", "true", 45.2, 5.7, "2026-07-02", "EPSG:2154", 1.5, "no declination lies between: the model adds nothing"),
    (47.0, "grid", "true", 45.2, 5.7, "1990-07-02", "EPSG:2154", None, "nor does its date matter, which no model holds"),
    (90.0, "mag", "mag", 45.2, 5.7, "2026-07-02", None, 1.5, "nothing to turn"),
    (90.0, "mag", "grid", 86.0, 142.0, "2026.5", None, None, "a weak level field: the declination is worth little"),
)

TYPED = (
    # bearing, from, to, declination and its spread, convergence and its spread, spread as read, note
    (190.0, "mag", "grid", (-5.5, 0.4), (1.5, 0.3), 1.2, "both angles typed with their spreads"),
    (190.0, "mag", "true", (-5.5, 0.4), (None, None), None, "the convergence does not lie between"),
    (190.0, "true", "grid", (None, None), (1.5, 0.3), 0.4, "nor does the declination here"),
    (190.0, "mag", "grid", (-5.5, None), (1.5, 0.3), 1.2, "a spread that is not known leaves the whole unknown"),
    (190.0, "true", "grid", (-5.5, None), (1.5, 0.3), 0.4, "but not where that angle does not lie between"),
)


def turned(bearing, start, to, declination, convergence):
    """The bearing from true north, then from the other: east is positive."""
    off = {"mag": declination, "grid": convergence, "true": 0.0}
    return (bearing + off[start] - off[to]) % 360


def spread_of(start, to, read, declination_spread, convergence_spread):
    """The root of the sum of squares of what lies between the two norths; nothing where one of them is not known."""
    between = {"mag": declination_spread, "grid": convergence_spread}
    parts = [value for north, value in between.items() if (start == north) != (to == north)]
    return None if None in parts else math.hypot(read or 0.0, *parts)


def at_place_case(tally, bearing, start, to, lat, lon, date, named, read, note):
    """Turned by the model's declination and the grid's convergence there."""
    result = field(lat, lon, 0, max(year_of(date), 2020))
    convergence, sigma = convergence_of(tally, lat, lon, named), result.calculate_uncertainty().d
    # The published error model, held to the library's.
    constant = 5417 if year_of(date) >= 2025 else 5625
    tally.near(f"{note}: the error model", sigma, math.hypot(0.26, constant / result.h), 0.001)
    got, between = turned(bearing, start, to, result.d, convergence), (start == "mag") != (to == "mag")
    values = {
        "bearing_deg": round(got, 5),
        "back_deg": round((got + 180) % 360, 5),
        "spread_deg": round(spread_of(start, to, read, math.hypot(0.26, constant / result.h), 0.0), 5),
        "declination_deg": round(result.d, 5) if between else None,
        "declination_spread_deg": round(math.hypot(0.26, constant / result.h), 5) if between else None,
        "convergence_deg": round(convergence, 5) + 0.0,
    }
    record = {"do": "turn", "bearing": f"{bearing:g} {start}", "to": to, "place": grid.degrees_text(lat, lon), "date": date}
    record |= {"grid": named} if named else {}
    record |= {"spread_deg": read} if read is not None else {}
    return case(record, {f"answer.{key}": value for key, value in values.items()}, note)


def typed_case(bearing, start, to, declination, convergence, read, note):
    """Turned by angles that were typed."""
    got = turned(bearing, start, to, declination[0] or 0.0, convergence[0] or 0.0)
    spread = spread_of(start, to, read, declination[1], convergence[1])
    expect = {"answer.bearing_deg": got, "answer.spread_deg": None if spread is None else round(spread, 9)}
    typed = {
        "declination_deg": declination[0],
        "declination_spread_deg": declination[1],
        "convergence_deg": convergence[0],
        "convergence_spread_deg": convergence[1],
        "spread_deg": read,
    }
    record = {"do": "turn", "bearing": f"{bearing:g} {start}", "to": to}
    record |= {name: value for name, value in typed.items() if value is not None}
    if None in (declination[0], convergence[0]):
        expect["answer.grid_magnetic_deg"] = None
    return case(record, expect, note)


def invalid():
    """What cannot be turned."""
    asked = {"do": "turn", "bearing": "190 mag", "to": "grid"}
    place = {"place": "46.5, 12.5"}
    return [
        refused(asked, "turn-diagram-needed", "no diagram at all"),
        refused({**asked, "declination_deg": 4}, "turn-diagram-needed", "the convergence is missing"),
        refused({**asked, "convergence_deg": 1}, "turn-diagram-needed", "the declination is missing"),
        refused({**asked, **place}, "turn-diagram-needed", "a place without a date tells no declination"),
        refused({**asked, **place, "date": "2035-01-01"}, "date-outside-model", "no model holds then"),
        refused({**asked, **place, "date": "2026-07-02", "declination_spread_deg": 2}, "turn-spread-alone", "a spread without its declination"),
        refused({**asked, **place, "date": "2026-07-02", "convergence_spread_deg": 2}, "turn-spread-alone", "a spread without its convergence"),
        refused({**asked, "declination_deg": 4, "convergence_spread_deg": 2}, "turn-spread-alone", "the same without a place"),
        refused({**asked, **place, "date": "soon"}, "date-unreadable"),
        refused({**asked, "declination_deg": 4, "convergence_deg": 1, "spread_deg": -1}, "number-unreadable", "a spread below nothing"),
    ]


def told_cases(tally):
    """By which grid's convergence was turned, behind the bearing and the declination; nothing where it does not lie between."""
    lat, lon = 45.2, 5.7
    place = {"do": "turn", "place": grid.degrees_text(lat, lon), "date": "2026-07-02"}
    rows = []
    for named, name in (("EPSG:2154", "EPSG:2154"), (None, "UTM 31 north")):
        convergence = convergence_of(tally, lat, lon, named)
        side = "west" if convergence < 0 else "east"
        sentence = f"Grid north of {name} lies {abs(convergence):.2f}\u00b0 {side} of true north there."
        there = {**place, **({"grid": named} if named else {})}
        rows += [
            case({**there, "bearing": "214 mag", "to": "grid"}, {"said.2": sentence, "said.3": None}, "the grid is named"),
            case({**there, "bearing": "214 grid", "to": "true"}, {"said.1": sentence, "said.2": None}, "without a declination"),
        ]
    typed = {**place, "bearing": "214 grid", "to": "true", "convergence_deg": 1.5}
    return [*rows, case(typed, {"said.1": None}, "a convergence that was typed is no grid's")]


def build(tally):
    """The case file of turned bearings."""
    cases = [at_place_case(tally, *row) for row in AT_PLACES] + [typed_case(*row) for row in TYPED]
    cases += told_cases(tally)
    angle = (0.003, "the convergence of a named grid is good to 0.002, the declination to 0.0001")
    spread = (0.0006, "the published error model, with the field to half a nanotesla")
    tolerance, why = tolerances(
        bearing_deg=angle, back_deg=angle, convergence_deg=(0.002, angle[1]), spread_deg=spread, declination_spread_deg=spread,
        declination_deg=(0.0001, "the last digit written"),
    )
    return [
        {
            "topic": "earth/turned",
            "about": "Bearings from one north to another by the declination and convergence of a place and a date, with the spread.",
            "source": "pygeomag 1.1.0 (MIT licence) with the WMM2020 and WMM2025 coefficients; the model's published error model;"
            " convergence: " + grid.PROJ_SOURCE + "; the sign rule of TC 3-25.26 (US Army)",
            "made_by": "tests/references/turned.py",
            "units": {
                "bearing_deg": "degrees from the north asked for",
                "back_deg": "degrees from the same north",
                "spread_deg": "degrees, one sigma: of the bearing as read and of the angles between the two norths; null when one is not known",
                "declination_deg": "degrees, east positive; null where it does not lie between the two norths",
                "declination_spread_deg": "degrees, one sigma",
                "convergence_deg": "degrees, east positive",
                "grid_magnetic_deg": "degrees, east positive; null where one of the angles is not known",
            },
            "tolerance": tolerance,
            "tolerance_why": why,
            "cases": numbered(cases),
            "invalid": numbered(invalid()),
        }
    ]
