"""What the kitchen taught, as fields of the recipe show it: what counts if empty, or an offer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.recipe.edits import ChangePart, changing
from designer.recipe.fields import FieldFacts
from designer.translation import trn
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.fields import Offered
from designer.window.session.worked_on import WorkedOn

if TYPE_CHECKING:
    from designer.recipe.document import Recipe
    from designer.recipe.quantity import TaughtQuantity
    from designer.workbench.learning.taken import TakenFigure

Known = dict[tuple[str, str], "TaughtQuantity"]
"""What was taught by part and field."""


class TaughtFields:
    """For the recipe that is worked on, or the boil of its plan, with that boil's pot."""

    def __init__(self, opened: WorkedOn, display: DisplayFormat) -> None:
        self._opened, self._display = opened, display
        self._known: tuple[tuple[TakenFigure, ...], Recipe, Known] | None = None

    def offered(self, part: str, name: str, facts: FieldFacts) -> Offered | None:
        """Return what was taken for a field, and how it is put there; None where nothing was."""
        opened = self._opened.opened
        found = self._all().get((part, name)) if opened.taken else None
        if found is None:
            return None
        quantity = found.as_typed()

        def use() -> None:
            self._opened.make(ChangePart(part, name, quantity, changing(facts.label)))

        text = self._display.quantity(facts.kind, quantity)
        ground = trn(
            "Left empty: {figure}, as your kitchen taught it in {number} brew",
            "Left empty: {figure}, as your kitchen taught it in {number} brews",
            found.brews,
            figure=text,
        )
        return Offered(text, ground, use)

    def _all(self) -> Known:
        """Return all that is offered to the recipe as it stands; looked up once for each."""
        taken, recipe = self._opened.opened.taken, self._opened.recipe
        known = self._known
        if known is None or known[0] is not taken or known[1] is not recipe:
            # Only with a kitchen that taught something; no first picture waits for it.
            from designer.workbench.learning.with_taught import offered_by

            two = {each.path: each.quantity for each in offered_by(recipe, taken)}
            found = {(str(p[0]), str(p[1])): q for p, q in two.items() if len(p) == 2}
            known = self._known = taken, recipe, found
        return known[2]
