"""Process: vessels, water, steep, boil, cooling, yeast, packaging, each in any unit."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import partial

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QMenu,
    QPushButton,
    QSpacerItem,
    QVBoxLayout,
    QWidget,
)

from designer.library.renaming import renamed_yeast
from designer.recipe.document import PART_TYPES
from designer.recipe.edits import ChangePart, ChangeRecipe, changing
from designer.recipe.fields import facts_of
from designer.recipe.message import say
from designer.recipe.place import Place, read_place
from designer.translation import message, named, tr
from designer.units import read_clock
from designer.window.compose.choice_field import ChoiceField, part_choice
from designer.window.compose.notes_field import NotesField
from designer.window.compose.taught_fields import TaughtFields
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.fields import TextField, WordsField, part_field
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import long_tip
from designer.window.parts.scrolling import bring_into_view, show_changed
from designer.window.session.worked_on import WorkedOn
from designer.workbench.flocculation import told_of_yeast
from designer.workbench.keys import WHAT_IF

ACROSS, APART = 3, 7
LONG = 18
"""A label of more letters goes on in a second line where the window is narrow."""
NOTES, YEAST, START = Place("notes"), Place("yeast", "name"), Place("process", "start_time")


@dataclass(frozen=True, slots=True)
class Group:
    """Some fields under one name; `rare` ones are shown on demand."""

    heading: str
    places: tuple[str, ...]
    rare: bool = False


GROUPS = (
    Group(
        message("Vessels and water"),
        ("pot.volume", "fermenter.volume", "process.top_up_to", "process.start_water",
         "process.frozen_top_up", "process.left_in_pot"),
    ),
    Group(
        message("Steep, boil, cool"),
        ("process.steep_temperature", "process.steep_time", "process.boil_time",
         "process.evaporation", "process.cooling", "process.cool_to"),
    ),
    Group(
        message("Yeast and after"),
        ("yeast.name", "yeast.amount", "yeast.attenuation", "process.pitch_temperature",
         "process.ferment_time", "process.package"),
    ),
    Group(
        message("Vessels, closer"),
        ("pot.name", "fermenter.name", "fermenter.kind", "fermenter.marks",
         "fermenter.marks_hold", "pot.diameter",
         "pot.foam_room", "fermenter.headspace", "pot.stove", "pot.power",
         "pot.heat_loss", "pot.coil"),
        rare=True,
    ),
    Group(
        message("Kitchen and water, closer"),
        ("process.tap_temperature", "process.room_temperature", "process.frozen_temperature",
         "process.altitude", "process.chlorine", "process.disinfectant",
         "process.metabisulfite", "process.cooling_constant",
         "process.grain_absorption", "process.hop_absorption", "process.syrup_tin",
         "process.grain_bag", "process.into_fermenter", "process.hydrometer_made_for",
         "process.hydrometer_in_water", "process.wort_correction", "process.steep_yield",
         "process.extract_got", "process.start_time"),
        rare=True,
    ),
    Group(
        message("Yeast, packaging and methods, closer"),
        ("yeast.form", "yeast.lowest", "yeast.highest", "yeast.price", "process.carbonation",
         "process.warmest_after", "process.bottle", "process.priming_sugar",
         "process.serving_temperature", "methods.bitterness", "methods.utilisation_constant",
         "methods.pellet_factor", "methods.colour", "methods.alcohol"),
        rare=True,
    ),
    Group(
        message("What the leaflet of the kit says"),
        ("leaflet.makes", "leaflet.original_gravity", "leaflet.final_gravity", "leaflet.alcohol",
         "leaflet.bitterness"),
        rare=True,
    ),
    Group(message("Recipe"), ("notes",), rare=True),
)  # fmt: skip


class ProcessForm(QWidget):
    """All fields that are not lines, in groups; the rarer ones on demand."""

    what_if_wanted = Signal(object)

    def __init__(
        self, opened: WorkedOn, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._display = opened, display
        self.by_place: dict[str, QWidget] = {}
        self._taught = TaughtFields(opened, display)
        self._idle: frozenset[str] = opened.idle
        self._rare: QWidget | None = None
        usual = QWidget(self)
        usual.setObjectName("plain")
        usual_layout = QVBoxLayout(usual)
        usual_layout.setContentsMargins(0, 0, 0, 0)
        usual_layout.setSpacing(8)
        for group in GROUPS:
            if not group.rare:
                usual_layout.addWidget(self._group(group, usual))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addLayout(self._top())
        layout.addWidget(usual)
        self._layout = layout
        opened.recipe_changed.connect(self._close_idle)
        opened.opened.taken_changed.connect(self._show_taught)

    def _top(self) -> QHBoxLayout:
        self.more_button = QPushButton(tr("All fields"))
        self.more_button.setObjectName("quiet")
        self.more_button.setCheckable(True)
        self.more_button.setToolTip(tr("Stove, losses, water, methods and all else"))
        self.more_button.setAccessibleName(tr("Show all fields of the process"))
        self.more_button.toggled.connect(self._show_rare)
        top = QHBoxLayout()
        top.setContentsMargins(0, 0, 0, 0)
        top.addWidget(heading(tr("Process")))
        top.addStretch(1)
        top.addWidget(self.more_button)
        return top

    def _show_rare(self, wanted: bool) -> None:
        """Show the rarer groups; they are made when first wanted."""
        if self._rare is None:
            # Neither these fields nor this are of the first picture.
            from designer.window.parts.reading_order import order_tabs

            self._rare = QWidget(self)
            self._rare.setObjectName("plain")
            rare_layout = QVBoxLayout(self._rare)
            rare_layout.setContentsMargins(0, 0, 0, 0)
            for group in GROUPS:
                if group.rare:
                    rare_layout.addWidget(self._group(group, self._rare))
            self._layout.addWidget(self._rare)
            order_tabs(self._rare, self.more_button)
        self._rare.setVisible(wanted)

    def _show_taught(self) -> None:
        """Other figures of the kitchen stand in empty fields from now on."""
        for field in self.by_place.values():
            if isinstance(field, TextField):
                field.refresh()
                field.tell_meaning()

    def _close_idle(self) -> None:
        """Close the fields that have no effect on what is brewed, and say why."""
        if self._opened.idle != self._idle:
            self._idle = self._opened.idle
            for place, field in self.by_place.items():
                self._open_or_close(place, field)

    def _open_or_close(self, place: str, field: QWidget) -> None:
        if isinstance(field, TextField | ChoiceField):
            is_idle = place in self._idle or place.partition(".")[0] in self._idle
            field.keep_closed(self._why_idle() if is_idle else "")

    def _why_idle(self) -> str:
        if self._opened.boil is not None:
            return tr("It was measured on the pot of the recipe, which this boil does not use.")
        return tr("The plan says it in its boils: choose one of them above to change it.")

    def _group(self, group: Group, parent: QWidget) -> QWidget:
        card = QWidget(parent)
        card.setObjectName("card")
        card.setAccessibleName(tr(group.heading))
        grid = QGridLayout(card)
        grid.setContentsMargins(10, 6, 10, 9)
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(1)
        if group.rare:
            grid.addWidget(QLabel(tr(group.heading)), 0, 0, 1, ACROSS)
        for number, written in enumerate(group.places):
            field, text = self._field(written)
            label = QLabel(tr(text))
            label.setObjectName("soft")
            label.setBuddy(field)
            if group.rare or len(label.text()) > LONG:
                label.setWordWrap(True)
                label.setAlignment(Qt.AlignmentFlag.AlignBottom)
            if group.rare and isinstance(field, ChoiceField):
                field.may_be_narrow()
            # A row between keeps each label nearer to its own field than to the one above.
            row, across = 1 + 3 * (number // ACROSS), ACROSS if isinstance(field, NotesField) else 1
            if row > 1 and not number % ACROSS:
                grid.addItem(QSpacerItem(0, APART), row - 1, 0)
            grid.addWidget(label, row, number % ACROSS)
            grid.addWidget(field, row + 1, number % ACROSS, 1, across)
            self.by_place[written] = field
            self._open_or_close(written, field)
        for column in range(ACROSS):
            grid.setColumnStretch(column, 1)
        return card

    def _field(self, written: str) -> tuple[QWidget, str]:
        place = read_place(written)
        if place == NOTES:
            return NotesField(self._opened, tr("Notes")), message("Notes")
        part, name = place.of, place.field
        of = PART_TYPES[part]
        metadata = next(each.metadata for each in fields(of) if each.name == name)
        facts = metadata.get("facts")
        if facts is not None:
            field = part_field(self._opened, self._display, part, name, facts_of(of, name))
            field.offered = partial(self._taught.offered, part, name, facts_of(of, name))
            field.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
            field.customContextMenuRequested.connect(partial(self._open_menu, field, place))
            return field, facts.label
        label = metadata["label"]
        if place == YEAST:
            return self._yeast(label), label
        if metadata["choices"]:
            return part_choice(self._opened, part, name, label, metadata["choices"]), label
        if place == START:
            return self._clock(label), label
        return WordsField(self._opened, part, name, label), label

    def _clock(self, label: str) -> TextField:
        """The time of the clock at which the day starts."""
        opened = self._opened

        def take(typed: str, merge_key: str) -> None:
            start = read_clock(typed)
            text = say("change-start-time", "change start time")
            opened.make_or_refuse(ChangePart("process", "start_time", start, text, merge_key))

        return TextField(opened, tr(label), lambda: opened.recipe.process.start_time, take)

    def _yeast(self, label: str) -> TextField:
        """The yeast's name: one of the catalogue brings its figures with it."""
        opened = self._opened

        def take(text: str, merge_key: str) -> None:
            yeast = renamed_yeast(opened.recipe.yeast, text)
            opened.make_or_refuse(ChangeRecipe("yeast", yeast, changing(label), merge_key))

        field = TextField(opened, tr(label), lambda: named(opened.recipe.yeast.name), take)
        field.suggests = "yeasts"

        def tell_source() -> None:
            said = told_of_yeast(opened.recipe.yeast.name, opened.recipe.yeast.form)
            if said != field.accessibleDescription():
                field.setToolTip(long_tip(said))
                field.setAccessibleDescription(said)

        opened.recipe_changed.connect(tell_source)
        tell_source()
        return field

    def _open_menu(self, field: TextField, place: Place, at: QPoint) -> None:
        from designer.window.parts.deeds import open_menu  # no start opens a menu

        open_menu(self.field_menu(field, place), field.mapToGlobal(at))

    def field_menu(self, field: TextField, place: Place) -> QMenu:
        """Return the menu of a field: what a line edit offers, and to try another value."""
        from designer.window.parts.deeds import add_entry  # as above

        menu = field.menu()
        add_entry(menu, WHAT_IF, lambda: self.what_if_wanted.emit(place))
        return menu

    def place_of(self, widget: QWidget | None) -> Place | None:
        """Return the place of the recipe that a field stands for; None for any other widget."""
        return next(
            (read_place(place) for place, field in self.by_place.items() if field is widget), None
        )

    def go_to(self, place: Place) -> bool:
        """Put the cursor into the field of a place such as `process.top_up_to`."""
        field = self._field_at(place)
        if field is None:
            return False
        field.setFocus()
        bring_into_view(field)
        return True

    def show_change(self, place: Place) -> bool:
        """Show and mark the field of a place that has changed; False if there is none."""
        field = self._field_at(place)
        if field is not None:
            show_changed(field)
        return field is not None

    def _field_at(self, place: Place) -> QWidget | None:
        """The field of a place, its group shown; None if there is none."""
        if any(str(place) in group.places for group in GROUPS if group.rare):
            self.more_button.setChecked(True)
        return self.by_place.get(str(place))
