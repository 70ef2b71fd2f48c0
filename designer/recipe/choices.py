"""What can be chosen in a recipe, by name; each is kept in the file as its words.

A recipe may hold the plain words or the member: they are equal.
"""

from __future__ import annotations

from enum import StrEnum


class FermentableKind(StrEnum):
    """What a fermentable is."""

    LIQUID_EXTRACT = "liquid extract"
    DRY_EXTRACT = "dry extract"
    HOPPED_KIT = "hopped kit extract"
    SUGAR = "sugar"
    STEEPING_GRAIN = "steeping grain"
    MASH_GRAIN = "mash grain"


_GRAIN = frozenset((FermentableKind.STEEPING_GRAIN, FermentableKind.MASH_GRAIN))


def is_grain(kind: str) -> bool:
    """Tell whether a kind of fermentable is grain: crushed, steeped and lifted out."""
    return kind in _GRAIN


class Turn(StrEnum):
    """When a boil of a plan begins."""

    AFTER = "after the one before"
    AT_ONCE = "at the same time"
    ANOTHER_DAY = "another day"


class HopForm(StrEnum):
    """How hops are sold."""

    PELLETS = "pellets"
    WHOLE = "whole"


class HopKeeping(StrEnum):
    """How a packet of hops was kept since the harvest."""

    NOT_KNOWN = "not known"
    FREEZER = "sealed, in a freezer"
    REFRIGERATOR = "sealed, in a refrigerator"
    CUPBOARD = "sealed, in a cupboard"
    OPENED = "opened, not cold"


class YeastForm(StrEnum):
    """How yeast is sold."""

    DRY = "dry"
    LIQUID = "liquid"


class Stove(StrEnum):
    """What heats the pot."""

    ELECTRIC = "electric"
    GAS = "gas"
    INDUCTION = "induction"


class CoolingWay(StrEnum):
    """What cools the pot."""

    ICE_BATH = "ice bath"
    COLD_WATER_BATH = "cold water bath"
    COIL = "coil"
    STANDING_IN_AIR = "standing in air"


class FermenterKind(StrEnum):
    """What a fermenter is made of."""

    PLASTIC_BUCKET = "plastic bucket"
    GLASS_CARBOY = "glass carboy"
    STEEL_VESSEL = "steel vessel"


class Disinfectant(StrEnum):
    """What keeps tap water clean, and what of it reports count in mg/L."""

    CHLORINE = "chlorine"
    CHLORAMINE_AS_CL2 = "chloramine, as Cl2"
    CHLORAMINE = "chloramine, as NH2Cl"


class Metabisulfite(StrEnum):
    """The salt that takes chlorine and chloramine out of water."""

    POTASSIUM = "potassium metabisulfite"
    SODIUM = "sodium metabisulfite"


class PrimingSugar(StrEnum):
    """What goes into the bottles for the bubbles."""

    TABLE_SUGAR = "table sugar"
    DEXTROSE = "dextrose monohydrate"
    ANHYDROUS_DEXTROSE = "dextrose anhydrous"
    DRY_EXTRACT = "dry malt extract"
    HONEY = "honey"


class Bottle(StrEnum):
    """What bottles are made for; of unknown ones the least is believed."""

    UNKNOWN = "one-way or unknown glass"
    HEAVY = "heavy refillable beer bottles"
    PLASTIC = "soft-drink bottles of plastic"
    SPARKLING = "sparkling-wine bottles"
    NOT_FOR_PRESSURE = "still-wine bottles, jars, growlers"


class Package(StrEnum):
    """What the beer is filled into."""

    BOTTLES = "bottles"
    KEG = "keg"


class SyrupTin(StrEnum):
    """How a tin of syrup is emptied."""

    SCRAPED = "scraped out"
    RINSED = "rinsed with hot wort"


class GrainBag(StrEnum):
    """What is done with the bag when it is lifted out."""

    DRAINED = "drained"
    RINSED = "rinsed with some of the water"


class IntoFermenter(StrEnum):
    """How the wort leaves the pot."""

    POURED = "poured off what settled"
    STRAINED = "strained, the rest squeezed"


class VolumeMarks(StrEnum):
    """Where the marks of a fermenter come from."""

    PRINTED = "moulded or printed"
    STICKER = "stuck on"
    OWN = "own, set by weighing"
