"""Rarer units: put together from those in the tables, or else asked of pint's registry.

`cubic inches` or `pints/h` need only the quick table. Any other word is looked up among
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

from designer.errors import RefusedInputError
from designer.recipe.message import say
from designer.recipe.quantity import Kind
from designer.units.quick_words import FACTORS
from designer.units.quoting import quoted

LOOKED_UP = (Kind.MASS, Kind.VOLUME, Kind.TIME, Kind.LENGTH, Kind.POWER)
"""The kinds whose rarer units are taken from pint."""

_RATIOS = {
    Kind.EVAPORATION: (Kind.VOLUME, Kind.TIME, 60.0),
    Kind.CONCENTRATION: (Kind.MASS, Kind.VOLUME, 1e6),
    Kind.ABSORPTION: (Kind.VOLUME, Kind.MASS, 1.0),
}
"""What stands above and below the stroke, and what one base unit of that is in the kind's own."""

_CUBE = r"(?:cubic |cu )(.+)|([^\d³^*]+?) ?(?:³|\^ ?3|\*\* ?3|3)"
_BEFORE_LENGTH = ("cubic ", "cu ")
SHORTEST_WORD, LONGEST_WORD = 3, 40
TABLE_COMMAND = "unit-words"
"""What the program is called with to print `table_text`."""

_Parts = tuple[tuple[Kind, str], ...]
_Factor = Callable[[Kind, str], float | None]
_table: dict[str, dict[str, float]] = {}
_waits: ContextVar[bool] = ContextVar("waits", default=True)


class BeingLookedUpError(RefusedInputError):
    """Whether a word is a unit is not known yet; `spelling` is that word, quoted."""

    def __init__(self, spelling: str) -> None:
        super().__init__(
            say("being-looked-up", "looking up {spelling} among rarer units", spelling=spelling)
        )
        self.spelling = spelling


@contextmanager
def without_waiting() -> Iterator[None]:
    """Within it a unit that has to be looked up is refused with a BeingLookedUpError.

    The beginning of a known word is not looked up: it is taken to be on its way to that word.
    """
    before = _waits.set(False)
    try:
        yield
    finally:
        _waits.reset(before)


def pint_factor(kind: Kind, spelling: str) -> float | None:
    """Return what one of a rare unit is in the kind's base unit; None if there is no such unit.

    Raises BeingLookedUpError where that cannot be known without waiting.
    """
    parts = _parts(kind, spelling)
    found = _put_together(kind, parts, _known_at_once)
    if found is not None or not parts or not _may_be_rare(parts):
        return found
    if not _table:
        if not _waits.get():
            if any(_is_beginning(*part) for part in parts):
                return None
            raise BeingLookedUpError(quoted(spelling))
        take_table(_fetch())
    return _put_together(kind, parts, _known_to_pint)


def _parts(kind: Kind, word: str) -> _Parts:
    """Return the words that a unit is put together from, each with its kind; none if it is none."""
    if kind in _RATIOS:
        above, below, _ = _RATIOS[kind]
        parts = re.split(r" ?/ ?| per ", word)
        return ((above, parts[0]), (below, parts[1])) if len(parts) == 2 else ()
    cube = re.fullmatch(_CUBE, word) if kind is Kind.VOLUME else None
    if cube is not None:
        return ((Kind.LENGTH, cube.group(1) or cube.group(2)),)
    return ((kind, word),) if kind in LOOKED_UP else ()


def _put_together(kind: Kind, parts: _Parts, factor: _Factor) -> float | None:
    factors = [factor(*part) for part in parts]
    if not factors or not all(factors):
        return None
    numbers = [each for each in factors if each is not None]
    if kind in _RATIOS:
        return numbers[0] / numbers[1] * _RATIOS[kind][2]
    return 1000.0 * numbers[0] ** 3 if parts[0][0] is not kind else numbers[0]


def _known_at_once(kind: Kind, word: str) -> float | None:
    return FACTORS[kind].get(word)


def _known_to_pint(kind: Kind, word: str) -> float | None:
    known = _table.get(kind.value, {})
    for each in (word, word.removesuffix("s"), word.removesuffix("es")):
        found = FACTORS[kind].get(each) or known.get(each)
        if found is not None:
            return found
    return None


def _may_be_rare(parts: _Parts) -> bool:
    """Whether pint could know what is not known: words of letters, no unit of another kind."""
    return all(_known_at_once(*part) is not None or _may_be_word(*part) for part in parts)


def _may_be_word(kind: Kind, word: str) -> bool:
    if not SHORTEST_WORD <= len(word) <= LONGEST_WORD or re.fullmatch(r"[^\W\d_ ].*", word) is None:
        return False
    return not any(word in known for other, known in FACTORS.items() if other is not kind)


def _is_beginning(kind: Kind, word: str) -> bool:
    known = FACTORS[kind]
    if word in known:
        return False
    longer = (*known, *_BEFORE_LENGTH) if kind is Kind.VOLUME else known
    return any(each.startswith(word) for each in longer)


def fetch_table_by(fetch: Callable[[], str]) -> None:
    """From now on let `fetch` find the text of the table where it has to be waited for."""
    global _fetch
    _fetch = fetch


def take_table(text: str) -> None:
    """Know from now on the units of a text that `table_text` returned."""
    _table.update(json.loads(text))


def is_table_known() -> bool:
    """Whether every unit can be told at once."""
    return bool(_table)


def table_text() -> str:
    """Return all units of the registry in the dimensions of a recipe as one line of JSON.

    Imports pint.
    """
    # Needed for a rare word alone, and all that goes with it is dear.
    from designer.units.definitions import rare_words

    return json.dumps(rare_words(LOOKED_UP, SHORTEST_WORD), separators=(",", ":"))


_fetch: Callable[[], str] = table_text
