"""The Kitchen: what this kitchen has, and what that means for the open recipe."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.stock import Need, needs, other_alphas, take_bags
from designer.errors import RefusedInputError
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord
from designer.recipe.edits import Edit
from designer.recipe.quantity import Kind
from designer.translation import named, tr, trn
from designer.units.piece_words import said_pieces
from designer.window.kitchen.calibration_card import CalibrationCard
from designer.window.kitchen.packs_panel import PacksPanel
from designer.window.kitchen.record_columns import CUPBOARD, FERMENTERS, POTS
from designer.window.kitchen.records_model import RecordsModel
from designer.window.kitchen.records_view import RecordsView
from designer.window.parts.buttons import button
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import MARGIN, Page, heading
from designer.window.parts.things_drawn import POT, of_fermenter, of_ingredient
from designer.window.session.autosave import Autosave
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.cupboard import stock_of
from designer.workbench.kitchen_vessels import (
    fermenter_edit,
    fermenter_record,
    pot_edit,
    pot_record,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from designer.library.store import Store
    from designer.library.store.kitchen import Records
    from designer.window.kitchen.learned_panel import LearnedPanel
    from designer.window.session.brew_keeping import BrewKeeping


class KitchenPage(Page):
    """Vessels above, the cupboard below, each with what it means for the recipe.

    `taken_changed` tells that other figures that brews taught are taken now.
    """

    said = Signal(str, bool)
    taken_changed = Signal()
    refused = Signal(str)
    removed = Signal(str, object)
    typed = Signal(str, object)

    def __init__(
        self,
        opened: OpenRecipe,
        autosave: Autosave,
        brews: BrewKeeping,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._opened, self._display, self._autosave = opened, display, autosave
        self._brews = brews
        self.packs: PacksPanel | None = None
        self.learned: LearnedPanel | None = None

        def model(
            in_store: Callable[[Store], Records[Any]],
            of: type[Any],
            columns: tuple[Column, ...],
            drawing: Callable[[Any], str],
        ) -> RecordsModel:
            made = RecordsModel(autosave, in_store, of, columns, display, drawing, self)
            made.refused.connect(self.refused)
            made.removed.connect(self.removed)
            made.typed.connect(self.typed)
            return made

        self.pots = RecordsView(
            model(lambda store: store.pots, PotRecord, POTS, lambda _: POT), tr("Pots"), "pots"
        )
        self.fermenters = RecordsView(
            model(
                lambda store: store.fermenters,
                FermenterRecord,
                FERMENTERS,
                lambda row: of_fermenter(row.kind),
            ),
            tr("Fermenters"),
            "fermenters",
        )
        self.cupboard = RecordsView(
            model(
                lambda store: store.cupboard,
                CupboardRecord,
                CUPBOARD,
                lambda row: of_ingredient(row.name),
            ),
            tr("Cupboard"),
            "cupboard",
        )
        self.first_steps: dict[RecordsView, QPushButton] = {}
        self._models = (self.pots.records, self.fermenters.records, self.cupboard.records)
        self._lay_out()
        opened.recipe_changed.connect(self._hold_against)
        opened.opened_first.connect(self._offer_recipe)
        self._offer_recipe()
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
        """Buttons that change between the kitchen, the shop and what brew days taught."""
        row = QHBoxLayout()
        row.setSpacing(4)
        self.part_buttons: list[QPushButton] = []
        for text, show in (
            (tr("In the kitchen"), self.show_kitchen),
            (tr("Pack sizes of the shop"), self.show_packs),
            (tr("What your kitchen taught"), self.show_learned),
        ):
            part = QPushButton(text)
            part.setObjectName("partButton")
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

    def show_learned(self) -> None:
        """Show what brew days taught; put together when first wanted."""
        if self.learned is None:
            from designer.window.kitchen.learned_panel import LearnedPanel

            self.learned = LearnedPanel(self._opened, self._autosave, self._brews, self._display)
            self.learned.said.connect(self.said)
            self.learned.removed.connect(self.removed)
            self.learned.taken_changed.connect(self.taken_changed)
            self.parts.addWidget(self.learned)
        self._check_part(2)
        self.parts.setCurrentWidget(self.learned)
        self.learned.take_focus()

    def _vessels(self) -> QWidget:
        box = QWidget()
        grid = QGridLayout(box)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(14)
        pot_buttons = (
            button(
                tr("Use this pot"),
                tr("Use the pot chosen in the table for the open recipe"),
                self.use_pot,
            ),
            button(
                tr("Save this pot to my list"),
                tr("Add the open recipe's pot to this list"),
                self.keep_pot,
            ),
        )
        fermenter_buttons = (
            button(
                tr("Use this fermenter"),
                tr("Use the fermenter chosen in the table for the open recipe"),
                self.use_fermenter,
            ),
            button(
                tr("Save this fermenter to my list"),
                tr("Add the open recipe's fermenter to this list"),
                self.keep_fermenter,
            ),
        )
        self._of_recipe = (*pot_buttons, *fermenter_buttons)
        for column, (view, buttons) in enumerate(
            ((self.pots, pot_buttons), (self.fermenters, fermenter_buttons))
        ):
            view.beside = buttons
            top = FlowLayout(across=6, down=4)
            for each in (heading(view.accessibleName()), *buttons):
                top.addWidget(each)
            told = QVBoxLayout()
            told.setSpacing(2)
            told.addLayout(top)
            told.addWidget(self._told_if_empty(view))
            grid.addLayout(told, 0, column)
            grid.addWidget(view, 1, column)
        self.calibration = CalibrationCard(self._display)
        self.calibration.worked_out.connect(self.work_out)
        grid.addWidget(self.calibration, 2, 0, 1, 2)
        grid.setColumnStretch(0, 3)
        grid.setColumnStretch(1, 2)
        return box

    def _told_if_empty(self, view: RecordsView) -> QWidget:
        """Say what a table is for and offer the first step, as long as nothing is in it."""
        words, step = {
            self.pots: (
                tr("The pots you boil in: the doors and Fit plan for them."),
                tr("Type your first pot"),
            ),
            self.fermenters: (
                tr("What your beer ferments in: the doors and Fit fill them."),
                tr("Type your first fermenter"),
            ),
            self.cupboard: (
                tr("What you have in hand: first recipes use it up, and you buy only the rest."),
                tr("Type what you have"),
            ),
        }[view]
        line = QWidget()
        told, link = QLabel(words), QPushButton(step)
        told.setObjectName("soft")
        told.setWordWrap(True)
        link.setObjectName("cure")
        link.clicked.connect(partial(self._type_first, view))
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(told, 1)
        row.addWidget(link)
        view.records.records_changed.connect(lambda: line.setVisible(not view.records.rows))
        self.first_steps[view] = link
        return line

    def _type_first(self, view: RecordsView) -> None:
        """Let the first one be typed where new ones are."""
        place = view.records.index(view.records.rowCount() - 1, view.records.column_of("name"))
        view.setFocus(Qt.FocusReason.OtherFocusReason)
        view.setCurrentIndex(place)
        view.edit(place)

    def _stock(self) -> QWidget:
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 6, 0, 0)
        layout.addWidget(heading(tr("Cupboard")))
        layout.addWidget(self._told_if_empty(self.cupboard))
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
            tr("Take the bag as it is"),
            tr("Count with the bag's alpha acid and hold the bitterness"),
            self.take_bags,
        )
        inside.addWidget(heading(tr("For this recipe")))
        inside.addWidget(_scrolled(self.held, tr("For this recipe")), 1)
        inside.addWidget(self.take_button)
        both.addWidget(card, 2)
        layout.addLayout(both, 1)
        return box

    def _offer_recipe(self) -> None:
        """Offer what is done to the open recipe, or taken from it, only while one is open."""
        for each in self._of_recipe:
            each.setEnabled(self._opened.is_open)

    def take_focus(self) -> None:
        """Give the keyboard to the pots, or to the part that is shown in their place."""
        shown = self.parts.currentWidget()
        if shown in (self.packs, self.learned) and shown is not None:
            shown.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        self.pots.setFocus(Qt.FocusReason.OtherFocusReason)

    def close_down(self) -> None:
        """Let go of what is reckoned beside the page."""
        if self.learned is not None:
            self.learned.close_down()

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
            self.refused.emit(tr("Choose a pot in the table first."))
        elif self._opened.recipe.boils:
            self.refused.emit(
                tr(
                    "The recipe is brewed by a plan, which says its pots. Choose the pot in Fit, "
                    "or brew it as written first."
                )
            )
        else:
            done = tr("The recipe is brewed in {pot}. Undo takes it back.", pot=record.name)
            self._make(pot_edit(self._opened.recipe, record), done)

    def use_fermenter(self) -> None:
        """Ferment the recipe in the chosen vessel."""
        record = self.fermenters.chosen()
        if record is None:
            self.refused.emit(tr("Choose a fermenter in the table first."))
        elif self._opened.recipe.fermenters:
            self.refused.emit(
                tr(
                    "The recipe is brewed by a plan, which says its fermenters. Choose the "
                    "fermenter in Fit, or brew it as written first."
                )
            )
        else:
            done = tr(
                "The recipe ferments in {fermenter}. Undo takes it back.", fermenter=record.name
            )
            self._make(fermenter_edit(self._opened.recipe, record), done)

    def _make(self, edit: Edit, done: str) -> None:
        """Make an edit and say what the recipe does now, `done`, or why it cannot."""
        try:
            self._opened.make_or_refuse(edit)
        except RefusedInputError as fault:
            self.said.emit(str(fault), True)
        else:
            self.said.emit(done, False)

    def keep_pot(self) -> None:
        """Keep the recipe's pot among the pots."""
        self.pots.records.keep(pot_record(self._opened.recipe))

    def keep_fermenter(self) -> None:
        """Keep the recipe's fermenter among the fermenters."""
        self.fermenters.records.keep(fermenter_record(self._opened.recipe))

    def work_out(self, field: str) -> None:
        """Put what was read of the chosen pot into a field of it."""
        record = self.pots.chosen()
        if record is None:
            self.refused.emit(tr("Choose the pot that was measured in the table first."))
            return
        try:
            found = self.calibration.figure(field)
        except RefusedInputError as fault:
            self.calibration.say(fault, field)
            return
        self.calibration.refusal.clear()
        model = self.pots.records
        place = model.index(self.pots.currentIndex().row(), model.column_of(field))
        model.setData(place, found)
        self.said.emit(tr("{pot}: {amount}, measured.", pot=record.name, amount=found), False)

    # cupboard

    def _hold_against(self) -> None:
        if not self.isVisible():
            return
        if not self._opened.is_open:
            self.held.setText(tr("What an open recipe needs from the cupboard is shown here."))
            self.take_button.hide()
            return
        recipe = self._opened.recipe
        stock = stock_of(self.cupboard.records.rows)
        lines, total, priced = [], 0.0, 0
        for need in needs(recipe, stock):
            text = self._need_text(need)
            if need.cost is not None:
                total, priced = total + need.cost, priced + 1
                cost = self._display.value(Kind.MONEY, need.cost)
                text = tr("{need}, {cost}", need=text, cost=cost)
            lines.append(text)
        if priced:
            money = self._display.value(Kind.MONEY, total)
            lines.append(
                tr("{money} in all.", money=money)
                if priced == len(lines)
                else trn(
                    "{money} for the {number} that have a price.",
                    "{money} for the {number} that have a price.",
                    priced,
                    money=money,
                )
            )
        others = other_alphas(recipe, stock)
        for other in others:
            lines.append(
                tr(
                    "{hop}: the bag says {on_bag}, the recipe {in_recipe}.",
                    hop=other.name,
                    on_bag=self._display.value(Kind.FRACTION, other.on_bag),
                    in_recipe=self._display.value(Kind.FRACTION, other.in_recipe),
                )
            )
        if others and any(each.hops is not None for each in recipe.boils):
            lines.append(
                tr(
                    "The boils of the plan have hops of their own, which stay as they are: fit it "
                    "again once the bags are taken."
                )
            )
        self.held.setText("\n".join(lines) or tr("The recipe needs nothing yet."))
        self.take_button.setVisible(bool(others))

    def _need_text(self, need: Need) -> str:
        """Return what is needed of something, and what of it is missing."""
        amount = self._amount(need.needed, need.unit)
        if need.missing <= 1e-9:
            return tr("{amount} {name}: on hand", amount=amount, name=named(need.name))
        missing = self._amount(need.missing, need.unit)
        return tr(
            "{amount} {name}: {missing} missing",
            amount=amount,
            name=named(need.name),
            missing=missing,
        )

    def _amount(self, amount: float, unit: str) -> str:
        if unit == "kg":
            return self._display.value(Kind.MASS, amount)
        return said_pieces(self._display.decimal(f"{amount:.4g} {unit}"))

    def take_bags(self) -> None:
        """Take the alpha acid of the bags on hand, and the weights that hold the bitterness."""
        edit = take_bags(self._opened.recipe, stock_of(self.cupboard.records.rows))
        if edit is not None:
            self._opened.make(edit)


def _scrolled(label: QLabel, name: str) -> QScrollArea:
    """A text that may be longer than there is room for."""
    label.setAlignment(Qt.AlignmentFlag.AlignTop)
    area = QScrollArea()
    area.setObjectName("readByKeys")
    area.setAccessibleName(name)
    area.setWidget(label)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.viewport().setAutoFillBackground(False)
    label.setAutoFillBackground(False)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    return area
