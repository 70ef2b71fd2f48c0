"""Lay out what a desktop and a shell want to know of Hobwort, as it lies below /usr/share.

    python packaging/share_files.py FOLDER

Desktop entry, MIME type, icons, AppStream metainfo, pages of the manual, completions.
"""

from __future__ import annotations

import os
import re
import shutil
import sys
from datetime import datetime
from gzip import GzipFile
from pathlib import Path

import completions
import man_page

from designer import __version__

TOP = Path(__file__).parents[1]

ICONS = TOP / "resources" / "icons"
TEMPLATES = TOP / "packaging" / "share"
NAME = "org.hobwort.hobwort"
MIME_ICON = "application-x-hobwort-recipe"
SIZES = (16, 22, 24, 32, 48, 64, 128, 256, 512)
LANGUAGES = ("en", "de", "fr")


def main() -> int:
    """Write all of it below the folder named."""
    share = Path(sys.argv[1])
    _desktop(share)
    _icons(share / "icons" / "hicolor")
    _pages_of_the_manual(share / "man")
    _completions(share)
    return 0


def released() -> str:
    """Return the day of this release, as ISO 8601 has it, out of the changes.

    Raises SystemExit where the newest changes are those of another version.
    """
    text = (TOP / "resources" / "CHANGES.md").read_text("utf-8")
    found = re.search(r"^## (\S+) \((.+)\)$", text, re.MULTILINE)
    if found is None or found[1] != __version__:
        raise SystemExit(f"resources/CHANGES.md does not begin with release {__version__}")
    return datetime.strptime(found[2], "%d %B %Y").date().isoformat()


def _desktop(share: Path) -> None:
    for name, folder, to in (
        (f"{NAME}.desktop", "applications", f"{NAME}.desktop"),
        (f"{NAME}.mime.xml", "mime/packages", f"{NAME}.xml"),
        (f"{NAME}.metainfo.xml", "metainfo", f"{NAME}.metainfo.xml"),
    ):
        text = (TEMPLATES / name).read_text("utf-8")
        text = text.replace("@VERSION@", __version__).replace("@DATE@", released())
        _write(share / folder / to, text.encode("utf-8"))


def _icons(hicolor: Path) -> None:
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from PySide6.QtCore import QSize
    from PySide6.QtGui import QGuiApplication, QIcon

    application = QGuiApplication.instance() or QGuiApplication(sys.argv[:1])
    for source, context, name in (
        ("hobwort.svg", "apps", NAME),
        ("hobwort-document.svg", "mimetypes", MIME_ICON),
    ):
        scalable = hicolor / "scalable" / context / f"{name}.svg"
        scalable.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ICONS / source, scalable)
        icon = QIcon(str(scalable))
        for size in SIZES:
            path = hicolor / f"{size}x{size}" / context / f"{name}.png"
            path.parent.mkdir(parents=True, exist_ok=True)
            icon.pixmap(QSize(size, size), 1.0).save(str(path))
    symbolic = hicolor / "symbolic" / "apps" / f"{NAME}-symbolic.svg"
    symbolic.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(ICONS / "hobwort-symbolic.svg", symbolic)
    del application


def _pages_of_the_manual(man: Path) -> None:
    os.environ["COLUMNS"] = "10000"  # usage lines are not to be broken by argparse
    for language in LANGUAGES:
        folder = man / "man1" if language == "en" else man / language / "man1"
        path = folder / "hobwort.1.gz"
        path.parent.mkdir(parents=True, exist_ok=True)
        page = man_page.man_page(language, released()).encode("utf-8")
        # Without a name and a day in it, and packed as Debian wants it.
        with path.open("wb") as file, GzipFile("", "wb", 9, file, mtime=0) as packed:
            packed.write(page)
    man_page.translation.use(None)


def _completions(share: Path) -> None:
    for shell, path in (
        ("bash", "bash-completion/completions/hobwort"),
        ("zsh", "zsh/vendor-completions/_hobwort"),
        ("fish", "fish/vendor_completions.d/hobwort.fish"),
    ):
        _write(share / path, completions.completions(shell).encode("utf-8"))


def _write(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


if __name__ == "__main__":
    sys.exit(main())
