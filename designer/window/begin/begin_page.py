"""Begin: three doors. Design one of my own, type in a kit, open the example or a file."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.first_bill import Wish
from designer.errors import RefusedInputError
from designer.library import catalogue
from designer.library.round_trip import as_held
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.figures import figure, wanted_value
from designer.window.parts.offers import attach_suggestions
from designer.window.parts.page_frame import Page, heading
from designer.window.parts.refusal import Refusal, read_from, within_reach
from designer.workbench.first_recipe import first_recipe
from designer.workbench.kit import Kit, recipe_of_kit

LARGEST_POT_L = 10_000.0


class Door(QFrame):
    """One card: a title, what is behind it, some fields, a button."""

    def __init__(self, title: str, about: str, press: str, act: Callable[[], None]) -> None:
        super().__init__()
        self.setObjectName("card")
        self.fields: dict[str, QLineEdit] = {}
        self._grid = QGridLayout()
        self.button = QPushButton(press)
        self.refusal = Refusal(self.button)
        self.button.clicked.connect(act)
        told = QLabel(about)
        told.setWordWrap(True)
        told.setObjectName("soft")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(20, 16, 20, 18)
        layout.setSpacing(10)
        layout.addWidget(heading(title))
        layout.addWidget(told)
        layout.addLayout(self._grid)
        layout.addWidget(self.button)
        layout.addStretch(1)

    def add_field(self, key: str, label: str, text: str, suggests: str = "") -> QLineEdit:
        """Add a field with its label."""
        field = QLineEdit(text)
        field.setAccessibleName(label)
        if suggests:
            attach_suggestions(field, suggests)
        name = QLabel(label)
        name.setBuddy(field)
        row = self._grid.rowCount()
        self._grid.addWidget(name, row, 0)
        self._grid.addWidget(field, row, 1)
        self.fields[key] = field
        return field

    def order_tabs(self) -> None:
        """Let Tab go through the fields and then to the button, which was made before them."""
        if self.fields:
            chain = [*self.fields.values(), self.button]
            for before, after in pairwise(chain):
                QWidget.setTabOrder(before, after)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes from field to field to the button; with Ctrl it begins from any of them."""
        focus = self.focusWidget()
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.button.click()
        elif isinstance(focus, QLineEdit):
            self.focusNextChild()
        else:
            super().keyPressEvent(event)

    def refuse(self, fault: RefusedInputError | str) -> None:
        """Say why it cannot be done so; nothing for a fault that is gone."""
        if fault:
            self.refusal.say(fault)
        else:
            self.refusal.clear()


class BeginPage(Page):
    """The three doors side by side; `begun` carries the recipe to go on with."""

    begun = Signal(object)
    example_wanted = Signal()
    file_wanted = Signal()

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self.own = self._own_door()
        self.kit = self._kit_door()
        self.example = Door(
            tr("Look at one that is done"),
            tr("A porter for a 9 L pot and a 12 L bucket, to look around in and to change."),
            tr("Open the example"),
            self.example_wanted.emit,
        )
        open_button = QPushButton(tr("Open a recipe file…"))
        open_button.clicked.connect(self.file_wanted)
        layout_of_example = self.example.layout()
        assert isinstance(layout_of_example, QVBoxLayout)
        layout_of_example.insertWidget(layout_of_example.count() - 1, open_button)
        doors = QHBoxLayout()
        doors.setSpacing(16)
        for door in (self.own, self.kit, self.example):
            doors.addWidget(door, 1, Qt.AlignmentFlag.AlignTop)
        title = QLabel(tr("What will you brew?"))
        font = title.font()
        font.setPointSizeF(1.8 * font.pointSizeF())
        font.setBold(True)
        title.setFont(font)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(36, 28, 36, 28)
        layout.setSpacing(16)
        layout.addWidget(title)
        layout.addLayout(doors)
        layout.addStretch(1)
        for door in (self.own, self.kit):
            door.order_tabs()

    def take_focus(self) -> None:
        field = self.own.fields["original_gravity"]
        field.setFocus()
        field.selectAll()

    def _own_door(self) -> Door:
        door = Door(
            tr("Design one of my own"),
            tr(
                "Say how strong, how bitter, how dark; a balanced first bill is laid down for your "
                "pot, to change from there. A style fills in its middle."
            ),
            tr("Lay down a first bill"),
            self.lay_down,
        )
        style = door.add_field("style", tr("Style, if you like"), "", "styles")
        style.setToolTip(STYLE_NUMBERS)
        style.textChanged.connect(self._fill_from_style)
        door.add_field(
            "original_gravity", tr("How strong (OG)"), self._said("original_gravity", 1.05)
        )
        door.add_field("bitterness_ibu", tr("How bitter"), self._said("bitterness_ibu", 30.0))
        door.add_field("colour_srm", tr("How dark"), self._said("colour_srm", 12.0))
        self._add_vessels(door)
        return door

    def _kit_door(self) -> Door:
        door = Door(
            tr("Type in a kit"),
            tr(
                "As it stands on the box. Its contents are locked: only water, times and what is "
                "left out may change."
            ),
            tr("Put the kit in"),
            self.type_in_kit,
        )
        door.add_field("name", tr("Name of the kit"), tr("My kit"))
        door.add_field("amount", tr("Hopped extract"), self._display.value(Kind.MASS, 1.7))
        door.add_field("bitterness", tr("Bitterness on the label"), "25 IBU")
        door.add_field("volume", tr("Made for"), self._display.value(Kind.VOLUME, 20.0))
        door.add_field(
            "more", tr("Dry extract or sugar in it"), self._display.value(Kind.MASS, 1.0)
        )
        for key, kind in (("amount", Kind.MASS), ("volume", Kind.VOLUME), ("more", Kind.MASS)):
            ask_when_left(door.fields[key], self._display, kind)
        self._add_vessels(door)
        return door

    def _add_vessels(self, door: Door) -> None:
        for key, label, litres in (("pot", tr("Pot"), 9.0), ("fermenter", tr("Fermenter"), 12.0)):
            door.add_field(key, label, self._display.value(Kind.VOLUME, litres))
            ask_when_left(door.fields[key], self._display, Kind.VOLUME)

    def _said(self, key: str, value: float) -> str:
        return figure(key, value, self._display)

    def _fill_from_style(self, text: str) -> None:
        style = catalogue.find_style(text)
        if style is None:
            return
        for key in ("original_gravity", "bitterness_ibu", "colour_srm"):
            low, high = getattr(style, key)
            self.own.fields[key].setText(self._said(key, (low + high) / 2.0))

    def _quantity(self, door: Door, key: str, kind: Kind) -> Quantity:
        field = door.fields[key]
        with read_from(field):
            found = self._display.read(kind, field.text())
            return within_reach(found, LARGEST_POT_L, field.text())

    def _forecast(self, key: str) -> float:
        field = self.own.fields[key]
        with read_from(field):
            return wanted_value(key, field.text(), self._display)

    def lay_down(self) -> None:
        """Begin a recipe of one's own."""
        try:
            pot, fermenter = (
                self._quantity(self.own, key, Kind.VOLUME) for key in ("pot", "fermenter")
            )
            wish = Wish(
                self._forecast("original_gravity"),
                self._forecast("bitterness_ibu"),
                self._forecast("colour_srm"),
                pot.value,
                fermenter.value,
            )
        except RefusedInputError as fault:
            self.own.refuse(fault)
            return
        self._begin(self.own, first_recipe(wish, pot, fermenter, self.own.fields["style"].text()))

    def _begin(self, door: Door, recipe: Recipe) -> None:
        """Go through a door, unless no file could hold the recipe behind it."""
        try:
            recipe = as_held(Recipe(), recipe)
        except RefusedInputError as fault:
            door.refuse(fault)
        else:
            door.refuse("")
            self.begun.emit(recipe)

    def type_in_kit(self) -> None:
        """Begin with a kit as its box has it."""
        try:
            recipe = recipe_of_kit(self._kit())
        except RefusedInputError as fault:
            self.kit.refuse(fault)
            return
        self._begin(self.kit, recipe)

    def _kit(self) -> Kit:
        def quantity(key: str, kind: Kind) -> Quantity:
            return self._quantity(self.kit, key, kind)

        return Kit(
            self.kit.fields["name"].text(),
            amount=quantity("amount", Kind.MASS),
            more=quantity("more", Kind.MASS),
            volume=quantity("volume", Kind.VOLUME),
            pot=quantity("pot", Kind.VOLUME),
            fermenter=quantity("fermenter", Kind.VOLUME),
            bitterness=quantity("bitterness", Kind.BITTERNESS),
        )
