"""What is weighed out for a boil of a way, in the order in which it goes in, and its water."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind
from designer.translation import named, tr
from designer.window.parts.display_format import DisplayFormat

if TYPE_CHECKING:
    from designer.brewday.fit.answer import Boil
    from designer.brewday.time_line import Addition
    from designer.recipe.document import Recipe

HARD_SPACE = "\u00a0"
LEAST_L, LEAST_KG = 0.05, 0.05
"""Less water than that is not measured."""


class Weighed(NamedTuple):
    """One line: how much of what, when it goes in, and of how much or what it was before."""

    amount: str
    name: str
    when: str = ""
    before: str = ""

    @property
    def what(self) -> str:
        """All but the amount; each part of it stays on one line, if need be the next."""
        parts = (each.replace(" ", HARD_SPACE) for each in (self.when, self.before) if each)
        return ", ".join((self.name, *parts))


def weighing_out(
    original: Recipe, original_top_up_l: float, boil: Boil, display: DisplayFormat
) -> Iterator[Weighed]:
    """Yield what goes in, then the water."""
    for each in boil.goes_in:
        weighed = _line(original, boil.recipe, each, display)
        if weighed is not None:
            yield weighed
    short = display.short
    start = short(Kind.VOLUME, boil.start_water_l)
    typed = original.process.start_water
    yield Weighed(start, tr("water to start"), "", _was(start, typed, Kind.VOLUME, display))
    top_up_l = boil.top_up_l - boil.frozen_kg
    if top_up_l > LEAST_L:
        text = short(Kind.VOLUME, top_up_l)
        before = short(Kind.VOLUME, original_top_up_l)
        was = tr("was {amount}", amount=before) if before != text else ""
        yield Weighed(text, tr("water to top up"), "", was)
    if boil.frozen_kg > LEAST_KG:
        text = short(Kind.MASS, boil.frozen_kg)
        was = _was(text, original.process.frozen_top_up, Kind.MASS, display)
        yield Weighed(text, tr("of it frozen, beside that"), "", was)


def _line(
    original: Recipe, recipe: Recipe, added: Addition, display: DisplayFormat
) -> Weighed | None:
    line = next((x for x in lines_of(recipe, added.lines) if x.line_id == added.line_id), None)
    if line is None or line.amount is None:
        return None
    old = next((x for x in lines_of(original, added.lines) if x.line_id == added.line_id), None)
    if added.lines == "extras":
        text = display.quantity(Kind.DOSE, line.amount)
        before = "" if old is None else display.quantity(Kind.DOSE, old.amount)
    else:
        text = display.rounded(Kind.MASS, line.amount.value)
        before = (
            ""
            if old is None or old.amount is None
            else display.rounded(Kind.MASS, old.amount.value)
        )
    of = tr("of {amount}", amount=before) if before and before != text else ""
    return Weighed(text, named(added.name), when_it_goes_in(added), of)


def when_it_goes_in(added: Addition) -> str:
    """Return in few words when something goes in."""
    if added.boil_left_min is not None:
        return tr("{minutes} min left", minutes=f"{added.boil_left_min:.0f}")
    return tr(added.stage)


def _was(text: str, typed: object, kind: Kind, display: DisplayFormat) -> str:
    value = getattr(typed, "value", None)
    if value is None:
        return ""
    before = display.short(kind, value)
    return tr("was {amount}", amount=before) if before != text else ""
