"""How a beer is to be packaged, out of the options of a command."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import replace
from typing import Any

from designer.brewday.packaging.filling import counted_to_fit, filled_by
from designer.brewday.packaging.packaged import Packing
from designer.command_line.options import Options
from designer.errors import DesignerError, RefusedInputError
from designer.recipe.choices import Bottle, Package, PrimingSugar
from designer.recipe.quantity import Kind
from designer.workbench.bottles_typed import read_bottles
from designer.workbench.brew.packing_chosen import BEER, COUNTS, VOLUMES, WARMEST
from designer.workbench.fizz_words import read_fizz

SUGARS = {
    "sugar": PrimingSugar.TABLE_SUGAR,
    "dextrose": PrimingSugar.DEXTROSE,
    "anhydrous": PrimingSugar.ANHYDROUS_DEXTROSE,
    "extract": PrimingSugar.DRY_EXTRACT,
    "honey": PrimingSugar.HONEY,
}
"""What the words of `--sugar` mean."""
MOST_BEER_L = 100_000.0
_COLDEST_C, _WARMEST_C = -2.0, 45.0
BOTTLE_L = 0.5
"""The size that is counted where none is told."""


def bottles_told(typed: str | None, packing: Packing) -> Packing:
    """Return how a beer is packaged, with the bottles that were typed, if they were.

    Raises RefusedInputError where they cannot be read.
    """
    return _with_bottles(Options(), typed, packing)


def packing_told(chosen: Namespace, packing: Packing) -> Packing:
    """Return how a beer is packaged, with what the options say of it.

    Raises RefusedInputError with every fault of the words typed.
    """
    options = Options()
    told: dict[str, Any] = {}
    names = set(packing.chosen)
    for name, found in (
        (BEER, options.value("--beer", Kind.VOLUME, chosen.beer, 0.05, MOST_BEER_L)),
        (WARMEST, _temperature(options, "--warmest", chosen.warmest)),
        (VOLUMES, _fizz(options, chosen.fizz)),
        ("keg_c", _temperature(options, "--keg-temperature", chosen.keg_temperature)),
    ):
        if found is not None:
            told[name] = found
            names.add(name)
    if chosen.sugar is not None:
        told["sugar"] = SUGARS[chosen.sugar]
    if chosen.keg:
        told["package"] = Package.KEG
    elif chosen.bottles is not None:
        told["package"] = Package.BOTTLES
    told["cautions"] = packing.cautions | frozenset(chosen.tick)
    made = replace(packing, **told, chosen=frozenset(names))
    return _with_bottles(options, chosen.bottles, made)


def _with_bottles(options: Options, typed: str | None, packing: Packing) -> Packing:
    usual = packing.bottles[0].kind if packing.bottles else Bottle.UNKNOWN
    if typed is not None:
        try:
            sizes = read_bottles(typed, usual, packing.beer_l)
            packing = replace(packing, bottles=sizes, chosen=packing.chosen | {COUNTS})
        except DesignerError as fault:
            options.refuse("--bottles", fault)
    elif not packing.bottles:
        packing = replace(packing, bottles=(filled_by(BOTTLE_L, usual, packing.beer_l),))
    elif COUNTS not in packing.chosen:
        packing = replace(packing, bottles=counted_to_fit(packing.bottles, packing.beer_l))
    if options.problems:
        raise RefusedInputError(options.problems)
    return packing


def _temperature(options: Options, option: str, typed: str | None) -> float | None:
    return options.value(option, Kind.TEMPERATURE, typed, _COLDEST_C, _WARMEST_C)


def _fizz(options: Options, typed: str | None) -> float | None:
    if typed is None:
        return None
    try:
        return read_fizz(typed)
    except DesignerError as fault:
        options.refuse("--fizz", fault)
        return None
