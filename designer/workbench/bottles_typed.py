"""Bottles as they are typed in a line: "12 x 500 mL + 4 x 750 mL heavy"."""

from __future__ import annotations

import re

from designer.brewday.packaging.filling import counted_to_fit
from designer.brewday.packaging.packaged import BottleSize
from designer.errors import RefusedInputError
from designer.recipe.choices import Bottle
from designer.recipe.message import refused
from designer.recipe.quantity import Kind
from designer.units.quoting import quoted
from designer.units.reading import read

MOST_SIZES, MOST_BOTTLES = 20, 100_000
LEAST_L, MOST_L = 0.05, 20.0
_KINDS: dict[str, Bottle] = {
    "unknown": Bottle.UNKNOWN,
    "one-way": Bottle.UNKNOWN,
    "heavy": Bottle.HEAVY,
    "refillable": Bottle.HEAVY,
    "swing-top": Bottle.HEAVY,
    "plastic": Bottle.PLASTIC,
    "sparkling": Bottle.SPARKLING,
    "champagne": Bottle.SPARKLING,
    "wine": Bottle.NOT_FOR_PRESSURE,
    "jar": Bottle.NOT_FOR_PRESSURE,
    "jars": Bottle.NOT_FOR_PRESSURE,
    "growler": Bottle.NOT_FOR_PRESSURE,
    "growlers": Bottle.NOT_FOR_PRESSURE,
}
"""Words for kinds of bottles; a swing-top is one that was sold with beer in it."""
KIND_WORDS = ("heavy", "swing-top", "plastic", "sparkling", "wine", "jar", "growler")
_SIZE = re.compile(r"(?:(?P<count>\d{1,9})\s*[x×*]\s*)?(?P<rest>.+)", re.DOTALL)


def read_bottles(typed: str, usual: Bottle, beer_l: float) -> tuple[BottleSize, ...]:
    """Return the sizes that were typed; of a kind that is not named they are `usual` ones.

    Sizes without a count are counted to fit what the others leave of the beer. Raises
    RefusedInputError that says what would be taken.
    """
    parts = [each.strip() for each in typed.split("+")]
    if len(parts) > MOST_SIZES or not all(parts):
        raise _not_read(typed)
    read_in = [_size(each, usual) for each in parts]
    counted_l = sum(each.litres * each.count for each, told in read_in if told)
    open_sizes = [each for each, told in read_in if not told]
    filled = iter(counted_to_fit(open_sizes, beer_l - counted_l))
    return tuple(each if told else next(filled) for each, told in read_in)


def _size(typed: str, usual: Bottle) -> tuple[BottleSize, bool]:
    found = _SIZE.fullmatch(typed)
    told = found is not None and found["count"] is not None
    words = [] if found is None else found["rest"].split()
    if not told and typed.isdecimal():  # bottles, or litres?
        raise _not_read(typed)
    kind = _KINDS.get(words[-1].casefold()) if words else None
    try:
        litres = read(Kind.VOLUME, " ".join(words if kind is None else words[:-1])).value
    except RefusedInputError:
        raise _not_read(typed) from None
    count = int(found["count"]) if found is not None and told else 0
    if not LEAST_L <= litres <= MOST_L or count > MOST_BOTTLES:
        raise _not_read(typed)
    size = BottleSize(litres, count, usual if kind is None else kind)
    return size, told


def _not_read(typed: str) -> RefusedInputError:
    return refused(
        "no-bottles",
        "{typed}: write bottles as how many, how large and, if known, of which kind, such as "
        "12 x 500 mL + 4 x 750 mL heavy. Kinds: {kinds}",
        typed=quoted(typed),
        kinds=", ".join(KIND_WORDS),
    )
