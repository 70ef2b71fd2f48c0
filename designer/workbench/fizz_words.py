"""How much gas is wanted, as it may be said: volumes, a plain word, or a style."""

from __future__ import annotations

from designer.brewday.packaging.fizz import FIZZ, fizz_of
from designer.errors import RefusedInputError
from designer.library.catalogue import find_style
from designer.library.style_grists import grist_of
from designer.recipe.message import refused
from designer.recipe.quantity import Kind
from designer.units.quoting import quoted
from designer.units.reading import read

MOST_VOLUMES = 6.0
"""As in a recipe."""


def style_volumes(style: str) -> tuple[float, float] | None:
    """Return the least and the most volumes that beers of a style, by name or code, usually have.

    None for one that the catalogue does not have.
    """
    known = find_style(style)
    try:
        return None if known is None else grist_of(known.name).family.co2_volumes
    except KeyError:
        return None


def read_fizz(typed: str) -> float:
    """Return the volumes that are meant: "2.3", "2.3 vol", "lively", "English Porter" or "13C".

    Of a style they are those in the middle of what is usual. Raises RefusedInputError that says
    what would be taken.
    """
    word = fizz_of(typed)
    if word is not None:
        return word.volumes
    usual = style_volumes(typed)
    if usual is not None:
        return round(sum(usual) / 2.0, 2)
    try:
        volumes = read(Kind.CARBONATION, typed).value
    except RefusedInputError:
        volumes = -1.0
    if not 0.0 <= volumes <= MOST_VOLUMES:
        raise refused(
            "no-fizz",
            "{typed}: write how much gas as volumes from 0 to 6, such as 2.3, as a word ({words}) "
            "or as a style",
            typed=quoted(typed),
            words=", ".join(each.word for each in FIZZ),
        )
    return volumes
