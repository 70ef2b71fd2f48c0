"""A brew that was done from the paper sheet is typed in afterwards: its blanks as one form.

All may be left empty: then it is noted that it was brewed. What is typed stays in the form when it
is closed, until the program ends or the brew is kept.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from PySide6.QtCore import QDate, QSignalBlocker, Qt, QTime, Signal
from PySide6.QtWidgets import (
    QDateEdit,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QTimeEdit,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.measured.doubtful import Doubtful, doubts_of
from designer.brewday.measured.readings import Reading
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Outlook
from designer.recipe.document import Recipe
from designer.sheet.stove import Blank, stove_steps
from designer.translation import named, tr, trn
from designer.units.clock import USUAL_START_MIN
from designer.window.brew.paper_rows import PaperRows
from designer.window.parts.background import Latest
from designer.window.parts.buttons import button
from designer.window.parts.dates import CLOCK, day_form
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.on_screen import keep_on_screen
from designer.window.parts.page_frame import heading, scrolled
from designer.window.parts.scrolling_dialog import ScrollingDialog
from designer.workbench.brew.blank_places import whole_label
from designer.workbench.brew.paper_day import PaperDay, ends_at
from designer.workbench.brew.typed_reading import typed_reading

WIDE, HIGH = 780, 640
NOTES_HEIGHT = 60


class PaperForm(ScrollingDialog):
    """For one recipe. `kept` carries a `PaperDay`."""

    kept = Signal(object)

    def __init__(
        self, recipe: Recipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._recipe, self._display = recipe, display
        self._outlook: Outlook | None = None
        self._keeps = False
        glimpse = look_ahead(recipe, ranges=False)
        self.steps = stove_steps(
            recipe, glimpse, shown=display.settings.units, start=None, brew_date=None
        )
        self.setWindowTitle(tr("Brewed from the paper sheet"))
        self.rows = PaperRows(self.steps, self._read, self._doubt)
        self._lay_out()
        self._set_times()
        self.latest = Latest(self)
        self.latest.answered.connect(self._follow)
        self.latest.ask(lambda: look_ahead(recipe))
        self._tell()
        self.resize(WIDE, HIGH)
        keep_on_screen(self)

    # laid out

    def _lay_out(self) -> None:
        name = QLabel(self._recipe.name)
        name.setTextFormat(Qt.TextFormat.PlainText)
        name.setObjectName("strong")
        name.setWordWrap(True)
        words = QLabel(
            tr(
                "Type in what stands on the paper and leave the rest empty. A gravity may have its "
                "temperature behind it: 1.046 at 24 °C."
            )
        )
        words.setWordWrap(True)
        words.setObjectName("soft")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 14, 16, 12)
        layout.setSpacing(8)
        layout.addWidget(name)
        layout.addWidget(words)
        layout.addLayout(self._laid_times())
        layout.addWidget(heading(tr("What was done and read")))
        layout.addWidget(scrolled(self.rows), 1)
        layout.addLayout(self._laid_end())
        self.told = QLabel()
        self.told.setWordWrap(True)
        layout.addWidget(self.told)
        layout.addLayout(self._laid_buttons())

    def _laid_times(self) -> QHBoxLayout:
        self.day = QDateEdit()
        self.day.setDisplayFormat(day_form())
        self.day.setCalendarPopup(True)
        self.day.setAccessibleName(tr("Brewed on"))
        self.began, self.pitched = QTimeEdit(), QTimeEdit()
        row = QHBoxLayout()
        row.setSpacing(8)
        for text, field in (
            (tr("Brewed on"), self.day),
            (tr("begun at about"), self.began),
            (tr("yeast in at about"), self.pitched),
        ):
            label = QLabel(text)
            label.setBuddy(field)
            field.setAccessibleName(text)
            row.addWidget(label)
            row.addWidget(field)
        row.addStretch(1)
        return row

    def _laid_end(self) -> QHBoxLayout:
        self.yeast = QLineEdit()
        self.yeast.setPlaceholderText(named(self._recipe.yeast.name))
        self.yeast.setAccessibleName(tr("Yeast, if it was another"))
        self.notes = QPlainTextEdit()
        self.notes.setAccessibleName(tr("Notes"))
        self.notes.setPlaceholderText(tr("What else there is to say of the day"))
        self.notes.setTabChangesFocus(True)
        self.notes.setFixedHeight(NOTES_HEIGHT)
        left, right = QVBoxLayout(), QVBoxLayout()
        for column, text, field in (
            (left, tr("Yeast, if it was another"), self.yeast),
            (right, tr("Notes"), self.notes),
        ):
            label = QLabel(text)
            label.setBuddy(field)
            column.setSpacing(3)
            column.addWidget(label)
            column.addWidget(field)
        left.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addLayout(left, 1)
        row.addLayout(right, 2)
        return row

    def _laid_buttons(self) -> QHBoxLayout:
        self.keep_button = button(
            tr("Keep this brew"), tr("Put the brew with its log into the Recipe box"), self.keep
        )
        self.keep_button.setObjectName("primary")
        self.close_button = button(
            tr("Close"), tr("What is typed stays here until the program ends"), self.reject
        )
        for each in (self.keep_button, self.close_button):
            each.setAutoDefault(False)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addWidget(self.close_button)
        row.addWidget(self.keep_button)
        return row

    def _set_times(self) -> None:
        """Begin with the last day that may be over, at the usual start.

        The yeast follows the start until it is typed.
        """
        today = QDate.currentDate()
        self.day.setMaximumDate(today)
        self.day.setDate(today)
        for field in (self.began, self.pitched):
            field.setDisplayFormat(CLOCK)
        self._is_own_end = False
        self.began.timeChanged.connect(self._move_end)
        self.pitched.timeChanged.connect(self._note_end)
        self.began.setTime(QTime(0, 0).addSecs(60 * USUAL_START_MIN))
        self._move_end()
        if self._paper_day().pitched > datetime.now().astimezone():
            self.day.setDate(today.addDays(-1))  # a whole day has not passed yet
        self.rows.changed.connect(self._tell)

    def _move_end(self) -> None:
        if not self._is_own_end:
            with QSignalBlocker(self.pitched):
                minutes = ends_at(self.steps)
                self.pitched.setTime(self.began.time().addSecs(round(60.0 * minutes)))

    def _note_end(self) -> None:
        self._is_own_end = True

    # readings

    def _read(self, blank: Blank, typed: str) -> Reading:
        return typed_reading(blank, typed, self._recipe, self._display.read)

    def _doubt(self, reading: Reading, typed: str) -> Doubtful | None:
        """Return why a reading cannot be; None where it can, or the day is not known yet."""
        if self._outlook is None:
            return None
        beside = [each.reading for each in self.rows.readings()]
        return doubts_of(reading, self._outlook, self._recipe, typed=typed, beside=beside)

    def _follow(self, outlook: Outlook) -> None:
        self._outlook = outlook
        self.rows.look_again()
        if self._keeps:
            self.keep()

    def _tell(self) -> None:
        """Say what is going to be kept."""
        number = len(self.rows.readings())
        if self.rows.is_empty:
            self.told.setText(tr("Nothing is typed: it is noted that it was brewed."))
        else:
            self.told.setText(trn("{number} reading.", "{number} readings.", number))

    # the end

    def keep(self) -> None:
        """Hand over what was done, if nothing waits for an answer."""
        self._keeps = self._outlook is None and not self.rows.is_empty
        if self._keeps:
            self.told.setText(tr("One moment: the day is being reckoned."))
            return
        self.rows.look()
        waiting = self.rows.first_open()
        if waiting is not None:
            waiting.field.setFocus(Qt.FocusReason.OtherFocusReason)
            told = tr("{blank} is not answered yet.", blank=whole_label(waiting.blank))
            self.told.setText(told)
            return
        self.kept.emit(self._paper_day())
        self.accept()

    def _paper_day(self) -> PaperDay:
        day, began, pitched = self.day.date(), self.began.time(), self.pitched.time()
        first = _moment(day, began)
        last = _moment(day, pitched)
        if last < first:
            last += timedelta(days=1)
        yeast = self.yeast.text().strip()
        is_empty = self.rows.is_empty
        return PaperDay(
            first,
            last,
            () if is_empty else self.steps,
            self.rows.readings(),
            self.rows.keys_left_out(),
            tr("Yeast: {yeast}", yeast=yeast) if yeast else "",
            self.notes.toPlainText().strip(),
            str(self._display.settings.units),
        )

    def close_down(self) -> None:
        """For the end of the window."""
        self.latest.wait()


def _moment(day: QDate, time: QTime) -> datetime:
    """Return the instant of a day and a time of day, where this machine is."""
    return datetime(day.year(), day.month(), day.day(), time.hour(), time.minute()).astimezone()
