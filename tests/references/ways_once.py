"""sheet/ways_once: lines that come over their own ground again, and lines of one file with ground in common."""

import base64
import json
import math

import pyproj

from casefile import case, numbered

AT = "2026-07-01T09:00:00Z"
GEOD = pyproj.Geod(ellps="WGS84")
ORIGIN = (13.0, 46.0)


def degrees(place):
    """Longitude and latitude of a place so many metres east and north of the origin, along geodesics, to nine decimals."""
    east, north = place
    azimuth, distance = math.degrees(math.atan2(east, north)), math.hypot(east, north)
    lon, lat, _ = GEOD.fwd(*ORIGIN, azimuth, distance)
    return round(lon, 9), round(lat, 9)


def length_m(places):
    """Metres along geodesics."""
    return GEOD.line_length(*zip(*(degrees(place) for place in places)))


def tens(places):
    """The same in tens, as it is told."""
    return f"{10 * round(length_m(places) / 10)}\u00a0m"


def gpx(*tracks):
    """A file of recorded tracks, each a name and its places."""
    point = lambda place: '<trkpt lat="{1:.9f}" lon="{0:.9f}"/>'.format(*degrees(place))
    track = lambda name, places: f"<trk><name>{name}</name><trkseg>{''.join(map(point, places))}</trkseg></trk>"
    return "walk.gpx", '<gpx version="1.1">' + "".join(track(*one) for one in tracks) + "</gpx>"


def kml(name, places):
    """A file of a drawn line."""
    text = " ".join("{0:.9f},{1:.9f}".format(*degrees(place)) for place in places)
    return "drawn.kml", f"<kml><Placemark><name>{name}</name><LineString><coordinates>{text}</coordinates></LineString></Placemark></kml>"


def geojson(*lines):
    """A file of drawn lines, each its properties and its places."""
    feature = lambda properties, places: {"type": "Feature", "properties": properties,
                                          "geometry": {"type": "LineString", "coordinates": [degrees(place) for place in places]}}
    return "net.geojson", json.dumps({"type": "FeatureCollection", "features": [feature(*one) for one in lines]})


def told(file, ways, note, said=None):
    """A file and the ways that are left of it, each a name and its places; `said` is the second sentence told of it."""
    name, text = file
    record = {"do": "import", "at": AT, "name": name, "base64": base64.b64encode(text.encode()).decode()}
    expect = {"answer.lines": len(ways), f"snapshot.sheet.lines.{len(ways)}": None}
    for number, (way, places) in enumerate(ways):
        expect |= {f"snapshot.sheet.lines.{number}.name": way, f"snapshot.sheet.lines.{number}.length_m": length_m(places)}
    if said:
        expect["said.1"] = said
    return case(record, expect, note)


def by_hand(record, ways, note):
    """A sheet that is given or typed, and the ways that are on it."""
    expect = {f"snapshot.sheet.lines.{len(ways)}": None}
    for number, (way, places) in enumerate(ways):
        expect |= {f"snapshot.sheet.lines.{number}.name": way, f"snapshot.sheet.lines.{number}.length_m": length_m(places)}
    return case({"at": AT, **record}, expect, note)


def typed(places):
    """Places as they are typed."""
    return ["{1:.9f} N {0:.9f} E".format(*degrees(place)) for place in places]


def given():
    """The same rule for sheets that are given as a file, typed, or added to."""
    spur = [(0, 0), (500, 0), (500, 300), (500, 0), (1200, 0)]
    there = [(0, 0), (300, 100), (700, 0)]
    back = there + there[::-1][1:]
    ways = [("Velm Road", [spur[0], spur[1], spur[4]]), ("Velm Road 2", spur[1:3])]
    toml = 'name = "Velm"\n[[line]]\nname = "Velm Road"\npoints = [' + ", ".join(f'"{place}"' for place in typed(spur)) + "]\n"
    text = geojson(({"name": "Velm Road", "kind": "road"}, back))[1]
    line = {"name": "Velm Road", "kind": "road", "points": typed(back)}
    return [
        by_hand({"do": "carry", "format": "toml", "text": toml}, ways, "a spur in a sheet typed as a file"),
        by_hand({"do": "carry", "format": "geojson", "text": text}, [("Velm Road", there)], "there and back in a sheet given as GeoJSON"),
        by_hand({"do": "sheet", "name": "Velm", "lines": [line]}, [("Velm Road", there)], "there and back, typed"),
    ]


def walked(metres):
    """What is told of one line that was walked again for so many metres."""
    return ("One line comes over its own ground again, there and back or round after round: that is one way, taken once, and distances along "
            f"it count it once. So much of the length was walked again: {metres}.")


def recorded(steps, walk):
    """Places every 10 m along a bend, off by some metres that differ from walk to walk."""
    wave = lambda along, length, shift: 2.5 * math.sin(along / length + 2.1 * walk + shift)
    place = lambda along: (along + wave(along, 37.0, 0.3), 150.0 * math.sin(along / 400.0) + wave(along, 61.0, walk) + wave(along, 23.0, 1.0))
    return [place(10.0 * step) for step in steps]


def own_ground():
    """One line by itself."""
    there = [(0, 0), (300, 100), (700, 0)]
    spur = [(0, 0), (500, 0), (500, 300), (500, 0), (1200, 0)]
    ring = [(0, 0), (400, 0), (400, 400), (0, 400), (0, 0)]
    stick = [(0, 0), (600, 0), (900, 300), (1200, 0), (900, -300), (600, 0)]
    zigzag = [(0 if leg % 2 == 0 else 60, 4 * leg) for leg in range(12)]
    street = [(0, 0), (500, 0), (500, 8), (0, 8)]
    back = there[::-1][1:]
    walk = recorded(range(201), 0)
    cases = [
        told(gpx(("Hike", there + back)), [("Hike", there)], "a track there and back over the very same points", walked(f"Hike ({tens(there)})")),
        told(kml("Hike", there + back), [("Hike", there)], "drawn there and back", walked(f"Hike ({tens(there)})")),
        told(gpx(("Hike", [(0, 0), (1000, 0), (400, 0)])), [("Hike", [(0, 0), (1000, 0)])], "not all the way back"),
        told(gpx(("Hike", spur)), [("Hike", [spur[0], spur[1], spur[4]]), ("Hike 2", spur[1:3])], "a spur walked in and out is a line beside the way that goes on"),
        told(gpx(("Round", ring)), [("Round", ring)], "a loop stays a loop"),
        told(kml("Round", ring + ring[1:] + ring[1:3]), [("Round", ring)], "two rounds and a half are one round"),
        told(gpx(("Hike", stick + [(0, 0)])), [("Hike", stick)], "a stick with a loop: the stick once and the loop"),
        told(gpx(("Steep", zigzag)), [("Steep", zigzag)], "the legs of a zigzag, 4 to 8 m apart, are the way"),
        told(geojson(({"name": "Close", "kind": "road"}, street)), [("Close", street)], "the two sides of a drawn street, 8 m apart, are two"),
    ]
    noisy = told(gpx(("Hike", walk + recorded(range(200, -1, -1), 1))), [("Hike", walk)], "recorded there and back, each way with errors of its own")
    return cases, [noisy]


def in_common():
    """Lines of one file over the same points."""
    road = [(0, 0), (300, 800), (0, 1500), (700, 2200)]
    named = lambda name: {**({"name": name} if name else {}), "kind": "road"}
    again = "One line has a stretch that another of its name has, or one with a name where it has none, point by point: that ground is taken once: Rata Road."
    both = ("Lines of two names that run over the same ground, point by point, stay whole under both: "
            f"Rata Road / Route 6 ({tens(road[1:])}). Who stands there stands on both: name one of them when you take a fix.")
    return [
        told(geojson((named("Rata Road"), road), (named("Rata Road"), [road[1], road[0], (0, -600)])), [("Rata Road", [(0, -600), *road])],
             "two records of one name share a stretch", again),
        told(geojson((named(""), road[1:3]), (named("Rata Road"), road)), [("Rata Road", road)], "one without a name is a part of one with a name"),
        told(geojson((named("Rata Road"), road), (named("Route 6"), road[1:])), [("Rata Road", road), ("Route 6", road[1:])],
             "a route of another name stays whole, and it is told", both),
    ]


def build(tally):
    """The one case file."""
    alone, noisy = own_ground()
    tally.near("the origin's metres", length_m([(0, 0), (1000, 0)]), 1000.0, 1e-3)
    cases = [*alone, *in_common(), *given()]
    exact = sorted({path for item in cases for path, value in item["expect"].items() if path.endswith(".length_m")})
    # The way back's own turn may be told instead of that of the way there, by one step of the recording on either side.
    for item in noisy:
        item["expect"] = {path: value for path, value in item["expect"].items() if not path.endswith(".length_m")}
    return [{
        "topic": "sheet/ways_once", "about": "A way is on the sheet once, however often the lines of a file come over it.",
        "source": "constructed by hand; lengths by pyproj 3.7.2 (MIT licence)", "made_by": "tests/references/ways_once.py",
        "units": {"_m": "metres along geodesics on WGS 84"},
        "tolerance": {**{path: 0.05 for path in exact}, "answer.lines": 0},
        "tolerance_why": {**{path: "the plane of the sheet" for path in exact}, "answer.lines": "a whole number"},
        "cases": numbered([*cases, *noisy]), "invalid": [],
    }]
