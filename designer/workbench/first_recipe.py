"""A first recipe of one's own: a bill for a wish, out of common lines of the catalogue."""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.first_bill import Larder, Wish, first_bill
from designer.brewday.outlook import look_ahead
from designer.brewday.stock import needs
from designer.library import catalogue
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.kinds import typed
from designer.recipe.message import say, word
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, tr
from designer.workbench.first_answers import (
    Answers,
    Draft,
    Flavour,
    LineReason,
    Reading,
    Wished,
)

__all__ = [
    "Answers",
    "Draft",
    "Flavour",
    "LineReason",
    "Reading",
    "Wished",
    "first_recipe",
    "first_recipes",
    "flavours",
    "larder",
    "read_words",
    "study_recipe",
    "wished",
]
_FLAVOURS = (
    Flavour("toffee", message("toffee")),
    Flavour("flowers", message("flowers")),
    Flavour("bread-crust", message("bread crust")),
    Flavour("dried-fruit", message("dried fruit")),
    Flavour("nuts", message("nuts")),
    Flavour("roast", message("roast")),
    Flavour("orange-peel", message("orange peel")),
    Flavour("pine", message("pine")),
)
_ALTERNATIVES = {
    "drier": (
        say("draft-drier", "Drier"),
        say("draft-drier-about", "ferments further, less sweetness left"),
        (0.998, 1.0),
    ),
    "rounder": (
        say("draft-rounder", "Rounder"),
        say("draft-rounder-about", "more crystal malt, more left in the beer"),
        (1.001, 0.95),
    ),
    "hoppier": (
        say("draft-hoppier", "Hoppier"),
        say("draft-hoppier-about", "scent rather than bite"),
        (1.0, 1.1),
    ),
    "study": (
        say("draft-study", "One malt, one hop"),
        say("draft-study-about", "to learn what each of them tastes of"),
        (1.0, 1.0),
    ),
}


def flavours() -> tuple[Flavour, ...]:
    """Return what a first recipe can be asked to taste of."""
    return _FLAVOURS


def read_words(words: str) -> Reading:
    """Return what is understood of a style's name or of plain words."""
    style = catalogue.find_style(words)
    if style is None:
        return Reading(None, "", say("read-as-none", ""), words.strip())
    return Reading(style, "", say("read-as", "read as: {style}", style=style.name))


def wished(answers: Answers) -> Wished:
    """Return what a recipe is aimed at; raises RefusedInputError for what no recipe can be."""
    style = read_words(answers.words).style

    def middle(key: str, usual: float) -> float:
        low, high = getattr(style, key) if style is not None else (usual, usual)
        return (low + high) / 2.0

    og = answers.original_gravity or middle("original_gravity", 1.044)
    ibu = answers.bitterness_ibu or middle("bitterness_ibu", 25.0)
    fg = 1.0 + 0.25 * (og - 1.0)
    return Wished(
        og,
        fg,
        131.25 * (og - fg),
        ibu,
        answers.colour_srm or middle("colour_srm", 10.0),
        0.85 * answers.fermenter.value,
        say("og-near", "OG near {0}", (Kind.GRAVITY, og)),
        say(
            "bitterness-in-words",
            "{balance}, {0}",
            (Kind.BITTERNESS, ibu),
            balance=word("balanced"),
        ),
        (5.0, 80.0),
        (2.0, 40.0),
    )


def first_recipes(answers: Answers) -> tuple[Draft, Draft, Draft]:
    """Return three to choose from: drier, rounder, hoppier; raises RefusedInputError."""
    return _draft(answers, "drier"), _draft(answers, "rounder"), _draft(answers, "hoppier")


def study_recipe(answers: Answers) -> Draft:
    """Return a beer of one malt and one hop; raises RefusedInputError."""
    return _draft(answers, "study")


def _draft(answers: Answers, key: str) -> Draft:
    name, about, (stronger, bitterer) = _ALTERNATIVES[key]
    wanted = wished(answers)
    wish = Wish(
        stronger * wanted.original_gravity,
        bitterer * wanted.bitterness_ibu,
        wanted.colour_srm,
        answers.pot.value,
        answers.fermenter.value,
    )
    recipe = first_recipe(wish, answers.pot, answers.fermenter, answers.words)
    reasons = (
        *(
            LineReason("fermentables", line.line_id, say("why-malt", "body and strength"))
            for line in recipe.fermentables
        ),
        *(LineReason("hops", hop.line_id, say("why-hop", "the bitterness")) for hop in recipe.hops),
    )
    missing = sum(1 for each in needs(recipe, answers.in_hand) if each.missing > 0.0)
    return Draft(key, name, about, recipe, look_ahead(recipe, ranges=False), reasons, (), missing)


def first_recipe(wish: Wish, pot: Quantity, fermenter: Quantity, style: str = "") -> Recipe:
    """Return a recipe that meets the wish in vessels as they were typed, named after its style.

    A style that the catalogue does not know is left out.
    """
    recipe = first_bill(wish, larder())
    known = catalogue.find_style(style)
    return replace(
        recipe,
        name=tr("My {style}", style=known.name) if known is not None else tr("My first bill"),
        style=known.name if known is not None else "",
        pot=replace(recipe.pot, volume=pot),
        fermenter=replace(recipe.fermenter, volume=fermenter),
    )


def larder() -> Larder:
    """Return what a first bill is made of: common lines of the catalogue."""

    def malt(name: str) -> Fermentable:
        entry = catalogue.find_fermentable(name)
        return catalogue.new_fermentable(entry) if entry is not None else Fermentable(name)

    hops = {each.name: each for each in catalogue.hops()}
    yeast = catalogue.find_yeast("Dry English ale yeast") or catalogue.yeasts()[0]
    return Larder(
        malt("Light liquid malt extract"),
        malt("Light dry malt extract"),
        malt("Crystal malt 60 °L"),
        malt("Chocolate malt"),
        catalogue.new_hop(hops["Challenger"]),
        catalogue.new_hop(hops["East Kent Golding"]),
        replace(catalogue.new_yeast(yeast), amount=typed(Kind.DOSE, 11.0, unit="g")),
    )
