"""What was read and how: a reading, the temperature of its sample, and chips for the rest."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.explaining.asked import Drawn, GravitySample, Scale, Stirred, Taken
from designer.errors import RefusedInputError
from designer.recipe.limits import LONGEST_TYPED, MOST_FERMENTERS
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr, tr_of
from designer.window.brew.number_pad import PadAtHand
from designer.window.brew.reading.chips import ChipRow
from designer.window.brew.reading.wrapped import wrapped
from designer.window.parts.being_typed import mark
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.notes import Notes
from designer.window.parts.page_frame import heading
from designer.window.parts.targets import TARGET_PX
from designer.workbench.typed_sample import NoGravityError, sample_temperature, sample_typed

if TYPE_CHECKING:
    from designer.window.parts.beside_field import Ways

SCALES = (
    (Scale.SG, message("SG")),
    (Scale.PLATO, message("°P")),
    (Scale.BRIX, message("°Bx, refractometer")),
)
TAKEN = (
    (Taken.TOPPED_UP, message("topped up")),
    (Taken.POT, message("from the pot")),
    (Taken.FERMENTING, message("fermenting")),
)
STIRRED = (
    (Stirred.UNKNOWN, message("not sure")),
    (Stirred.NO, message("no")),
    (Stirred.LITTLE, message("a little")),
    (Stirred.HARD, message("hard")),
    (Stirred.POURED, message("poured across")),
)
DRAWN = (
    (Drawn.UNKNOWN, message("not sure")),
    (Drawn.TOP, message("top")),
    (Drawn.MIDDLE, message("middle")),
    (Drawn.BOTTOM, message("bottom")),
    (Drawn.TAP, message("tap")),
    (Drawn.JAR, message("jar")),
)
LEAST_CORRECTION, MOST_CORRECTION = 0.9, 1.2


class SampleField(QLineEdit):
    """A field in large type; Escape brings back what stood there."""

    def __init__(self, label: str, times: float) -> None:
        super().__init__()
        self.setObjectName("blank")
        self.setAccessibleName(label)
        self.setMaxLength(LONGEST_TYPED)
        font = QFont()
        font.setPointSizeF(times * QApplication.font().pointSizeF())
        font.setBold(True)
        self.setFont(font)
        self.setMinimumHeight(TARGET_PX)
        self.stood = ""

    def put(self, text: str) -> None:
        """Show a text that is taken."""
        self.stood = text
        mark(self, refused=False)
        if text != self.text():
            self.setText(text)

    @property
    def is_changed(self) -> bool:
        """Whether something is typed that is not taken."""
        return self.text().strip() != self.stood.strip()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.is_changed:
            self.put(self.stood)
            self.textEdited.emit(self.stood)
        else:
            super().keyPressEvent(event)


class SampleForm(QFrame):
    """The fields and chips.

    `typing` comes with every key and chip, `given` when what is typed is to be taken.
    """

    typing = Signal()
    given = Signal()

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._display = display
        self._given = GravitySample(0.0)
        self._notes = Notes(self)
        self.reading = SampleField(tr("Reading (SG, °P or °Bx)"), 1.9)
        self.sample_at = SampleField(tr("Sample at"), 1.4)
        self.instrument = ChipRow(tr("Scale"), SCALES)
        self.taken = ChipRow(tr_of("sample", "Taken"), TAKEN)
        self.stirred = ChipRow(tr("Stirred before?"), STIRRED)
        self.drawn = ChipRow(tr("From where?"), DRAWN)
        numbers = [
            (number, tr("fermenter {number}", number=number))
            for number in range(1, MOST_FERMENTERS + 1)
        ]
        self.fermenter = ChipRow(tr("Which fermenter?"), numbers, said=True)
        self.fermenter.hide()
        self.made_for = SampleField(tr("Set for"), 1.0)
        self.in_water = SampleField(tr("In water it reads"), 1.0)
        self.correction = SampleField(tr("Correction for wort"), 1.0)
        self.chips = (self.fermenter, self.taken, self.stirred, self.drawn, self.instrument)
        self.fields = (
            self.reading,
            self.sample_at,
            self.made_for,
            self.in_water,
            self.correction,
        )
        self.at_hand = PadAtHand(self.fields, display.settings)
        self.heading_row = QHBoxLayout()
        self._lay_out()
        self._connect()
        self.show_sample(self._given, "", "")

    def _lay_out(self) -> None:
        self.heading_row.addWidget(heading(tr("What you read")))
        self.heading_row.addStretch(1)
        top = QGridLayout()
        top.setHorizontalSpacing(10)
        top.setVerticalSpacing(3)
        for column, field in enumerate((self.reading, self.sample_at)):
            label = wrapped(field.accessibleName(), "soft")
            label.setBuddy(field)
            top.addWidget(label, 0, column)
            top.addWidget(field, 1, column)
        top.setColumnStretch(0, 5)
        top.setColumnStretch(1, 4)
        self._facts = QGridLayout()
        self._facts.setHorizontalSpacing(8)
        self._fact_labels: dict[SampleField, QLabel] = {}
        self._facts.setVerticalSpacing(3)
        for column, field in enumerate((self.made_for, self.in_water, self.correction)):
            label = self._fact_labels[field] = wrapped(field.accessibleName(), "soft")
            label.setBuddy(field)
            self._facts.addWidget(label, 0, column)
            self._facts.addWidget(field, 1, column)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 10, 14, 12)
        layout.setSpacing(7)
        layout.addLayout(self.heading_row)
        layout.addLayout(top)
        for chips in self.chips:
            layout.addWidget(chips)
        layout.addLayout(self._facts)
        self.reading.setPlaceholderText(self._display.decimal("1.046"))
        self.sample_at.setPlaceholderText(self._display.short(Kind.TEMPERATURE, 20.0))
        self.in_water.setPlaceholderText(tr("not tried"))
        self.correction.setPlaceholderText(self._display.decimal("1.04"))

    def _connect(self) -> None:
        for field in self.fields:
            field.textEdited.connect(lambda _text, at=field: self._note_typing(at))
            field.editingFinished.connect(lambda at=field: self._finish(at))
        for row in self.chips:
            row.changed.connect(self._choose)

    # what is shown

    def show_sample(self, sample: GravitySample, reading: str, at: str) -> None:
        """Show a sample with what was typed of it."""
        self._given = sample
        self.reading.put(reading)
        self.sample_at.put(at)
        self.instrument.choose(sample.scale)
        self.taken.choose(sample.taken)
        self.stirred.choose(sample.stirred)
        self.drawn.choose(sample.drawn)
        self.fermenter.choose(min(max(sample.fermenter, 1), MOST_FERMENTERS))
        self.made_for.put(self._display.short(Kind.TEMPERATURE, sample.made_for_c))
        in_water = sample.in_water
        told = "" if in_water is None else self._display.short(Kind.GRAVITY, in_water)
        self.in_water.put(told)
        factor = sample.correction
        self.correction.put("" if factor is None else self._display.decimal(f"{factor:g}"))
        self._fit_facts()

    def offer_fermenters(self, count: int) -> None:
        """Ask of which fermenter the sample is, where there are several."""
        for number, chip in self.fermenter.chips.items():
            chip.setVisible(number <= count)
        self.fermenter.setVisible(count > 1)

    def begin_another(self, *, stirred: Stirred | None = None) -> None:
        """Ask for another sample by the same instrument."""
        self.reading.put("")
        self.sample_at.put("")
        if stirred is not None:
            self.stirred.choose(stirred)
        self.take_focus()

    def type_in(self, text: str) -> None:
        """Put a text into the reading as if it had been typed here."""
        self.reading.setText(text)
        self.typing.emit()
        self.take_focus()

    def take_focus(self) -> None:
        """Take the keyboard."""
        self.reading.setFocus(Qt.FocusReason.OtherFocusReason)
        self.reading.selectAll()

    @property
    def is_changed(self) -> bool:
        """Whether something is typed that is not taken."""
        return any(each.is_changed for each in self.fields)

    @property
    def is_empty(self) -> bool:
        """Whether no reading is typed."""
        return not self.reading.text().strip()

    def settle(self) -> None:
        """What is typed is taken now."""
        for each in self.fields:
            each.put(each.text())
        self._notes.withdraw(self.reading)

    def _fit_facts(self) -> None:
        """Show what is asked of the instrument that is chosen."""
        is_brix = self.instrument.chosen is Scale.BRIX
        for field, label in self._fact_labels.items():
            shown = is_brix is (field is self.correction)
            field.setVisible(shown)
            label.setVisible(shown)

    # what is typed

    def draft(self) -> GravitySample:
        """Return the sample as it is typed and chosen. Raises RefusedInputError, as of a field."""
        given = replace(
            self._given,
            scale=self.instrument.chosen,
            taken=self.taken.chosen,
            stirred=self.stirred.chosen,
            drawn=self.drawn.chosen,
            fermenter=self.fermenter.chosen,
        )
        given = self._with_facts(given)
        sample = sample_typed(self.reading.text(), "", given, self._read)
        return replace(sample, sample_c=sample_temperature(self.sample_at.text(), self._read))

    def quiet_draft(self) -> GravitySample | None:
        """Return the sample, None while it is none yet."""
        if self.is_empty:
            return None
        try:
            return self.draft()
        except RefusedInputError:
            return None

    def _with_facts(self, given: GravitySample) -> GravitySample:
        """Return a sample with what is typed of the instrument."""
        made_for = self.made_for.text().strip()
        in_water, factor = self.in_water.text().strip(), self.correction.text().strip()
        shows = self._read(Kind.GRAVITY, in_water).value if in_water else None
        if made_for:
            given = replace(given, made_for_c=self._read(Kind.TEMPERATURE, made_for).value)
        is_brix = self.instrument.chosen is Scale.BRIX
        return replace(
            given, in_water=shows, correction=self._factor(factor) if is_brix and factor else None
        )

    def _factor(self, text: str) -> float:
        value = self._read(Kind.NUMBER, text).value
        if not LEAST_CORRECTION <= value <= MOST_CORRECTION:
            raise RefusedInputError(
                tr(
                    "A refractometer's correction lies between {low} and {high}",
                    low=LEAST_CORRECTION,
                    high=MOST_CORRECTION,
                )
            )
        return value

    def _read(self, kind: Kind, text: str) -> Quantity:
        return self._display.read(kind, text)

    def typed(self) -> str:
        """Return what was typed, as a line of the log has it."""
        text, at = self.reading.text().strip(), self.sample_at.text().strip()
        sample = self.quiet_draft()
        if sample is not None and not any(sign.isalpha() or sign in "°º" for sign in text):
            unit = {Scale.SG: "", Scale.PLATO: " °P", Scale.BRIX: " °Bx"}[sample.scale]
            text = f"{text}{unit}"
        at = self._display.with_unit(Kind.TEMPERATURE, at) if at else ""
        return f"{text} at {at}" if at else text

    def _note_typing(self, field: SampleField) -> None:
        mark(field, refused=False)
        self._notes.withdraw(field)
        self._follow_scale()
        self.typing.emit()

    def _follow_scale(self) -> None:
        """A unit that is typed says with what it was read."""
        sample = self.quiet_draft()
        if sample is not None and sample.scale is not self.instrument.chosen:
            self.instrument.choose(sample.scale)
            self._fit_facts()

    def _choose(self) -> None:
        self._fit_facts()
        self.typing.emit()
        if not self.is_empty:
            self.given.emit()

    def _finish(self, field: SampleField) -> None:
        if not field.is_changed:
            return
        if self.is_empty:
            if self.sample_at.is_changed or self.reading.stood:
                self.given.emit()
            return
        if self.check():
            self.given.emit()

    def check(self) -> bool:
        """Say beside the field what cannot be taken; whether all of it can."""
        try:
            self.draft()
        except NoGravityError as fault:
            ways = [(each, partial(self._type_meant, each)) for each in fault.meant]
            self._refuse(self.reading, str(fault), ways)
        except RefusedInputError as fault:
            self._refuse(self._at_fault(), str(fault), ())
        else:
            return True
        return False

    def _at_fault(self) -> SampleField:
        """Return the field that cannot be read, the reading itself left aside."""
        for field, kind in (
            (self.sample_at, Kind.TEMPERATURE),
            (self.made_for, Kind.TEMPERATURE),
            (self.in_water, Kind.GRAVITY),
        ):
            try:
                if field.text().strip():
                    self._read(kind, field.text())
                    if field is self.sample_at:
                        sample_temperature(field.text(), self._read)
            except RefusedInputError:
                return field
        is_brix = self.instrument.chosen is Scale.BRIX
        return self.correction if is_brix and self.correction.text().strip() else self.reading

    def _refuse(self, field: SampleField, why: str, ways: Ways) -> None:
        mark(field, refused=True, why=why)
        lingers = not field.hasFocus()
        self._notes.say(field, why, refused=True, ways=ways, lingers=lingers)

    def _type_meant(self, text: str) -> None:
        self.reading.setText(text)
        self._note_typing(self.reading)
        self._finish(self.reading)
