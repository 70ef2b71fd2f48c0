"""Plan against what was measured: a column for each blank, in the order of the day.

The strip scrolls sideways by itself to the next blank. What is refused marks its field and says
what would do; what cannot be is asked about in place, before it is taken.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import cast

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from designer.errors import RefusedInputError
from designer.translation import tr
from designer.window.brew.sign_button import SignButton
from designer.window.brew.strip_cells import Cell
from designer.window.parts.page_frame import heading
from designer.window.parts.reading_order import order_tabs
from designer.window.parts.refusal import FieldRefusedError, Refusal
from designer.window.parts.scrolling import own_viewport
from designer.window.parts.sized_text import SizedText, grown, largest_fitting
from designer.window.parts.targets import TARGET_PX
from designer.workbench.brew.blank_places import Place

CELL_PX, FIELD_PX, GAP_PX = 90.0, TARGET_PX, 8
NAMES_PX = 100.0
"""Width of a column, height of a field, room between, and width of what names the rows."""

GOES_ON = (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason)
"""Another window has the keyboard for a while; what is typed here goes on then."""


class BlankField(QLineEdit):
    """A blank to type in. Return takes what is typed, Escape takes it back; both leave it.

    What is typed is taken too where the field is left in another way.
    """

    taken = Signal()
    left = Signal()
    gone_from = Signal()
    given_up = Signal()
    entered = Signal()
    tapped = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("blank")
        self.setMinimumHeight(FIELD_PX)
        self.setPlaceholderText(tr("type"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.given_up.emit()
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Leave Undo and Redo to the brew while nothing was typed here."""
        if event.type() == QEvent.Type.ShortcutOverride and not self.isModified():
            pressed = cast(QKeyEvent, event)
            both = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)
            if any(pressed.matches(each) for each in both):
                event.ignore()
                return True
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.gone_from.emit()
        if self.isModified() and event.reason() not in GOES_ON:
            self.left.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        self._tell_tap(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        super().mouseDoubleClickEvent(event)
        self._tell_tap(event)  # a tap soon after one elsewhere

    def _tell_tap(self, event: QMouseEvent) -> None:
        if event.source() != Qt.MouseEventSource.MouseEventNotSynthesized:
            self.tapped.emit()


class RowNames(QWidget):
    """What the rows are, at the heights of a column."""

    def __init__(self) -> None:
        super().__init__()
        self.plan = SizedText(ink="ink_soft", parent=self)
        self.measured = SizedText(bold=True, parent=self)
        self.now = SizedText(ink="ink_soft", parent=self)
        self.plan.say(tr("Plan"))
        self.measured.say(tr("You measured"))
        self.now.say(tr("Now"))

    def sizeHint(self) -> QSize:
        wide = max(
            each.wanted_width(grown(self, 13)) for each in (self.plan, self.measured, self.now)
        )
        return QSize(round(max(wide + 6, grown(self, NAMES_PX))), column_height(self))

    def resizeEvent(self, event: QResizeEvent) -> None:
        set_down(self, self.plan, self.measured, (self.now,))
        for each in (self.plan, self.measured, self.now):
            each.set_pixels(grown(self, 13))


def column_height(widget: QWidget) -> int:
    """Return how high a column is: label, plan, field, and what follows."""
    return 3 * round(grown(widget, 18)) + FIELD_PX + 8


def set_down(
    column: QWidget,
    plan: QWidget,
    field: QWidget,
    now: Sequence[QWidget],
    label: QWidget | None = None,
) -> None:
    """Set the parts of a column into their places, the same in each."""
    line, width = round(grown(column, 18)), column.width()
    if label is not None:
        label.setGeometry(0, 0, width, line)
    plan.setGeometry(0, line, width, line)
    field.setGeometry(0, 2 * line + 3, width, FIELD_PX)
    for each in now:
        each.setGeometry(0, 2 * line + FIELD_PX + 6, width, line)


class StripCell(QWidget):
    """One column: label, plan, field, and what follows.

    Beside its field it can be dragged, and the strip with it: `dragged` says how far.
    """

    dragged = Signal(int)

    def __init__(self, cell: Cell) -> None:
        super().__init__()
        centre = Qt.AlignmentFlag.AlignLeft
        self.label = SizedText(ink="ink_soft", align=centre, parent=self)
        self.plan = SizedText(ink="ink_soft", align=centre, parent=self)
        self.now = SizedText(ink="ink_soft", align=centre, parent=self)
        self.changed = SizedText(ink="green", bold=True, align=centre, parent=self)
        self.field = BlankField()
        self.field.setParent(self)
        self.refusal = Refusal(self.field)
        """Says beside the field why what is typed is not taken."""
        self.cell = cell
        self.is_next = False
        self._held = 0
        self.show_cell(cell)

    def show_cell(self, cell: Cell) -> None:
        """Show what is known now; what is being typed stays."""
        self.label.say(cell.label)
        self.plan.say(cell.plan)
        self.now.say("" if cell.changed else cell.now)
        self.changed.say(cell.now if cell.changed else "")
        self.field.setAccessibleName(cell.whole)
        self.field.setAccessibleDescription(
            tr("planned {plan}, now {now}", plan=cell.plan, now=cell.now)
        )
        if not self.field.isModified() and self.field.text() != cell.typed:
            self.field.setText(cell.typed)
        self.cell = cell

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._held = round(event.globalPosition().x())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        x = round(event.globalPosition().x())
        self.dragged.emit(self._held - x)
        self._held = x

    def mark_next(self, is_next: bool) -> None:
        """Show that this blank comes next."""
        if is_next is not self.is_next:
            self.is_next = is_next
            self.field.setProperty("next", is_next)
            self.field.style().unpolish(self.field)
            self.field.style().polish(self.field)

    def sizeHint(self) -> QSize:
        return QSize(round(grown(self, CELL_PX)), column_height(self))

    def resizeEvent(self, event: QResizeEvent) -> None:
        sizes = (grown(self, 12), grown(self, 8))
        self.label.set_pixels(largest_fitting((self.label,), self.width(), 0, *sizes))
        for each in (self.plan, self.now, self.changed):
            each.set_pixels(grown(self, 13))
        set_down(self, self.plan, self.field, (self.now, self.changed), self.label)


class Strip(QFrame):
    """The strip with its heading and the names of its rows.

    `take` takes what was typed into a blank and may raise RefusedInputError; `done` tells that the
    keyboard is to go back to the step.
    """

    done = Signal()
    typing = Signal(object, str)
    """What is being typed in a cell, "" for nothing more."""

    tapped = Signal(object)
    """A blank was touched with a finger: its field."""
    more_wanted = Signal()
    """Something is to be measured for which no step has a blank."""

    def __init__(self, take: Callable[[Cell, str], bool], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("plain")
        self._take = take
        self.cells: dict[Place, StripCell] = {}
        self._next: Place | None = None
        self._is_to_scroll = False
        self.heading = heading(tr("Plan against what you measured"))
        self._content = QWidget()
        self._columns = QHBoxLayout(self._content)
        self._columns.setContentsMargins(0, 0, 0, 0)
        self._columns.setSpacing(GAP_PX)
        self._columns.addStretch(1)
        self.area = QScrollArea()
        own_viewport(self.area)
        self.area.setWidget(self._content)
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.area.viewport().setAutoFillBackground(False)
        self._content.setAutoFillBackground(False)
        self.names = RowNames()
        self.more_button = SignButton(self.more_wanted.emit)
        self.more_button.show_sign(
            "more", tr("Measure something else: weights, the alpha of a packet, the boil")
        )
        self._lay_out()

    def _lay_out(self) -> None:
        line_up = QHBoxLayout()
        line_up.setSpacing(8)
        line_up.addWidget(self.names, 0, Qt.AlignmentFlag.AlignTop)
        line_up.addWidget(self.area, 1, Qt.AlignmentFlag.AlignTop)
        beside = QVBoxLayout()
        beside.addSpacing(2 * round(grown(self, 18)) + 3)  # where the fields are
        beside.addWidget(self.more_button)
        beside.addStretch(1)
        line_up.addLayout(beside)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 6, 8, 2)
        layout.setSpacing(4)
        layout.addWidget(self.heading)
        layout.addLayout(line_up)
        layout.addStretch(1)

    def show_cells(self, cells: tuple[Cell, ...], next_one: Place | None) -> None:
        """Show what is known of each blank now, and which comes next."""
        if [each.place for each in cells] != list(self.cells):
            self._make_anew(cells)
        for each in cells:
            self.cells[each.place].show_cell(each)
        for place, cell in self.cells.items():
            cell.mark_next(place == next_one)
        if next_one != self._next:
            self._next, self._is_to_scroll = next_one, True
            self._scroll_if_due()

    def _make_anew(self, cells: tuple[Cell, ...]) -> None:
        for old in self.cells.values():
            self._columns.removeWidget(old)
            old.hide()
            old.deleteLater()
        self.cells = {each.place: self._made(each) for each in cells}
        for number, made in enumerate(self.cells.values()):
            self._columns.insertWidget(number, made)
        order_tabs(self)
        self.area.setFixedHeight(column_height(self))
        self._share_width()

    def _share_width(self) -> None:
        """Have columns so wide that none is seen in part, until somebody scrolls."""
        room, least = self.area.viewport().width() + GAP_PX, grown(self, CELL_PX) + GAP_PX
        seen = min(max(int(room / least), 1), max(len(self.cells), 1))
        width = room / seen if seen < len(self.cells) else min(room / seen, 1.3 * least)
        for each in self.cells.values():
            each.setFixedWidth(int(width) - GAP_PX)

    def _made(self, cell: Cell) -> StripCell:
        made = StripCell(replace(cell))
        bar = self.area.horizontalScrollBar()
        made.dragged.connect(lambda by: bar.setValue(bar.value() + by))
        made.field.taken.connect(lambda: self._take_and_leave(made))
        made.field.left.connect(lambda: self.take_typed(made))
        made.field.gone_from.connect(self._scroll_if_due)
        made.field.textEdited.connect(lambda text: self.typing.emit(made.cell, text))
        made.field.given_up.connect(lambda: self._give_up(made))
        made.field.entered.connect(lambda: self._bring_into_view(made))
        made.field.tapped.connect(lambda: self.tapped.emit(made.field))
        return made

    def wanted_height(self) -> int:
        """Return how high heading and columns are."""
        above = 0 if self.heading.isHidden() else self.heading.sizeHint().height() + 4
        return above + column_height(self)

    # what is typed

    def _take_and_leave(self, made: StripCell) -> None:
        if self.take_typed(made):
            self.done.emit()

    def take_typed(self, made: StripCell) -> bool:
        """Take what is typed in a field; False where it is refused, or has to be asked about."""
        try:
            is_taken = self._take(made.cell, made.field.text())
        except RefusedInputError as fault:
            made.refusal.say(FieldRefusedError(made.field, str(fault)))
            return False
        if is_taken:
            made.field.setModified(False)
            made.refusal.clear()
        return is_taken

    def _give_up(self, made: StripCell) -> None:
        self.typing.emit(made.cell, "")
        made.refusal.clear()
        made.field.setText(made.cell.typed)
        made.field.setModified(False)
        self.done.emit()

    def forget_typed(self, place: Place) -> None:
        """What was typed in a blank was taken another way."""
        made = self.cells.get(place)
        if made is not None:
            made.field.setModified(False)
            made.field.setText(made.cell.typed)

    def untaken(self) -> StripCell | None:
        """Return a column in which something is typed that was not taken."""
        return next((each for each in self.cells.values() if each.field.isModified()), None)

    def typed_cell(self) -> StripCell | None:
        """Return the column whose field has the keyboard."""
        return next((each for each in self.cells.values() if each.field.hasFocus()), None)

    def go_to(self, place: Place) -> None:
        """Give the keyboard to a blank."""
        made = self.cells.get(place)
        if made is not None:
            made.field.setFocus(Qt.FocusReason.OtherFocusReason)
            self._bring_into_view(made)

    def type_into_next(self, text: str) -> bool:
        """Begin to type into the blank that comes next; False where there is none."""
        made = self.cells.get(self._next) if self._next is not None else None
        if made is None:
            return False
        made.field.setFocus(Qt.FocusReason.OtherFocusReason)
        made.field.selectAll()
        made.field.insert(text)
        made.field.setModified(True)
        return True

    # scrolling

    def _scroll_if_due(self) -> None:
        """Scroll to what comes next once nothing is being typed."""
        if self._is_to_scroll and self.typed_cell() is None:
            self.scroll_to_next()

    def scroll_to_next(self) -> None:
        """Let the blank that comes next stand in the first half of what is seen.

        Once all is read, the last blanks are seen.
        """
        cells = list(self.cells.values())
        made = self.cells.get(self._next) if self._next is not None else None
        if self._next is None and any(each.cell.is_measured for each in cells):
            made = cells[-1]
        if made is not None and self.typed_cell() is None:
            self._is_to_scroll = False
            place = cells.index(made)
            wide, bar = made.width() + GAP_PX, self.area.horizontalScrollBar()
            seen = round((self.area.viewport().width() + GAP_PX) / wide)
            bar.setMaximum(max(len(self.cells) * wide - GAP_PX - self.area.viewport().width(), 0))
            bar.setValue(max(place - seen // 2, 0) * wide)

    def _bring_into_view(self, made: StripCell) -> None:
        self.area.ensureWidgetVisible(made, 12, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        QTimer.singleShot(0, self, self._follow_size)

    def _follow_size(self) -> None:
        self._share_width()
        self.scroll_to_next()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            cells = tuple(each.cell for each in self.cells.values())
            self._make_anew(cells)
