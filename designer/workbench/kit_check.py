"""A kit as it is typed in, looked at: whether its leaflet agrees with the day, and whether it fits.

Window and command line say the same of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from designer.brewday.foam import foam_line_l
from designer.brewday.leaflet import Checked, checked
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Finding, Outlook
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.translation import message
from designer.workbench.kit import Kit, recipe_of_kit

ABOUT_TYPING = ("leaflet-differs", "leaflet-gravities")
"""Findings about what is typed of a leaflet."""
_POT_TOO_SMALL = {"pot-overflows", "foam-room"}
_FERMENTER_TOO_SMALL = {"fermenter-overflows", "krausen-room"}


@dataclass(frozen=True, slots=True)
class KitLooked:
    """A kit's recipe, its outlook, and its leaflet beside that."""

    recipe: Recipe
    outlook: Outlook
    stated: tuple[Checked, ...]

    @property
    def doubt(self) -> Finding | None:
        """What was probably typed wrongly."""
        found = (each for each in self.outlook.findings if each.code in ABOUT_TYPING)
        return next(found, None)

    @property
    def does_not_fit(self) -> Message | None:
        """What does not hold it, and where help is; None where all does."""
        recipe, codes = self.recipe, {each.code for each in self.outlook.findings}
        pot, fermenter = recipe.pot.volume, recipe.fermenter.volume
        if fermenter is not None and codes & _FERMENTER_TOO_SMALL:
            words = message("Does not fit a {0} fermenter: see ways to brew it")
            return say("kit-no-fermenter", words, (Kind.VOLUME, fermenter))
        if pot is not None and codes & _POT_TOO_SMALL:
            words = message("Does not fit a {0} pot: see ways to brew it")
            return say("kit-no-pot", words, (Kind.VOLUME, pot))
        return None

    @property
    def vessels(self) -> tuple[Message, ...]:
        """How it fits pot and fermenter; a vessel of unknown size is left out."""
        return tuple(_vessels(self.recipe, self.outlook))


def looked_at(kit: Kit) -> KitLooked:
    """Return a kit looked at. Raises RefusedInputError for one with nothing in it."""
    recipe = recipe_of_kit(kit)
    outlook = look_ahead(recipe)
    return KitLooked(recipe, outlook, stated_of(recipe, outlook))


def stated_of(recipe: Recipe, outlook: Outlook) -> tuple[Checked, ...]:
    """Return what the leaflet of a recipe states beside its outlook; nothing where it has none."""
    return checked(recipe, outlook.forecasts, float(outlook.day.fermenter.batch_l))


def _vessels(recipe: Recipe, outlook: Outlook) -> Iterator[Message]:
    pot, line = recipe.pot.volume, foam_line_l(recipe.pot)
    boiling = float(outlook.day.pot.fullest_boiling_l)
    codes = {each.code for each in outlook.findings}
    if pot is not None and line is not None:
        figures = ((Kind.VOLUME, pot), (Kind.VOLUME, boiling), (Kind.VOLUME, line))
        if codes & _POT_TOO_SMALL:
            yield say(
                "kit-above-foam-line",
                "Does not fit a {0} pot: the boil comes to {1}, above its foam line at {2}.",
                *figures,
            )
        else:
            yield say(
                "kit-below-foam-line",
                "Fits the {0} pot: the boil comes to {1}, below its foam line at {2}.",
                *figures,
            )
    vessel, batch = recipe.fermenter.volume, float(outlook.day.fermenter.batch_l)
    if vessel is not None:
        krausen = vessel.value * (1.0 - number(recipe.fermenter, "headspace"))
        figures = ((Kind.VOLUME, vessel), (Kind.VOLUME, batch), (Kind.VOLUME, krausen))
        if codes & _FERMENTER_TOO_SMALL:
            yield say(
                "kit-above-krausen-line",
                "Does not fit a {0} fermenter: {1} stand above its krausen line at {2}.",
                *figures,
            )
        else:
            yield say(
                "kit-below-krausen-line",
                "Fits the {0} fermenter: {1} stand below its krausen line at {2}.",
                *figures,
            )


def leaflet_document(stated: tuple[Checked, ...]) -> dict[str, Any] | None:
    """Return what a leaflet states beside the forecast as plain values; None where it is silent."""
    if not stated:
        return None
    makes = stated[0].makes
    return {
        "makes_l": None if makes is None else makes.value,
        "stated": [
            {
                "forecast": each.key,
                "low": each.low,
                "high": each.high,
                "verdict": str(each.verdict),
            }
            for each in stated
        ],
    }
