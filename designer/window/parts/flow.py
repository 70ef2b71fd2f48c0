"""A layout that fills lines one after the other: what has no room goes on in the next."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class FlowLayout(QLayout):
    """Widgets beside each other, in as many lines as the width wants; each begins or ends alike."""

    def __init__(
        self,
        parent: QWidget | None = None,
        *,
        across: int = 14,
        down: int = 6,
        ends_alike: bool = False,
        likes_one_line: bool = False,
    ) -> None:
        super().__init__(parent)
        self._ends_alike, self._likes_one_line = ends_alike, likes_one_line
        self._items: list[QLayoutItem] = []
        self._across, self._down = across, down
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._place(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._place(rect, move=True)

    def sizeHint(self) -> QSize:
        least = self.minimumSize()
        if not self._likes_one_line:
            return least
        wide = [each.sizeHint().width() for each in self._items]
        return least.expandedTo(QSize(sum(wide) + self._across * (len(wide) - 1), 0))

    def minimumSize(self) -> QSize:
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        return size

    def _place(self, rect: QRect, *, move: bool) -> int:
        """Set the items into their lines; return how high they come to be."""
        x, y, line = rect.left(), rect.top(), 0
        row: list[tuple[QLayoutItem, int, QSize]] = []
        for item in self._items:
            widget = item.widget()
            if widget is not None and widget.isHidden():
                continue
            size = item.sizeHint()
            if x > rect.left() and x + size.width() > rect.right() + 1:
                self._set(row, y, line, rect.right() if move else None)
                x, y, line, row = rect.left(), y + line + self._down, 0, []
            row.append((item, x, size))
            x += size.width() + self._across
            line = max(line, size.height())
        self._set(row, y, line, rect.right() if move else None)
        return y + line - rect.top()

    def _set(
        self, row: list[tuple[QLayoutItem, int, QSize]], y: int, line: int, right: int | None
    ) -> None:
        if right is None or not row:
            return
        _, last, wide = row[-1]
        left = max(right + 1 - last - wide.width(), 0) if self._ends_alike else 0
        for item, x, size in row:
            item.setGeometry(QRect(QPoint(left + x, y + (line - size.height()) // 2), size))
