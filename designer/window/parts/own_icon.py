"""The program's own icon, for windows, task bars and the tray.

It is painted beforehand in every size (`packaging/icons.py`): a drawing would bring Qt's reader of
drawings into memory for it. A desktop that knows the program by its desktop entry shows that
entry's icon, of the same drawing.
"""

from __future__ import annotations

from functools import cache

from PySide6.QtCore import QSize
from PySide6.QtGui import QIcon

from designer.resource_files import resource_path

SIZES = (16, 24, 32, 48, 64, 128)


@cache
def own_icon() -> QIcon:
    """Return the icon; a size of it is read from disk when it is first shown."""
    icon = QIcon()
    for size in SIZES:
        icon.addFile(str(resource_path(f"icons/hobwort-{size}.png")), QSize(size, size))
    return icon
