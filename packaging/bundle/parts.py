"""What goes into a bundle and what does not, and whose each part of it is.

PyInstaller gathers all that a program might load. Of Qt only what Hobwort uses is kept, and of the
system's libraries, on Linux, those that a desktop may lack and that get along with any other; what
every desktop has (X11, Wayland, OpenGL, D-Bus, fonts, printing) is left to it, for a copy of these
quarrels with the drivers and themes of another release.
"""

from __future__ import annotations

import csv
import re
import subprocess
import sys
from collections.abc import Iterable, Sequence
from fnmatch import fnmatch
from importlib.metadata import packages_distributions
from pathlib import Path, PurePosixPath

from packaging.utils import canonicalize_name

TOP = Path(__file__).parents[2]
RESOURCES = "designer/_resources"
LICENCES = TOP / "packaging" / "licences"

Entry = tuple[str, str, str]
"""As PyInstaller lists a file: where it goes, where it comes from, what it is."""

UNWANTED_MODULES = [
    # Hobwort reaches no network but its own page for a phone, which is not encrypted; Python's own
    # hashes serve where OpenSSL's are missing.
    "ssl", "_ssl", "_hashlib", "PySide6.QtNetwork",
    # Of terminals, of building and of testing.
    "readline", "curses", "_curses", "tkinter", "pip", "setuptools", "wheel", "distutils",
    "unittest.mock", "doctest", "pydoc", "pdb", "lib2to3", "ensurepip", "venv", "idlelib",
    "numpy.f2py", "numpy.distutils", "pytest", "crypt", "_crypt", "dbm", "_dbm", "_gdbm", "nis",
    "xmlrpc", "turtle",
]  # fmt: skip

UNWANTED_HOOKS = {"pyi_rth_inspect", "pyi_rth_pkgutil", "pyi_rth_multiprocessing"}
"""What PyInstaller runs at the start for what Hobwort does not do."""
if sys.platform == "linux":
    # It names Qt's folder in the environment, for every program that Hobwort starts; Qt for Python
    # tells Qt itself.
    UNWANTED_HOOKS.add("pyi_rth_pyside6")

UNWANTED_FILES = {"RECORD"}
"""pip's list of what it installed: the programs in it name the folder where the bundle was made."""

QT_PLUGINS = {
    "platforms": {"qxcb", "qwayland", "qoffscreen", "qwindows", "qcocoa"},
    "platforminputcontexts": {
        "composeplatforminputcontextplugin",
        "ibusplatforminputcontextplugin",
    },
    "platformthemes": {"qgtk3", "qxdgdesktopportal"},
    "iconengines": {"qsvgicon"},
    "imageformats": {"qsvg"},
    "printsupport": {"cupsprintersupport"},
    "styles": {"qmodernwindowsstyle", "qmacstyle"},
    "wayland-shell-integration": {"xdg-shell"},
    "wayland-decoration-client": {"adwaita", "bradient"},
}
"""Of each folder of Qt's plug-ins those that are kept."""
QT_LIBRARIES = {
    "Core", "Gui", "Widgets", "DBus", "PrintSupport", "Svg", "XcbQpa", "WaylandClient",
}  # fmt: skip
QT_TRANSLATIONS = ("qtbase_de.qm", "qtbase_fr.qm")

CARRIED = {
    # of Python
    "libpython3*": "PSF-2.0",
    "libffi.so*": "MIT",
    "libsqlite3.so*": "blessing",
    "liblzma.so*": "0BSD",
    "libbz2.so*": "bzip2-1.0.6",
    "libuuid.so*": "BSD-3-Clause",
    "libmpdec.so*": "BSD-2-Clause",
    "libexpat.so*": "MIT",
    # of X11, what not every desktop has and what must go with it
    "libxcb-cursor.so*": "MIT",
    "libxcb-icccm.so*": "MIT",
    "libxcb-image.so*": "MIT",
    "libxcb-keysyms.so*": "MIT",
    "libxcb-render-util.so*": "MIT",
    "libxcb-shape.so*": "MIT",
    "libxcb-util.so*": "MIT",
    "libxcb-xkb.so*": "MIT",
    "libxkbcommon.so*": "MIT",
    "libxkbcommon-x11.so*": "MIT",
}
"""Libraries of the system, on Linux, that a bundle carries, and their licences."""


def kept(entries: Sequence[Entry]) -> list[Entry]:
    """Return those files that a bundle needs."""
    paths = [PurePosixPath(entry[0].replace("\\", "/")) for entry in entries]
    # What the program imports of Qt needs the library of the same name.
    imported = {path.name.partition(".")[0].removeprefix("Qt") for path in paths}
    libraries = QT_LIBRARIES | imported
    return [entry for entry, path in zip(entries, paths, strict=True) if _is_kept(path, libraries)]


def _is_kept(path: PurePosixPath, libraries: set[str]) -> bool:
    if "PySide6" in path.parts:
        return _is_kept_of_qt(path, libraries)
    if sys.platform == "linux" and len(path.parts) == 1 and ".so" in path.name:
        return bool(_licence(path.name))
    if path.name in UNWANTED_FILES or path.name.startswith("_multiarray_tests"):
        return False
    return "testsuite" not in path.parts


def _licence(library: str) -> str:
    """Return the licence of a library that is carried, "" for any other."""
    found = [licence for pattern, licence in CARRIED.items() if fnmatch(library, pattern)]
    return found[0] if found else ""


def _is_kept_of_qt(path: PurePosixPath, libraries: set[str]) -> bool:
    if "plugins" in path.parts:
        names = QT_PLUGINS.get(path.parent.name, set())
        return path.stem.removeprefix("lib") in names
    if "translations" in path.parts:
        return path.name in QT_TRANSLATIONS
    if "qml" in path.parts:
        return False
    library = re.match(r"(?:lib)?Qt6?([A-Za-z]+)\.(?:so\.6|dll|framework)", path.name)
    return library is None or library[1] in libraries


# --- whose it is ---------------------------------------------------------------------------


def licensed_packages() -> set[str]:
    """Return the Python packages whose licence is in packaging/licences, by canonical name."""
    with (LICENCES / "parts.csv").open(encoding="utf-8", newline="") as file:
        named = {row["distribution"] for row in csv.DictReader(file)}
    return (named | {"hobwort", "shiboken6"}) - {""}


def without_licence(modules: Iterable[Entry], files: Iterable[Entry]) -> list[str]:
    """Return what of a bundle belongs to no part whose licence is known."""
    known = licensed_packages()
    of = {
        package: {str(canonicalize_name(each)) for each in names}
        for package, names in packages_distributions().items()
    }
    tops = {name.partition(".")[0] for name, _, _ in modules}
    tops |= {PurePosixPath(name).parts[0].partition(".")[0] for name, _, _ in files if "/" in name}
    ours = {"designer", "lib-dynload", *sys.stdlib_module_names, *OF_PYINSTALLER}
    return sorted(
        top
        for top in tops - ours
        if not of.get(top, {_distribution_named(top)}) & known
        and not top.startswith(("_sysconfigdata_", "python3"))  # of Python, named by the system
    )


OF_PYINSTALLER = {"pyi_splash", "_pyi_rth_utils", "pyimod01_archive", "pyimod02_importers",
                  "pyimod03_ctypes", "pyimod04_pywin32", "struct"}  # fmt: skip


def _distribution_named(folder: str) -> str:
    """Return whose a folder without modules is, such as `numpy.libs` and `pint-0.25.dist-info`."""
    return str(canonicalize_name(re.split(r"-\d", folder)[0]))


# --- libraries of the system ---------------------------------------------------------------


def library_licences(entries: Iterable[Entry], folder: Path) -> list[Entry]:
    """Write whose the carried libraries of the system are, and return that as files of the bundle.

    The texts are those that Debian's packages come with. Raises SystemExit where a library belongs
    to no package; Python's own is told of with Python.
    """
    folder.mkdir(parents=True, exist_ok=True)
    rows: dict[str, list[str]] = {}
    for name, source, _ in sorted(entries):
        if "/" in name or ".so" not in name or name.startswith("libpython3"):
            continue
        package = _package_of(Path(source).resolve())
        text = Path("/usr/share/doc", package, "copyright").read_text("utf-8")
        (folder / f"{package}.txt").write_text(text, "utf-8")
        version = _version_of(package)
        named = " ".join([*rows.get(package, [""])[-1].split(), name])
        rows[package] = [package, "", _licence(name), f"{package}.txt", version, named]
    with (folder / "libraries.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("name", "distribution", "licence", "text", "version", "files"))
        writer.writerows(rows.values())
    texts = [f"{package}.txt" for package in rows]
    return [
        (f"{RESOURCES}/licences/{name}", str(folder / name), "DATA")
        for name in ("libraries.csv", *texts)
    ]


def _package_of(path: Path) -> str:
    for each in (path, Path("/usr") / path.relative_to("/"), Path(str(path).removeprefix("/usr"))):
        done = subprocess.run(["dpkg", "-S", str(each)], capture_output=True, text=True)
        if done.returncode == 0:
            return done.stdout.partition(":")[0]
    raise SystemExit(f"{path} belongs to no package of Debian, so its licence is not known")


def _version_of(package: str) -> str:
    words = ["dpkg-query", "-W", "-f", "${Version}", package]
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout
