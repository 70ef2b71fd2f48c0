"""A button whose words go on in further lines where they are longer than its place is wide.

Where they fit, Qt's style is not asked: that it is made known to Python takes 5 ms of the start.
"""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QPushButton, QSizePolicy, QStyleOptionButton, QWidget

LEAST_WIDTH = 120


class WrappedButton(QPushButton):
    """A button that may be narrower than its words, and is then as high as they need."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        size = QSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Minimum)
        size.setHeightForWidth(True)
        self.setSizePolicy(size)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        whole = self.sizeHint()
        further = (
            self._lines(width - self._around(whole)).count("\n") if width < whole.width() else 0
        )
        return whole.height() + further * self.fontMetrics().lineSpacing()

    def minimumSizeHint(self) -> QSize:
        whole = self.sizeHint()
        return QSize(min(whole.width(), LEAST_WIDTH), whole.height())

    def shown_text(self) -> str:
        """Return the words in the lines that are seen."""
        whole = self.sizeHint()
        if self.width() >= whole.width() or not self.isVisible():
            return self.text()
        return self._lines(self.width() - self._around(whole))

    def initStyleOption(self, option: QStyleOptionButton) -> None:
        """Break the words into the lines they need."""
        super().initStyleOption(option)
        if not self._is_asked_for_size:
            option.text = self.shown_text()

    _is_asked_for_size = False

    def sizeHint(self) -> QSize:
        self._is_asked_for_size = True  # the size of all words in one line
        try:
            return super().sizeHint()
        finally:
            self._is_asked_for_size = False

    def _around(self, whole: QSize) -> int:
        """Return how wide frame and free room on both sides of the words are."""
        return whole.width() - self.fontMetrics().horizontalAdvance(self.text())

    def _lines(self, room: int) -> str:
        """Return the words in lines of a width, broken between words."""
        metrics, lines = self.fontMetrics(), [""]
        for word in self.text().split(" "):
            longer = f"{lines[-1]} {word}" if lines[-1] else word
            if lines[-1] and metrics.horizontalAdvance(longer) > room:
                lines.append(word)
            else:
                lines[-1] = longer
        return "\n".join(lines)
