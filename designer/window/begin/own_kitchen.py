"""What there is to brew with: pot, fermenter, how much beer, and what lies in the cupboard."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from designer.recipe.quantity import Kind, Quantity
from designer.translation import named, tr, trn
from designer.window.begin.vessel_answers import VesselAnswers, kept_vessels
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Tick
from designer.window.parts.vessel_field import KeptVessels

if TYPE_CHECKING:
    from designer.brewday.stock import Stock
    from designer.library.store import Store
    from designer.library.store.kitchen import CupboardRecord
    from designer.recipe.document import Recipe
    from designer.workbench.first_answers import Wished

MOST_NAMED = 4
"""So many things of the cupboard are named; of more their number is told."""


class KeptKitchen(NamedTuple):
    """What the Recipe box keeps of the kitchen."""

    vessels: KeptVessels = KeptVessels()
    cupboard: tuple[CupboardRecord, ...] = ()


def kept_kitchen(store: Store) -> KeptKitchen:
    """Return what a store keeps."""
    return KeptKitchen(kept_vessels(store), tuple(store.cupboard.all()))


class KitchenAnswers(QWidget):
    """`changed` when something else is there, or is to be used."""

    changed = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display, self._kept = display, KeptKitchen()
        self._vessels = VesselAnswers(display, ("pot", "fermenter", "batch"))
        self._vessels.changed.connect(self.changed)
        self.fields = self._vessels.fields
        row = FlowLayout(across=16)
        for each in self._vessels.labelled:
            row.addWidget(each)
        self.simple = Tick(tr("Keep it simple"))
        self.simple.setToolTip(tr("As few things to buy and to weigh as the style allows"))
        self.whole = Tick(tr("Whole packs only"))
        self.whole.setToolTip(tr("Tins and bags go in whole, as your shop sells them"))
        self.use_up = Tick(tr("Use up the cupboard first"))
        self.use_up.setChecked(True)
        self.in_cupboard = QLabel()
        self.in_cupboard.setObjectName("soft")
        self.in_cupboard.setTextFormat(Qt.TextFormat.PlainText)
        self.in_cupboard.setWordWrap(True)
        for tick in (self.simple, self.whole, self.use_up):
            tick.toggled.connect(lambda _checked: self.changed.emit())
        row.addWidget(self.simple)
        row.addWidget(self.whole)
        self._below = QWidget()
        below = QHBoxLayout(self._below)
        below.setContentsMargins(0, 0, 0, 0)
        below.addWidget(self.use_up)
        below.addWidget(self.in_cupboard, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(row)
        layout.addWidget(self._below)
        self.offer(KeptKitchen())

    # what is offered

    def offer(self, kept: KeptKitchen) -> None:
        """Offer what the kitchen keeps; the first of its vessels where none was typed."""
        self._kept = kept
        self._vessels.offer(kept.vessels)
        there = [each for each in kept.cupboard if each.amount.strip() and each.name.strip()]
        self._below.setVisible(bool(there))
        self.in_cupboard.setText(self._named(there))
        self.use_up.setAccessibleDescription(self.in_cupboard.text())

    def _named(self, there: Sequence[CupboardRecord]) -> str:
        words = [
            f"{self._display.kept_text(Kind.DOSE, each.amount)} {named(each.name)}"
            for each in there[:MOST_NAMED]
        ]
        more = len(there) - MOST_NAMED
        if more > 0:
            words.append(trn("{number} more thing", "{number} more things", more))
        return ", ".join(words)

    def show_wished(self, wished: Wished) -> None:
        """Show how much beer is made where that is left open."""
        usual = self._display.rounded(Kind.VOLUME, wished.batch_l)
        if self.fields["batch"].placeholderText() != usual:
            self.fields["batch"].setPlaceholderText(usual)

    def show_anew(self) -> None:
        """Volumes are to be shown in other units."""
        self.offer(self._kept)

    def ticks(self) -> tuple[Tick, ...]:
        """Return what can be ticked."""
        return self.simple, self.whole, self.use_up

    # what is answered

    def batch(self) -> Quantity | None:
        """Return how much beer is wanted; None where it is left open. Raises RefusedInputError."""
        return self._vessels.typed("batch") if self.fields["batch"].text().strip() else None

    def brewed_with(self) -> tuple[Quantity, Quantity, Recipe]:
        """Return the volumes of pot and fermenter, and a recipe that tells all that is known of
        them. Raises FieldRefusedError."""
        return self._vessels.brewed_with()

    def in_hand(self) -> tuple[Stock, ...]:
        """Return what lies in the cupboard, if it is to be used up."""
        if not self.use_up.isChecked() or not self._kept.cupboard:
            return ()
        from designer.workbench.cupboard import stock_of

        return stock_of(self._kept.cupboard)
