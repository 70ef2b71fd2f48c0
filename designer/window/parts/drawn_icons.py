"""Small icons of additions, vessels and actions, drawn in the ink of the moment.

Each is a drawing in `resources/icons`, of lines 1.5 wide on a grid of 16, in "currentColor". One is
never shown without words: it helps to find again what the words say. They are read when a menu is
first opened or a list first filled behind the first picture, so no start waits for them.
"""

from __future__ import annotations

from functools import cache

from PySide6.QtCore import QByteArray, Qt
from PySide6.QtGui import QGuiApplication, QIcon, QPainter, QPixmap

from designer.resource_files import resource_path
from designer.window.parts.inks import Inks, inks_for

SIZE = 16


def drawn_icon(name: str, inks: Inks | None = None) -> QIcon:
    """Return the icon of a drawing such as `"vessel-pot"`; its words say what it stands for.

    Without `inks` it is drawn in those that the program wears now.
    """
    asked = _asked(name, inks)
    if asked not in _MADE:
        _MADE[asked] = _made(*asked)
    return _MADE[asked]


def drawn_already(name: str) -> QIcon | None:
    """Return the icon if it has been drawn; else an empty one of its size, so that none waits.

    None where there is no drawing of that name, which is "".
    """
    return (_MADE.get(_asked(name)) or no_icon()) if name else None


_Asked = tuple[str, Inks, tuple[float, ...]]
_MADE: dict[_Asked, QIcon] = {}


def _asked(name: str, inks: Inks | None = None) -> _Asked:
    ratios = {each.devicePixelRatio() for each in QGuiApplication.screens()}
    worn = inks or inks_for(QGuiApplication.palette())
    return name, worn, tuple(sorted(ratios | {1.0, 2.0}))


@cache
def no_icon() -> QIcon:
    """Return the room of an icon, so that words without one stand below those that have one."""
    pixmap = QPixmap(SIZE, SIZE)
    pixmap.fill(Qt.GlobalColor.transparent)
    return QIcon(pixmap)


def _made(name: str, inks: Inks, ratios: tuple[float, ...]) -> QIcon:
    drawing = resource_path(f"icons/{name}.svg").read_text(encoding="utf-8")
    icon = QIcon()
    off, on = QIcon.State.Off, QIcon.State.On
    for mode, state, ink in (
        (QIcon.Mode.Normal, off, inks.ink_soft),
        (QIcon.Mode.Active, off, inks.ink),
        (QIcon.Mode.Selected, off, inks.ink),
        (QIcon.Mode.Disabled, off, inks.line_strong),
        (QIcon.Mode.Normal, on, inks.on_green),  # what is pressed down is green
    ):
        for ratio in ratios:
            icon.addPixmap(_painted(drawing.replace("currentColor", ink), ratio), mode, state)
    return icon


def _painted(drawing: str, ratio: float) -> QPixmap:
    # Reads drawings; wanted by nothing that is painted first.
    from PySide6.QtSvg import QSvgRenderer

    pixels = round(SIZE * ratio)
    pixmap = QPixmap(pixels, pixels)
    pixmap.fill(Qt.GlobalColor.transparent)
    with QPainter(pixmap) as painter:
        QSvgRenderer(QByteArray(drawing.encode())).render(painter)
    pixmap.setDevicePixelRatio(ratio)
    return pixmap
