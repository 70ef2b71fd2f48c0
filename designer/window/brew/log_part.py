"""Log: all that was done, read and said, with its time; it can be set right and handed on.

Nothing is ever taken out of it: what is corrected stands beside what it said before, what is taken
back stays to be read.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import (
    QModelIndex,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QFont, QPainter
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QListView,
    QMenu,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from designer.errors import RefusedInputError
from designer.library.file_names import file_name
from designer.translation import tr, trn
from designer.units.clock import minutes_of, read_clock
from designer.window.brew.card_panel import CardPanel
from designer.window.brew.large_button import LargeButton
from designer.window.brew.row_list import ROW, Index, RowList, RowsModel
from designer.window.parts.deeds import add_deeds, deeds_of
from designer.window.parts.inks import inks_for
from designer.window.parts.page_frame import heading
from designer.window.parts.questions import Questions
from designer.window.parts.refusal import FieldRefusedError, Refusal
from designer.window.parts.row_menu import add_buttons, offer_menu
from designer.window.parts.sized_text import grown, height_of, sized
from designer.window.parts.targets import TARGET_PX
from designer.window.session.open_brew import OpenBrew
from designer.window.session.recipe_window import RecipeWindow
from designer.workbench.brew.entries import What
from designer.workbench.brew.log_lines import LogLine, clock_of, told_lines
from designer.workbench.keys import COPY

MAY_BE_CORRECTED = (What.READING, What.NOTE, What.LEFT_OUT)
"""What has words or a figure of the brewer's own."""
HAS_NO_TIME = (What.TAKES_BACK, What.CORRECTS, What.CLOCK)
"""What tells of other entries: its time is not set right."""
PAD = 9


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the log: when, what, and below it what became of it."""

    line: LogLine
    clock: str
    words: str
    remarks: str

    @property
    def said(self) -> str:
        """All of it."""
        return ". ".join(each for each in (self.clock, self.words, self.remarks) if each)


def row_of(line: LogLine) -> Row:
    """Return a line of the log as it is shown."""
    remarks = []
    if line.was:
        was = "; ".join(str(each) for each in line.was)
        remarks.append(tr("before: {what}", what=was))
    if line.entry.by_guess:
        remarks.append(tr("time by guess"))
    if not line.counts:
        remarks.append(tr("taken back"))
    return Row(line, clock_of(line.when), str(line.words), ", ".join(remarks))


class LogModel(RowsModel):
    """The entries of a log, in the order in which they were written."""

    rows: tuple[Row, ...] = ()

    def words_of(self, row: Row) -> str:
        return row.words

    def show_rows(self, rows: tuple[Row, ...]) -> None:
        """Show other rows; what grows only at its end keeps its place."""
        before = self.rows
        if rows[: len(before)] == before:
            if len(rows) > len(before):
                self.beginInsertRows(QModelIndex(), len(before), len(rows) - 1)
                self.rows = rows
                self.endInsertRows()
            return
        if len(rows) >= len(before) and _ids(rows[: len(before)]) == _ids(before):
            self.rows = rows[: len(before)]
            self.dataChanged.emit(self.index(0), self.index(len(before) - 1))
            self.show_rows(rows)
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()


def _ids(rows: tuple[Row, ...]) -> list[str]:
    return [each.line.entry.id for each in rows]


class LogDelegate(QStyledItemDelegate):
    """Paints an entry: its clock, its words in as many lines as they take, what became of it."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        widget = option.widget
        assert isinstance(widget, QListView)
        row: Row = index.data(ROW)
        words, below, left = self._fonts(widget)
        room = widget.viewport().width() - left - 2 * PAD
        high = height_of(words, row.words, room)
        if row.remarks:
            high += height_of(below, row.remarks, room)
        return QSize(120, max(TARGET_PX, round(high) + 2 * PAD))

    def _fonts(self, widget: QWidget) -> tuple[QFont, QFont, int]:
        """Return the type of words and remarks, and where they begin."""
        words = sized(widget.font(), grown(widget, 14))
        below = sized(widget.font(), grown(widget, 12))
        return words, below, round(grown(widget, 72))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        row: Row = index.data(ROW)
        widget = option.widget
        assert isinstance(widget, QListView)
        inks, place = inks_for(widget.window().palette()), QRectF(option.rect)
        words, below, left = self._fonts(widget)
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(place, QColor(inks.chosen))
        painter.setPen(QColor(inks.line))
        painter.drawLine(place.bottomLeft(), place.bottomRight())
        words.setStrikeOut(not row.line.counts)
        soft, ink = QColor(inks.ink_soft), QColor(inks.ink if row.line.counts else inks.ink_soft)
        painter.setFont(sized(widget.font(), grown(widget, 14), bold=True))
        painter.setPen(soft)
        painter.drawText(place.adjusted(12, PAD, 0, 0), row.clock)
        room = place.adjusted(left, PAD, -PAD, 0)
        flags = int(Qt.TextFlag.TextWordWrap)
        painter.setFont(words)
        painter.setPen(ink)
        painter.drawText(room, flags, row.words)
        if row.remarks:
            room.setTop(room.top() + height_of(words, row.words, room.width()))
            painter.setFont(below)
            painter.setPen(soft)
            painter.drawText(room, flags, row.remarks)
        painter.restore()


class LogPart(QFrame):
    """The log with what can be done about the entry that is chosen.

    `file_made` carries a file to be written: where, its bytes, what is said once it is on the disk.
    """

    file_made = Signal(object, object, str)
    note_wanted = Signal()

    def __init__(self, brew: OpenBrew, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._brew = brew
        self.model = LogModel()
        self.view = RowList(self.model, LogDelegate(), tr("Log of this brew"))
        self.view.selectionModel().selectionChanged.connect(self._offer)
        self.count = QLabel()
        self.count.setObjectName("soft")
        self.empty = QLabel(tr("Nothing is logged yet: the log begins with the day."))
        self.empty.setObjectName("soft")
        self.correct_button = LargeButton(
            tr("Correct…"),
            tr("Set right what was typed; what it said before stays beside it"),
            self.ask_correct,
        )
        self.time_button = LargeButton(
            tr("Another time…"), tr("Set right when it was"), self.ask_time
        )
        self.back_button = LargeButton(
            tr("Take back"), tr("It counts no more, and stays to be read"), self.take_back
        )
        self.note_button = LargeButton(
            tr("Note…"), tr("Write a note into the log (N)"), self.note_wanted.emit
        )
        self.export_button = LargeButton(
            tr("Export…"), tr("As text, as a table (CSV) or as JSON"), self.export
        )
        self.correcting = CardPanel(self, "", tr("What it ought to say"), tr("Correct it"))
        self.timing = CardPanel(self, "", tr("When it was, such as 10:51"), tr("Set the time"))
        self.correcting.answered.connect(self._correct)
        self.timing.answered.connect(self._correct_time)
        self.refusal = Refusal(self)
        offer_menu(self.view, self.fill_menu)
        self._lay_out()
        self._offer()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(heading(tr("Log of this brew")))
        top.addWidget(self.count)
        top.addStretch(1)
        buttons = QHBoxLayout()
        buttons.setSpacing(8)
        for each in (self.correct_button, self.time_button, self.back_button):
            buttons.addWidget(each)
        buttons.addStretch(1)
        for each in (self.note_button, self.export_button):
            buttons.addWidget(each)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 8, 14, 10)
        layout.addLayout(top)
        layout.addWidget(self.empty)
        layout.addWidget(self.view, 1)
        layout.addLayout(buttons)

    # what is shown

    def refresh(self) -> None:
        """Show the log as it is by now; it stands at its end unless somebody reads further up."""
        brewing = self._brew.brewing
        rows = tuple(map(row_of, told_lines(brewing))) if brewing is not None else ()
        bar = self.view.verticalScrollBar()
        was_at_end = bar.value() >= bar.maximum()
        self.model.show_rows(rows)
        self.count.setText(trn("{number} entry", "{number} entries", len(rows)))
        self.empty.setVisible(not rows)
        self.view.setVisible(bool(rows))
        if was_at_end:
            self.view.scrollToBottom()
        self._offer()

    def fill_menu(self, menu: QMenu) -> None:
        """Add what can be done about the entry that is chosen."""
        add_buttons(menu, (self.correct_button, self.time_button, self.back_button))
        menu.addSeparator()
        add_deeds(menu, deeds_of(self.view), (COPY,))
        add_buttons(menu, (self.note_button, self.export_button))

    def chosen(self) -> LogLine | None:
        """Return the entry that is chosen."""
        rows = self.view.selectionModel().selectedIndexes()
        return self.model.rows[rows[0].row()].line if rows else None

    def _offer(self) -> None:
        """Offer what can be done about the entry that is chosen."""
        line = self.chosen()
        counts = line is not None and line.counts
        what = line.entry.what if line is not None else None
        self.correct_button.setEnabled(counts and what in MAY_BE_CORRECTED)
        self.time_button.setEnabled(counts and what not in HAS_NO_TIME)
        self.back_button.setEnabled(counts and what not in (*HAS_NO_TIME, What.BEGAN))
        is_open = self._brew.is_open
        self.note_button.setEnabled(is_open)
        self.export_button.setEnabled(is_open)

    # what is done

    def ask_correct(self) -> None:
        """Ask what an entry ought to say."""
        line = self.chosen()
        if line is not None:
            values = line.entry.values
            text = values.get("typed") or values.get("text") or values.get("reason") or ""
            self.correcting.ask(tr("Correct: {what}", what=str(line.words)), str(text))
            self.correcting.field.selectAll()

    def _correct(self, text: str) -> None:
        line = self.chosen()
        if line is None or not text:
            return
        try:
            self._brew.correct(line.entry.id, text)
        except RefusedInputError as fault:
            self.correcting.ask(text=text)
            self.refusal.say(FieldRefusedError(self.correcting.field, str(fault)))

    def ask_time(self) -> None:
        """Ask when an entry was."""
        line = self.chosen()
        if line is not None:
            self.timing.ask(tr("When was it: {what}", what=str(line.words)), clock_of(line.when))
            self.timing.field.selectAll()

    def _correct_time(self, text: str) -> None:
        line = self.chosen()
        if line is None or line.when is None:
            return
        try:
            minutes = minutes_of(read_clock(text)) or 0
        except RefusedInputError as fault:
            self.timing.ask(text=text)
            self.refusal.say(FieldRefusedError(self.timing.field, str(fault)))
            return
        at: datetime = line.when.replace(hour=minutes // 60, minute=minutes % 60, second=0)
        self._brew.correct_time(line.entry.id, at.timestamp())

    def take_back(self) -> None:
        """Take the chosen entry back."""
        line = self.chosen()
        if line is not None and line.counts:
            self._brew.take_back(line.entry.id)

    @property
    def _questions(self) -> Questions:
        window = self.window()
        return window.questions if isinstance(window, RecipeWindow) else Questions()

    def export(self) -> None:
        """Ask for a file and write the log into it, as its ending says."""
        brew, brewing = self._brew.brew, self._brew.brewing
        if brew is None or brewing is None:
            return
        # The forms in which a log is handed on are loaded with the first that is.
        from designer.workbench.brew.brew_export import exported

        suggested = Path.home() / f"{file_name(brew.name)}-{brew.started[:10]}.txt"
        path = self._questions.log_where(self, str(suggested))
        if path is not None:
            content = exported(brew, brewing, path.suffix.lower()).encode("utf-8")
            self.file_made.emit(path, content, tr("Exported {path}.", path=path))
