"""Vessels and Cupboard: what this kitchen has, and what that means for the open recipe."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.stock import needs, other_alphas, take_bags
from designer.errors import RefusedInputError
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord
from designer.recipe.edits import Edit
from designer.recipe.quantity import Kind
from designer.window.kitchen.packs_panel import PacksPanel
from designer.window.kitchen.record_columns import CUPBOARD, FERMENTERS, POTS
from designer.window.kitchen.records_model import RecordsModel
from designer.window.parts.buttons import button
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import MARGIN, heading
from designer.window.parts.plain_table import PlainTableView
from designer.window.parts.refusal import Refusal, read_from
from designer.window.session.autosave import Autosave
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.cupboard import stock_of
from designer.workbench.kitchen_vessels import (
    fermenter_edit,
    fermenter_record,
    pot_edit,
    pot_record,
)
from designer.workbench.vessel_calibration import cooling_text, evaporation_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from designer.library.store import Store
    from designer.library.store.kitchen import Records


class RecordsView(PlainTableView):
    """A table of records."""

    def __init__(self, records: RecordsModel, name: str) -> None:
        super().__init__(records, name)
        self.records = records

    def chosen(self) -> Any:
        """Return the record of the current row; None for the row that takes a new one."""
        return self.records.row_at(self.currentIndex().row())


class KitchenPage(QWidget):
    """Vessels above, the cupboard below, each with what it means for the recipe."""

    said = Signal(str, bool)
    refused = Signal(str)
    removed = Signal(str, object)

    def __init__(
        self,
        opened: OpenRecipe,
        autosave: Autosave,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._opened, self._display, self._autosave = opened, display, autosave
        self.packs: PacksPanel | None = None

        def model(
            in_store: Callable[[Store], Records[Any]],
            of: type[Any],
            columns: tuple[Column, ...],
        ) -> RecordsModel:
            made = RecordsModel(autosave, in_store, of, columns, display, self)
            made.refused.connect(self.refused)
            made.removed.connect(self.removed)
            return made

        self.pots = RecordsView(model(lambda store: store.pots, PotRecord, POTS), "Pots")
        self.fermenters = RecordsView(
            model(lambda store: store.fermenters, FermenterRecord, FERMENTERS), "Fermenters"
        )
        self.cupboard = RecordsView(
            model(lambda store: store.cupboard, CupboardRecord, CUPBOARD), "Cupboard"
        )
        self._models = (self.pots.records, self.fermenters.records, self.cupboard.records)
        self._lay_out()
        opened.recipe_changed.connect(self._hold_against)
        self.cupboard.records.records_changed.connect(self._hold_against)

    def _lay_out(self) -> None:
        rows = QSplitter(Qt.Orientation.Vertical)
        rows.setChildrenCollapsible(False)
        rows.addWidget(self._vessels())
        rows.addWidget(self._stock())
        self.parts = QStackedWidget()
        self.parts.addWidget(rows)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, 10, MARGIN, 10)
        layout.addLayout(self._part_buttons())
        layout.addWidget(self.parts, 1)

    def _part_buttons(self) -> QHBoxLayout:
        """Two buttons that change between the kitchen and the shop."""
        row = QHBoxLayout()
        row.setSpacing(4)
        self.part_buttons: list[QPushButton] = []
        for text, show in (
            ("In the kitchen", self.show_kitchen),
            ("Pack sizes of the shop", self.show_packs),
        ):
            part = QPushButton(text)
            part.setObjectName("quiet")
            part.setCheckable(True)
            part.clicked.connect(lambda _checked=False, act=show: act())
            row.addWidget(part)
            self.part_buttons.append(part)
        self._check_part(0)
        row.addStretch(1)
        return row

    def _check_part(self, number: int) -> None:
        """Check one button; without a group of buttons, so that Tab reaches both."""
        for place, each in enumerate(self.part_buttons):
            each.setChecked(place == number)

    def show_kitchen(self) -> None:
        """Show vessels and cupboard."""
        self._check_part(0)
        self.parts.setCurrentIndex(0)

    def show_packs(self) -> None:
        """Show the pack sizes of the shop; put together when first wanted."""
        if self.packs is None:
            self.packs = PacksPanel(self._autosave, self._display)
            self.parts.addWidget(self.packs)
        self._check_part(1)
        self.parts.setCurrentWidget(self.packs)
        self.packs.take_focus()

    def _vessels(self) -> QWidget:
        box = QWidget()
        grid = QGridLayout(box)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(14)
        for column, (view, text, verb, use, take) in enumerate(
            (
                (self.pots, "pot", "Brew", self.use_pot, self.keep_pot),
                (self.fermenters, "fermenter", "Ferment", self.use_fermenter, self.keep_fermenter),
            )
        ):
            top = QHBoxLayout()
            top.setSpacing(6)
            top.addWidget(heading(f"{text}s"))
            top.addStretch(1)
            tip = f"Take the {text} that is chosen in the table for the open recipe"
            top.addWidget(button(f"{verb} in it", tip, use))
            tip = f"Add the open recipe's {text} to the table"
            top.addWidget(button(f"Keep the recipe's {text}", tip, take))
            grid.addLayout(top, 0, column)
            grid.addWidget(view, 1, column)
        grid.addWidget(self._calibration(), 2, 0, 1, 2)
        grid.setColumnStretch(0, 3)
        grid.setColumnStretch(1, 2)
        return box

    def _calibration(self) -> QWidget:
        """Two readings give the evaporation, or the cooling constant, of the chosen pot."""
        card = QFrame()
        card.setObjectName("card")
        self.measured: dict[str, QLineEdit] = {}
        self.refusal = Refusal(card)
        grid = QGridLayout(card)
        grid.setContentsMargins(12, 6, 12, 8)

        def field(row: int, column: int, key: str, label: str, text: str, what: str) -> None:
            edit = QLineEdit()
            edit.setPlaceholderText(text)
            edit.setAccessibleName(what)
            edit.setMaximumWidth(100)
            name = QLabel(label)
            name.setBuddy(edit)
            grid.addWidget(name, row, column)
            grid.addWidget(edit, row, column + 1)
            self.measured[key] = edit

        grid.addWidget(QLabel("Measure evaporation with plain water, both read cold:"), 0, 0, 1, 2)
        field(0, 2, "before", "before", "6 L", "Water before the boil")
        field(0, 4, "after", "after", "5.1 L", "Water left after the boil")
        field(0, 6, "boiled", "boiled for", "60 min", "Time it boiled")
        evaporation = button(
            "Work it out", "Evaporation of the chosen pot", self.work_out_evaporation
        )
        grid.addWidget(evaporation, 0, 10)
        grid.addWidget(QLabel("Measure cooling in the bath you use:"), 1, 0, 1, 2)
        field(1, 2, "hot", "from", "100 °C", "Temperature at the beginning")
        field(1, 4, "cool", "to", "40 °C", "Temperature at the end")
        field(1, 6, "bath", "bath at", "12 °C", "Temperature of the bath")
        field(1, 8, "cooled", "took", "25 min", "Time it took")
        cooling = button("Work it out", "Cooling constant of the chosen pot", self.work_out_cooling)
        grid.addWidget(cooling, 1, 10)
        grid.setColumnStretch(11, 1)
        return card

    def _stock(self) -> QWidget:
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 6, 0, 0)
        layout.addWidget(heading("Cupboard"))
        both = QHBoxLayout()
        both.addWidget(self.cupboard, 5)
        card = QFrame()
        card.setObjectName("card")
        inside = QVBoxLayout(card)
        self.held = QLabel()
        self.held.setWordWrap(True)
        self.held.setTextFormat(Qt.TextFormat.PlainText)
        self.held.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.take_button = button(
            "Take the bag as it is", "Count with the bag's alpha acid and hold the bitterness",
            self.take_bags,
        )  # fmt: skip
        inside.addWidget(heading("For this recipe"))
        inside.addWidget(self.held)
        inside.addWidget(self.take_button)
        inside.addStretch(1)
        both.addWidget(card, 2)
        layout.addLayout(both, 1)
        return box

    def take_focus(self) -> None:
        """Give the keyboard to the pots, or to the pack sizes where they are shown."""
        if self.packs is not None and self.parts.currentWidget() is self.packs:
            self.packs.take_focus()
            return
        self.pots.setFocus(Qt.FocusReason.OtherFocusReason)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        for model in self._models:
            model.load()
        self._hold_against()

    # vessels

    def use_pot(self) -> None:
        """Brew the recipe in the chosen pot."""
        record = self.pots.chosen()
        if record is None:
            self.refused.emit("Choose a pot in the table first.")
        else:
            self._make(pot_edit(self._opened.recipe, record), f"is brewed in {record.name}")

    def use_fermenter(self) -> None:
        """Ferment the recipe in the chosen vessel."""
        record = self.fermenters.chosen()
        if record is None:
            self.refused.emit("Choose a fermenter in the table first.")
        else:
            self._make(fermenter_edit(self._opened.recipe, record), f"ferments in {record.name}")

    def _make(self, edit: Edit, done: str) -> None:
        """Make an edit and say what the recipe does now, or why it cannot."""
        try:
            self._opened.make_or_refuse(edit)
        except RefusedInputError as fault:
            self.said.emit(str(fault), True)
        else:
            self.said.emit(f"The recipe {done}. Undo takes it back.", False)

    def keep_pot(self) -> None:
        """Keep the recipe's pot among the pots."""
        self.pots.records.keep(pot_record(self._opened.recipe))

    def keep_fermenter(self) -> None:
        """Keep the recipe's fermenter among the fermenters."""
        self.fermenters.records.keep(fermenter_record(self._opened.recipe))

    def _measured(self, key: str, kind: Kind) -> float:
        field = self.measured[key]
        with read_from(field):
            return self._display.read(kind, field.text() or field.placeholderText()).value

    def work_out_evaporation(self) -> None:
        """Put the measured evaporation into the chosen pot."""
        self._work_out("evaporation", self._evaporation_text)

    def work_out_cooling(self) -> None:
        """Put the measured cooling constant into the chosen pot."""
        self._work_out("cooling_constant", self._cooling_text)

    def _evaporation_text(self) -> str:
        before, after = (self._measured(key, Kind.VOLUME) for key in ("before", "after"))
        return evaporation_text(before, after, self._measured("boiled", Kind.TIME))

    def _cooling_text(self) -> str:
        hot, cool, bath = (self._measured(key, Kind.TEMPERATURE) for key in ("hot", "cool", "bath"))
        return cooling_text(hot, cool, bath, self._measured("cooled", Kind.TIME))

    def _work_out(self, field: str, text: Any) -> None:
        record = self.pots.chosen()
        if record is None:
            self.refused.emit("Choose the pot that was measured in the table first.")
            return
        try:
            found = text()
        except RefusedInputError as fault:
            self.refusal.say(fault, self.measured["after" if field == "evaporation" else "cool"])
            return
        self.refusal.clear()
        model = self.pots.records
        place = model.index(self.pots.currentIndex().row(), model.column_of(field))
        model.setData(place, found)
        self.said.emit(f"{record.name}: {found}, measured.", False)

    # cupboard

    def _hold_against(self) -> None:
        if not self.isVisible():
            return
        recipe = self._opened.recipe
        stock = stock_of(self.cupboard.records.rows)
        lines, total, priced = [], 0.0, 0
        for need in needs(recipe, stock):
            amount = self._amount(need.needed, need.unit)
            text = f"{amount} {need.name}: "
            missing = self._amount(need.missing, need.unit)
            text += "on hand" if need.missing <= 1e-9 else f"{missing} missing"
            if need.cost is not None:
                total, priced = total + need.cost, priced + 1
                text += f", {self._display.value(Kind.MONEY, need.cost)}"
            lines.append(text)
        if priced:
            money = self._display.value(Kind.MONEY, total)
            whole = "in all" if priced == len(lines) else f"for the {priced} that have a price"
            lines.append(f"{money} {whole}.")
        others = other_alphas(recipe, stock)
        for other in others:
            said = [self._display.value(Kind.FRACTION, each)
                    for each in (other.on_bag, other.in_recipe)]  # fmt: skip
            lines.append(f"{other.name}: the bag says {said[0]}, the recipe {said[1]}.")
        self.held.setText("\n".join(lines) or "The recipe asks for nothing yet.")
        self.take_button.setVisible(bool(others))

    def _amount(self, amount: float, unit: str) -> str:
        if unit == "kg":
            return self._display.value(Kind.MASS, amount)
        return self._display.decimal(f"{amount:.4g} {unit}")

    def take_bags(self) -> None:
        """Take the alpha acid of the bags on hand, and the weights that hold the bitterness."""
        edit = take_bags(self._opened.recipe, stock_of(self.cupboard.records.rows))
        if edit is not None:
            self._opened.make(edit)
