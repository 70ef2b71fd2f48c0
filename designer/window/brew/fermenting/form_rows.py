"""What the small forms of the beer share: a question over a panel, fields below their names."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from PySide6.QtCore import QDate, QEvent, QObject, Qt, QTime, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QDateEdit,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QTimeEdit,
    QVBoxLayout,
    QWidget,
)

from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.parts.dates import CLOCK, day_form
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Choice
from designer.window.parts.page_frame import heading
from designer.window.parts.refusal import Refusal
from designer.window.parts.targets import TARGET_PX


class BeerForm(QFrame):
    """A form that stands in a panel's place: a grid of fields, a moment, buttons.

    `closed` tells that it is done with. Return carries it out, Escape puts it away; no key goes on
    to the page.
    """

    closed = Signal()

    def __init__(self, title: str, carry_out: str) -> None:
        super().__init__()
        self.setObjectName("cardPanel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.refusal = Refusal(self)
        self.title = heading(title)
        self.fields = QGridLayout()
        self.fields.setHorizontalSpacing(10)
        self.fields.setVerticalSpacing(3)
        self.ok_button = LargeButton(carry_out, "", self.carry_out).as_primary(1.1)
        self.cancel_button = LargeButton(tr("Cancel"), tr("Leave it (Escape)"), self.put_away)
        self.ways = FlowLayout(across=8, down=6)
        self.ways.addWidget(self.ok_button)
        self.ways.addWidget(self.cancel_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.setSpacing(8)
        layout.addWidget(self.title)
        layout.addLayout(self.fields)
        layout.addStretch(1)
        layout.addLayout(self.ways)

    def carry_out(self) -> None:
        """Take what the fields say."""
        raise NotImplementedError

    def put_away(self) -> None:
        """Be done with it."""
        self.refusal.clear()
        self.closed.emit()

    def place(self, row: int, column: int, name: str, field: QWidget) -> None:
        """Put a field below its name."""
        label = QLabel(name)
        label.setObjectName("soft")
        label.setBuddy(field)
        field.setAccessibleName(name)
        field.setMinimumHeight(TARGET_PX)
        self.fields.addWidget(label, 2 * row, column)
        self.fields.addWidget(field, 2 * row + 1, column)
        if isinstance(field, QLineEdit):
            field.returnPressed.connect(self.carry_out)
        else:
            field.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Return in a choice or a date carries the form out too."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            returns = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
            if returns and not (isinstance(watched, Choice) and watched.view().isVisible()):
                self.carry_out()
                return True
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        focus = QApplication.focusWidget()
        returns = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        elif returns and isinstance(focus, QAbstractButton) and self.isAncestorOf(focus):
            focus.click()
        event.accept()


class OneOf(QWidget):
    """Panels in one place: as large as the one that is shown."""

    def __init__(self, *panels: QWidget) -> None:
        super().__init__()
        self._panels = panels
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for each in panels:
            layout.addWidget(each)
        self._shown = panels[0]
        self.show_panel(panels[0])

    @property
    def shown(self) -> QWidget:
        """The panel that is shown."""
        return self._shown

    def show_panel(self, panel: QWidget) -> None:
        """Show a panel in place of the one that is shown."""
        self._shown = panel
        for each in self._panels:
            each.setVisible(each is panel)


class Moment(QWidget):
    """A day and a time of it, now unless it is said otherwise; its fields are placed one by one."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.hide()
        self.day, self.clock = QDateEdit(), QTimeEdit()
        self.day.setDisplayFormat(day_form())
        self.day.setCalendarPopup(True)
        self.clock.setDisplayFormat(CLOCK)
        self._shown = datetime.fromtimestamp(0.0)

    def show_wall(self, wall: float) -> None:
        """Show a moment, seconds since 1970."""
        here = datetime.fromtimestamp(wall)
        self.day.setDate(QDate(here.year, here.month, here.day))
        self.clock.setTime(QTime(here.hour, here.minute))
        self._shown = here

    @property
    def wall(self) -> float:
        """The moment that is said; to the second where nothing was typed."""
        day, clock = self.day.date(), self.clock.time()
        said = datetime(day.year(), day.month(), day.day(), clock.hour(), clock.minute())
        if said == self._shown.replace(second=0, microsecond=0):
            return self._shown.timestamp()
        return said.timestamp()


def choice_of(words: Sequence[tuple[str, object]], changed: Callable[[], object]) -> Choice:
    """Return a choice among words, each standing for something."""
    made = Choice()
    for text, data in words:
        made.addItem(text, data)
    made.activated.connect(lambda _: changed())
    return made


def beside(*widgets: QWidget) -> QHBoxLayout:
    """Return widgets beside each other."""
    row = QHBoxLayout()
    row.setSpacing(8)
    for each in widgets:
        row.addWidget(each)
    return row
