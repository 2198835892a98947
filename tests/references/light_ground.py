"""Cases of earth/sun over ground that hides the sun more than once, and from a summit over the sea.

The ground is looked at densely along geodesics over the same bilinear heights (NumPy, pyproj), the sun stands where skyfield and DE421
have it; the air bends it as NREL/TP-560-34302 has it, and below the height where that formula is greatest by its greatest value.
"""

import base64
import dataclasses
import datetime

import numpy as np

from casefile import case

EYE_M = 1.7
RADIUS_M = 6_371_008.8
# 0.13 of the earth's curve is taken back by the air.
DROP = 0.87 / (2 * RADIUS_M)
# The bearing by which the core aims 4 km off, and to where the core counts ground as too near: one step of the posts.
AIM_M = 4_000.0
STEP_S = 60


@dataclasses.dataclass(frozen=True)
class Cones:
    """Cones on a level: heights of posts on degrees, the posts' north-western corner."""

    west: float
    north: float
    step: float
    columns: int
    rows: int
    level_m: float
    cones: tuple  # of (latitude, longitude, metres over the level, radius in metres)

    def heights(self, geod):
        """Whole metres, row by row from the north-west."""
        column, row = np.meshgrid(np.arange(self.columns), np.arange(self.rows))
        lon, lat = self.west + self.step * column, self.north - self.step * row
        z = np.full(lon.shape, self.level_m)
        for peak_lat, peak_lon, high_m, radius_m in self.cones:
            away = geod.inv(lon, lat, np.full(lon.shape, peak_lon), np.full(lon.shape, peak_lat))[2]
            z = np.maximum(z, self.level_m + high_m * (1 - away / radius_m))
        return np.round(z)

    def brought(self, geod):
        """The record that brings these heights in, all of them."""
        south, east = self.north - self.step * (self.rows - 1), self.west + self.step * (self.columns - 1)
        text = f"ncols {self.columns}\nnrows {self.rows}\nxllcenter {self.west}\nyllcenter {round(south, 9)}\ncellsize {self.step}\n"
        text += "".join(" ".join(f"{value:.0f}" for value in row) + "\n" for row in self.heights(geod))
        return {
            "do": "import",
            "at": "2026-07-01T08:00:00Z",
            "name": "cones.asc",
            "base64": base64.b64encode(text.encode("ascii")).decode("ascii"),
            "grid": "EPSG:4326",
            "area_deg": [round(south - 0.01, 6), self.west - 0.01, self.north + 0.01, round(east + 0.01, 6)],
        }


def edges(light, place, moments, height_m=0.0):
    """Azimuths and heights of the sun's upper edge through the air, by NREL/TP-560-34302, section 3.14.3; ISO 2533 from a height on."""
    height, azimuth, _ = light.observer(*place).at(light.TIMES.from_datetimes(moments)).observe(light.SUN).apparent().altaz()
    edge = height.degrees + 16 / 60
    bent = np.maximum(edge, -1.9)
    air = (1 - 2.25577e-5 * height_m) ** 5.25588 * 288.15 / (288.15 - 0.0065 * height_m)
    lifted = air * 1013.25 / 1010 * 283 / 288 * 1.02 / (60 * np.tan(np.radians(bent + 10.3 / (bent + 5.11))))
    return azimuth.degrees, edge + lifted


def sea_sunset(light, place, sunset):
    """When the upper edge goes behind the sea's horizon from an eye on the level: some seconds after it set on the level."""
    moments = [sunset + datetime.timedelta(seconds=second) for second in range(-60, 180)]
    dip = np.degrees(np.arctan(-2 * np.sqrt(EYE_M * DROP)))
    return next(moment for moment, edge in zip(moments, edges(light, place, moments)[1]) if edge < dip)


class Look:
    """What is seen of the sun from a place over the ground."""

    def __init__(self, cones, place, light):
        self.cones, self.place, self.light = cones, place, light
        self.z = cones.heights(light.GEOD)
        self.eye_m = float(self.at(*self.post(*place))) + EYE_M

    def post(self, lat, lon):
        """Column and row of a place."""
        return (np.asarray(lon) - self.cones.west) / self.cones.step, (self.cones.north - np.asarray(lat)) / self.cones.step

    def at(self, column, row):
        """Bilinear heights."""
        left = np.clip(np.floor(column).astype(int), 0, self.cones.columns - 2)
        top = np.clip(np.floor(row).astype(int), 0, self.cones.rows - 2)
        east, south = column - left, row - top
        upper = self.z[top, left] * (1 - east) + self.z[top, left + 1] * east
        lower = self.z[top + 1, left] * (1 - east) + self.z[top + 1, left + 1] * east
        return upper * (1 - south) + lower * south

    def horizon_deg(self, bearing, fine):
        """The greatest angle over a bearing, never under that of the sea's horizon."""
        away = np.concatenate([[AIM_M], np.arange(20.0, 20_000.0, 1.0 if fine else 8.0)])
        full = lambda value: np.full(away.shape, value)
        lon, lat, _ = self.light.GEOD.fwd(full(self.place[1]), full(self.place[0]), full(bearing), away)
        column, row = self.post(lat, lon)
        own = self.post(*self.place)
        step_m = AIM_M / np.hypot(column[0] - own[0], row[0] - own[1])
        inside = (column >= 0) & (column <= self.cones.columns - 1) & (row >= 0) & (row <= self.cones.rows - 1)
        end = 1 + int(np.argmin(inside[1:])) if not inside[1:].all() else len(away)
        away, column, row = away[1:end], column[1:end], row[1:end]
        rise = (self.at(column, row) - DROP * away**2 - self.eye_m) / away
        dip = -2 * np.sqrt(self.eye_m * DROP)
        return float(np.degrees(np.arctan(max(dip, rise[away >= step_m].max()))))

    def edges(self, moments):
        """Azimuths and heights of the sun's upper edge."""
        return edges(self.light, self.place, moments, self.eye_m - EYE_M)

    def shows(self, moments, fine=False):
        """Whether the upper edge shows at each moment."""
        azimuths, edges = self.edges(moments)
        return [edge > -4 and edge >= self.horizon_deg(azimuth, fine) for azimuth, edge in zip(azimuths, edges)]

    def changes(self, start, end):
        """When it comes (True) and goes (False) in a span, to the second, and whether it shows at the beginning."""
        count = int((end - start).total_seconds()) // STEP_S
        moments = [start + datetime.timedelta(seconds=STEP_S * step) for step in range(count + 1)]
        states = self.shows(moments)
        found = []
        for before, after, was, is_now in zip(moments, moments[1:], states, states[1:]):
            while was != is_now and (after - before).total_seconds() > 0.5:
                middle = before + (after - before) / 2
                if self.shows([middle], fine=True)[0] == was:
                    before = middle
                else:
                    after = middle
            if was != is_now:
                found.append((after, is_now))
        return found, states[0]


# A peak in the south-west, one in the south-east and one in the north of a place beyond the polar circle.
NORTHERN = Cones(18.945, 69.68, 0.002, 131, 31, 20.0, ((69.6370, 19.0380, 700.0, 900.0), (69.6420, 19.1381, 600.0, 900.0), (69.6680, 19.0750, 500.0, 1200.0)))
# A mountain of 900 m in the sea.
ISLAND = Cones(-16.06, 28.14, 0.002, 61, 61, 0.0, ((28.0800, -16.0000, 900.0, 3000.0),))


def sheet(place):
    """A sheet with a road at a place."""
    lat, lon = place
    points = [f"{lat:.4f}, {lon - 0.003:.4f}", f"{lat:.4f}, {lon + 0.003:.4f}"]
    text = f'name = "Cones"\n[[line]]\nname = "Road"\npoints = ["{points[0]}", "{points[1]}"]\n'
    return {"do": "carry", "at": "2026-07-01T08:00:00Z", "format": "toml", "text": text}


def noon_of(light, place, at):
    """The sun's highest stand of the day."""
    mean = light.mean_noon(place[1], at)
    hour = datetime.timedelta(hours=1)
    passes = light.almanac.meridian_transits(light.SKY, light.SUN, light.wgs84.latlon(*place))
    times, upper = light.almanac.find_discrete(*(light.TIMES.from_datetime(mean + side * hour) for side in (-1, 1)), passes)
    return next(time.utc_datetime() for time, is_upper in zip(times, upper) if is_upper)


def gaps_of(changes, shows, up_at_ends):
    """Beginning and end of each gap."""
    gaps, going = [], None
    for time, comes in changes:
        if comes and (going is not None or (not gaps and not shows and up_at_ends)):
            gaps.append((going, time))
            going = None
        elif not comes:
            going = time
    if going is not None and up_at_ends:
        gaps.append((going, None))
    return gaps


def gap_told(gap, tell):
    """One gap in words; every horizon here ends near, so that ground beyond could hide the sun longer."""
    goes, comes = (time and tell(time) for time in gap)
    ends = f"from {goes} on" if comes is None else f"until {comes}" if goes is None else f"{goes} to {comes}"
    return f"at least {ends}"


def expected(tally, light, look, at, note):
    """What the day and the time from then on have."""
    half = light.DAY / 2
    noon = noon_of(light, look.place, at)
    changes, shows = look.changes(noon - half, noon + half)
    rise, fall = (light.first(find, look.place, noon - half, noon + half, light.HORIZONS["sunset"]) for find in (light.almanac.find_risings, light.almanac.find_settings))
    stays = rise is None and fall is None
    gaps = gaps_of(changes, shows, stays)
    tell = lambda time: light.to_minute(time, at.tzinfo, "" if time.astimezone(at.tzinfo).date() == at.date() else "%Y-%m-%d\u00a0")
    told = " and ".join(gap_told(gap, tell) for gap in gaps)
    ends = [time for time, _ in changes]
    values = {}
    for index, gap in enumerate([*gaps, (None, None)]):
        for name, time in zip(("from", "to"), gap):
            values[f"ground_gaps.{index}.{name}_unix_ms"] = light.unix_ms(time) if time else None
    if not stays:
        values |= {"ground_sunrise_unix_ms": light.unix_ms(ends[0]), "ground_sunset_unix_ms": light.unix_ms(ends[-1])}
    sentence = f"{at.date()} over the ground: "
    if stays:
        sentence += f"the sun is hidden {told}."
    else:
        sentence += f"sun from {tell(ends[0])} at the earliest, until {tell(ends[-1])} at the latest{', hidden ' + told if gaps else ''}."
    seconds = [time.second for time in ends]
    return values, sentence, seconds, gaps, ends


def evening_case(light, look, sunset):
    """Two minutes after the level sunset the sun still shows on the summit; a height that is typed gives way to that of the sheet."""
    moment = lambda ms: datetime.datetime.fromtimestamp(ms / 1000, datetime.UTC)
    now = moment(sunset).replace(microsecond=0) + datetime.timedelta(minutes=2)
    rise, dark = (moment(light.first(find, look.place, now, now + light.DAY, light.HORIZONS[name])) for find, name in ((light.almanac.find_risings, "sunset"), (light.almanac.find_settings, "civil")))
    tell = lambda time: light.to_minute(time, datetime.UTC, "" if time.date() == now.date() else "%Y-%m-%d\u00a0")
    sentence = f"The sun is below the level, but by the heights of the sheet it still shows here; over the level it rises {tell(rise)};"
    sentence += f" dark for walking {tell(dark)} (end of civil twilight); by UTC to the nearest minute, and on a level horizon."
    height = f"Your height of 100\u00a0m is not used: by the heights of the sheet this place lies {look.eye_m - EYE_M:.0f}\u00a0m high, and the sun is reckoned from there."
    record = {**light.light_record(look.place, now.isoformat()), "height_m": 100}
    return case(record, {"said.0": sentence, "said.3": height}, "on a summit after the level sunset, with a height of its own")


def cases(tally, light):
    """The cases, and the ways of their numbers."""
    made = []
    for cones, place, at_text, note, least in (
        (NORTHERN, (69.6500, 19.0750), "2026-09-16T12:00:00+02:00", "a peak in the south-west hides the sun of the afternoon, one in the south-east that of the morning", 2),
        (NORTHERN, (69.6500, 19.0750), "2026-06-24T12:00:00+02:00", "the midnight sun behind a peak in the north", 1),
        (ISLAND, (28.0801, -15.9999), "2026-11-25T10:00:00+00:00", "from a summit over the sea, some metres beside its post: the horizon lies below the level", 0),
    ):
        look, at = Look(cones, place, light), datetime.datetime.fromisoformat(at_text)
        values, sentence, seconds, gaps, ends = expected(tally, light, look, at, note)
        tally.check(f"{note}: gaps", len(gaps) >= least, gaps)
        tally.check(f"{note}: off the half minute", all(abs(second - 30) > 1 for second in seconds), seconds)
        sunset = light.first(light.almanac.find_settings, place, at, at + light.DAY, light.HORIZONS["sunset"])
        if cones is ISLAND:
            tally.check(f"{note}: later than on the level", light.unix_ms(ends[-1]) - sunset > 240_000, ends[-1])
        expect = light.at_answer(values)
        # Behind the light, the sun and the level's day comes what is left of this one: a sentence for the sunset and one for gaps.
        to_come = [gap for gap in gaps if gap[1] is None or gap[1] > at]
        line = 4 + ("ground_sunset_unix_ms" in values and bool(to_come))
        made.append({"before": [sheet(place), cones.brought(light.GEOD)], **case(light.light_record(place, at_text), expect, note)})
        made[-1]["expect"][f"said.{line}"] = sentence
        if cones is ISLAND:
            night = at.replace(hour=0, minute=30)
            note = "in the night before it, when the place's own sun is still in the day before: the coming day is told too"
            made.append({"before": made[-1]["before"], **case(light.light_record(place, night.isoformat()), {"said.4": sentence}, note)})
            made.append({"before": made[-1]["before"], **evening_case(light, look, sunset)})
        if line == 5:
            tell = lambda time: light.to_minute(time, at.tzinfo)
            told = " and ".join(gap_told(gap, tell) for gap in to_come)
            made[-1]["expect"]["said.4"] = f"Before that the ground hides the sun {told}."
    return made
