"""Hops that lie in the freezer: typed by hand or taken over from the cupboard, for the ways to use.

They are neither the recipe nor the cupboard: what is changed here asks "and if I had this?".
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
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

from designer.brewday.fit.wish import HopInHand
from designer.errors import RefusedInputError
from designer.recipe.document import HOP_FORMS
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.units import ShownUnits
from designer.window.parts.buttons import button
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.icons import Choice
from designer.window.parts.offers import attach_suggestions
from designer.window.parts.refusal import FieldRefusedError, Refusal
from designer.window.parts.small_table import SmallTable, SmallTableView
from designer.workbench.hops_in_hand import (
    HopRow,
    checked_alpha,
    checked_amount,
    checked_name,
    checked_rows,
    hops_of,
    usual_alpha,
)

if TYPE_CHECKING:
    from designer.library.store.kitchen import CupboardRecord
    from designer.window.session.autosave import Autosave

ROWS_SEEN = 4
NONE_YET = message(
    "None yet. Type a hop that is in your freezer, with the alpha acid printed on its bag, or "
    "copy those of the cupboard. The ways then make up with it for the bitterness that a strong "
    "boil loses, before any is bought."
)


class HopsInHand(QFrame):
    """A table of hops, a line to add one, and a button that takes over the cupboard's."""

    changed = Signal()

    def __init__(self, display: DisplayFormat, autosave: Callable[[], Autosave | None]) -> None:
        super().__init__()
        self.setObjectName("card")
        self._display, self._autosave = display, autosave
        self.table = SmallTable(self._columns(), display, checked_rows, self)
        self.view = SmallTableView(self.table, tr("Hops in hand"))
        self._lay_out()
        self.table.refused.connect(self._refuse)
        self.table.rows_changed.connect(self._follow)
        display.settings.changed.connect(self._retell)
        self._follow()

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column(
                "name",
                message("Hop"),
                read=lambda typed: checked_name(typed.text),
                suggests="hops",
                width=190,
            ),
            Column(
                "alpha",
                message("Alpha acid"),
                text=lambda row, display: display.quantity(Kind.FRACTION, row.alpha),
                read=lambda typed: self._alpha(typed.text),
                tip=message("As the bag says"),
                width=132,  # with the range of a variety
            ),
            Column(
                "amount",
                message("Amount"),
                text=lambda row, display: display.quantity(Kind.MASS, row.amount),
                read=lambda typed: self._amount(
                    typed.text, typed.display.to_edit(Kind.MASS, typed.row.amount)
                ),
                tip=message("What there is"),
                width=110,
            ),
            Column("form", message("Form"), choices=HOP_FORMS, width=110),
        )

    def _lay_out(self) -> None:
        self.empty = QLabel(tr(NONE_YET))
        self.empty.setWordWrap(True)
        self.empty.setObjectName("soft")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 12, 10)
        layout.setSpacing(6)
        layout.addWidget(self.empty)
        layout.addWidget(self.view)
        layout.addLayout(self._form())
        layout.addLayout(self._buttons())
        self.refusal = Refusal(self.cupboard_button)

    def _form(self) -> QGridLayout:
        """A line to add one more hop."""
        self.fields: dict[str, QLineEdit] = {}
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        for column, (key, label, spoken, wide) in enumerate(
            (
                ("name", tr("Hop to add"), tr("Hop to add"), 190),
                ("alpha", tr("Alpha acid"), tr("Alpha acid of the hop to add"), 132),
                ("amount", tr("Amount"), tr("Amount of the hop to add"), 92),
            )
        ):
            field = QLineEdit()
            field.setMaximumWidth(wide)
            field.setAccessibleName(spoken)
            field.returnPressed.connect(self.add)
            name = QLabel(label)
            name.setBuddy(field)
            grid.addWidget(name, 0, 2 * column)
            grid.addWidget(field, 0, 2 * column + 1)
            self.fields[key] = field
        attach_suggestions(self.fields["name"], "hops")
        self.fields["name"].textChanged.connect(self._offer_alpha)
        self.form = Choice()
        for each in HOP_FORMS:
            self.form.addItem(tr(each), each)
        self.form.setAccessibleName(tr("Form of the hop to add"))
        self.add_button = QPushButton(tr("Add"))
        self.add_button.setToolTip(tr("Put the hop into the list (Return does the same)"))
        self.add_button.setAccessibleName(tr("Add the hop"))
        self.add_button.clicked.connect(lambda _checked=False: self.add())
        grid.addWidget(self.form, 0, 6)
        grid.addWidget(self.add_button, 0, 7)
        grid.setColumnStretch(8, 1)
        return grid

    def _buttons(self) -> QHBoxLayout:
        self.cupboard_button = button(
            tr("Copy hops from the cupboard"),
            tr("With the alpha acid of each lot"),
            self.take_cupboard,
        )
        self.remove_button, self.undo_button, self.redo_button = self.view.buttons(
            tr("Remove the chosen hop (Delete does the same)")
        )
        row = self._row = QHBoxLayout()
        for each in (self.cupboard_button, self.remove_button, self.undo_button, self.redo_button):
            row.addWidget(each)
        row.addStretch(1)
        return row

    def add_to_buttons(self, more: QWidget) -> None:
        """Put one more button behind the others."""
        self._row.insertWidget(self._row.count() - 1, more)

    # reading

    def _alpha(self, text: str) -> Quantity:
        return checked_alpha(self._display.read(Kind.FRACTION, text, bare="%"), text)

    def _amount(self, text: str, before: str = "") -> Quantity:
        us = self._display.one_system is ShownUnits.US
        found = self._display.read(Kind.MASS, text, before, "oz" if us else "g")
        return checked_amount(found, text)

    def _offer_alpha(self, name: str) -> None:
        known = usual_alpha(name)
        text = "" if known is None else self._display.quantity(Kind.FRACTION, known)
        self.fields["alpha"].setPlaceholderText(text)

    def hops(self) -> tuple[HopInHand, ...]:
        """Return the hops as the solver takes them."""
        return tuple(row.in_hand for row in self.table.rows)

    def summary(self) -> str:
        """Return in a few words what there is."""
        rows = self.table.rows
        if not rows:
            return tr("Hops in hand: none")
        if len(rows) > 1:
            return tr("Hops in hand: {what}", what=len(rows))
        amount = self._display.quantity(Kind.MASS, rows[0].amount)
        return tr("Hops in hand: {what}", what=f"{amount} {rows[0].name}")

    # changing

    def add(self) -> None:
        """Put the hop that is typed into the list."""
        field = self.fields["name"]
        try:
            name = checked_name(field.text())
            field = self.fields["alpha"]
            usual = None if field.text().strip() else usual_alpha(name)
            alpha = usual or self._alpha(field.text())
            field = self.fields["amount"]
            amount = self._amount(field.text())
        except RefusedInputError as fault:
            self.refusal.say(FieldRefusedError(field, tr("{fault}.", fault=fault)))
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            field.selectAll()
            return
        row = HopRow(name, alpha, amount, str(self.form.currentData()))
        if self.table.make((*self.table.rows, row)):
            for each in self.fields.values():
                each.clear()
            self.fields["name"].setFocus(Qt.FocusReason.OtherFocusReason)

    def take_cupboard(self) -> None:
        """Take over the hops of the cupboard, in place of those taken over before."""
        autosave = self._autosave()
        if autosave is None:
            self._refuse(tr("The cupboard belongs to the Recipe box, which is not open here."))
            return
        autosave.store.ask(
            lambda store: tuple(store.cupboard.all()),
            self._take_over,
            self._refuse,
            key="hops of the cupboard",
        )

    def _take_over(self, records: tuple[CupboardRecord, ...]) -> None:
        found, without = hops_of(records)
        if not found:
            self._refuse(
                tr(
                    "The cupboard holds no hops with an amount. Add them on the Kitchen page: "
                    "name, amount, and the alpha acid printed on the bag."
                )
            )
            return
        typed = tuple(row for row in self.table.rows if not row.from_cupboard)
        if self.table.make((*typed, *found)) and without:
            self._refuse(
                tr("Left out, for they have no amount: {names}.", names=", ".join(without))
            )

    def _refuse(self, text: str) -> None:
        self.refusal.say(text)

    def _follow(self) -> None:
        self.refusal.clear()
        there = bool(self.table.rows)
        self.empty.setVisible(not there)
        self.view.setVisible(there)
        self.view.show_rows(min(len(self.table.rows), ROWS_SEEN))
        self.remove_button.setEnabled(there)
        self.changed.emit()

    def _retell(self) -> None:
        self.table.retell()
        self._offer_alpha(self.fields["name"].text())

    def take_focus(self) -> None:
        """Give the keyboard to the line that adds a hop."""
        self.fields["name"].setFocus(Qt.FocusReason.OtherFocusReason)
