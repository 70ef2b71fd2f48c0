"""The program's icon as Windows and macOS want it: several PNG pictures in one file.

python packaging/bundle/icon_files.py hobwort.ico|hobwort.icns
"""

from __future__ import annotations

import os
import struct
import sys
from pathlib import Path

SVG = Path(__file__).parents[2] / "resources" / "icons" / "hobwort.svg"
ICO_SIZES = (16, 24, 32, 48, 64, 128, 256)
ICNS_KINDS = {
    b"icp4": 16, b"icp5": 32, b"ic11": 32, b"ic12": 64, b"ic07": 128, b"ic13": 256,
    b"ic08": 256, b"ic14": 512, b"ic09": 512, b"ic10": 1024,
}  # fmt: skip


def main() -> None:
    """Write the file named, of the kind that its suffix tells."""
    path = Path(sys.argv[1])
    path.write_bytes(ico() if path.suffix == ".ico" else icns())


def ico() -> bytes:
    """Return the icon for Windows: a header, an entry a picture, the pictures."""
    pictures = [png(size) for size in ICO_SIZES]
    head = struct.pack("<HHH", 0, 1, len(pictures))
    offset = len(head) + 16 * len(pictures)
    for size, picture in zip(ICO_SIZES, pictures, strict=True):
        # 256 is written as 0.
        head += struct.pack("<BBBBHHII", size % 256, size % 256, 0, 0, 1, 32, len(picture), offset)
        offset += len(picture)
    return head + b"".join(pictures)


def icns() -> bytes:
    """Return the icon for macOS: pictures, each with its kind and length."""
    blocks = b"".join(
        kind + struct.pack(">I", len(picture) + 8) + picture
        for kind, picture in ((kind, png(size)) for kind, size in ICNS_KINDS.items())
    )
    return b"icns" + struct.pack(">I", len(blocks) + 8) + blocks


def png(size: int) -> bytes:
    """Return the icon as a PNG picture."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from PySide6.QtCore import QBuffer, QIODevice, QSize
    from PySide6.QtGui import QGuiApplication, QIcon

    application = QGuiApplication.instance() or QGuiApplication(sys.argv[:1])
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QIcon(str(SVG)).pixmap(QSize(size, size), 1.0).save(buffer, "PNG")
    del application
    return bytes(buffer.data().data())


if __name__ == "__main__":
    main()
