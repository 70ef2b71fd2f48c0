"""Write the licences of all parts of Hobwort into packaging/licences.

It takes the texts of Python packages from the packages as they are installed beside the program
(with the extra "package"), those of Qt, ICU and Python's own parts from packages of Debian, for
which it needs apt-get and dpkg-deb:  python packaging/licences.py
Run again it writes the same bytes.
"""

from __future__ import annotations

import csv
import re
import subprocess
import sys
import sysconfig
import tempfile
import tomllib
from collections.abc import Iterator
from importlib.metadata import Distribution, distribution
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).parents[1]
LICENCES = TOP / "packaging" / "licences"
COMMON = Path("/usr/share/common-licenses")
PARTS = "parts.csv"
COLUMNS = ("name", "distribution", "licence", "text")
STAYS_OUT = {"pip"}
"""sqlite-utils asks for it to install plug-ins, which Hobwort does not: no bundle carries it."""
OF_QT = {"pyside6-essentials", "shiboken6"}
NAMED = {  # those that do not say it in the terms of SPDX
    "click-default-group": "BSD-3-Clause",
    "flexcache": "BSD-3-Clause",
    "markdown-it-py": "MIT",
    "mdurl": "MIT",
    "pint": "BSD-3-Clause",
    "pluggy": "MIT",
    "sqlite-fts4": "Apache-2.0",
    "tzdata": "Apache-2.0",
}
SPELLED = {"pint": "Pint", "numpy": "NumPy"}
SQLITE = """SQLite is in the public domain. Its authors say:

The author disclaims copyright to this source code. In place of a legal notice, here is a blessing:

    May you do good and not evil.
    May you find forgiveness for yourself and forgive others.
    May you share freely, never taking more than you give.
"""
LICENCE_FILE = re.compile(r"(.*_)?(LICEN[CS]E|COPYING|NOTICE)", re.IGNORECASE)
NOT_IN_A_WHEEL = re.compile(r"3rdparty/(gradle|android|wasm|iaccessible2|wintab)|_tarball\.sh")
"""Parts of Qt's source that are built for other systems, or not at all."""


def main() -> int:
    """Gather the texts; return the exit code."""
    LICENCES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        rows = [*_own(), *_of_debian(Path(name)), *_of_python_packages()]
    with (LICENCES / PARTS).open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(COLUMNS)
        writer.writerows(rows)
    return 0


Row = tuple[str, str, str, str]


def rows_of(path: Path) -> list[dict[str, str]]:
    """Return the lines of a table of parts."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _written(text_name: str, text: str) -> str:
    # Page breaks and blanks at line ends are of no use to a reader.
    lines = [line.rstrip() for line in text.replace("\f", "").splitlines()]
    (LICENCES / text_name).write_text("\n".join(lines).strip("\n") + "\n", "utf-8")
    return text_name


def _own() -> Iterator[Row]:
    text = (TOP / "LICENSE").read_text("utf-8")
    yield "Hobwort", "", "Apache-2.0", _written("hobwort.txt", text)
    text = (TOP / "resources" / "fonts" / "OFL.txt").read_text("utf-8")
    yield "Hobwort Sans", "", "OFL-1.1", _written("hobwort_sans.txt", text)


# --- what Python packages say of themselves ------------------------------------------------


def needed() -> set[str]:
    """Return all that the program needs to run, and what that needs, by canonical name."""
    found: set[str] = set()
    asked = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    while asked:
        wanted = Requirement(asked.pop())
        if wanted.marker is not None and not wanted.marker.evaluate({"extra": ""}):
            continue
        name = str(canonicalize_name(wanted.name))
        if name not in found | STAYS_OUT:
            found.add(name)
            asked += distribution(name).requires or []
    return found


def _of_python_packages() -> Iterator[Row]:
    for name in sorted(needed() - OF_QT):
        found = distribution(name)
        texts = _texts_of(found)
        if not texts:
            raise SystemExit(f"{name}: no licence in its metadata")
        licence = found.metadata.get("License-Expression") or NAMED.get(name)
        licence = licence or found.metadata.get("License") or ""
        text = "\n\n".join(texts)
        yield SPELLED.get(name, name), name, licence, _written(f"{name}.txt", text)
    # The program's start in a bundle is PyInstaller's.
    found = distribution("pyinstaller")
    licence = "GPL-2.0-or-later WITH Bootloader-exception"
    text = _written("pyinstaller.txt", "\n\n".join(_texts_of(found)))
    yield "PyInstaller (start of the bundle)", "pyinstaller", licence, text


def _texts_of(found: Distribution) -> list[str]:
    """Return the licences that stand beside its metadata, each once."""
    texts: list[str] = []
    beside = [path for path in found.files or [] if path.parts[0].endswith(".dist-info")]
    for path in sorted(beside, key=lambda path: (len(path.parts), path)):
        if LICENCE_FILE.match(path.name):
            text = Path(str(path.locate())).read_text("utf-8").strip()
            if not any(text in other for other in texts):
                texts.append(text)
    return texts


# --- what Debian says ----------------------------------------------------------------------


def _of_debian(folder: Path) -> Iterator[Row]:
    notice = (LICENCES / "qt_notice.txt").read_text("utf-8")
    texts = [notice] + [(COMMON / name).read_text("utf-8") for name in ("LGPL-3", "GPL-3")]
    written = _written("qt.txt", _ruled(texts))
    licence = "LGPL-3.0-only"
    yield "Qt", "", licence, written
    yield "Qt for Python (PySide6, Shiboken)", "pyside6-essentials", licence, written
    third = _third_parties(_copyright(folder, "libqt6core6"))
    yield "Parts of others in Qt", "", "various", _written("qt_third_parties.txt", third)
    icu = _copyright(folder, "libicu72").split("\nFiles: debian")[0]
    yield "ICU (in Qt)", "", "ICU", _written("icu.txt", icu)
    psf = Path(sysconfig.get_path("stdlib"), "LICENSE.txt").read_text("utf-8")
    copyright = _copyright(folder, "libpython3.11-minimal")
    others = copyright[copyright.index("Licenses and Acknowledgements for Incorporated") :]
    yield "Python", "", "PSF-2.0", _written("python.txt", _ruled([psf, others]))
    yield "SQLite", "", "blessing", _written("sqlite.txt", SQLITE)


def _ruled(texts: list[str]) -> str:
    return f"\n\n{'-' * 78}\n\n".join(text.strip() for text in texts)


def _copyright(folder: Path, package: str) -> str:
    """Return what a package of Debian, which need not be installed, tells of its licences."""
    subprocess.run(["apt-get", "-q", "download", package], cwd=folder, check=True)
    [archive] = folder.glob(f"{package}_*.deb")
    subprocess.run(["dpkg-deb", "-x", str(archive), str(folder)], check=True)
    return (folder / "usr/share/doc" / package / "copyright").read_text("utf-8")


def _third_parties(copyright: str) -> str:
    """Return the paragraphs on what Qt took from others, and the licences they name."""
    paragraphs = copyright.split("\n\n")
    told = [each for each in paragraphs if re.match(r"Files: +src/3rdparty/", each)]
    told = [each for each in told if not NOT_IN_A_WHEEL.search(each)]
    named = {name for each in told for name in re.findall(r"^License: (.+)$", each, re.M)}
    words = {word for name in named for word in re.split(r" (?:or|and|with) ", name)}
    texts = [each for each in paragraphs if each.startswith("License: ")]
    texts = [each for each in texts if each.splitlines()[0][9:].strip() in named | words]
    head = "Qt is made with these parts of others. From Debian's account of Qt's source:"
    return "\n\n".join([head, *told, *texts])


if __name__ == "__main__":
    sys.exit(main())
