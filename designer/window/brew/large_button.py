"""Buttons for wet hands: 44 pixels and more each way, and the keyboard stays where it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Self

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication, QPushButton

from designer.window.parts.targets import TARGET_PX


class LargeButton(QPushButton):
    """A button that can be hit with a wet thumb.

    Pressed by pointer or finger it leaves the keyboard to the step, so that the space bar means the
    step again and not the button that was pressed last; the Tab key comes to it.
    """

    def __init__(
        self,
        text: str,
        tip: str = "",
        act: Callable[[], object] | None = None,
        *,
        least: int = TARGET_PX,
    ) -> None:
        super().__init__(text)
        self.setObjectName("large")
        self._set_size(1.1)
        self._least = max(least, TARGET_PX)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        if tip:
            self.setToolTip(tip)
        if act is not None:
            self.clicked.connect(lambda _checked=False: act())

    def _set_size(self, times: float) -> None:
        """Have larger type; the typeface stays that of the window."""
        font = QFont()
        font.setPointSizeF(times * QApplication.font().pointSizeF())
        self.setFont(font)

    def as_primary(self, times: float = 1.5) -> Self:
        """Be the one of its group that is meant to be pressed, in type so much larger."""
        self.setObjectName("largePrimary")
        self._set_size(times)
        return self

    def sizeHint(self) -> QSize:
        return super().sizeHint().expandedTo(QSize(TARGET_PX, self._least))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()
