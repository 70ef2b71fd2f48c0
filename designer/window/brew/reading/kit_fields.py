"""What a caller says of a kit: what is in it, how far it was topped up, what its box promises."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QLineEdit, QVBoxLayout

from designer.brewday.explaining.kit import KitStated
from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.reading.sample_form import SampleField
from designer.window.brew.reading.wrapped import wrapped
from designer.window.parts.being_typed import mark
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.notes import Notes
from designer.window.parts.page_frame import heading
from designer.workbench.kit_stated import band_stated, extract_stated, kit_stated

LEAST_L, MOST_L = 0.5, 200.0


class KitFields(QFrame):
    """The four fields; `typing` comes with every key."""

    typing = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._display = display
        self._notes = Notes(self)
        self.extract = SampleField(tr("Extract in it"), 1.1)
        self.batch = SampleField(tr("Topped up to"), 1.1)
        self.band = SampleField(tr("Or: the box says"), 1.1)
        self.pot = SampleField(tr("Boiled in the pot"), 1.1)
        self.extract.setPlaceholderText(tr("1 kg + 400 g dry"))
        self.batch.setPlaceholderText(display.short(Kind.VOLUME, 10.0))
        self.band.setPlaceholderText(display.decimal(tr("1.044 to 1.048")))
        self.pot.setPlaceholderText(tr("if known"))
        self.fields = (self.extract, self.batch, self.band, self.pot)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 10, 14, 12)
        layout.setSpacing(6)
        layout.addWidget(heading(tr("What is in the box")))
        grid = QGridLayout()
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(3)
        for number, field in enumerate(self.fields):
            row, column = divmod(number, 2)
            label = wrapped(field.accessibleName(), "soft")
            label.setBuddy(field)
            grid.addWidget(label, 2 * row, column)
            grid.addWidget(field, 2 * row + 1, column)
            field.textEdited.connect(lambda _text, at=field: self._note(at))
            field.editingFinished.connect(lambda at=field: self._check(at))
        layout.addLayout(grid)

    def _note(self, field: QLineEdit) -> None:
        mark(field, refused=False)
        self._notes.withdraw(field)
        self.typing.emit()

    def _check(self, field: QLineEdit) -> None:
        """Say beside a field that is left why it cannot be read."""
        try:
            self._read(field)
        except RefusedInputError as fault:
            mark(field, refused=True, why=str(fault))
            self._notes.say(field, str(fault), refused=True, lingers=not field.hasFocus())

    def _read(self, field: QLineEdit) -> object:
        text = field.text().strip()
        if not text:
            return None
        if field is self.extract:
            return extract_stated(text)
        if field is self.band:
            return band_stated(text)
        found = self._display.read(Kind.VOLUME, text).value
        if not LEAST_L <= found <= MOST_L:
            raise RefusedInputError(
                tr(
                    "A batch lies between {least} and {most}",
                    least=self._display.short(Kind.VOLUME, LEAST_L),
                    most=self._display.short(Kind.VOLUME, MOST_L),
                )
            )
        return found

    def stated(self) -> KitStated | None:
        """Return what is told of the kit; None while that is too little, or is not read."""
        try:
            batch, pot = self._read(self.batch), self._read(self.pot)
            if not isinstance(batch, float):
                return None
            pot_l = pot if isinstance(pot, float) else None
            band, extract = self.band.text().strip(), self.extract.text().strip()
            return kit_stated(batch, band or None, pot_l, extract or None)
        except RefusedInputError:
            return None

    def in_words(self) -> str:
        """Return what was told, as typed."""
        told = []
        for field, text in (
            (self.extract, tr("in it {what}", what=self.extract.text().strip())),
            (self.batch, tr("topped up to {what}", what=self._with_unit(self.batch))),
            (self.band, tr("the box says {what}", what=self.band.text().strip())),
            (self.pot, tr("boiled {what}", what=self._with_unit(self.pot))),
        ):
            if field.text().strip():
                told.append(text)
        return ", ".join(told)

    def _with_unit(self, field: QLineEdit) -> str:
        text = field.text().strip()
        return self._display.with_unit(Kind.VOLUME, text) if text else ""
