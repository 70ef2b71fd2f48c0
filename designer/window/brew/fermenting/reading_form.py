"""Type a reading: what the scale shows, the sample's temperature, the instrument, and when."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit

from designer.brewday.explaining.asked import Drawn, GravitySample, Scale, Taken
from designer.brewday.measured.readings import By
from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.window.brew.fermenting.form_rows import BeerForm, Moment, choice_of
from designer.window.brew.large_button import LargeButton
from designer.window.brew.number_pad import PadAtHand
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import FieldRefusedError, read_from
from designer.workbench.brew.afterwards import KeptSample
from designer.wort.density import gravity_from_plato, plato_from_gravity

LEAST_SG, MOST_SG = 0.95, 1.2
COLDEST_C, HOTTEST_C = -5.0, 60.0
SIGNS = {Scale.SG: message("SG"), Scale.PLATO: message("°P"), Scale.BRIX: message("°Bx")}
INSTRUMENTS = {By.HYDROMETER: message("hydrometer"), By.REFRACTOMETER: message("refractometer")}
MINUTE_S = 60.0


class ReadingForm(BeerForm):
    """`taken` carries sample, typed text, when it was, and the entry that it corrects ("").

    `taken_back` names the entry of a reading that is not to count.
    """

    taken = Signal(object, str, float, str)
    taken_back = Signal(str)

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__(tr("Type a reading"), tr("Keep the reading"))
        self._display = display
        self._corrects, self._was = "", GravitySample(0.0, taken=Taken.FERMENTING)
        self._pitched = self._now = 0.0
        self.value, self.sample = QLineEdit(), QLineEdit()
        self.scale = choice_of([(tr(w), s) for s, w in SIGNS.items()], self._follow_scale)
        self.by = choice_of([(tr(w), b) for b, w in INSTRUMENTS.items()], self._follow_by)
        self.moment = Moment(self)
        self.back_button = LargeButton(
            tr("Take it back"), tr("The reading does not count; the log keeps it"), self._take_back
        )
        self.ways.addWidget(self.back_button)
        self.place(0, 0, tr("It shows"), self.value)
        self.place(0, 1, tr("Scale"), self.scale)
        self.place(1, 0, tr("Sample at"), self.sample)
        self.place(1, 1, tr("Read with"), self.by)
        self.place(2, 0, tr("Day"), self.moment.day)
        self.place(2, 1, tr("Time"), self.moment.clock)
        self.value.setPlaceholderText(tr("gas shaken out"))
        self.at_hand = PadAtHand([self.value, self.sample], display.settings)

    def ask(
        self, pitched: float, now: float, usual: GravitySample, kept: KeptSample | None = None
    ) -> None:
        """Ask for a reading, or what one that is `kept` ought to say.

        `pitched` is when the yeast went in, `now` the time, seconds since 1970; `usual` tells of
        the instrument.
        """
        self._pitched, self._now = pitched, now
        self._corrects = kept.entry if kept is not None else ""
        self._was = sample = kept.sample if kept is not None else usual
        self.title.setText((tr("Correct a reading") if kept else tr("Type a reading")).upper())
        self.back_button.setVisible(kept is not None)
        self.scale.setCurrentIndex(self.scale.findData(sample.scale))
        self.by.setCurrentIndex(self.by.findData(sample.by))
        self.value.setText(self._as_typed(sample) if kept is not None else "")
        at = sample.sample_c if kept is not None else None
        self.sample.setText("" if at is None else self._display.single(Kind.TEMPERATURE, at))
        self._follow_by()
        wall = now
        if kept is not None:
            hours = sample.hours
            wall = kept.at.wall if hours is None else pitched + 3600.0 * hours
        self.moment.show_wall(wall)
        self.refusal.clear()
        self.value.setFocus(Qt.FocusReason.OtherFocusReason)
        self.value.selectAll()

    def _as_typed(self, sample: GravitySample) -> str:
        text = f"{sample.shown:.3f}" if sample.scale is Scale.SG else f"{sample.shown:.1f}"
        return self._display.decimal(text)

    def _follow_scale(self) -> None:
        """A scale in °Bx is a refractometer's."""
        if Scale(self.scale.currentData()) is Scale.BRIX:
            self.by.setCurrentIndex(self.by.findData(By.REFRACTOMETER))
        self._follow_by()

    def _follow_by(self) -> None:
        is_hydrometer = By(self.by.currentData()) is By.HYDROMETER
        made_for = self._display.single(Kind.TEMPERATURE, self._was.made_for_c)
        self.sample.setPlaceholderText(made_for if is_hydrometer else tr("as it corrects itself"))

    def carry_out(self) -> None:
        """Keep the reading, or say what is wrong with it."""
        try:
            sample, typed = self._sample()
            wall = self._wall()
        except RefusedInputError as fault:
            self.refusal.say(fault)
            return
        self.put_away()
        self.taken.emit(sample, typed, wall, self._corrects)

    def _sample(self) -> tuple[GravitySample, str]:
        scale, by = Scale(self.scale.currentData()), By(self.by.currentData())
        with read_from(self.value):
            shown = self._shown(scale)
        sample_c, text = None, self.sample.text().strip()
        typed = f"{self.value.text().strip()} {tr(SIGNS[scale])}"
        if text:
            with read_from(self.sample):
                found = self._display.read(Kind.TEMPERATURE, text)
            sample_c = found.value
            if not COLDEST_C <= sample_c <= HOTTEST_C:
                why = tr("a sample of beer is between {low} and {high}; is there a slip in it?",
                         low=self._display.single(Kind.TEMPERATURE, COLDEST_C),
                         high=self._display.single(Kind.TEMPERATURE, HOTTEST_C))  # fmt: skip
                raise FieldRefusedError(self.sample, why)
            typed = tr("{reading} at {temperature}", reading=typed, temperature=found.text)
        was = self._was
        hours = (self._wall() - self._pitched) / 3600.0
        return GravitySample(
            shown,
            scale,
            by,
            sample_c,
            was.made_for_c,
            was.in_water,
            was.correction,
            Taken.FERMENTING,
            was.drawn if self._corrects else Drawn.UNKNOWN,
            was.stirred,
            was.fermenter,
            hours,
        ), typed

    def _shown(self, scale: Scale) -> float:
        """Return what the scale shows, in its own unit."""
        text = self.value.text().strip()
        if not text:
            raise RefusedInputError(tr("type what it shows, such as 1.012"))
        bare = "" if scale is Scale.SG else "°P"
        gravity = self._display.read(Kind.GRAVITY, text, bare=bare).value
        if scale is Scale.SG:
            shown = gravity
        else:
            shown = round(float(plato_from_gravity(gravity)), 3)
            gravity = float(gravity_from_plato(shown))
        if not LEAST_SG <= gravity <= MOST_SG:
            raise RefusedInputError(
                tr("no beer shows {gravity}; is there a slip in it?", gravity=text)
            )
        return shown

    def _wall(self) -> float:
        wall = self.moment.wall
        if wall < self._pitched - MINUTE_S:
            raise FieldRefusedError(self.moment.day, tr("that is before the yeast went in"))
        if wall > self._now + MINUTE_S:
            raise FieldRefusedError(self.moment.day, tr("that is still to come"))
        return wall

    def _take_back(self) -> None:
        entry = self._corrects
        self.put_away()
        self.taken_back.emit(entry)
