"""Hold the reading of heights against GDAL: every post equal, every corner and step equal, places at the same post.

    python tests/rasters/check.py READER     READER: the program target/debug/heights

GDAL's own programs write the files (gdal_translate, gdalwarp), read them back (gdal_translate to plain 64-bit numbers) and
place them (gdalinfo, gdaltransform). Ends with PASSED and the counts, or with exit code 1.
"""

import json
import random
import subprocess
import sys
from pathlib import Path

import numpy as np

OUT = Path(__file__).resolve().parents[1] / "out" / "rasters"
DATA, MADE = OUT / "data", OUT / "made"
# A place may miss the post it was asked of by this part of a post: two versions of PROJ, one datum shift.
SAME_PLACE = {"EPSG:21781": 0.15}
SAME_PLACE_ELSE = 1e-4
WHOLE = ("Byte", "Int16", "UInt16", "Int32", "UInt32")


class Reader:
    """The program under test, and what was counted."""

    def __init__(self, program):
        self.process = subprocess.Popen([program], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        self.posts = self.files = self.places = self.refused = 0
        self.failures = []
        self.worst_place = 0.0

    def ask(self, **request):
        """The reply to one request."""
        self.process.stdin.write(json.dumps(request) + "\n")
        self.process.stdin.flush()
        return json.loads(self.process.stdout.readline())

    def check(self, ok, name, detail):
        """Note what does not hold."""
        if not ok:
            self.failures.append(f"{name}: {detail}")
            print(f"FAILED {name}: {detail}")


def run(*command, text=None):
    """A GDAL program's output."""
    done = subprocess.run(list(map(str, command)), input=text, capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(f"{' '.join(map(str, command))}: {done.stderr}")
    return done.stdout


def translate(source, target, *options):
    """One file made of another."""
    run("gdal_translate", "-q", *options, source, target)
    Path(f"{target}.aux.xml").unlink(missing_ok=True)
    return target


def as_gdal_has_it(path):
    """The heights as 64-bit numbers, NaN for none, and gdalinfo's answer."""
    info = json.loads(run("gdalinfo", "-json", path))
    plain = MADE / "plain.img"
    translate(path, plain, "-of", "ENVI", "-ot", "Float64")
    columns, rows = info["size"]
    values = np.fromfile(plain, "<f8").reshape(rows, columns)
    void = info["bands"][0].get("noDataValue")
    if void is not None and void != "NaN":
        void = float(void)
        values[(values == void) | (values.astype(np.float32) == np.float32(void))] = np.nan
    return values, info


def compare(reader, path, grid=None, bounds=None):
    """One file: layout, posts, and places by gdaltransform."""
    name = path.name
    values, info = as_gdal_has_it(path)
    rows, columns = values.shape
    west, east_step, _, north, _, south_step = info["geoTransform"]
    out = MADE / "ours.f32"
    dice = random.Random(name)
    asked = [(dice.randrange(columns), dice.randrange(rows)) for _ in range(25)]
    named = grid if grid and grid != "degrees" else None
    source = ["-s_srs", named] if named else ["-s_srs", "EPSG:4326"] if grid else []
    lines = "\n".join(f"{c + 0.5} {r + 0.5}" for c, r in asked)
    # Pixels to the file's own coordinates, then to degrees of WGS 84, longitude first.
    own = run("gdaltransform", "-output_xy", path, text=lines) if named else None
    wgs = (run("gdaltransform", "-output_xy", *source, "-t_srs", "EPSG:4326", text=own) if own
           else run("gdaltransform", "-output_xy", *(["-t_srs", "EPSG:4326"] if not grid else []), path, text=lines))
    places = [list(map(float, line.split()))[::-1] for line in wgs.splitlines()]
    ours = reader.ask(file=str(path), grid=grid, out=str(out), places=places, bounds=bounds)
    if "refused" in ours:
        reader.check(False, name, ours["sentence"])
        return
    reader.check((ours["columns"], ours["rows"]) == (columns, rows), name, f"size {ours['columns']}x{ours['rows']}")
    for key, wanted in (("west", west + east_step / 2), ("north", north + south_step / 2), ("step_east", east_step),
                        ("step_south", -south_step)):
        reader.check(abs(ours[key] - wanted) <= 1e-12 * max(abs(wanted), 1000 * abs(east_step)), name, f"{key} {ours[key]} not {wanted}")
    mine = np.fromfile(out, "<f4")
    reader.check(mine.size == values.size and np.array_equal(mine.reshape(values.shape), values.astype(np.float32), equal_nan=True),
                 name, "posts differ")
    for (column, row), (c, r) in zip(asked, ours["posts"]):
        off = max(abs(c - column), abs(r - row))
        reader.worst_place = max(reader.worst_place, off)
        reader.check(off <= SAME_PLACE.get(ours["lattice"], SAME_PLACE_ELSE), name, f"post {column}, {row} is found at {c}, {r}")
    reader.posts += values.size
    reader.places += len(asked)
    reader.files += 1
    return ours


def refuse(reader, path, code, **more):
    """One file that must be refused with this code."""
    ours = reader.ask(file=str(path), **more)
    reader.check(ours.get("refused") == code, path.name, ours)
    reader.refused += 1


def sources():
    """Three grids to be written in every way: whole numbers, decimals, voids, a projected one."""
    data = np.load(DATA / "jacksboro_fault_dem.npz")
    heights = data["elevation"].astype("<i2")
    rows, columns = heights.shape
    raw = MADE / "jacksboro.img"
    heights.tofile(raw)
    Path(f"{raw.with_suffix('.hdr')}").write_text(
        f"ENVI\nsamples = {columns}\nlines = {rows}\nbands = 1\ndata type = 2\ninterleave = bsq\nbyte order = 0\n")
    step = 1 / 1200
    corner = ["-a_ullr", -84.41375, 36.44625, -84.41375 + columns * step, 36.44625 - rows * step]
    plain = translate(raw, MADE / "plain.tif", "-a_srs", "EPSG:4326", *corner)
    utm = MADE / "utm.tif"
    run("gdalwarp", "-q", "-overwrite", "-t_srs", "EPSG:32616", "-tr", 80, 90, "-ot", "Float32", "-dstnodata", "-32768", "-r", "cubic", plain, utm)
    return plain, utm


def variants():
    """Options of gdal_translate and a name for each way of writing."""
    packings = {"Int16": (1, 2), "UInt16": (1, 2), "Int32": (1, 2), "Float32": (1, 2, 3), "Float64": (1, 2, 3), "UInt32": (1, 2)}
    for kind, predictors in packings.items():
        for tiled in ("NO", "YES"):
            yield f"{kind}-none-{tiled}", ["-ot", kind, "-co", f"TILED={tiled}"]
            yield f"{kind}-packbits-{tiled}", ["-ot", kind, "-co", f"TILED={tiled}", "-co", "COMPRESS=PACKBITS"]
            for packing in ("DEFLATE", "LZW"):
                for predictor in predictors:
                    yield f"{kind}-{packing}-{predictor}-{tiled}", ["-ot", kind, "-co", f"TILED={tiled}", "-co", f"COMPRESS={packing}",
                                                                    "-co", f"PREDICTOR={predictor}"]
    for kind in ("Int16", "Float32", "Float64"):
        for predictor in (1, 2):
            yield f"{kind}-big-endian-{predictor}", ["-ot", kind, "-co", "ENDIANNESS=BIG", "-co", "COMPRESS=LZW", "-co", f"PREDICTOR={predictor}"]
        yield f"{kind}-big-endian-plain", ["-ot", kind, "-co", "ENDIANNESS=BIG"]
        yield f"{kind}-bigtiff", ["-ot", kind, "-co", "BIGTIFF=YES", "-co", "COMPRESS=DEFLATE"]
        yield f"{kind}-cog", ["-ot", kind, "-of", "COG", "-co", "COMPRESS=DEFLATE", "-co", "BLOCKSIZE=128"]
        yield f"{kind}-strip-a-row", ["-ot", kind, "-co", "BLOCKYSIZE=1", "-co", "COMPRESS=LZW"]
        yield f"{kind}-one-strip", ["-ot", kind, "-co", "BLOCKYSIZE=5000", "-co", "COMPRESS=DEFLATE"]
        yield f"{kind}-small-tiles", ["-ot", kind, "-co", "TILED=YES", "-co", "BLOCKXSIZE=16", "-co", "BLOCKYSIZE=32"]
        yield f"{kind}-points", ["-ot", kind, "-mo", "AREA_OR_POINT=Point"]
        yield f"{kind}-void-named", ["-ot", kind, "-a_nodata", "400"]
        yield f"{kind}-geotiff11", ["-ot", kind, "-co", "GEOTIFF_VERSION=1.1"]


def geotiffs(reader, plain, utm):
    """Every way of writing, of both grids."""
    for name, options in variants():
        for source, kind in ((plain, "deg"), (utm, "utm")):
            extra = []
            if source is utm and name.startswith(("UInt16", "UInt32")):
                extra = ["-a_nodata", 0]
            path = translate(source, MADE / f"{kind}-{name}.tif", *extra, *options)
            # Where the file names another void, -32768 is a height to it, and no ground has that.
            if source is utm and name.endswith("void-named") and float(np.nanmin(as_gdal_has_it(path)[0])) == -32768.0:
                refuse(reader, path, "heights-file-post")
            else:
                compare(reader, path)
    compare(reader, translate(utm, MADE / "sparse.tif", "-co", "SPARSE_OK=TRUE", "-co", "TILED=YES", "-srcwin", -300, -300, 900, 900))
    for code in (32616, 3857, 26916, 27700, 2154, 21781, 5070, 31467):
        to = MADE / f"epsg-{code}.tif"
        if code in (32616, 3857, 26916, 5070):
            run("gdalwarp", "-q", "-overwrite", "-t_srs", f"EPSG:{code}", plain, to)
        else:
            corner = {27700: (300000, 500000), 2154: (940000, 6430000), 21781: (690000, 250000), 31467: (3500000, 5400000)}[code]
            translate(plain, to, "-a_srs", f"EPSG:{code}", "-a_ullr", corner[0], corner[1], corner[0] + 40300, corner[1] - 34400)
        if code not in (27700, 31467):
            compare(reader, to)
    for code in (4269, 4258):
        translate(plain, MADE / f"epsg-{code}.tif", "-a_srs", f"EPSG:{code}")
        compare(reader, MADE / f"epsg-{code}.tif")
    compare(reader, DATA / "zh_dem_25.tif", **({} if "coordinateSystem" in json.loads(run("gdalinfo", "-json", DATA / "zh_dem_25.tif")) and
                                               json.loads(run("gdalinfo", "-json", DATA / "zh_dem_25.tif"))["coordinateSystem"].get("wkt") else {"grid": "EPSG:21781"}))


def vertical_units(reader, utm):
    """Heights in feet by their vertical system: the metres are GDAL's numbers times the unit that GDAL tells."""
    for system in ("EPSG:6360", "EPSG:8228", "EPSG:5703"):
        path = translate(utm, MADE / f"vertical-{system[5:]}.tif", "-a_srs", f"EPSG:26916+{system[5:]}")
        values, info = as_gdal_has_it(path)
        unit_m = {"metre": 1.0, "foot": 0.3048, "US survey foot": 1200 / 3937}[info["bands"][0]["unit"]]
        out = MADE / "ours.f32"
        ours = reader.ask(file=str(path), out=str(out))
        mine = np.fromfile(out, "<f4").reshape(values.shape) if "refused" not in ours else np.zeros(values.shape)
        worst = float(np.nanmax(np.abs(mine - values * unit_m)))
        reader.check(worst <= 1e-3 and np.array_equal(np.isnan(mine), np.isnan(values)), path.name, ours.get("sentence", f"{worst} m off"))
        reader.posts += values.size
        reader.files += 1
    refuse(reader, translate(utm, MADE / "vertical-6357.tif", "-a_srs", "EPSG:26916+6357"), "heights-file-depths")
    feet = ["-a_ullr", 6000000, 2200000, 6030000, 2170000]
    refuse(reader, translate(utm, MADE / "feet-alone.tif", "-a_srs", "EPSG:2227", *feet), "heights-file-unit-needed")
    compare(reader, translate(utm, MADE / "feet-and-metres.tif", "-a_srs", "EPSG:2227+5703", *feet))


def ascii_grids(reader, plain, utm):
    """ASCII grids as GDAL writes them, and the real ones."""
    for name, options in {"plain": [], "figures": ["-co", "DECIMAL_PRECISION=3"], "one-step": ["-co", "FORCE_CELLSIZE=YES"],
                          "significant": ["-co", "SIGNIFICANT_DIGITS=7"]}.items():
        for source, kind, grid in ((plain, "deg", "degrees"), (utm, "utm", "EPSG:32616")):
            path = translate(source, MADE / f"{kind}-{name}.asc", "-of", "AAIGrid", *options)
            path.with_suffix(".prj").unlink(missing_ok=True)
            compare(reader, path, grid=grid)
    for name in ("test.asc", "RGEALTI_0930_6415_LAMB93_IGN69.asc"):
        ours = compare(reader, DATA / name, grid="EPSG:2154")
        print(f"{name}: read in {ours['ms']:.0f} ms" if ours else name)


def tiles(reader):
    """Tiles: the real one, one of one second, and windows of both."""
    compare(reader, DATA / "N44E005.hgt")
    dice = np.random.default_rng(7)
    side = 3601
    rows, columns = np.mgrid[0:side, 0:side]
    heights = (900 + 700 * np.sin(rows / 300) * np.cos(columns / 200) + dice.integers(-3, 4, (side, side))).astype(">i2")
    heights[100:140, 900:1000] = -32768
    (MADE / "S07W073.hgt").write_bytes(heights.tobytes())
    ours = compare(reader, MADE / "S07W073.hgt")
    print(f"S07W073.hgt: read in {ours['ms']:.0f} ms" if ours else "")


def windows(reader):
    """A part of a file is the same heights at the same places as the whole."""
    for path, grid, bounds in ((DATA / "N44E005.hgt", None, [44.2, 5.3, 44.45, 5.71]), (MADE / "utm-Float32-DEFLATE-3-YES.tif", None, [36.2, -84.3, 36.31, -84.2]),
                               (MADE / "deg-Int16-LZW-2-NO.tif", None, [36.2, -84.3, 36.31, -84.2]), (DATA / "test.asc", "EPSG:2154", [44.95, 6.08, 44.99, 6.12])):
        dice = random.Random(path.name)
        places = [[dice.uniform(bounds[0], bounds[2]), dice.uniform(bounds[1], bounds[3])] for _ in range(200)]
        replies = {}
        for part in (None, bounds):
            out = MADE / "window.f32"
            reply = reader.ask(file=str(path), grid=grid, bounds=part, places=places, out=str(out))
            replies[part is None] = (reply, np.fromfile(out, "<f4").reshape(reply["rows"], reply["columns"]))
        (whole, all_heights), (part, some) = replies[True], replies[False]
        left, top = (round((part["west"] - whole["west"]) / whole["step_east"]), round((whole["north"] - part["north"]) / whole["step_south"]))
        same = np.array_equal(some, all_heights[top:top + part["rows"], left:left + part["columns"]], equal_nan=True)
        reader.check(same and some.size < all_heights.size, path.name, "a window differs")
        for (c, r), (column, row) in zip(whole["posts"], part["posts"]):
            inside = 0 <= column <= part["columns"] - 1 and 0 <= row <= part["rows"] - 1
            reader.check(inside and max(abs(c - column - left), abs(r - row - top)) < 1e-6, path.name, "a place moves with the window")
        reader.files += 1


def refusals(reader, plain, utm):
    """What must be refused, each with its own sentence."""
    for packing, code in (("ZSTD", "heights-file-packing"), ("LERC", "heights-file-packing"), ("LERC_DEFLATE", "heights-file-packing"),
                          ("LZMA", "heights-file-packing")):
        if packing.split("_")[0] in run("gdalinfo", "--format", "GTiff"):
            refuse(reader, translate(plain, MADE / f"{packing}.tif", "-co", f"COMPRESS={packing}"), code)
    refuse(reader, translate(plain, MADE / "jpeg.tif", "-ot", "Byte", "-scale", "-co", "COMPRESS=JPEG"), "heights-file-packing")
    refuse(reader, translate(plain, MADE / "two-bands.tif", "-b", 1, "-b", 1), "heights-file-numbers")
    refuse(reader, translate(plain, MADE / "complex.tif", "-ot", "CFloat32"), "heights-file-numbers")
    refuse(reader, translate(plain, MADE / "bare.tif", "-co", "PROFILE=BASELINE"), "heights-file-no-place")
    refuse(reader, translate(plain, MADE / "scaled.tif", "-a_scale", 0.1), "heights-file-scaled")
    refuse(reader, translate(plain, MADE / "offset.tif", "-a_offset", 100), "heights-file-scaled")
    refuse(reader, translate(plain, MADE / "nad27.tif", "-a_srs", "EPSG:4267"), "heights-file-datum")
    refuse(reader, translate(plain, MADE / "own.tif", "-a_srs", "+proj=tmerc +lat_0=36 +lon_0=-84 +k=1 +ellps=GRS80 +units=m"), "heights-file-grid-own")
    refuse(reader, translate(plain, MADE / "deep.tif", "-ot", "Float32", "-scale", 0, 1, 0, 100), "heights-file-post")
    run("gdalwarp", "-q", "-overwrite", "-dstalpha", utm, MADE / "alpha.tif")
    refuse(reader, MADE / "alpha.tif", "heights-file-numbers")
    run("gdal_translate", "-q", "-mask", 1, "--config", "GDAL_TIFF_INTERNAL_MASK", "YES", plain, MADE / "masked.tif")
    refuse(reader, MADE / "masked.tif", "heights-file-masked")
    south_up = MADE / "south-up.vrt"
    south_up.write_text(f"<VRTDataset rasterXSize=\"403\" rasterYSize=\"344\"><SRS>EPSG:4326</SRS><GeoTransform>-84.4, 0.00083, 0, 36.1, 0, 0.00083</GeoTransform>"
                        f"<VRTRasterBand dataType=\"Int16\" band=\"1\"><SimpleSource><SourceFilename>{plain}</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand></VRTDataset>")
    refuse(reader, translate(south_up, MADE / "south-up.tif"), "heights-file-turned")
    turned = MADE / "turned.vrt"
    turned.write_text(south_up.read_text().replace("-84.4, 0.00083, 0, 36.1, 0, 0.00083", "-84.4, 0.00083, 0.0001, 36.4, 0.0001, -0.00083"))
    refuse(reader, translate(turned, MADE / "turned.tif"), "heights-file-turned")
    whole = (MADE / "deg-Int16-LZW-2-NO.tif").read_bytes()
    (MADE / "cut.tif").write_bytes(whole[: len(whole) // 2])
    refuse(reader, MADE / "cut.tif", "heights-file-image-damaged")
    text = (DATA / "test.asc").read_bytes()
    (MADE / "cut.asc").write_bytes(text[: len(text) // 2])
    refuse(reader, MADE / "cut.asc", "heights-file-line", grid="EPSG:2154")
    (MADE / "comma.asc").write_bytes(text[:200_000].replace(b".", b","))
    refuse(reader, MADE / "comma.asc", "heights-file-line", grid="EPSG:2154")
    refuse(reader, DATA / "test.asc", "heights-file-grid-of-numbers")
    refuse(reader, DATA / "N44E005.hgt", "heights-file-outside", bounds=[10, 10, 11, 11])
    refuse(reader, DATA / "N44E005.hgt", "heights-file-name", name="ventoux.hgt")


def main():
    """All of it."""
    MADE.mkdir(parents=True, exist_ok=True)
    reader = Reader(sys.argv[1])
    plain, utm = sources()
    geotiffs(reader, plain, utm)
    vertical_units(reader, utm)
    ascii_grids(reader, plain, utm)
    tiles(reader)
    windows(reader)
    refusals(reader, plain, utm)
    counted = (f"{reader.files} files, {reader.posts} posts equal, {reader.places} places (worst {reader.worst_place:.1e} of a post), "
               f"{reader.refused} refused")
    if reader.failures or not reader.files:
        raise SystemExit(f"{len(reader.failures)} FAILED; {counted}")
    print(f"PASSED: {counted}; {run('gdalinfo', '--version').strip()}")


if __name__ == "__main__":
    main()
