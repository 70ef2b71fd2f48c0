"""Will the bottles bear it? The gauge, a refusal or what to mind, and what is done today."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from designer.brewday.packaging.packaged import Packaged, Packing, to_the_tenth_above
from designer.recipe.choices import Package
from designer.recipe.day_words import day_words
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.fermenting.gauge import Gauge, GaugeShown
from designer.window.brew.fermenting.packing_choices import PackingChoices
from designer.window.brew.fermenting.standing_panel import words_in
from designer.window.brew.large_button import LargeButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Tick
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import unbroken
from designer.window.parts.targets import TARGET_PX


class CautionRow(QWidget):
    """A caution; one that has to be ticked has a box."""

    def __init__(self, code: str) -> None:
        super().__init__()
        self.code = code
        self.tick = Tick("")
        self.tick.setMinimumHeight(TARGET_PX)
        self.words = words_in()
        self.words.installEventFilter(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.tick, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.words, 1)

    def show_caution(self, text: str, *, ticked: bool | None) -> None:
        """Show it; `ticked` is None where there is nothing to tick."""
        self.words.setText(unbroken(text))
        self.tick.setAccessibleName(text)
        self.tick.setVisible(ticked is not None)
        self.tick.setChecked(bool(ticked))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A press on the words ticks them too."""
        is_press = event.type() == QEvent.Type.MouseButtonPress and isinstance(event, QMouseEvent)
        if is_press and not self.tick.isHidden():
            self.tick.click()
            return True
        return False


class BearsCard(QFrame):
    """`package_wanted` asks to write that it is packaged, `remind_wanted` for a reminder."""

    package_wanted = Signal()
    remind_wanted = Signal(object)
    """Carries the day."""

    def __init__(self, choices: PackingChoices, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._choices, self._display = choices, display
        self.title = heading(tr("Will the bottles bear it?"))
        self.kind = QLabel()
        self.kind.setObjectName("soft")
        self.kind.setWordWrap(True)
        self.kind.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.gauge = Gauge(display)
        self.pressure = words_in()
        self.refusal = words_in()
        self.refusal_box = QFrame()
        self.refusal_box.setObjectName("stopBox")
        within = QVBoxLayout(self.refusal_box)
        within.setContentsMargins(12, 8, 12, 8)
        within.addWidget(self.refusal)
        self.cautions = QFrame()
        self.cautions.setObjectName("takeCare")
        self._cautions = QVBoxLayout(self.cautions)
        self._cautions.setContentsMargins(10, 6, 10, 6)
        self.rows: dict[str, CautionRow] = {}
        self.package_button = LargeButton("", "", self.package_wanted.emit)
        self.remind_button = LargeButton("", "", self._remind)
        self.why_not = words_in()
        self.why_not.setObjectName("soft")
        self._day: date | None = None
        self._lay_out()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.title)
        top.addWidget(self.kind, 1)
        buttons = FlowLayout(across=8, down=6)
        buttons.addWidget(self.package_button)
        buttons.addWidget(self.remind_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 10, 14, 12)
        layout.setSpacing(7)
        layout.addLayout(top)
        for each in (self.gauge, self.pressure, self.refusal_box, self.cautions):
            layout.addWidget(each)
        layout.addStretch(1)
        layout.addWidget(self.why_not)
        layout.addLayout(buttons)

    def show_packing(self, packing: Packing, result: Packaged, *, reminded: bool) -> None:
        """Show what follows of the choices; `reminded` tells that a reminder is set already."""
        keg = packing.package == Package.KEG
        self.title.setText((tr("Keg and gas") if keg else tr("Will the bottles bear it?")).upper())
        self._show_gauge(result)
        refusal = result.refusal
        self.refusal.setText("" if refusal is None else unbroken(self._said(refusal)))
        self.refusal_box.setVisible(refusal is not None)
        self._show_cautions(packing, result)
        self._show_buttons(packing, result, reminded=reminded)

    def _said(self, message: object) -> str:
        said = getattr(message, "said", None)
        return said(self._display.short) if said is not None else str(message)

    def _show_gauge(self, result: Packaged) -> None:
        pressure = result.pressure
        self.gauge.setVisible(pressure is not None)
        self.pressure.setVisible(pressure is not None)
        self.kind.setText("" if pressure is None else tr(pressure.kind.value))
        if pressure is None:
            return
        short = self._display.short
        most, aimed = (
            short(Kind.CARBONATION, v)
            for v in (to_the_tenth_above(pressure.volumes), result.aimed_volumes)
        )
        adds = result.unfinished_volumes
        unfinished = adds is None or adds > 0.0
        most_said = (
            tr("up to {volumes} today", volumes=most)
            if unfinished and result.refusal is not None
            else tr("fullest {volumes}", volumes=most)
        )
        words = tr(
            "The fullest bottle of twenty may come to {volumes}: {room} at {cool}, {warm} at "
            "{hot}.",
            volumes=most,
            room=short(Kind.PRESSURE, to_the_tenth_above(pressure.at_20_bar)),
            cool=short(Kind.TEMPERATURE, 20.0),
            warm=short(Kind.PRESSURE, to_the_tenth_above(pressure.warm_bar)),
            hot=short(Kind.TEMPERATURE, pressure.warm_c),
        )  # fmt: skip
        bears = tr(
            "At ease up to {comfortable}, never above {never}.",
            comfortable=short(Kind.CARBONATION, pressure.comfortable_volumes),
            never=short(Kind.CARBONATION, pressure.never_volumes),
        )
        if pressure.never_volumes <= 0.0:
            bears = tr("They bear no pressure.")
        self.pressure.setText(unbroken(words))
        self.gauge.show_gauge(
            GaugeShown(
                pressure.comfortable_volumes, pressure.never_volumes, result.aimed_volumes,
                aimed, pressure.volumes, most_said, f"{words} {bears}",
            )
        )  # fmt: skip

    def _show_cautions(self, packing: Packing, result: Packaged) -> None:
        """Show what to mind; nothing of it while it is refused, for that comes first."""
        told = result.cautions if result.refusal is None else ()
        for name, row in self.rows.items():
            row.setVisible(name in [message.id for _, message in told])
        for place, (code, message) in enumerate(told):
            row = self._row(message.id)
            self._cautions.insertWidget(place, row)
            row.code = code
            asks = code in result.to_tick or code in packing.cautions
            row.show()
            row.show_caution(self._said(message), ticked=code in packing.cautions if asks else None)
        self.cautions.setVisible(bool(told))

    def _row(self, name: str) -> CautionRow:
        """The row of a caution by its lasting name; its code tells what it is ticked for."""
        if name not in self.rows:
            self.rows[name] = row = CautionRow(name)
            row.tick.clicked.connect(lambda on: self._tick(row.code, on=on))
        return self.rows[name]

    def _tick(self, code: str, *, on: bool) -> None:
        def change(packing: Packing) -> Packing:
            cautions = packing.cautions | {code} if on else packing.cautions - {code}
            return replace(packing, cautions=cautions)

        said = tr("caution read and ticked") if on else tr("caution no longer ticked")
        self._choices.choose(f"caution {code}", said, change)

    def _show_buttons(self, packing: Packing, result: Packaged, *, reminded: bool) -> None:
        keg = packing.package == Package.KEG
        may = result.may_go_ahead and self._fits(packing, result)
        self.package_button.setText(tr("Keg today") if keg else tr("Bottle today"))
        why = "" if may else self._why_not(packing, result)
        self.package_button.setEnabled(may)
        self._dress(self.package_button, primary=may)
        self.package_button.setAccessibleDescription(why)
        self.package_button.setToolTip(why)
        self.why_not.setText(why if result.refusal is None else "")
        self.why_not.setVisible(bool(self.why_not.text()))
        waits = result.refusal is not None and bool(result.dates)
        self._day = result.dates[0][0] if waits else None
        self.remind_button.setVisible(waits)
        if self._day is not None:
            day = str(day_words(self._day))
            self.remind_button.setText(
                tr("You are reminded on {day}", day=day)
                if reminded
                else tr("Remind me on {day}", day=day)
            )
            self.remind_button.setEnabled(not reminded)
            self._dress(self.remind_button, primary=not reminded)

    @staticmethod
    def _fits(packing: Packing, result: Packaged) -> bool:
        return packing.package == Package.KEG or result.caps > 0

    def _why_not(self, packing: Packing, result: Packaged) -> str:
        if result.refusal is not None:
            return self._said(result.refusal)
        if result.to_tick:
            return tr("Read the caution and tick it first.")
        return tr("Say how many bottles there are first.")

    @staticmethod
    def _dress(button: LargeButton, *, primary: bool) -> None:
        name = "largePrimary" if primary else "large"
        if button.objectName() != name:
            button.setObjectName(name)
            button.style().unpolish(button)
            button.style().polish(button)

    def _remind(self) -> None:
        if self._day is not None:
            self.remind_wanted.emit(self._day)
