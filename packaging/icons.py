"""Paint the program's icon in the sizes that desktops want, in resources/icons, of its drawing.

It needs PySide6 alone:  python packaging/icons.py
Run again it writes the same pictures. The window shows these, for a drawing is slower to read.
"""

from __future__ import annotations

import sys
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

FOLDER = Path(__file__).parents[1] / "resources" / "icons"
SIZES = (16, 24, 32, 48, 64, 128, 256)


def painted(drawing: Path, size: int) -> QImage:
    """Return a drawing as a picture so many pixels wide and high."""
    image = QImage(size, size, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    with QPainter(image) as painter:
        QSvgRenderer(str(drawing)).render(painter)
    return image


def main() -> None:
    """Write a picture of each size."""
    application = QGuiApplication(["icons", "-platform", "offscreen"])
    for size in SIZES:
        path = FOLDER / f"hobwort-{size}.png"
        painted(FOLDER / "hobwort.svg", size).save(str(path))
        sys.stdout.write(f"{path}: {path.stat().st_size} bytes\n")
    del application


if __name__ == "__main__":
    main()
