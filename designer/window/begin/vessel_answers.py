"""Which vessels there are to brew with: a size that is typed, or one of those of the kitchen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import read_from, within_reach
from designer.window.parts.vessel_field import KeptVessels, Record, VesselField, called, chosen

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.recipe.document import Recipe

LARGEST_L = 10_000.0
USUAL_L = {"pot": 9.0, "fermenter": 12.0}
LABELS = {"pot": message("Pot"), "fermenter": message("Fermenter"), "batch": message("Batch")}


def kept_vessels(store: Store) -> KeptVessels:
    """Return the vessels that a store keeps."""
    return KeptVessels(tuple(store.pots.all()), tuple(store.fermenters.all()))


class VesselAnswers(QObject):
    """The fields of some of `LABELS`, with those of the kitchen offered; `changed` when edited."""

    changed = Signal()

    def __init__(self, display: DisplayFormat, keys: Sequence[str]) -> None:
        super().__init__()
        self._display, self._kept = display, KeptVessels()
        self._shown: dict[str, str] = {}
        self.fields: dict[str, VesselField] = {}
        self.labelled = [self._labelled(key) for key in keys]
        self.offer(KeptVessels())

    def _labelled(self, key: str) -> QWidget:
        """Return a field beside its label."""
        field = self.fields[key] = VesselField()
        field.setAccessibleName(tr(LABELS[key]))
        field.textEdited.connect(lambda _text: self.changed.emit())
        words = QLabel(tr(LABELS[key]))
        words.setObjectName("soft")
        words.setBuddy(field)
        pair = QWidget()
        row = QHBoxLayout(pair)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(words)
        row.addWidget(field)
        return pair

    def offer(self, kept: KeptVessels) -> None:
        """Offer what the kitchen keeps; the first of its vessels where none was typed."""
        self._kept = kept
        self._offer("pot", called(kept.pots, self._display))
        self._offer("fermenter", called(kept.fermenters, self._display))

    def _offer(self, key: str, names: Sequence[str]) -> None:
        field = self.fields[key]
        field.offer(names)
        usual = names[0] if names else self._display.value(Kind.VOLUME, USUAL_L[key])
        if field.text() == self._shown.get(key, ""):
            self._shown[key] = usual
            field.setText(usual)

    def show_anew(self) -> None:
        """Volumes are to be shown in other units."""
        self.offer(self._kept)

    def brewed_with(self) -> tuple[Quantity, Quantity, Recipe]:
        """Return the volumes of pot and fermenter, and a recipe that tells all that is known of
        them. Raises FieldRefusedError."""
        # With the first reckoning, once the page has been painted.
        from designer.recipe.document import Recipe
        from designer.workbench.kitchen_vessels import fermenter_edit, pot_edit

        recipe = Recipe()
        pot = self._record("pot", self._kept.pots)
        fermenter = self._record("fermenter", self._kept.fermenters)
        if pot is not None:
            recipe = pot_edit(recipe, pot).apply(recipe)
        if fermenter is not None:
            recipe = fermenter_edit(recipe, fermenter).apply(recipe)
        return (
            self._size("pot", recipe.pot.volume, pot is not None),
            self._size("fermenter", recipe.fermenter.volume, fermenter is not None),
            recipe,
        )

    def _record(self, key: str, records: Sequence[Record]) -> Record | None:
        return chosen(self.fields[key].text(), records, self._display)

    def _size(self, key: str, kept: Quantity | None, is_kept: bool) -> Quantity:
        if not is_kept:
            return self.typed(key)
        if kept is None:
            with read_from(self.fields[key]):
                raise RefusedInputError(tr("its size is not known yet: type it here"))
        return kept

    def typed(self, key: str) -> Quantity:
        """Return the volume that a field says. Raises FieldRefusedError."""
        field = self.fields[key]
        with read_from(field):
            found = self._display.read(Kind.VOLUME, field.text())
            return within_reach(found, LARGEST_L, field.text())
