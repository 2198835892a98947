"""earth/light and earth/sun: published rows of the sun, and its place and hours by an ephemeris."""

import base64
import dataclasses
import datetime
import math
import random
import sys
import warnings

import numpy as np
import pyproj
import skyfield_data
from skyfield import almanac
from skyfield.api import Loader, wgs84

import grid
import light_ground
from casefile import case, numbered, published, refused, tolerances

SEED = 20260703
GEOD = pyproj.Geod(ellps="WGS84")
with warnings.catch_warnings():
    # The ephemeris does not expire; the table of the earth's rotation beside it does, and is not used.
    warnings.simplefilter("ignore")
    LOADER = Loader(skyfield_data.get_skyfield_data_path(), verbose=False)
SKY = LOADER("de421.bsp")
TIMES = LOADER.timescale(builtin=True)
SUN = SKY["sun"]
# 34' of refraction and 16' of the sun's radius, as almanacs have it and as NREL/TP-560-34302 counts it: seen from the
# earth's centre. From the ground the sun then stands lower by its parallax, 8.794".
HORIZONS = {"sunset": -5 / 6 - 8.794 / 3600, "civil": -6, "nautical": -12}
DAY = datetime.timedelta(days=1)
SKY_SOURCE = "skyfield 1.55 (MIT licence) with the ephemeris DE421 of JPL (public domain) from skyfield-data 7.0.0"


def observer(lat, lon, height_m=0):
    """Someone on the ground."""
    return SKY["earth"] + wgs84.latlon(lat, lon, elevation_m=height_m)


def unix_ms(moment):
    """Milliseconds since 1970."""
    return round(moment.timestamp() * 1000)


def events(find, place, start, end, horizon):
    """The times in a span at which the sun's centre passes a height, upward or downward."""
    found, real = find(observer(*place), SUN, TIMES.from_datetime(start), TIMES.from_datetime(end), horizon)
    return [time.utc_datetime() for time, passes in zip(found, real) if passes]


def first(find, place, start, end, horizon):
    """The first of these events as milliseconds, or None."""
    found = events(find, place, start, end, horizon)
    return unix_ms(found[0]) if found else None


def mean_noon(lon, at):
    """The local mean noon of the date in the zone of an instant: the one nearest to 12 h of that zone.

    A time in UTC says nothing of the place's clock: the date is then that of the place's mean sun.
    """
    east = datetime.timedelta(hours=lon / 15)
    clock = at + east if not at.utcoffset() else at
    clock_noon = clock.replace(hour=12, minute=0, second=0, microsecond=0)
    if not at.utcoffset():
        clock_noon -= east
    noons = [
        datetime.datetime.combine(clock_noon.date() + step * DAY, datetime.time(12), datetime.UTC) - east
        for step in (-1, 0, 1)
    ]
    return min(noons, key=lambda noon: abs(noon - clock_noon))


def height_deg(place, moment):
    """How high the sun's centre stands, without refraction."""
    return observer(*place).at(TIMES.from_datetime(moment)).observe(SUN).apparent().altaz()[0].degrees


def hours(tally, name, place, at):
    """Sunrise, sunset and twilights of the day, as a light record answers them."""
    noon = mean_noon(place[1], at)
    span = noon - DAY / 2, noon + DAY / 2
    found = {
        f"{edge}_unix_ms": first(find, place, *span, HORIZONS[horizon])
        for edge, find, horizon in (
            ("sunrise", almanac.find_risings, "sunset"),
            ("day_sunset", almanac.find_settings, "sunset"),
            ("civil_dawn", almanac.find_risings, "civil"),
            ("civil_dusk", almanac.find_settings, "civil"),
            ("nautical_dawn", almanac.find_risings, "nautical"),
            ("nautical_dusk", almanac.find_settings, "nautical"),
        )
    }
    polars = {
        name: polar_word(place, noon, HORIZONS[horizon], found[f"{rise}_unix_ms"], found[f"{fall}_unix_ms"])
        for name, horizon, rise, fall in (
            ("polar", "sunset", "sunrise", "day_sunset"),
            ("civil_polar", "civil", "civil_dawn", "civil_dusk"),
            ("nautical_polar", "nautical", "nautical_dawn", "nautical_dusk"),
        )
    }
    told = [time for time in found.values() if time is not None]
    edges = [unix_ms(moment) for moment in span]
    apart = min((abs(time - edge) for time in told for edge in edges), default=1e9)
    tally.check(f"{name} away from the edge of the day", apart > 60_000, f"{apart} ms")
    return {**found, **polars}


def polar_word(place, noon, horizon, rise, fall):
    """Whether the sun stays above or below a height all day."""
    if rise is not None or fall is not None:
        return None
    return "day" if height_deg(place, noon) > horizon else "night"


def next_ones(place, at):
    """The next sunset, the ends and beginning of civil twilight within a day, and what is now."""
    ends = {"sunset_unix_ms": "sunset", "dark_unix_ms": "civil"}
    found = {name: first(almanac.find_settings, place, at, at + DAY, HORIZONS[edge]) for name, edge in ends.items()}
    found["dawn_unix_ms"] = first(almanac.find_risings, place, at, at + DAY, HORIZONS["civil"])
    height = height_deg(place, at)
    return {**found, "is_down": bool(height < HORIZONS["sunset"]), "is_dark": bool(height < HORIZONS["civil"])}


def refraction_deg(height, pressure_hpa, temperature_c):
    """How much the air lifts the sun (Reda and Andreas 2004, NREL/TP-560-34302, section 3.14.3)."""
    bent = 1.02 / (60 * math.tan(math.radians(height + 10.3 / (height + 5.11))))
    return pressure_hpa / 1010 * 283 / (273 + temperature_c) * bent


def position(place, at, air):
    """True bearing and apparent height of the sun's centre; below the horizon the air lifts nothing."""
    height_m, pressure_hpa, temperature_c = air
    seen = observer(*place, height_m).at(TIMES.from_datetime(at)).observe(SUN).apparent().altaz()
    height, azimuth = seen[0].degrees, seen[1].degrees
    lifted = height + refraction_deg(height, pressure_hpa, temperature_c) if height > 0 else height
    return azimuth, lifted


def at_answer(values):
    """Names of an answer as paths."""
    return {f"answer.{name}": value for name, value in values.items()}


# The example of NREL/TP-560-34302: its values, read in the test suite of pvlib 0.16.1.
EXAMPLE_AT = "2003-10-17T12:30:30-07:00"
EXAMPLE_PLACE = (39.742476, -105.1786)
EXAMPLE_AIR = (1830.14, 820, 11)
EXAMPLE = {"azimuth_deg_true": 194.340241, "elevation_deg": 39.888378}


def example_case(tally):
    """The worked example of the algorithm: the sun's place, and the hours of its day."""
    at = datetime.datetime.fromisoformat(EXAMPLE_AT)
    azimuth, height = position(EXAMPLE_PLACE, at, EXAMPLE_AIR)
    # The example takes UTC for the earth's rotation, which ran 0.36 s behind: 0.0015 degrees of hour angle.
    tally.near("NREL example, azimuth by DE421", azimuth, EXAMPLE["azimuth_deg_true"], 0.003)
    tally.near("NREL example, height by DE421", height, EXAMPLE["elevation_deg"], 0.001)
    rise = datetime.datetime.fromisoformat("2003-10-17T06:12:43-07:00")
    ours = hours(tally, "NREL example", EXAMPLE_PLACE, at)
    tally.near("NREL example, sunrise", ours["sunrise_unix_ms"], unix_ms(rise), 15_000)
    eve = datetime.datetime.fromisoformat("2003-10-16T17:20:19-07:00")
    before = hours(tally, "NREL example, the day before", EXAMPLE_PLACE, at - DAY)
    tally.near("NREL example, the sunset printed", before["day_sunset_unix_ms"], unix_ms(eve), 15_000)
    record = light_record(EXAMPLE_PLACE, EXAMPLE_AT)
    expect = {
        "sunrise_unix_ms": unix_ms(rise),
        "day_sunset_unix_ms": round(ours["day_sunset_unix_ms"], -3),
        "polar": None,
    }
    note = (
        "NREL example; it takes the usual bend at the horizon, whatever its air; the sunset it prints, 17:20:19, is that of"
        " the same UTC day, which is the evening before at the place; here the sunset of 17 October, 17:18:51 by DE421"
    )
    in_air = case({**record, **air_of(EXAMPLE_AIR)}, at_answer(EXAMPLE), "NREL example, the sun's place")
    return [in_air, case(record, at_answer(expect), note)]


def light_record(place, at):
    """A light record."""
    return {"do": "light", "at": at, "place": grid.degrees_text(*place)}


def air_of(air):
    """Height, pressure and temperature as a record has them."""
    return dict(zip(("height_m", "pressure_hpa", "temperature_c"), air))


def row_case(tally, row):
    """A published row, held to the ephemeris within the tolerance it will get."""
    place = float(row["lat"]), float(row["lon"])
    rise, sunset = (
        unix_ms(datetime.datetime.fromisoformat(f"{row['date']}T{row[key]}{row['zone']}")) for key in ("rise", "set")
    )
    noon = f"{row['date']}T12:00:00{row['zone']}"
    name = f"{row['table']}, {row['date']}, {row['zone']}"
    ours = hours(tally, name, place, datetime.datetime.fromisoformat(noon))
    tally.near(f"{name}, rise", ours["sunrise_unix_ms"], rise, 45_000)
    tally.near(f"{name}, set", ours["day_sunset_unix_ms"], sunset, 45_000)
    expect = {"sunrise_unix_ms": rise, "day_sunset_unix_ms": sunset, "sunset_unix_ms": sunset, "polar": None}
    return case(light_record(place, noon), at_answer(expect), name)


def build_published(tally):
    """The case file of published rows."""
    cases = example_case(tally) + [row_case(tally, row) for row in published("sun_rows.csv")]
    time = (
        45_000,
        "30 s for tables in whole minutes and 15 s for another refraction at the horizon (0.5667 against 0.5833"
        " degrees with the sun's radius)",
    )
    angle = (
        0.0001,
        "the example is printed to 0.000001 but reckons with 67 s between clock time and the earth's rotation; 64.5 s"
        " is true, which moves the sun by 0.00003",
    )
    tolerance, why = tolerances(
        azimuth_deg_true=angle, elevation_deg=angle, sunrise_unix_ms=time, day_sunset_unix_ms=time, sunset_unix_ms=time
    )
    return {
        "topic": "earth/light",
        "about": "The sun's place and its rise and set for a level horizon, as published.",
        "source": "rows of the test suite of pvlib 0.16.1 (BSD-3): NREL SPA (Reda and Andreas 2004, NREL/TP-560-34302),"
        f" US Naval Observatory tables; read there, and each held to {SKY_SOURCE}",
        "made_by": "tests/references/light.py",
        "units": {
            "azimuth_deg_true": "degrees from true north",
            "elevation_deg": "degrees above the horizon, as seen through the air",
            "sunrise_unix_ms": "milliseconds since 1970-01-01 UTC; likewise the others",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(invalid()),
    }


def invalid():
    """What cannot be asked."""
    asked = {"do": "light", "at": "2026-06-21T12:00:00Z", "place": "46.2, 6.1"}
    return [
        refused({**asked, "at": "2026-06-21 12:00"}, "date-unreadable", "a time without its zone"),
        refused({**asked, "at": "noon"}, "date-unreadable"),
        refused({**asked, "at": "1500-06-21T12:00:00Z"}, "sun-time-outside", "before the Gregorian calendar"),
        refused({**asked, "at": "0000-06-21T12:00:00Z"}, "sun-time-outside", "no year of any calendar"),
        refused({**asked, "at": "2026-06-31T12:00:00Z"}, "date-unreadable", "no such day"),
        refused({**asked, "place": "91, 6.1"}, "reference-unreadable"),
        refused({**asked, "pressure_hpa": -1}, "sun-air-outside", "no such air"),
        refused({**asked, "temperature_c": -300}, "sun-air-outside", "colder than can be"),
    ]


DAYS = (
    # place, at, note
    ((46.2, 6.1), "2026-06-21T12:00:00+02:00", "midsummer in a zone two hours ahead of UTC"),
    ((46.2, 6.1), "2026-12-21T23:30:00+01:00", "late on the shortest day: the day's own sunset lies behind"),
    ((47.6, -122.3), "2026-03-20T23:30:00-07:00", "the evening of 20 March at the place"),
    ((47.6, -122.3), "2026-03-21T06:30:00Z", "the same instant named by UTC: the place's own date, 20 March"),
    ((0.0, 0.0), "2026-09-23T12:00:00Z", "the equinox on the equator"),
    ((-54.8, -68.3), "2026-01-15T12:00:00-03:00", "deep south, summer"),
    ((60.2, 24.9), "2026-06-21T12:00:00+03:00", "the sun sets, and it gets no darker than civil twilight's end"),
    ((62.0, 25.0), "2026-06-21T12:00:00+03:00", "the sun sets and civil twilight does not end"),
    ((55.0, 10.0), "2026-06-21T12:00:00+02:00", "nautical twilight does not end"),
    ((1.87, -157.4), "2026-05-05T09:00:00+14:00", "a zone 14 hours ahead at 157 W: the date's noon lies on 4 May UTC"),
    ((-43.9, -176.5), "2026-05-05T09:00:00+12:45", "a zone 12 3/4 hours ahead, east of 180"),
    ((70.0, 25.0), "2026-06-21T12:00:00+02:00", "polar day"),
    ((78.2, 15.6), "2026-06-21T12:00:00Z", "polar day"),
    ((70.0, 25.0), "2026-12-21T12:00:00+01:00", "polar night with civil twilight at noon"),
    ((75.0, 25.0), "2026-12-21T12:00:00+01:00", "polar night with nautical twilight at noon"),
    ((85.0, 15.6), "2026-12-21T12:00:00Z", "polar night, dark all day"),
    ((-70.0, 20.0), "2026-12-21T12:00:00Z", "polar day in the south"),
    ((-70.0, 20.0), "2026-06-21T12:00:00Z", "polar night in the south, civil twilight at noon"),
    ((90.0, 0.0), "2026-06-21T12:00:00Z", "the North Pole in summer"),
    ((90.0, 0.0), "2026-12-21T12:00:00Z", "the North Pole in winter"),
)


def day_case(tally, place, at_text, note):
    """A day's hours and the next ones, by the ephemeris."""
    at = datetime.datetime.fromisoformat(at_text)
    values = {**hours(tally, f"{place} {at_text}", place, at), **next_ones(place, at)}
    return case(light_record(place, at_text), at_answer(values), note)


def random_days(tally, count=24):
    """Days between the polar circles, where nothing grazes the horizon."""
    dice = random.Random(SEED)
    cases = []
    for _ in range(count):
        place = round(dice.uniform(-58, 58), 4), round(dice.uniform(-180, 180), 4)
        start = datetime.datetime(2021, 1, 1, tzinfo=datetime.timezone(datetime.timedelta(hours=round(place[1] / 15))))
        at = start + datetime.timedelta(minutes=dice.randrange(9 * 365 * 1440))
        cases.append(day_case(tally, place, at.isoformat(), f"random, seed {SEED}"))
    return cases


def random_positions(count=24):
    """The sun's place by day and by night, in all kinds of air; not where the air's bend is a matter of taste."""
    dice = random.Random(SEED + 1)
    cases = []
    while len(cases) < count:
        place = round(dice.uniform(-89, 89), 4), round(dice.uniform(-180, 180), 4)
        at = datetime.datetime(2021, 1, 1, tzinfo=datetime.UTC) + datetime.timedelta(seconds=dice.randrange(9 * 31_536_000))
        air = dice.randrange(0, 4000, 10), dice.randrange(620, 1040), dice.randrange(-30, 40)
        azimuth, height = position(place, at, air)
        if -2 < height < 1 or abs(height) > 75:
            continue
        record = {**light_record(place, at.isoformat()), **air_of(air)}
        expect = {"azimuth_deg_true": round(azimuth, 5), "elevation_deg": round(height, 5)}
        cases.append(case(record, at_answer(expect), f"random, seed {SEED + 1}"))
    return cases


def air_days():
    """Sunsets in thin and warm, thick and cold air: the bend of 34' goes with pressure and temperature."""
    cases = []
    for place, at_text, pressure_hpa, temperature_c in (
        ((46.0, 7.5), "2026-07-01T12:00:00+02:00", 700, 15),
        ((65.0, 25.0), "2026-01-10T11:00:00+02:00", 1040, -30),
        ((-33.9, 151.2), "2026-03-20T12:00:00+11:00", 990, 35),
    ):
        at = datetime.datetime.fromisoformat(at_text)
        edge = -(16 + 34 * pressure_hpa / 1010 * 283 / (273 + temperature_c)) / 60 - 8.794 / 3600
        expect = {
            "sunset_unix_ms": first(almanac.find_settings, place, at, at + DAY, edge),
            "dark_unix_ms": first(almanac.find_settings, place, at, at + DAY, HORIZONS["civil"]),
        }
        record = {**light_record(place, at_text), "pressure_hpa": pressure_hpa, "temperature_c": temperature_c}
        cases.append(case(record, at_answer(expect), "air that was measured moves sunset, not twilight's end"))
    inches = "29.92\u00a0hPa is the air of no mountain, and the sun is reckoned through it as it was told. Is it inches of mercury? Those are"
    told = {"said.3": f"{inches} {29.92 * 33.8639:.0f}\u00a0hPa: give that."}
    cases.append(case({**light_record((46.0, 7.5), "2026-07-01T12:00:00+02:00"), "pressure_hpa": 29.92}, told, "inches of mercury"))
    return cases


@dataclasses.dataclass(frozen=True)
class Wall:
    """Heights on the level with a wall, its crest running north and south; columns and rows from the north-west."""

    west: float
    north: float
    step: float
    columns: int
    rows: int
    crest_column: int
    crest_m: float
    reach_m: tuple


# One of 300 m in the west of a sheet, and one farther off whose crest lies out of the two kilometres that are kept around the sheet.
NEAR_WALL = Wall(13.48, 46.02, 0.001, 40, 40, 10, 300.0, (600.0, 1500.0))
FAR_WALL = Wall(13.36, 46.02, 0.002, 80, 40, 40, 1200.0, (4000.0, 6000.0))
EYE_M, HILL_M = 1.7, 2000.0
# One sigma of heights of such posts where their file tells none (common practice, no source).
HEIGHT_SPREAD_M = 10.0
LINE_95, MINUTE = 1.96, datetime.timedelta(minutes=1)
# The sphere on which sights are straight: 0.13 of the earth's curve is taken back by the air.
SIGHT_RADIUS_M = 6_371_008.8 / 0.87
WALL_SHEET = {
    "do": "carry",
    "at": "2026-07-01T08:00:00Z",
    "format": "toml",
    "text": 'name = "Wall"\n[[line]]\nname = "Road"\npoints = ["46.000, 13.490", "46.000, 13.510"]\n',
}


def wall_heights(wall, columns, rows):
    """Heights between the posts, bilinear."""
    ridge = 1 - np.abs(np.asarray(columns) - wall.crest_column)
    return np.where(np.asarray(rows) >= 0, wall.crest_m * np.clip(ridge, 0, None), np.nan)


def wall_horizon(wall, place, bearing):
    """The greatest angle over a bearing, by samples along the geodesic."""
    # Beside the crest the near wall falls by 3.9 m in a metre.
    away = np.arange(*wall.reach_m, 0.02)
    lon, lat, _ = GEOD.fwd(
        np.full(away.shape, place[1]), np.full(away.shape, place[0]), np.full(away.shape, bearing), away
    )
    column, row = (np.asarray(lon) - wall.west) / wall.step, (wall.north - np.asarray(lat)) / wall.step
    inside = (column >= 0) & (column <= wall.columns - 1) & (row >= 0) & (row <= wall.rows - 1)
    rise = (wall_heights(wall, column, row) - away**2 / (2 * SIGHT_RADIUS_M) - EYE_M) / away
    return math.degrees(math.atan(rise[inside].max()))


def border_m(wall, place, bearing):
    """How far off the heights end to the west of a place, along a bearing."""
    away = np.arange(100.0, 20_000.0, 0.5)
    lon, lat, _ = GEOD.fwd(np.full(away.shape, place[1]), np.full(away.shape, place[0]), np.full(away.shape, bearing), away)
    south = wall.north - wall.step * (wall.rows - 1)
    outside = (np.asarray(lon) < wall.west) | (np.asarray(lat) < south)
    return float(away[outside][0])


def hill_m(height_deg):
    """How far off ground 2,000 m over the eye stands at a height, by the triangle of the earth's centre, the eye and the hill."""
    angles = np.linspace(1e-4, 0.03, 300_000)
    up = (SIGHT_RADIUS_M + HILL_M) * np.cos(angles) - SIGHT_RADIUS_M
    out = (SIGHT_RADIUS_M + HILL_M) * np.sin(angles)
    return float(out[np.degrees(np.arctan2(up, out)) < height_deg][0])


def wall_import(wall, name, area=None):
    """The record that brings the heights of a wall in."""
    text = f"ncols {wall.columns}\nnrows {wall.rows}\nxllcenter {wall.west}\n"
    text += f"yllcenter {round(wall.north - wall.step * (wall.rows - 1), 9)}\ncellsize {wall.step}\n"
    text += (" ".join(f"{value:.0f}" for value in wall_heights(wall, np.arange(wall.columns), 0)) + "\n") * wall.rows
    return {
        "do": "import",
        "at": "2026-07-01T08:00:00Z",
        "name": name,
        "base64": base64.b64encode(text.encode("ascii")).decode("ascii"),
        "grid": "EPSG:4326",
        **({"area_deg": area} if area else {}),
    }


def behind_wall(wall, place, sunset):
    """The last second before sunset at which the sun's upper edge shows over a wall, and where and how high it stands then."""

    def stand(second):
        azimuth, height = position(place, sunset - datetime.timedelta(seconds=second), (0, 1013.25, 15))
        return azimuth, height + 16 / 60

    def shows(second):
        azimuth, edge = stand(second)
        return edge >= max(wall_horizon(wall, place, azimuth), 0)

    minutes = next(minutes for minutes in range(240) if shows(60 * minutes))
    second = next(s for s in range(60 * minutes - 60, 60 * minutes + 1) if shows(s))
    return sunset - datetime.timedelta(seconds=second), *stand(second)


def to_minute(moment, zone, date=""):
    """A time of day to the nearest minute; with a date before it where that is asked."""
    return (moment + datetime.timedelta(seconds=30)).astimezone(zone).strftime(f"{date}%H:%M")


def wall_half_s(wall, place, passage):
    """Half-width at 95 % of the sun's passage behind a wall in the west, seconds: the farther of the times at which its edge stands off it by that.

    One sigma of the ground: the heights at eye and crest, and three tenths of how the rise changes from post to post by the root of the
    mean square of the posts within two steps of the crest; about the eye it does not change.
    """
    columns = np.arange(wall.crest_column - 2, wall.crest_column + 3)
    change = wall_heights(wall, columns - 1, 0) + wall_heights(wall, columns + 1, 0) - 2 * wall_heights(wall, columns, 0)
    sigma_m = math.hypot(math.sqrt(2) * HEIGHT_SPREAD_M, 0.3 * math.sqrt((change**2).mean()))
    crest = wall.west + wall.step * wall.crest_column
    across_m = GEOD.inv(place[1], place[0], crest, place[0])[2]
    minutes = range(-120, 121)
    limits = []
    for azimuth, edge in zip(*light_ground.edges(sys.modules[__name__], place, [passage + minute * MINUTE for minute in minutes])):
        away_m = across_m / -math.sin(math.radians(azimuth))
        limits.append((edge - wall_horizon(wall, place, azimuth)) / (LINE_95 * math.degrees(math.atan(sigma_m / away_m))))
    sides = (np.interp(side, np.array(limits)[:: -1], np.array(minutes)[:: -1]) for side in (1, -1))
    return 60 * max(abs(side) for side in sides)


def ground_cases(tally):
    """The sun behind a wall: the last time before sunset at which its upper edge shows over it, as far as heights are there."""
    place, at_text = (46.0, 13.5), "2026-03-20T12:00:00+01:00"
    at = datetime.datetime.fromisoformat(at_text)
    sunset = events(almanac.find_settings, place, at, at + DAY, HORIZONS["sunset"])[0]
    dark = events(almanac.find_settings, place, at, at + DAY, HORIZONS["civil"])[0]

    def told(heights, time, is_latest, note, **more):
        expect = {
            "behind_ground_unix_ms": unix_ms(time),
            "behind_ground_is_latest": is_latest,
            "ground_sunset_unix_ms": unix_ms(time),
            "ground_sunset_is_latest": is_latest,
            "ground_sunrise_is_earliest": True,
            "sunset_unix_ms": unix_ms(sunset),
            **more,
        }
        return {"before": [WALL_SHEET, heights], **case(light_record(place, at_text), at_answer(expect), note)}

    near, azimuth, edge = behind_wall(NEAR_WALL, place, sunset)
    known, enough = border_m(NEAR_WALL, place, azimuth), hill_m(edge)
    tally.check("the near wall's heights end near", known < 0.9 * enough, f"{known} m, {enough} m")
    reach = {"ground_known_to_m": known, "ground_enough_to_m": enough}
    heights = wall_import(NEAR_WALL, "wall.asc")
    half_s = wall_half_s(NEAR_WALL, place, near)
    reach |= {"behind_ground_95_s": half_s}
    cases = [told(heights, near, True, "a wall of 300 m in the west; farther ground could hide the sun before it", **reach)]
    cases[0]["expect"]["said.3"] = (
        f"By the heights there are the sun goes behind the ground {to_minute(near, at.tzinfo)},"
        f" \u00b1\u00a0{math.ceil(half_s / 60)}\u00a0min (95\u00a0%), at the latest, and sooner behind a rise within 100\u00a0m of you, trees or houses: the ground stands"
        f" {edge:.1f}\u00b0 high there, on {azimuth:.1f}\u00b0\u00a0true. The heights reach {known:.0f}\u00a0m that way; ground 2000\u00a0m higher"
        f" than you could hide the sun sooner from as far as {enough:.0f}\u00a0m. Bring in heights that reach farther: an import with the"
        " borders of a wider area (at the desk --area)."
    )
    far, azimuth, edge = behind_wall(FAR_WALL, place, sunset)
    known, enough = border_m(FAR_WALL, place, azimuth), hill_m(edge)
    tally.check("the far wall's heights reach far enough", known > 1.1 * enough, f"{known} m, {enough} m")
    short, whole = wall_import(FAR_WALL, "far.asc"), wall_import(FAR_WALL, "far.asc", [45.9, 13.3, 46.1, 13.6])
    level = light_ground.sea_sunset(sys.modules[__name__], place, sunset)
    cases.append(told(short, level, True, "a wall whose crest lies out of the heights that are kept around the sheet"))
    cases.append(told(whole, far, False, "the same wall, its heights kept", ground_known_to_m=known, ground_enough_to_m=enough))
    off = {"before": [WALL_SHEET, heights], **case(light_record((46.1, 13.5), at_text), {"answer.behind_ground_unix_ms": None}, "a place that the heights do not hold")}
    return [*cases, off, *strip_cases(heights, near, dark)]


def clock(moment):
    """A time of day as the strip tells it in UTC: to the nearest minute."""
    return to_minute(moment, datetime.UTC)


def strip_cases(heights, behind, dark):
    """The strip at the wall by the same horizon: until when the sun shows, how long to dark; then that it is behind."""
    cases = []
    for hour, note in ((11, "the sun shows for hours"), (16, "the sun is behind the wall, and not yet down")):
        now = datetime.datetime(2026, 3, 20, hour, tzinfo=datetime.UTC)
        left = int((dark - now).total_seconds()) // 60
        shows = now < behind
        expect = {
            "snapshot.strip.light": f"{left // 60}\u00a0h {left % 60}\u00a0min",
            "snapshot.strip.light_note": f"sun to {clock(behind)} at most, dark {clock(dark)}" if shows else f"sun behind hills, dark {clock(dark)}",
            "snapshot.light.behind_ground_unix_ms": unix_ms(behind) if shows else None,
            "snapshot.light.behind_ground_is_latest": True if shows else None,
            "snapshot.light.behind_ground_told": (
                f"the sun goes behind the ground by {clock(behind)}" if shows else "the sun is behind the ground"
            ),
            "snapshot.light.dark_unix_ms": unix_ms(dark),
        }
        record = {**heights, "at": now.isoformat().replace("+00:00", "Z")}
        cases.append({"before": [WALL_SHEET], **case(record, expect, f"the strip by the heights that come in: {note}")})
    return cases


# The date that a clock shows at the day's noon, where the clock and the longitude are a day apart, and where they are not.
NAMED_DAYS = (
    ((-21.0, -175.3), "2026-03-12T09:00:00+13:00", "UTC+13:00", "a clock a day ahead of its longitude"),
    ((1.9, -157.4), "2026-03-10T09:00:00+14:00", "UTC+14:00", "fourteen hours ahead of Greenwich"),
    ((-17.0, 179.9), "2026-03-10T09:00:00+12:00", "UTC+12:00", "beside the meridian of 180"),
    ((47.6, -122.2), "2026-03-10T20:00:00-07:00", "UTC-07:00", "an evening in the west"),
)


def named_day(tally, place, at_text, zone, note):
    """The sentence of a day, its times by the ephemeris and told to the nearest minute of the clock."""
    at = datetime.datetime.fromisoformat(at_text)
    found = hours(tally, note, place, at)

    def told(name):
        time = datetime.datetime.fromtimestamp(found[f"{name}_unix_ms"] / 1000, at.tzinfo)
        tally.check(f"{note}: {name} off the half minute", abs(time.second - 30) > 1, time)
        return to_minute(time, at.tzinfo)

    sentence = (
        f"{at.date()} by {zone}: sunrise {told('sunrise')}, sunset {told('day_sunset')}; civil twilight from {told('civil_dawn')}"
        f" to {told('civil_dusk')}; nautical from {told('nautical_dawn')} to {told('nautical_dusk')}."
    )
    return case(light_record(place, at_text), {"said.2": sentence}, note)


def bare_day(tally):
    """A date alone: the sun of the place's mean noon stands near the meridian, and the day is that one."""
    place, date = (47.6, -122.3), "2026-07-01"
    noon = mean_noon(place[1], datetime.datetime.fromisoformat(f"{date}T12:00:00-07:00"))
    azimuth, height = position(place, noon, (0, 1013.25, 15))
    tally.near("the sun at mean noon", azimuth, 180, 5)
    values = {"azimuth_deg_true": round(azimuth, 5), "elevation_deg": round(height, 5), "is_down": False, "is_dark": False}
    return case(light_record(place, date), at_answer(values), "a date alone stands for the noon of the place")


# The air's bend at the horizon differs by 0.16 degrees from day to day (one sigma).
BEND_95 = 1.96 * 0.16

TOUCHING = (
    # place, at, before noon and after it, note
    ((65.73, 0.0), "2026-06-21T12:00:00Z", (True, True), "the midnight sun that dips by less than the air's bend differs"),
    ((65.9, 25.0), "2026-06-21T12:00:00+03:00", (True, True), "one that stays up by less than that"),
    ((66.4, 25.0), "2026-06-21T12:00:00+03:00", (False, False), "well up at midnight: it touches nothing"),
    ((64.5, 25.0), "2026-06-21T12:00:00+03:00", (False, False), "it sets, if slowly"),
    ((67.39, 25.0), "2026-12-21T08:00:00+02:00", (True, True), "the noon of midwinter, when it hardly rises"),
    ((67.9, 25.0), "2026-12-21T08:00:00+02:00", (False, False), "it does not come up to the horizon by far"),
    ((-65.73, -150.0), "2026-12-21T12:00:00-10:00", (True, True), "in the south"),
)


def touching_case(tally, place, at_text, sides, note):
    """When the sun only touches the horizon: its highest or lowest stand, by the ephemeris, as near to the horizon as the air differs."""
    at = datetime.datetime.fromisoformat(at_text)
    noon = mean_noon(place[1], at)
    span = noon - 0.6 * DAY, noon + 0.6 * DAY
    passes = almanac.meridian_transits(SKY, SUN, wgs84.latlon(*place))
    found = [time.utc_datetime() for time in almanac.find_discrete(*(TIMES.from_datetime(end) for end in span), passes)[0]]
    stands = {turn: height_deg(place, turn) - HORIZONS["sunset"] for turn in found}
    for turn, stand in stands.items():
        tally.check(f"{note}: {turn} well on one side", abs(abs(stand) - BEND_95) > 0.02, f"{stand} degrees")
    near = [unix_ms(turn) for turn, stand in stands.items() if abs(stand) < BEND_95]
    tally.check(f"{note}: touches", bool(near) == any(sides), near)
    around = [time for time in near if time > unix_ms(at)]
    values = {
        "touches_unix_ms": around[0] if around else None,
        "touches_before_noon_unix_ms": near[0] if sides[0] else None,
        "touches_after_noon_unix_ms": near[-1] if sides[1] else None,
    }
    return case(light_record(place, at_text), at_answer(values), note)


def build_computed(tally):
    """The case file of days and places by the ephemeris."""
    cases = [day_case(tally, *row) for row in DAYS] + random_days(tally) + random_positions() + air_days() + ground_cases(tally)
    cases += light_ground.cases(tally, sys.modules[__name__])
    cases += [named_day(tally, *row) for row in NAMED_DAYS] + [bare_day(tally)]
    cases += [touching_case(tally, *row) for row in TOUCHING]
    time = (1_000, "a second: the algorithm is good to 0.0003 degrees, which is 0.1 s where the sun sets steeply and 0.5 s here")
    names = ("sunrise", "day_sunset", "civil_dawn", "civil_dusk", "nautical_dawn", "nautical_dusk", "sunset", "dark", "dawn")
    ground = (3_000, "the wall stands 20 degrees high; the line of the core leaves the bearing by 0.01 degrees there, which is 2 s")
    gap = (
        15_000,
        "the line of the core leaves the bearing by 4 km times the tangent of the latitude over the earth's diameter: 0.05 degrees at 70"
        " degrees, which the sun crosses in 12 s",
    )
    touch = (2_000, "the sun's highest and lowest stand is told by its passage of the meridian")
    tolerance, why = tolerances(
        **{f"{name}_unix_ms": time for name in names},
        behind_ground_unix_ms=ground,
        behind_ground_95_s=(60, "straight lines between whole minutes, and the spread of the air left out"),
        ground_sunset_unix_ms=ground,
        ground_sunrise_unix_ms=gap,
        **{f"ground_gaps.{index}.{name}_unix_ms": gap for index in range(2) for name in ("from", "to")},
        touches_unix_ms=touch,
        touches_before_noon_unix_ms=touch,
        touches_after_noon_unix_ms=touch,
        ground_known_to_m=(5, "the line of the core leaves the bearing by 0.01 degrees, 20 m aside at 20 km, and the border is met aslant"),
        ground_enough_to_m=(10, "0.01 degrees of height move the hill by so much"),
        azimuth_deg_true=(0.003, "0.0003 by the algorithm's own claim and 0.0006 seen, up to four times at 75 degrees up"),
        elevation_deg=(0.001, "0.0003 by the algorithm's own claim and 0.0006 seen against DE421"),
    )
    for name, reason in (("behind_ground", ground), ("dark", time)):
        tolerance[f"snapshot.light.{name}_unix_ms"], why[f"snapshot.light.{name}_unix_ms"] = reason
    return {
        "topic": "earth/sun",
        "about": "The sun's hours of a date and its place at an instant, in all zones and seasons, polar day and night.",
        "source": f"{SKY_SOURCE}; refraction: NREL/TP-560-34302, section 3.14.3",
        "made_by": "tests/references/light.py",
        "units": {
            "azimuth_deg_true": "degrees from true north",
            "elevation_deg": "degrees above the horizon, as seen through the air",
            "sunset_unix_ms": "milliseconds since 1970-01-01 UTC; the next one after `at`; dark_unix_ms likewise",
            "sunrise_unix_ms": "milliseconds since 1970-01-01 UTC, in the 24 h around the local mean noon of the date in"
            " the zone of `at` (in UTC: the date of the place's mean sun); likewise day_sunset and the twilights",
            "polar": "day or night when the sun neither rises nor sets in these 24 h; likewise civil_polar and nautical_polar"
            " for the sun 6 and 12 degrees down",
            "is_dark": "whether the sun stands more than 6 degrees down; is_down: whether its upper edge is below the horizon",
            "behind_ground_unix_ms": "milliseconds since 1970-01-01 UTC: the upper edge goes behind the heights of the sheet; the latest"
            " where ground 2000 m over the eye beyond their end could hide it",
            "ground_known_to_m": "metres to the end of the heights on the sun's bearing; ground_enough_to_m: to such ground as high as it",
            "touches_unix_ms": "milliseconds since 1970-01-01 UTC: the sun's highest or lowest stand, within 1.96 times 0.16 degrees of the"
            " horizon; likewise those before and after noon",
            "strip": "text; times of day in UTC, to the nearest minute",
            "ground_gaps": "milliseconds since 1970-01-01 UTC: when the ground hides the sun of the day between its rise and set, or of a day"
            " on which it stays up",
            "said": "text: the sentence of the day, by the clock of `at`",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": [],
    }


def build(tally):
    """Both case files of this script."""
    return [build_published(tally), build_computed(tally)]
