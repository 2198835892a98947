"""Places on grids: coordinates, convergence and scale by PROJ, references on which PROJ and GEOTRANS agree."""

import math
import warnings
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

import mgrs
import pyproj
from geographiclib.geodesic import Geodesic

PROJ_SOURCE = "pyproj 3.7.2 with PROJ 9.5.1 (MIT licence), no shift grids, no network"
GEOTRANS = mgrs.MGRS()
EDGE_M = 0.01

pyproj.network.set_network_enabled(False)


@dataclass
class OnGrid:
    """A place on a grid."""

    easting_m: float
    northing_m: float
    convergence_deg: float
    scale: float
    how: str = ""


def whole_text(numbers):
    """The numbers of a grid as a point: the nearest whole units."""
    return " ".join(str(math.floor(number + 0.5)) for number in map(float, numbers))


def square_text(numbers, digits, unit="m"):
    """The numbers of a grid with the square that the digits stand for, its middle and half of its side; exact decimals, cut towards minus infinity."""
    side = Decimal(10 ** (5 - digits // 2))
    if side == 1:
        return whole_text(numbers)
    cut = [(Decimal(number) / side).to_integral_value(ROUND_FLOOR) * side for number in numbers]
    return " ".join(str(int(number + side / 2)) for number in cut) + f" \u00b1{int(side / 2)}\u00a0{unit}"


def zone_of(lat, lon):
    """The UTM zone with the exceptions of Norway and Svalbard."""
    zone = math.floor((lon + 180) / 6) % 60 + 1
    if 56 <= lat < 64 and 3 <= lon < 12:
        return 32
    if lat >= 72 and 0 <= lon < 42:
        return 31 if lon < 9 else 33 if lon < 21 else 35 if lon < 33 else 37
    return zone


def is_polar(lat):
    """Whether a latitude belongs to UPS."""
    return lat < -80 or lat >= 84


def code_of(lat, lon):
    """The EPSG code of the UTM or UPS grid of a place."""
    if is_polar(lat):
        return "EPSG:5041" if lat > 0 else "EPSG:5042"
    return f"EPSG:{'326' if lat >= 0 else '327'}{zone_of(lat, lon):02d}"


def convergence_by_geodesic(forward, lat, lon):
    """Convergence without derivatives: the grid bearing of a true-north line of 1 km, and its sign reversed."""
    ends = [Geodesic.WGS84.Direct(lat, lon, azimuth, 500) for azimuth in (180, 0)]
    (e1, n1), (e2, n2) = (forward(end["lon2"], end["lat2"]) for end in ends)
    return -math.degrees(math.atan2(e2 - e1, n2 - n1))


def scale_by_geodesic(forward, lat, lon):
    """Grid distance per metre on the ellipsoid of WGS84, along a true-north line of 1 km."""
    ends = [Geodesic.WGS84.Direct(lat, lon, azimuth, 500) for azimuth in (180, 0)]
    (e1, n1), (e2, n2) = (forward(end["lon2"], end["lat2"]) for end in ends)
    return math.hypot(e2 - e1, n2 - n1) / 1000


def utm(tally, lat, lon):
    """A WGS84 place on its UTM or UPS grid by PROJ; the convergence is computed a second way."""
    projection = pyproj.Proj(code_of(lat, lon))
    easting, northing = projection(lon, lat)
    factors = projection.get_factors(lon, lat)
    by_geodesic = convergence_by_geodesic(projection, lat, lon)
    tally.near(f"convergence at {lat}, {lon}", factors.meridian_convergence, by_geodesic, 1e-5)
    return OnGrid(easting, northing, factors.meridian_convergence, factors.meridional_scale)


def named(tally, code, lat, lon):
    """A WGS84 place on a named grid by PROJ with the best shift that needs no grid file.

    Its convergence is the angle from WGS84 true north, taken through the whole shift: the declination is told from
    that north too. The projection alone, asked at WGS84 or at local coordinates, comes within 0.002 degrees.
    Its scale counts units of the grid per metre on WGS84; on the grid's own ellipsoid it differs by up to 4e-5.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        shift = pyproj.Transformer.from_crs("EPSG:4326", code, always_xy=True)
        easting, northing = shift.transform(lon, lat)
    operation = shift.get_last_used_operation()
    convergence = convergence_by_geodesic(shift.transform, lat, lon)
    projection = pyproj.Proj(code)
    local_lon, local_lat = projection(easting, northing, inverse=True)
    here, there = projection.get_factors(lon, lat), projection.get_factors(local_lon, local_lat)
    where = f"{code} at {lat}, {lon}"
    for datum, factors in (("WGS84", here), ("local", there)):
        tally.near(f"{where}, convergence at {datum} coordinates", factors.meridian_convergence, convergence, 0.002)
    scale = scale_by_geodesic(shift.transform, lat, lon)
    unit_m = pyproj.CRS(code).axis_info[0].unit_conversion_factor
    tally.near(f"{where}, ellipsoid in scale", scale * unit_m, there.meridional_scale, 4e-5)
    described = operation.description.replace("axis order change (2D)", "").strip(" +")
    how = f"{described}; PROJ states {operation.accuracy:g} m"
    return OnGrid(easting, northing, convergence, scale, how)


def letters(lat, lon, easting, northing):
    """An MGRS reference at 1 m spelt out from UTM coordinates, digits cut off."""
    zone = zone_of(lat, lon)
    band = "CDEFGHJKLMNPQRSTUVWX"[min(int((lat + 80) // 8), 19)]
    column = ("ABCDEFGH", "JKLMNPQR", "STUVWXYZ")[(zone - 1) % 3][int(easting // 100_000) - 1]
    shift = 5 if zone % 2 == 0 else 0
    row = "ABCDEFGHJKLMNPQRSTUV"[(int(northing // 100_000) + shift) % 20]
    return f"{zone:02d}{band}{column}{row}{int(easting % 100_000):05d}{int(northing % 100_000):05d}"


def degrees_text(lat, lon):
    """A place as a person types it: plain decimals, no exponent."""
    return ", ".join(f"{value:.9f}".rstrip("0").rstrip(".") for value in (lat, lon))


def near_metre_edge(place):
    """Whether a coordinate lies so near a whole metre that the last digit hangs on rounding."""
    return any(abs(value - round(value)) < EDGE_M for value in (place.easting_m, place.northing_m))


def reference(tally, lat, lon, place):
    """The MGRS reference at 1 m on which our spelling of PROJ's coordinates and GEOTRANS agree."""
    theirs = GEOTRANS.toMGRS(lat, lon, MGRSPrecision=5)
    if is_polar(lat):
        digits = f"{int(place.easting_m % 100_000):05d}{int(place.northing_m % 100_000):05d}"
        tally.check(f"UPS digits at {lat}, {lon}", theirs.endswith(digits), f"{theirs} and {digits}")
    else:
        ours = letters(lat, lon, place.easting_m, place.northing_m)
        tally.check(f"MGRS at {lat}, {lon}", theirs == ours, f"{theirs} and {ours}")
    return theirs


def safe_reference(tally, lat, lon, place):
    """The reference at 1 m, or None where its last digit hangs on rounding."""
    return None if near_metre_edge(place) else reference(tally, lat, lon, place)


UNITS = {
    "lat_deg": "degrees, WGS84, north positive",
    "lon_deg": "degrees, WGS84, east positive",
    "easting_m": "metres",
    "northing_m": "metres",
    "convergence_deg": "degrees, positive where grid north lies east of true north",
    "scale": "grid distance / distance on the ellipsoid of WGS84, at the point",
    "square_m": "metres, the side of the square that was read; 0 for a place in degrees",
}


def grid_expect(place, lat, lon, square_m, mgrs_text):
    """What a place record must answer.

    The reference is left out where it hangs on rounding, and a longitude of 180, which may come back as -180.
    """
    expect = {
        "answer.lat_deg": lat,
        **({} if abs(lon) == 180 else {"answer.lon_deg": lon}),
        "answer.easting_m": round(place.easting_m, 3),
        "answer.northing_m": round(place.northing_m, 3),
        "answer.convergence_deg": round(place.convergence_deg, 5) + 0.0,
        "answer.scale": round(place.scale, 7),
        "answer.square_m": square_m,
    }
    return {**expect, **({"answer.mgrs": mgrs_text} if mgrs_text else {})}
