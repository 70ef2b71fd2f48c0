"""Rarer units: put together from those in the tables, or else asked of pint's registry.

`cubic inches` or `pints/h` need only the tables of `spellings`. Any other word is looked up among
the units of the field's own dimension that pint knows, as a whole word without a prefix, so that
no farad or picoknot can be meant by accident. Those are one table of plain factors, made when
first asked: importing pint takes a third of a second. `without_waiting` is for those who cannot
wait that long, such as a field that is typed in: they are told that the word is being looked up,
have the table made elsewhere and handed in by `take_table`.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.units.quoting import quoted
from designer.units.spellings import FACTORS

_BASES = {
    Kind.MASS: "kilogram",
    Kind.VOLUME: "liter",
    Kind.TIME: "minute",
    Kind.LENGTH: "meter",
    Kind.POWER: "watt",
}
"""The base unit of each kind that pint is asked about, in its words."""

_RATIOS = {
    Kind.EVAPORATION: (Kind.VOLUME, Kind.TIME, 60.0),
    Kind.CONCENTRATION: (Kind.MASS, Kind.VOLUME, 1e6),
    Kind.ABSORPTION: (Kind.VOLUME, Kind.MASS, 1.0),
}
"""What stands above and below the stroke, and what one base unit of that is in the kind's own."""

_CUBE = r"(?:cubic |cu )(.+)|([^\d³^*]+?) ?(?:³|\^ ?3|\*\* ?3|3)"
SHORTEST_WORD, LONGEST_WORD = 3, 40
_Factor = Callable[[Kind, str], float | None]
_table: dict[str, dict[str, float]] = {}
_waits: ContextVar[bool] = ContextVar("waits", default=True)


class BeingLookedUpError(RefusedInputError):
    """Whether a word is a unit is not known yet; `is_beginning` if it may grow into a known one."""

    def __init__(self, kind: Kind, word: str) -> None:
        super().__init__(f"looking up {quoted(word)} …")
        self.is_beginning = any(known.startswith(word) for known in FACTORS[kind])


@contextmanager
def without_waiting() -> Iterator[None]:
    """Within it a unit that is not known at once is refused with a BeingLookedUpError."""
    before = _waits.set(False)
    try:
        yield
    finally:
        _waits.reset(before)


def rare_factor(kind: Kind, spelling: str) -> float | None:
    """Return what one of a rare unit is in the kind's base unit; None if there is no such unit.

    Raises BeingLookedUpError where that cannot be known without waiting.
    """
    found = _put_together(kind, spelling, _known_at_once)
    if found is not None or not _may_be_rare(kind, spelling):
        return found
    if not _table:
        if not _waits.get():
            raise BeingLookedUpError(kind, spelling)
        take_table(table_text())
    return _put_together(kind, spelling, _known_to_pint)


def _put_together(kind: Kind, word: str, factor: _Factor) -> float | None:
    if kind in _RATIOS:
        above, below, scale = _RATIOS[kind]
        parts = re.split(r" ?/ ?| per ", word)
        if len(parts) != 2:
            return None
        over, under = factor(above, parts[0]), factor(below, parts[1])
        return over / under * scale if over and under else None
    cube = re.fullmatch(_CUBE, word) if kind is Kind.VOLUME else None
    side = factor(Kind.LENGTH, cube.group(1) or cube.group(2)) if cube is not None else None
    return 1000.0 * side**3 if side else factor(kind, word)


def _known_at_once(kind: Kind, word: str) -> float | None:
    return FACTORS[kind].get(word)


def _known_to_pint(kind: Kind, word: str) -> float | None:
    known = _table.get(kind.value, {})
    for each in (word, word.removesuffix("s"), word.removesuffix("es")):
        found = FACTORS[kind].get(each) or known.get(each)
        if found is not None:
            return found
    return None


def _may_be_rare(kind: Kind, word: str) -> bool:
    """Whether pint could know it: words of letters, in a dimension that it is asked about."""
    if kind not in _BASES and kind not in _RATIOS:
        return False
    if not SHORTEST_WORD <= len(word) <= LONGEST_WORD or re.fullmatch(r"[^\W\d_ ].*", word) is None:
        return False
    return not any(word in known for other, known in FACTORS.items() if other is not kind)


def take_table(text: str) -> None:
    """Know from now on the units of a text that `table_text` returned."""
    _table.update(json.loads(text))


def is_table_known() -> bool:
    """Whether every unit can be told at once."""
    return bool(_table)


def table_text() -> str:
    """Return all units of pint's in the dimensions of a recipe, with their factors, as one line.

    Imports pint. Left out are words of one or two letters, which are symbols of other trades, those
    that mean two things when written small, and scales that do not begin at nothing.
    """
    import pint

    registry: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    kinds = {registry.get_dimensionality(base): kind for kind, base in _BASES.items()}
    found: dict[str, dict[str, float]] = {kind.value: {} for kind in _BASES}
    doubtful: set[tuple[str, str]] = set()
    for name in registry:
        word = name.replace("_", " ").lower()
        if len(word) < SHORTEST_WORD or not all(sign.isalpha() or sign == " " for sign in word):
            continue
        try:
            kind = kinds.get(registry.get_dimensionality(name))
            factors = found[kind.value] if kind is not None else {}
            one, two = (
                registry.Quantity(count, name).to(_BASES[kind]).magnitude if kind else 0.0
                for count in (1.0, 2.0)
            )
        except (pint.PintError, ValueError, OverflowError):
            continue  # a name of pint's that it cannot itself convert
        if kind is None or abs(two - 2.0 * one) > 1e-9 * abs(one):
            continue
        if factors.setdefault(word, float(one)) != one:
            doubtful.add((kind.value, word))
    for owner, word in doubtful:
        del found[owner][word]
    return json.dumps(found, separators=(",", ":"))
