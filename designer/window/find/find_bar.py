"""Find on the page: a slim bar below it; Return and F3 go to the next hit, Escape ends it."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QFrame, QHBoxLayout, QLabel, QLineEdit, QWidget
from shiboken6 import isValid

from designer.translation import tr, tr_of
from designer.window.find.page_texts import Spot, found_on
from designer.window.paged_window import PagedWindow
from designer.window.parts.buttons import button
from designer.window.parts.scrolling import bring_into_view

LONGEST = 200


class FindBar(QFrame):
    """The field, how many hits there are, and the way from one to the next."""

    def __init__(self, window: PagedWindow) -> None:
        super().__init__()
        self._window = window
        self._before: QWidget | None = None
        self._mark: QFrame | None = None
        self._hits: list[Spot] = []
        self._at = 0
        self.setObjectName("header")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(tr("Find on the page"))
        self.search = QLineEdit()
        self.search.setMaxLength(LONGEST)
        self.search.setPlaceholderText(tr("Find on the page"))
        self.search.setAccessibleName(tr("Find on the page"))
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self._look)
        self.count = QLabel()
        self.count.setObjectName("soft")
        self.back = button(tr("Previous"), tr("The hit before (Shift+F3)"), lambda: self.go(-1))
        self.on = button(tr_of("hit", "Next"), tr("The next hit (F3)"), lambda: self.go(1))
        self.close_button = button(tr("Close"), tr("End finding (Escape)"), self.put_away)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 5, 18, 5)
        row.setSpacing(8)
        row.addWidget(self.search, 1)
        row.addWidget(self.count)
        row.addStretch(1)
        for each in (self.back, self.on, self.close_button):
            row.addWidget(each)
        window.pages.currentChanged.connect(self._follow_page)
        self.hide()

    def ask(self) -> None:
        """Show the bar and ask what is to be found; what was asked before stands there."""
        focus = QApplication.focusWidget()
        if focus is not None and not self.isAncestorOf(focus):
            self._before = focus
        self.show()
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()
        self._look()

    @property
    def hit(self) -> Spot | None:
        """The hit that is marked."""
        return self._hits[self._at] if self._hits else None

    def go(self, by: int) -> None:
        """Go to the next hit, or with -1 to the one before; from the last to the first."""
        at = self._at + by
        self._hits = self._found()
        self._at = at % len(self._hits) if self._hits else 0
        self._show()

    def _found(self) -> list[Spot]:
        self._unmark()
        page = self._window.pages.currentWidget()
        return found_on(page, self.search.text()) if page is not None else []

    def _look(self) -> None:
        self._hits = self._found()
        self._at = 0
        self._show()

    def _follow_page(self) -> None:
        """Find on the page that is shown now, once it is laid out."""
        if self.isVisible():
            QTimer.singleShot(0, self, self._look)

    def _show(self) -> None:
        """Say how many there are, and mark the one that one is at."""
        hit, typed = self.hit, self.search.text().strip()
        if hit is None:
            self.count.setText(tr("Not on this page") if typed else "")
        else:
            number = {"number": self._at + 1, "count": len(self._hits)}
            self.count.setText(tr("{number} of {count}", **number))
            self._go_to(hit)
        for each in (self.back, self.on):
            each.setEnabled(len(self._hits) > 1)

    def _go_to(self, hit: Spot) -> None:
        hit.show()
        rect = hit.rect()
        bring_into_view(hit.widget, rect)
        self._mark = mark = QFrame(hit.widget)
        mark.setObjectName("changed")
        mark.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        mark.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        mark.setGeometry(rect)
        mark.show()
        self.setAccessibleDescription(hit.text)

    def _unmark(self) -> None:
        if self._mark is not None and isValid(self._mark):
            self._mark.setParent(None)
            self._mark.deleteLater()
        self._mark = None

    def put_away(self) -> None:
        """Hide the bar, and give the keyboard back to where it was."""
        before, self._before = self._before, None
        self._unmark()
        self.hide()
        if before is not None and isValid(before) and before.isVisible():
            before.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        returns = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        elif returns and self.search.hasFocus():
            is_back = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            self.go(-1 if is_back else 1)
        else:
            super().keyPressEvent(event)
