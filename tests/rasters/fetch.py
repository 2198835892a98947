"""Fetch the open data of the raster tests into tests/out/rasters/data/, each file held against its pinned sum.

pip downloads from whatever index it is set up for. A source package's own build script is never run: pip asks a build
back-end for name and version, and a stand-in of a few lines answers. The grid of the crate comes through cargo.

Credits: SRTM, NASA/USGS, public domain (N44E005; the elevation of jacksboro_fault_dem). IGN, RGE ALTI, Licence Ouverte 2.0
(inferred from names and tiling: the two .asc). zh_dem_25.tif: source not stated in its package, MIT.
"""

import hashlib
import os
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from pathlib import Path

OUT = Path(__file__).resolve().parents[1] / "out" / "rasters" / "data"
FILES = {
    "test.asc": "6b92369e5d7856889904beed376be61aadf1f35c430f786dce20a20d8bb60b1e",
    "RGEALTI_0930_6415_LAMB93_IGN69.asc": "7ac31ad3fbc6f8e5013409f8a4957673303e344a8de0568b743432f1b51c0cea",
    "N44E005.hgt": "4dfe18100561c86b62431b02338b7d056bcc213f66d606ec987eb81633767f22",
    "jacksboro_fault_dem.npz": "d493f50a33e82a4420494c54d1fca1539d177bdc27ab190bc5fe6e92f62fb637",
    "zh_dem_25.tif": "8752980e8a969b40b62d9de9fd4feedc173c91acb42dca5b373a3d7c3c8017d6",
}
SDISTS = (
    ("tracklib", "0.8.4.2", "1220f4ea0018c764afb39681757750ae561c2252a61ef694507373739baf82b5",
     ("data/asc/test.asc", "data/asc/RGEALTI_0930_6415_LAMB93_IGN69.asc")),
    ("shareloc", "0.3.0", None, ("tests/data/dtm/srtm_ventoux/srtm90_non_void_filled/N44E005.hgt",)),
)
WHEEL = ("matplotlib", "3.11.2", "matplotlib/mpl-data/sample_data/jacksboro_fault_dem.npz")
CRATE = ("geotiff", "0.1.0", "resources/zh_dem_25.tif")
BACK_END = """
import pathlib, sys
def get_requires_for_build_wheel(config_settings=None):
    return []
def prepare_metadata_for_build_wheel(directory, config_settings=None):
    name = "{name}-{version}.dist-info"
    folder = pathlib.Path(directory, name)
    folder.mkdir()
    (folder / "METADATA").write_text("Metadata-Version: 2.1\\nName: {name}\\nVersion: {version}\\n")
    return name
__legacy__ = sys.modules[__name__]
"""
BACK_ENDS = ("setuptools/build_meta.py", "poetry/core/masonry/api.py", "hatchling/build.py", "flit_core/buildapi.py")


def sha256(path):
    """The SHA-256 of a file in hexadecimal."""
    with open(path, "rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def demand(path):
    """Stop unless the file has the pinned sum."""
    found, pinned = sha256(path), FILES[path.name]
    if found != pinned:
        raise SystemExit(f"{path.name}: sha256 {found}, pinned {pinned}")


def stand_in(folder, name, version):
    """A build back-end that only answers with name and version, under every usual name."""
    for path in BACK_ENDS:
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        for parent in list(target.parents)[: path.count("/")]:
            (parent / "__init__.py").touch()
        target.write_text(BACK_END.format(name=name, version=version))
    return folder


def pip(folder, *arguments, **environment):
    """One call of pip download."""
    command = [sys.executable, "-m", "pip", "download", "--disable-pip-version-check", "--quiet", "--no-deps",
               "--dest", str(folder), *arguments]
    if subprocess.run(command, env={**os.environ, **environment}).returncode:
        raise SystemExit(f"pip cannot download {arguments[-1]}: is there a network, and does its package index hold it?")


def sdist(name, version, pinned, members):
    """Take files out of a source package."""
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        fake = stand_in(folder / "stand-in", name, version)
        pip(folder, "--no-binary", name, "--use-pep517", "--no-build-isolation", f"{name}=={version}",
            PYTHONPATH=str(fake), SETUPTOOLS_USE_DISTUTILS="stdlib")
        archive = folder / f"{name}-{version}.tar.gz"
        if pinned and sha256(archive) != pinned:
            raise SystemExit(f"{archive.name}: sha256 {sha256(archive)}, pinned {pinned}")
        with tarfile.open(archive) as package:
            for member in members:
                with package.extractfile(f"{name}-{version}/{member}") as stream:
                    put(Path(member).name, stream.read())


def wheel(name, version, member):
    """Take a file out of a wheel; which platform's does not matter."""
    with tempfile.TemporaryDirectory() as folder:
        pip(folder, "--only-binary", ":all:", "--platform", "manylinux_2_28_x86_64", "--platform", "manylinux2014_x86_64",
            "--python-version", "3.12", f"{name}=={version}")
        with zipfile.ZipFile(next(Path(folder).glob("*.whl"))) as package:
            put(Path(member).name, package.read(member))


def crate(name, version, member):
    """Take a file out of a crate: cargo fetches it for a package that names it."""
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        (folder / "src").mkdir()
        (folder / "src" / "lib.rs").touch()
        (folder / "Cargo.toml").write_text(
            f'[package]\nname = "fetch"\nversion = "0.0.0"\nedition = "2021"\n[dependencies]\n{name} = "={version}"\n[workspace]\n')
        if subprocess.run(["cargo", "fetch", "--quiet"], cwd=folder).returncode:
            raise SystemExit(f"cargo cannot fetch {name} {version}: is there a network?")
        home = Path(os.environ.get("CARGO_HOME", Path.home() / ".cargo"))
        found = next((home / "registry" / "src").glob(f"*/{name}-{version}/{member}"))
        put(found.name, found.read_bytes())


def put(name, content):
    """Keep a file whose sum is right."""
    part = OUT / "part" / name
    part.parent.mkdir(exist_ok=True)
    part.write_bytes(content)
    demand(part)
    part.replace(OUT / name)


def missing(*members):
    """Whether any of these files is not there with the pinned sum."""
    paths = [OUT / Path(member).name for member in members]
    return not all(path.is_file() and sha256(path) == FILES[path.name] for path in paths)


def main():
    """Fetch what is not there yet."""
    OUT.mkdir(parents=True, exist_ok=True)
    for name, version, pinned, members in SDISTS:
        if missing(*members):
            sdist(name, version, pinned, members)
    if missing(WHEEL[2]):
        wheel(*WHEEL)
    if missing(CRATE[2]):
        crate(*CRATE)
    print("data:", ", ".join(FILES))


if __name__ == "__main__":
    main()
