"""Behind the second door: a kit, typed in as its leaflet reads."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.errors import RefusedInputError
from designer.recipe.limits import LONGEST_TYPED
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.begin.door import Door
from designer.window.begin.kit_contents import KitContents
from designer.window.begin.kit_promises import OF_THE_BEER, OF_THE_WAY, KitPromises
from designer.window.begin.kit_seen import KitSeen
from designer.window.begin.vessel_answers import VesselAnswers, kept_vessels
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.page_frame import heading, scrolled
from designer.window.parts.plain_text import caption
from designer.window.parts.scrolling import bring_into_view
from designer.workbench.kit import Kit, recipe_of_kit
from designer.workbench.kit_check import KitLooked, looked_at

if TYPE_CHECKING:
    from designer.window.session.autosave import Autosave

PAUSE_MS = 150
"""So long after the last key a kit is looked at."""
ONE_BESIDE_THE_OTHER = 860
"""From so many pixels on the contents stand beside what the leaflet promises."""


class KitDoor(Door):
    """What is in the box, what the leaflet says, the vessels in hand, and how it comes out.

    `begun_to_fit` carries a recipe whose ways to be brewed are to be seen.
    """

    begun_to_fit = Signal(object)

    def __init__(
        self, display: DisplayFormat, autosave: Callable[[], Autosave | None] = lambda: None
    ) -> None:
        self.button = QPushButton(tr("Create the kit recipe"))
        super().__init__(display, self.button)
        self.setObjectName("card")
        self._autosave = autosave
        self.name = QLineEdit()
        self.name.setMaxLength(LONGEST_TYPED)
        self.name.setPlaceholderText(tr("My kit"))
        self.name.setAccessibleName(tr("Name of the kit"))
        self.contents, self.promises = KitContents(display), KitPromises(display)
        self.vessels = VesselAnswers(display, ("pot", "fermenter"))
        self.seen = KitSeen(display)
        self.to_fit = QPushButton()
        self.to_fit.hide()
        self.button.setObjectName("primary")
        self.looked: KitLooked | None = None
        self._before_mending: tuple[Any, Any] | None = None
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self.look)
        self._lay_out()
        self._connect()

    @property
    def fields(self) -> dict[str, QLineEdit]:
        """The fields that stand alone, by their keys."""
        return {"name": self.name, **self.promises.fields, **self.vessels.fields}

    def _lay_out(self) -> None:
        told = QLabel(
            tr(
                "As the leaflet reads, in any unit. The contents are locked: only volumes, times "
                "and what you leave out may change."
            )
        )
        told.setWordWrap(True)
        told.setObjectName("soft")
        self._halves = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._halves.setSpacing(24)
        self._halves.addLayout(self._box(), 5)
        self._halves.addLayout(self._leaflet(), 3)
        content = QWidget()
        content.setObjectName("plain")
        inside = QVBoxLayout(content)
        inside.setContentsMargins(0, 0, 6, 0)
        inside.setSpacing(8)
        inside.addWidget(told)
        inside.addLayout(self._halves)
        inside.addStretch(1)
        foot = QHBoxLayout()
        foot.addWidget(self.button)
        foot.addWidget(self.to_fit)
        foot.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 10, 12, 12)
        layout.setSpacing(8)
        area = scrolled(content)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        layout.addWidget(area, 1)
        layout.addLayout(foot)

    def _box(self) -> QVBoxLayout:
        name = QHBoxLayout()
        label = QLabel(tr("Name of the kit"))
        label.setObjectName("soft")
        label.setBuddy(self.name)
        name.addWidget(label)
        name.addWidget(self.name, 1)
        box = QVBoxLayout()
        box.setSpacing(7)
        box.addLayout(name)
        box.addLayout(self.promises.grid(OF_THE_WAY, 3))
        box.addWidget(heading(tr("In the box")))
        for each in self.contents.sections():
            box.addWidget(each)
        box.addStretch(1)
        return box

    def _leaflet(self) -> QVBoxLayout:
        vessels = QHBoxLayout()
        for each in self.vessels.labelled:
            vessels.addWidget(each)
        vessels.addStretch(1)
        leaflet = QVBoxLayout()
        leaflet.setSpacing(7)
        leaflet.addWidget(heading(tr("What the leaflet promises")))
        leaflet.addLayout(self.promises.grid(OF_THE_BEER, 2))
        leaflet.addWidget(heading(tr("Your vessels")))
        leaflet.addLayout(vessels)
        leaflet.addWidget(heading(tr("How it comes out")))
        leaflet.addWidget(self.seen)
        leaflet.addStretch(1)
        return leaflet

    def _connect(self) -> None:
        for each in (self.contents, self.promises, self.vessels):
            each.changed.connect(self._follow)
        self.contents.rearranged.connect(self.order_tabs)
        for field in self.vessels.fields.values():
            ask_when_left(field, self._display, Kind.VOLUME)
            field.textChanged.connect(lambda _text: self._follow())
        self.button.clicked.connect(lambda: self._go(fitting=False))
        self.to_fit.clicked.connect(lambda: self._go(fitting=True))
        self.seen.mend_wanted.connect(self.mend)
        self.seen.undo_wanted.connect(self.unmend)
        self._display.settings.changed.connect(self.vessels.show_anew)

    # keys

    def stops(self) -> list[QWidget]:
        """Return all that Tab comes to, in its order."""
        promises = self.promises.fields
        return [
            self.name,
            *(promises[key] for key in OF_THE_WAY),
            *(stop for each in self.contents.sections() for stop in each.stops()),
            *(promises[key] for key in OF_THE_BEER),
            *self.vessels.fields.values(),
            self.seen.mend,
            self.seen.undo,
            self.button,
            self.to_fit,
        ]

    def order_tabs(self) -> None:
        for before, after in pairwise(self.stops()):
            QWidget.setTabOrder(before, after)

    def take_focus(self) -> None:
        self.name.setFocus()
        self.name.selectAll()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes from field to field, row to row; with Ctrl it creates the recipe."""
        focus = self.focusWidget()
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.button.click()
        elif isinstance(focus, QPushButton):
            focus.click()
        elif isinstance(focus, QLineEdit | QComboBox):
            self._go_on_from(focus)
        else:
            super().keyPressEvent(event)

    def _go_on_from(self, field: QWidget) -> None:
        sections = self.contents.sections()
        if any(each.makes_room(field) for each in sections):
            return
        stops = [each for each in self.stops() if not self._is_aside(each)]
        passed = next((each for each in sections if each.is_passed_over(field)), None)
        at = stops.index(field if passed is None else list(passed.rows[-1].values())[-1])
        stops[at + 1].setFocus(Qt.FocusReason.TabFocusReason)
        bring_into_view(stops[at + 1])

    def _is_aside(self, stop: QWidget) -> bool:
        """Whether Return goes past a stop of Tab."""
        more = [each.more for each in self.contents.sections()]
        return stop in more or stop in (self.seen.mend, self.seen.undo)

    # being seen

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        beside = self.width() >= ONE_BESIDE_THE_OTHER
        way = QBoxLayout.Direction.LeftToRight if beside else QBoxLayout.Direction.TopToBottom
        if self._halves.direction() != way:
            self._halves.setDirection(way)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask_box()

    def ask_box(self) -> None:
        """Ask the Recipe box what vessels there are."""
        autosave = self._autosave()
        if autosave is not None:
            autosave.store.ask(kept_vessels, self.vessels.offer, key="vessels for the kit")

    def close_down(self) -> None:
        self._pause.stop()

    # what is typed

    def kit(self) -> Kit:
        """Return the kit as it is typed. Raises FieldRefusedError."""
        pot, fermenter, kitchen = self.vessels.brewed_with()
        stated = self.promises.told
        return Kit(
            self.name.text(),
            makes=self.promises.makes(),
            items=self.contents.items(),
            pot=pot,
            fermenter=fermenter,
            hops=self.contents.hop_packets(),
            yeast=self.contents.yeast.text(self.contents.yeast.rows[0], "name"),
            yeast_amount=self.contents.yeast.quantity(
                self.contents.yeast.rows[0], "amount", Kind.DOSE
            ),
            boil_water=stated("boil_water"),
            boil_time=stated("boil_time"),
            original_gravity=stated("original_gravity"),
            final_gravity=stated("final_gravity"),
            alcohol=stated("alcohol"),
            bitterness=stated("bitterness"),
            kitchen=kitchen,
        )

    def _follow(self) -> None:
        if self._before_mending is not None:
            self._before_mending = None
            self.seen.undo.hide()
        self._pause.start()

    def look(self) -> None:
        """Show how the kit comes out as it is typed; what is half typed is waited for."""
        self._pause.stop()
        self.looked = None
        try:
            self.looked = looked_at(self.kit())
        except RefusedInputError as fault:
            self.seen.show_nothing(str(fault))
            self.to_fit.hide()
            return
        self.seen.show_kit(self.looked)
        does_not_fit = self.looked.does_not_fit
        if does_not_fit is not None:
            said = does_not_fit.said(self._display.rounded, self._display.quantity)
            self.to_fit.setText(caption(said))
        self.to_fit.setVisible(does_not_fit is not None)

    # what is put right

    def mend(self) -> None:
        """Put right in the fields what was probably typed wrongly."""
        looked = self.looked
        if looked is None or looked.doubt is None or looked.doubt.fix is None:
            return
        typed = (self.contents.texts(), self.promises.texts())
        after = looked.doubt.fix.apply(looked.recipe)
        self.contents.show_mended(looked.recipe, after)
        self.promises.show_mended(looked.recipe, after)
        self._before_mending = typed
        self.seen.undo.show()
        self.seen.undo.setFocus()
        self.look()

    def unmend(self) -> None:
        """Show again what was typed before it was put right."""
        if self._before_mending is not None:
            contents, promises = self._before_mending
            self.contents.show_texts(contents)
            self.promises.show_texts(promises)
            self.button.setFocus()
            self.look()

    # beginning

    def _go(self, *, fitting: bool) -> None:
        """Begin with the kit, and with the ways to brew it where they are wanted."""
        try:
            recipe = recipe_of_kit(self.kit())
        except RefusedInputError as fault:
            self.refuse(fault)
        else:
            self.begin_with(recipe, self.begun_to_fit if fitting else self.begun)
