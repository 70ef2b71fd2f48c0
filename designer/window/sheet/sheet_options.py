"""How the sheet is wanted: brew day, language, large print, pages, the name of a shop."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QWidget

from designer.errors import RefusedInputError
from designer.sheet.blocks import Form
from designer.spoken_language import LANGUAGES
from designer.translation import message, tr
from designer.units.days import day_in_figures, read_day
from designer.window.parts.being_typed import mark
from designer.window.parts.icons import Choice, Tick
from designer.window.parts.plain_text import tip
from designer.window.parts.settings import Settings

DAY_TIP = message("The day you brew, as year, month and day; all steps then get a date")
PAGES = {1: message("As few pages as can be"), 2: message("Two pages, larger type")}


class Wishes(QWidget):
    """A row of choices over the pages; `changed` tells that one was made."""

    changed = Signal()

    def __init__(self, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        self.brew_day = _field(tr("Brew day"), day_in_figures(date(2026, 3, 28)), 96)
        self.brew_day.setToolTip(tr(DAY_TIP))
        self.language = Choice()
        self.language.addItems(list(LANGUAGES.values()))
        self.language.setCurrentText(LANGUAGES[settings.sheet_language])
        _name(self.language, tr("Language of the sheet"))
        self.pages = Choice()
        for count, text in PAGES.items():
            self.pages.addItem(tr(text), count)
        _name(self.pages, tr("How many pages"))
        self.large = Tick(tr("Large print"))
        self.large.setChecked(settings.large_print)
        _name(self.large, tr("Large print, on more pages"))
        self.shop = _field(tr("Shop"), tr("name, for a customer"), 170)
        self.shop.setText(settings.shop)
        self.shop.setToolTip(
            tr("The name of your shop at the head, where the sheet is for a customer")
        )
        self._connect()
        self._lay_out()

    def _connect(self) -> None:
        self.brew_day.textChanged.connect(self._read_day)
        self.shop.textChanged.connect(lambda _: self.changed.emit())
        self.shop.editingFinished.connect(self._keep_shop)
        self.pages.activated.connect(lambda _: self.changed.emit())
        self.language.activated.connect(self._keep_language)
        self.large.toggled.connect(self._keep_size)

    def _lay_out(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 0, 18, 8)
        row.setSpacing(8)
        for text, field in ((tr("Brew day"), self.brew_day), (tr("Shop"), self.shop)):
            label = QLabel(text)
            label.setObjectName("soft")
            label.setBuddy(field)
            row.addWidget(label)
            row.addWidget(field)
            row.addSpacing(6)
        for widget in (self.language, self.pages, self.large):
            row.addWidget(widget)
        row.addStretch(1)

    def _read_day(self) -> None:
        fault = self._refused_day()
        self.brew_day.setToolTip(tip(fault or tr(DAY_TIP)))
        mark(self.brew_day, refused=fault is not None, why=fault or "")
        self.changed.emit()

    def _refused_day(self) -> str | None:
        """Why what is typed is no day; None if it is one, or nothing is typed."""
        if not self.brew_day.text().strip():
            return None
        try:
            read_day(self.brew_day.text())
        except RefusedInputError as fault:
            return str(fault)
        return None

    def _keep_shop(self) -> None:
        if self.shop.text() != self._settings.shop:
            self._settings.shop = self.shop.text()

    def _keep_language(self) -> None:
        self._settings.sheet_language = list(LANGUAGES)[self.language.currentIndex()]

    def _keep_size(self, large: bool) -> None:
        self._settings.large_print = large

    @property
    def brew_date(self) -> date | None:
        """The day that is typed; None while it is none."""
        typed = self.brew_day.text()
        return read_day(typed) if typed.strip() and self._refused_day() is None else None

    @property
    def form(self) -> Form:
        """How large, on how many pages."""
        return Form(self.large.isChecked(), self.pages.currentData())


def _field(name: str, example: str, width: int) -> QLineEdit:
    field = QLineEdit()
    field.setPlaceholderText(example)
    field.setMinimumWidth(width)
    field.setMaximumWidth(2 * width)
    field.setAccessibleName(name)
    return field


def _name(widget: QWidget, name: str) -> None:
    widget.setAccessibleName(name)
    widget.setToolTip(name)
