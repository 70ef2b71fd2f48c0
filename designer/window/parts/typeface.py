"""The typeface of the window: the program's own, or that of the desktop."""

from __future__ import annotations

from PySide6.QtGui import QFontDatabase
from PySide6.QtWidgets import QApplication

from designer.paper.typeface import own_families

TYPEFACES = ("own", "desktop")


def wear_typeface(application: QApplication, typeface: str) -> None:
    """Set the whole program in one of `TYPEFACES`, in the size that the desktop asks for.

    A letter that the own one has not is taken from the desktop's.
    """
    font = QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont)
    if typeface == "own":
        font.setFamilies([*own_families(), *font.families()])
    application.setFont(font)
