"""Pictures that are read from left to right in any language: days, scales, vessels with marks."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget


def keep_direction(picture: QWidget) -> None:
    """Let a painted picture be as it is drawn, where all else stands the other way round."""
    picture.setLayoutDirection(Qt.LayoutDirection.LeftToRight)
