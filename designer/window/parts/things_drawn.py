"""Which drawing stands for an ingredient, for when it goes in, and for a vessel."""

from __future__ import annotations

from functools import cache

from designer.library import catalogue
from designer.recipe.choices import CoolingWay, FermentableKind, FermenterKind, Package
from designer.recipe.quantity import Stage
from designer.units.reading import read_when

OF_KINDS = {
    FermentableKind.LIQUID_EXTRACT: "ingredient-liquid-extract",
    FermentableKind.HOPPED_KIT: "ingredient-liquid-extract",
    FermentableKind.DRY_EXTRACT: "ingredient-dry-extract",
    FermentableKind.SUGAR: "ingredient-sugar",
    FermentableKind.STEEPING_GRAIN: "ingredient-steeping-grain",
    FermentableKind.MASH_GRAIN: "ingredient-steeping-grain",
}
OF_FERMENTERS = {
    FermenterKind.PLASTIC_BUCKET: "vessel-bucket",
    FermenterKind.GLASS_CARBOY: "vessel-fermenter",
    FermenterKind.STEEL_VESSEL: "vessel-keg",
}
OF_COOLING = {
    CoolingWay.ICE_BATH: "vessel-ice",
    CoolingWay.COLD_WATER_BATH: "ingredient-water",
    CoolingWay.COIL: "vessel-coil",
    CoolingWay.STANDING_IN_AIR: "vessel-pot",
}
OF_PACKAGES = {Package.BOTTLES: "vessel-bottle", Package.KEG: "vessel-keg"}
OF_WORDS: dict[str, str] = {
    str(word): drawing
    for words in (OF_KINDS, OF_FERMENTERS, OF_COOLING, OF_PACKAGES)
    for word, drawing in words.items()
}
OF_STAGES = {
    Stage.STEEP: "ingredient-steeping-grain",
    Stage.FIRST_WORT: "addition-bittering",
    Stage.BOIL: "action-brew",
    Stage.FLAME_OUT: "addition-stand",
    Stage.STAND: "addition-stand",
    Stage.FERMENTER: "vessel-fermenter",
    Stage.DRY_HOP: "addition-dry-hop",
}
BITTERING_MIN = 30.0
"""Hops with so many minutes left give bitterness before all; common practice, no source."""
POT, FERMENTER = "vessel-pot", "vessel-fermenter"
HOPS, YEAST, AID = "ingredient-hops", "ingredient-yeast", "ingredient-kettle-aid"
OF_PARTS = {"styles": "", "hops": HOPS, "yeasts": YEAST, "extras": AID}
"""Parts of the catalogue in which all is of one sort."""


def of_ingredient(name: str) -> str:
    """Return the drawing of what is called so in the catalogue, in any language; "" for others."""
    fermentable = catalogue.find_fermentable(name)
    if fermentable is not None:
        return OF_KINDS[FermentableKind(fermentable.kind)]
    for find, drawing in (
        (catalogue.find_hop, HOPS),
        (catalogue.find_yeast, YEAST),
        (catalogue.find_aid, AID),
    ):
        if find(name) is not None:
            return drawing
    return ""


def of_fermenter(kind: str) -> str:
    """Return the drawing of a fermenter; of one of no known kind that of any."""
    return OF_FERMENTERS.get(FermenterKind(kind), FERMENTER) if kind else FERMENTER


def of_word(word: object) -> str:
    """Return the drawing of what can be chosen in a recipe by its word; "" for what has none."""
    return OF_WORDS.get(str(word), "")


@cache
def of_offer(part: str, english: str) -> str:
    """Return the drawing of what is offered in a field, by its words in English; "" for none."""
    if part in OF_PARTS:
        return OF_PARTS[part]
    if not part.endswith(" whens"):
        return of_ingredient(english)
    when = read_when(english)
    if when.stage is Stage.BOIL and part == "hop whens":
        return "addition-bittering" if when.minutes >= BITTERING_MIN else "addition-late"
    return OF_STAGES[when.stage]
