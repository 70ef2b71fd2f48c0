"""The pack sizes of one's own shop: seen, changed, and the usual ones again.

Kept in the Recipe box with every change, in two sets: metric and US. What is not kept there comes
with the program.
"""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QMenu,
    QVBoxLayout,
    QWidget,
)

from designer.errors import RefusedInputError
from designer.library.packs import (
    LONGEST_LABEL,
    PACK_KINDS,
    PACK_SETS,
    PackSize,
    checked_set,
    pack_size,
    packs,
)
from designer.library.store.shop import OWN, keep_shop_packs, shop_packs
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.window.kitchen.records_order import in_order
from designer.window.parts.buttons import button
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.icons import Choice
from designer.window.parts.ordering import Order, Ordering
from designer.window.parts.page_frame import heading
from designer.window.parts.refusal import FieldRefusedError, Refusal
from designer.window.parts.small_table import Rows, SmallTable, SmallTableView
from designer.window.session.autosave import Autosave

SET_WORDS = {"metric": message("Metric packs"), "us": message("US packs")}
TELLS = message(
    "The pack sizes your shop sells: what Fit says to buy is given in them, and scaling with "
    "“Whole packs only” keeps to them. They are kept in your Recipe box; hobwort fit uses them "
    "too."
)
NOTHING = message("No pack sizes are set: amounts are given as they are weighed. Add a size below.")
AS_SOLD = message("By what is in them, and how much")
_LIGHT = ("hops", "yeast")


class _Packs(SmallTable):
    """Sizes of packs; one that is changed is one's own."""

    order: Order | None = None
    """None for by what is in them, and how much."""

    def order_by(self, order: Order | None) -> None:
        """Show the sizes in another order, which is no change of the list."""
        self.order = order
        self._show(self.rows)

    def arranged(self, rows: Rows) -> Rows:
        """Return the sizes as they are shown, if they can stand together."""
        rows = _sorted(rows)
        return in_order(rows, self.columns, self.order, self.display) if self.order else rows

    def _show(self, rows: Rows) -> None:
        super()._show(self.arranged(rows))

    def name_of(self, row: PackSize) -> str:
        return tr(
            "the {amount} pack of {kind}",
            amount=self.display.decimal(row.amount.text),
            kind=tr(row.kind),
        )

    def changed(self, column: Column, row: PackSize, text: str) -> PackSize:
        parts: dict[str, Any] = {"kind": row.kind, "amount": row.amount, "label": row.label}
        parts[column.key] = column.value(row, text, self.display)
        return pack_size(**parts, source=OWN)


class _PacksView(SmallTableView):
    """The sizes, sorted by any of their columns."""

    def __init__(self, model: _Packs, name: str) -> None:
        super().__init__(model, name)
        settings = model.display.settings
        self.ordering = Ordering(self, model.columns, settings, "packs", model.order_by, AS_SOLD)
        self.horizontalHeader().setToolTip(tr("Click to sort"))

    def fill_menu(self, menu: QMenu) -> None:
        super().fill_menu(menu)
        menu.addSeparator()
        menu.addMenu(self.ordering.menu(menu))


class PacksPanel(QWidget):
    """A table of sizes, a line to add one, and the way back."""

    said = Signal(str, bool)

    def __init__(self, autosave: Autosave, display: DisplayFormat) -> None:
        super().__init__()
        self._autosave, self._display = autosave, display
        self.table = _Packs(self._columns(), display, self._arranged, self)
        self.view = _PacksView(self.table, tr("Pack sizes of your shop"))
        self._loaded = ""
        self._lay_out()
        self.table.refused.connect(self._refuse)
        self.table.rows_changed.connect(self._follow)
        self._follow()

    def _arranged(self, rows: Rows) -> Rows:
        return self.table.arranged(rows)

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column("kind", message("Sold in packs"), choices=PACK_KINDS, width=190),
            Column(
                "amount",
                message("Pack holds"),
                text=lambda row, display: display.decimal(row.amount.text),
                read=lambda typed: self._amount(typed.row.kind, typed.text),
                tip=message("As the pack says: 1.5 kg, 3.3 lb, 25 g, 1 oz"),
                width=130,
            ),
            Column(
                "label",
                message("Called"),
                text=lambda row, _: tr(row.label),
                tip=message("tin, jar, bag, packet"),
                width=110,
            ),
        )

    def _lay_out(self) -> None:
        self.set_choice = Choice()
        self.set_choice.addItems([tr(SET_WORDS[each]) for each in PACK_SETS])
        self.set_choice.setAccessibleName(tr("Which set of pack sizes"))
        self.set_choice.setCurrentIndex(PACK_SETS.index(self._display.pack_set))
        self.set_choice.activated.connect(lambda _: self.load())
        tells = QLabel(tr(TELLS))
        tells.setWordWrap(True)
        tells.setObjectName("soft")
        self.empty = QLabel(tr(NOTHING))
        self.empty.setWordWrap(True)
        self.refusal = Refusal(self.set_choice)
        top = QHBoxLayout()
        top.addWidget(heading(tr("Pack sizes of your shop")))
        top.addWidget(self.set_choice)
        top.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addLayout(top)
        layout.addWidget(tells)
        layout.addWidget(self.empty)
        layout.addWidget(self.view, 1)
        layout.addLayout(self._form())
        layout.addLayout(self._buttons())

    def _form(self) -> QGridLayout:
        """A line to add one more size."""
        self.kind = Choice()
        for each in PACK_KINDS:
            self.kind.addItem(tr(each), each)
        self.kind.setAccessibleName(tr("Sold in packs: what is to be added"))
        self.holds, self.called = QLineEdit(), QLineEdit()
        self.holds.setAccessibleName(tr("Pack holds"))
        self.called.setAccessibleName(tr("Called"))
        self.called.setPlaceholderText(tr("bag"))
        self.called.setMaxLength(LONGEST_LABEL)
        self.kind.currentIndexChanged.connect(lambda _: self._offer())
        self._offer()
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        for column, (text, widget) in enumerate(
            ((tr("A pack of"), self.kind), (tr("holds"), self.holds), (tr("called"), self.called))
        ):
            label = QLabel(text)
            label.setBuddy(widget)
            grid.addWidget(label, 0, 2 * column)
            grid.addWidget(widget, 0, 2 * column + 1)
        for field in (self.holds, self.called):
            field.setMaximumWidth(130)
            field.returnPressed.connect(self.add)
        self.add_button = button(tr("Add"), tr("Put this size into the list"), self.add)
        grid.addWidget(self.add_button, 0, 6)
        grid.setColumnStretch(7, 1)
        return grid

    def _buttons(self) -> QHBoxLayout:
        self.remove_button, self.undo_button, self.redo_button = self.view.buttons(
            tr("Remove the chosen size (Delete does the same)")
        )
        self.usual_button = button(
            tr("Back to the usual sizes"),
            tr("Use the sizes that come with the program; Undo restores yours"),
            self.usual,
        )
        row = QHBoxLayout()
        for each in (self.remove_button, self.undo_button, self.redo_button, self.usual_button):
            row.addWidget(each)
        row.addStretch(1)
        return row

    # sizes

    @property
    def pack_set(self) -> str:
        """The set that is shown."""
        return PACK_SETS[self.set_choice.currentIndex()]

    def _amount(self, kind: str, text: str) -> Quantity:
        """Return the amount in a pack; a bare number is in the unit in which these are sold."""
        us = self.pack_set == "us"
        bare = ("oz" if us else "g") if kind in _LIGHT else ("lb" if us else "kg")
        return self._display.read(Kind.MASS, text, bare=bare)

    def _offer(self) -> None:
        """Show in the empty fields what such a pack usually is."""
        kind = str(self.kind.currentData())
        usual = next((each for each in packs(self.pack_set) if each.kind == kind), None)
        holds = usual.amount.text if usual is not None else "500 g"
        self.holds.setPlaceholderText(self._display.decimal(holds))
        self.called.setPlaceholderText(tr(usual.label if usual is not None else "bag"))

    def add(self) -> None:
        """Put the size that is typed into the list."""
        kind, label = str(self.kind.currentData()), self.called.text()
        label = label or self.called.placeholderText()
        try:
            row = pack_size(kind, self._amount(kind, self.holds.text()), label, OWN)
        except RefusedInputError as fault:
            self.refusal.say(FieldRefusedError(self.holds, tr("{fault}.", fault=fault)))
            self.holds.setFocus(Qt.FocusReason.OtherFocusReason)
            self.holds.selectAll()
            return
        if self.table.make((*self.table.rows, row), self.holds.accessibleName()):
            self.holds.clear()
            self.called.clear()
            self._choose(row)

    def _choose(self, row: PackSize) -> None:
        index = self.table.index(self.table.rows.index(row), 1)
        self.view.setCurrentIndex(index)
        self.view.scrollTo(index)

    def usual(self) -> None:
        """Go back to the sizes that come with the program."""
        self.table.make(packs(self.pack_set))

    # keeping

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.load()

    def load(self) -> None:
        """Read the set that is chosen."""
        pack_set = self.pack_set
        self._offer()
        self._autosave.store.ask(
            lambda store: (pack_set, shop_packs(store, pack_set)),
            self._show,
            self._refuse,
            key="load packs",
        )

    def _show(self, found: tuple[str, tuple[PackSize, ...]]) -> None:
        pack_set, sizes = found
        if pack_set == self.pack_set and (
            pack_set != self._loaded or _sorted(sizes) != _sorted(self.table.rows)
        ):
            self._loaded = ""
            self.table.put(sizes)
            self._loaded = pack_set
            self._follow()

    def _follow(self) -> None:
        self.refusal.clear()
        rows, there = _sorted(self.table.rows), bool(self.table.rows)
        self.empty.setVisible(not there and bool(self._loaded))
        self.remove_button.setEnabled(there)
        self.usual_button.setEnabled(bool(self._loaded) and rows != _sorted(packs(self.pack_set)))
        if self._loaded == self.pack_set:
            self._keep(rows)

    def _keep(self, rows: tuple[PackSize, ...]) -> None:
        pack_set = self._loaded
        usual = packs(pack_set)
        kept = usual if rows == _sorted(usual) else rows
        self._autosave.store.ask(
            lambda store: keep_shop_packs(store, pack_set, kept),
            None,
            self._refuse,
            key=f"keep packs {pack_set}",
        )

    def _refuse(self, text: str) -> None:
        self.refusal.say(text)

    def take_focus(self) -> None:
        """Give the keyboard to the table."""
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)


def _sorted(rows: Rows) -> Rows:
    """Return the sizes by what is in them and how much, if they can stand together."""
    return tuple(
        sorted(checked_set(rows), key=lambda each: (PACK_KINDS.index(each.kind), each.mass_kg))
    )
