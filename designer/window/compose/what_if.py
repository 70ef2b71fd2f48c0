"""What if: variants of the open recipe side by side, turned by a slider or typed.

Nothing of the recipe changes until a variant is kept, as one step; Escape leaves it as it was.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QButtonGroup,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.predictions import MAIN
from designer.brewday.results import Outlook
from designer.recipe.message import say, within
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, When
from designer.translation import message, named, parted, tr
from designer.window.compose.trial import Trial, put_or_none
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.fields import TextField, quantity_field
from designer.window.parts.figures import figure
from designer.window.parts.icons import Choice
from designer.window.parts.scrolling_dialog import ScrollingDialog
from designer.window.session.worked_on import WorkedOn
from designer.workbench.knobs import (
    Knob,
    Turned,
    change_to,
    figure_now,
    knobs,
    now_at,
    turned,
)
from designer.workbench.what_if import AS_IT_IS, NAMES, fits_words

if TYPE_CHECKING:
    from designer.brewday.results import Glimpse
    from designer.recipe.edits import Edit

ABOUT = message(
    "Choose what to change, then drag the slider or type. Nothing changes in the recipe until you "
    "keep a variant."
)
CHANGED, FULLEST, VESSELS = message("Changed"), message("Fullest pot"), message("Vessels")
SIZE = (900, 540)
USUAL = Place("process", "boil_time")
"""What is turned where no field is chosen."""
TOP = Qt.AlignmentFlag.AlignTop


class _Column:
    """The figures of one variant, or of the recipe as it is."""

    def __init__(self, name: str, grid: QGridLayout, at: int, display: DisplayFormat) -> None:
        self.name, self._display = name, display
        self.changed = _words()
        self.values = {each.key: _words() for each in MAIN}
        self.ranges = {each.key: _words() for each in MAIN}
        self.fullest, self.vessels = _words(), _words()
        grid.addWidget(self.changed, 1, at, TOP)
        for row, each in enumerate(MAIN):
            both = QVBoxLayout()
            both.setSpacing(0)
            both.addWidget(self.values[each.key])
            both.addWidget(self.ranges[each.key])
            both.addStretch(1)
            self.ranges[each.key].setObjectName("soft")
            grid.addLayout(both, 2 + row, at)
        grid.addWidget(self.fullest, 2 + len(MAIN), at, TOP)
        grid.addWidget(self.vessels, 3 + len(MAIN), at, TOP)

    def show_seen(self, seen: Glimpse | Outlook, before: Outlook) -> None:
        """Show what is forecast; what differs from before is bold."""
        for each in MAIN:
            found, label = seen.forecasts[each.key], self.values[each.key]
            value = figure(each.key, found.value, self._display)
            _put(label, value, is_bold=value != self._text(before, each.key))
            span = ""
            if found.high > found.low:
                low, high = (
                    figure(each.key, end, self._display, unit=False)
                    for end in (found.low, found.high)
                )
                span = tr("{low} to {high}", low=low, high=high)
            _put(self.ranges[each.key], span)
            label.setAccessibleName(
                tr(
                    "{what}, {variant}: {value}",
                    what=tr(each.title),
                    variant=self.name,
                    value=value,
                )
            )
        fullest = self._display.rounded(Kind.VOLUME, float(seen.day.pot.fullest_l))
        _put(self.fullest, fullest)
        if isinstance(seen, Outlook):
            fits = fits_words(seen)
            _put(self.vessels, fits, is_bold=fits != fits_words(before))

    def _text(self, seen: Outlook, key: str) -> str:
        return figure(key, seen.forecasts[key].value, self._display)


class WhatIf(ScrollingDialog):
    """The variants, and above them what is turned."""

    def __init__(
        self,
        base: WorkedOn,
        display: DisplayFormat,
        place: Place | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("What if"))
        self._base, self._display = base, display
        self._before = base.opened.newest_outlook()
        self.knobs = knobs(base.recipe, base.idle, display.one_system)
        self.trials = [Trial(base, name, self) for name in NAMES]
        self.chosen = Choice()
        self.chosen.setAccessibleName(tr("What to change"))
        for knob in self.knobs:
            self.chosen.addItem(self.title_of(knob))
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.field: TextField | None = None
        self._key = ""
        self.said = _words()
        self.said.setObjectName("notTaken")
        self.variants = QButtonGroup(self)
        self.keep_buttons: list[QPushButton] = []
        self._lay_out()
        self._choose_place(place)
        self.chosen.currentIndexChanged.connect(self._show_knob)
        self.variants.idClicked.connect(self._show_knob)
        self.slider.valueChanged.connect(self._turn)
        self.slider.sliderPressed.connect(self._grip)
        for number, trial in enumerate(self.trials):
            trial.seen_changed.connect(partial(self._show_seen, number))
        base.recipe_changed.connect(self.reject)
        self._show_knob()
        for number in range(len(self.trials)):
            self._show_seen(number)
        self.slider.setFocus(Qt.FocusReason.OtherFocusReason)

    # layout

    def _lay_out(self) -> None:
        about = _words(tr(ABOUT))
        about.setObjectName("soft")
        self._turning = QHBoxLayout()
        self._turning.setSpacing(10)
        label = QLabel(tr("Change"))
        label.setBuddy(self.chosen)
        for widget in (label, self.chosen):
            self._turning.addWidget(widget)
        self._turning.addWidget(self.slider, 1)
        self.restore = _button(tr("As it was"), self._restore)
        self.restore.setToolTip(tr("Undo every change of this variant"))
        self._turning.addWidget(self.restore)
        self.none = _button(tr("Keep none"), self.reject)
        self.none.setToolTip(tr("Leave the recipe as it is; so does Escape"))
        foot = QHBoxLayout()
        foot.addWidget(self.said, 1)
        foot.addWidget(self.none)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 14, 16, 14)
        layout.setSpacing(10)
        layout.addWidget(about)
        layout.addLayout(self._turning)
        layout.addWidget(self._table(), 1)
        layout.addLayout(foot)
        parent = self.parentWidget()
        room = parent.size() if parent is not None else self.maximumSize()
        self.resize(min(SIZE[0], room.width() - 40), min(SIZE[1], room.height() - 40))

    def _table(self) -> QWidget:
        card = QFrame()
        card.setObjectName("card")
        grid = QGridLayout(card)
        grid.setContentsMargins(12, 8, 12, 10)
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(5)
        titles = [tr(CHANGED), *(tr(each.title) for each in MAIN), tr(FULLEST), tr(VESSELS)]
        for row, title in enumerate(titles):
            head = _words(title)
            head.setWordWrap(False)
            head.setObjectName("soft")
            grid.addWidget(head, 1 + row, 0, TOP)
        names = [tr(AS_IT_IS), *NAMES]
        self.columns = [_Column(each, grid, 1 + at, self._display) for at, each in enumerate(names)]
        for column in range(len(names)):
            grid.setColumnStretch(1 + column, 1)
        as_it_is = _words(names[0])
        _put(as_it_is, names[0], is_bold=True)
        grid.addWidget(as_it_is, 0, 1)
        for number, name in enumerate(NAMES):
            button = QPushButton(name)
            button.setObjectName("pageButton")
            button.setCheckable(True)
            button.setAutoDefault(False)
            button.setChecked(number == 0)
            button.setAccessibleName(tr("Change variant {name}", name=name))
            self.variants.addButton(button, number)
            grid.addWidget(button, 0, 2 + number, Qt.AlignmentFlag.AlignLeft)
            keep = _button(tr("Keep {name}", name=name), partial(self._keep, number))
            self.keep_buttons.append(keep)
            last = 1 + len(titles)
            grid.addWidget(keep, last, 2 + number, Qt.AlignmentFlag.AlignLeft)
        self.columns[0].show_seen(self._before, self._before)
        _put(self.columns[0].changed, tr("nothing"))
        grid.setRowStretch(2 + len(titles), 1)
        return card

    # what is turned

    @property
    def trial(self) -> Trial:
        """The variant that is changed."""
        return self.trials[max(self.variants.checkedId(), 0)]

    @property
    def knob(self) -> Knob:
        """What of it is turned."""
        return self.knobs[max(self.chosen.currentIndex(), 0)]

    def title_of(self, knob: Knob) -> str:
        """Return what a knob is called: "Northdown, amount"; with its time if two are so called."""
        label, name = tr(knob.label), named(knob.name)
        if not name:
            return label
        alike = {each.place.line for each in self.knobs if each.name == name}
        when = now_at(self._base.recipe, knob.place._replace(field="when"))
        if len(alike) > 1 and isinstance(when, When):
            name = tr("{name} ({when})", name=name, when=self._display.when(when))
        return tr("{name}, {what}", name=name, what=tr(within(knob.label).template))

    def _choose_place(self, place: Place | None) -> None:
        """Turn what stands at a place first, else what is of the same line or part."""
        wanted = place if place is not None else USUAL
        places = [each.place for each in self.knobs]
        near = [number for number, each in enumerate(places) if each[::2] == wanted[::2]]
        self.chosen.setCurrentIndex(
            places.index(wanted) if wanted in places else near[0] if near else 0
        )

    def _show_knob(self, _number: int = 0) -> None:
        """Put slider and field to what is turned now."""
        knob, trial = self.knob, self.trial
        for number, keep in enumerate(self.keep_buttons):
            _dress(keep, is_primary=self.trials[number] is trial)
        self._grip()
        self._put_field(_field(trial, knob, self._display))
        with QSignalBlocker(self.slider):
            self.slider.setRange(0, knob.steps)
            self.slider.setPageStep(max(knob.steps // 10, 1))
        self.slider.setAccessibleName(
            tr("{what} of variant {name}", what=self.title_of(knob), name=trial.name)
        )
        self._follow()

    def _put_field(self, field: TextField) -> None:
        field.setMinimumWidth(110)
        field.setMaximumWidth(170)
        if self.field is not None:
            self.field.let_go()
            self.field.hide()
            self.field.deleteLater()
        self.field = field
        self._turning.insertWidget(3, field)
        field.show()
        self.setTabOrder(self.slider, field)

    def _grip(self) -> None:
        """Begin to turn: all until the next time is one step of the variant."""
        self._key = self.trial.start_typing()

    def _turn(self, at: int) -> None:
        trial, knob = self.trial, self.knob
        edit = change_to(trial.recipe, knob, turned(trial.recipe, knob, at), self._key)
        self._say(put_or_none(trial, edit))

    def _restore(self) -> None:
        self.trial.restore()
        self._say("")

    def _say(self, text: str) -> None:
        self.said.setText(text)

    def _follow(self) -> None:
        """Let the slider stand where the variant does."""
        knob, trial = self.knob, self.trial
        with QSignalBlocker(self.slider):
            if not self.slider.isSliderDown():
                self.slider.setValue(knob.nearest(figure_now(trial.recipe, knob)))
        self.slider.setAccessibleDescription(self._shown(now_at(trial.recipe, knob.place), knob))
        self.restore.setEnabled(bool(trial.changes))

    def _show_seen(self, number: int, _seen: object = None) -> None:
        trial, column = self.trials[number], self.columns[1 + number]
        column.show_seen(trial.seen, self._before)
        said = "\n".join(self._told(trial))
        _put(column.changed, said or tr("nothing yet"))
        self.keep_buttons[number].setEnabled(bool(trial.changes))
        if trial is self.trial:
            self._say("")
            self._follow()

    def _told(self, trial: Trial) -> list[str]:
        """Return what is changed in a variant: "Boil for: 45 min, not 60 min"."""
        known = {each.place: each for each in self.knobs}
        return [
            tr(
                "{what}: {after}, not {before}",
                what=self.title_of(known[place]),
                after=self._shown(now_at(trial.recipe, place), known[place]),
                before=self._shown(now_at(self._base.recipe, place), known[place]),
            )
            for place in trial.changes
        ]

    def _shown(self, value: Turned | None, knob: Knob) -> str:
        if isinstance(value, When):
            return self._display.when(value)
        assert knob.facts is not None
        return self._display.quantity(knob.facts.kind, value) or self._display.default(knob.facts)

    # the end

    def _keep(self, number: int) -> None:
        """Make a variant the recipe, as one step."""
        trial = self.trials[number]
        if trial.untaken:
            self._say(tr("Not taken yet: {typed}.", typed=", ".join(trial.untaken)))
            return
        text = say("keep-tried", "what if: {changes}", changes=parted(self._told(trial)))
        self._base.recipe_changed.disconnect(self.reject)
        self._base.make(trial.edit(text))
        self.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return presses the button that has the keyboard, and no other."""
        focus = QApplication.focusWidget()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if isinstance(focus, QAbstractButton) and not event.isAutoRepeat():
                focus.click()
            return
        super().keyPressEvent(event)


def _field(trial: Trial, knob: Knob, display: DisplayFormat) -> TextField:
    """Return the field in which a knob of a variant is typed."""

    def edit(value: Turned | None, key: str) -> Edit:
        return change_to(trial.recipe, knob, value, key)

    if knob.facts is not None:
        return quantity_field(
            trial, display, knob.facts, lambda: now_at(trial.recipe, knob.place), edit
        )

    def now() -> str:
        when = now_at(trial.recipe, knob.place)
        assert isinstance(when, When)
        return display.when(when)

    def take(text: str, key: str) -> None:
        if text != now():
            trial.make_or_refuse(edit(display.read_when(text), key))

    return TextField(trial, tr(knob.label), now, take)


def _words(text: str = "") -> QLabel:
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label


def _put(label: QLabel, text: str, *, is_bold: bool = False) -> None:
    """Show a text; nothing is laid out anew where it is shown already."""
    if label.text() != text:
        label.setText(text)
    if label.font().bold() != is_bold:
        font = label.font()
        font.setBold(is_bold)
        label.setFont(font)


def _dress(button: QPushButton, *, is_primary: bool) -> None:
    """Let the button of the variant that is changed stand out."""
    name = "primary" if is_primary else ""
    if button.objectName() != name:
        button.setObjectName(name)
        button.style().unpolish(button)
        button.style().polish(button)


def _button(text: str, act: Callable[[], object]) -> QPushButton:
    button = QPushButton(text)
    button.setAutoDefault(False)
    button.clicked.connect(lambda _checked=False: act())
    return button
