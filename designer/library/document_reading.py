"""A recipe from the plain values of its JSON document, or every fault in them.

The declarations of `designer.recipe` say which keys there are, of what kind, within what limits.
All faults are gathered, each with its place in the document and what would be taken.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import fields
from functools import lru_cache, partial
from typing import Any, TypeVar

from designer.errors import RefusedInputError
from designer.library.problems import Problems, unknown_keys
from designer.recipe.document import LINE_TYPES, PART_TYPES, PLAN_TYPES, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.fields import FieldFacts, key_of
from designer.recipe.limits import LONGEST_WORDS, MOST_LINES
from designer.recipe.message import Message, refused, say
from designer.recipe.plan import plan_faults
from designer.recipe.quantity import Kind, Quantity, When
from designer.translation import labelled, message, tr
from designer.units import read, read_clock, read_when, show
from designer.units.numbers import normalised
from designer.units.quoting import quoted
from designer.units.writing import is_bare

FORMAT = 2
LISTS = LINE_TYPES
PARTS = PART_TYPES
Part = TypeVar("Part")
_WANTS_UNIT = message("{place}: text with a unit is wanted here, in quotes")
_WANTS_WHEN = message('{place}: text in quotes is wanted here, such as "boil 60 min"')
_WANTS_CLOCK = message('{place}: text in quotes is wanted here, such as "09:00"')


def recipe_from(document: object) -> Recipe:
    """Return the recipe of a parsed document of the present format.

    Raises RefusedInputError with one line for every fault.
    """
    faults = Problems()
    recipe = _recipe(document, faults)
    for fault in plan_faults(recipe):
        faults.append(fault.text)
    if faults:
        raise RefusedInputError(faults.lines())
    return with_line_ids(recipe)


def _recipe(document: object, faults: Problems) -> Recipe:
    if not isinstance(document, dict):
        faults.append(tr("a recipe is one JSON object { ... }"))
        return Recipe()
    values: dict[str, Any] = {}
    known = {each.name: each for each in fields(Recipe)}
    for key, value in document.items():
        if key == "hobwort":
            continue
        if key not in known:
            faults.append(partial(_unknown, key, "", known), unknown_keys)
        elif key in LISTS:
            values[key] = _lines(LISTS[key], value, key, MOST_LINES, faults)
        elif key in PLAN_TYPES:
            most = known[key].metadata["most"]
            values[key] = _lines(PLAN_TYPES[key], value, key, most, faults)
        elif key in PARTS:
            values[key] = _part(PARTS[key], value, key, faults)
        else:
            values[key] = _words(value, key, (), faults)
    return Recipe(**values)


def _unknown(key: str, place: str, known: Iterable[str]) -> str:
    """Name the key that was probably meant, or else all there are."""
    from difflib import get_close_matches  # not at each start: few files have such a key

    known = sorted(known)
    near = get_close_matches(key[:60].lower().replace(" ", "_"), known, n=1, cutoff=0.6)
    if near:
        said = tr("unknown key {key}; did you mean “{near}”?", key=quoted(key), near=near[0])
    else:
        said = tr("unknown key {key}; known are {keys}", key=quoted(key), keys=", ".join(known))
    return labelled(place, said) if place else said


def _lines(
    of: type[Part], value: object, name: str, most: int, faults: Problems
) -> tuple[Part, ...]:
    if not isinstance(value, list):
        faults.append(tr("{name}: a list [ ... ] is wanted here", name=name))
        return ()
    if len(value) > most:
        faults.append(
            tr(
                "{name}: {count} lines are more than the {most_lines} a recipe may have",
                name=name,
                count=len(value),
                most_lines=most,
            )
        )
        return ()
    return tuple(
        _part(of, each, f"{name}[{number}]", faults) for number, each in enumerate(value, 1)
    )


def _part(of: type[Part], value: object, place: str, faults: Problems) -> Part:
    if not isinstance(value, dict):
        faults.append(tr("{place}: an object {{ ... }} is wanted here", place=place))
        return of()
    known = {key_of(each): each for each in fields(of) if each.name != "line_id"}  # type: ignore[arg-type]
    values: dict[str, Any] = {}
    for key, found in value.items():
        if key not in known:
            faults.append(partial(_unknown, key, place, known), unknown_keys)
            continue
        read_value = field_value(
            known[key].name, known[key].metadata, found, f"{place}.{key}", faults
        )
        if read_value is not None:
            values[known[key].name] = read_value
    return of(**values)


def field_value(
    name: str, metadata: Any, found: object, place: str, faults: Problems, *, kept: bool = True
) -> Quantity | object | None:
    """Return the value of one field; None, and a fault noted, where it cannot be taken.

    A quantity may be null: it is empty on purpose. `kept` is as in `designer.units.read`.
    """
    facts: FieldFacts | None = metadata.get("facts")
    if facts is not None:
        of_field = partial(_quantity, facts, kept=kept)
        return None if found is None else _taken(found, place, faults, _WANTS_UNIT, of_field)
    if "part" in metadata:
        of: type[object] = metadata["part"]
        return _part(of, found, place, faults)
    if "parts" in metadata:
        return _lines(metadata["parts"], found, place, metadata["most"], faults)
    if "whole" in metadata:
        return _whole_number(found, place, metadata["whole"], faults)
    if name == "when":
        return _taken(found, place, faults, _WANTS_WHEN, partial(_read_when, kept=kept))
    if metadata.get("clock"):
        return _taken(found, place, faults, _WANTS_CLOCK, read_clock)
    if name == "locked":
        if not isinstance(found, bool):
            faults.append(tr("{place}: true or false is wanted here", place=place))
            return None
        return found
    return _words(found, place, metadata.get("choices", ()), faults)


def _whole_number(
    value: object, place: str, limits: tuple[int, int], faults: Problems
) -> int | None:
    low, high = limits
    if isinstance(value, int) and not isinstance(value, bool) and low <= value <= high:
        return value
    faults.append(
        tr(
            "{place}: a whole number of {low} to {high} is wanted here",
            place=place,
            low=low,
            high=high,
        )
    )
    return None


def _words(value: object, place: str, choices: tuple[str, ...], faults: Problems) -> str:
    if not isinstance(value, str):
        faults.append(tr("{place}: text in quotes is wanted here", place=place))
        return ""
    if choices and value not in choices:
        faults.append(
            tr(
                "{place}: {value} is not one of: {choices}",
                place=place,
                value=quoted(value),
                choices=", ".join(choices),
            )
        )
        return choices[0]
    if len(value) > LONGEST_WORDS or not _is_text(value):
        faults.append(
            tr(
                "{place}: up to {longest_words} readable characters are taken here",
                place=place,
                longest_words=LONGEST_WORDS,
            )
        )
        return ""
    return value


def _is_text(value: str) -> bool:
    """Lone halves of a surrogate pair cannot be written to a file."""
    return not any("\ud800" <= sign <= "\udfff" for sign in value)


def _taken(
    value: object, place: str, faults: Problems, wanted: str, reading: Callable[[str], Part]
) -> Part | None:
    """Return what a text is read as; None, and a fault noted, for what is no text or refused."""
    if not isinstance(value, str):
        faults.append(tr(wanted, place=place))
        return None
    try:
        return reading(value)
    except RefusedInputError as fault:
        faults.append(tr("{place}: {fault}", place=place, fault=fault))
        return None


def _quantity(facts: FieldFacts, text: str, *, kept: bool) -> Quantity:
    return checked_quantity(facts, _read(facts.kind, _with_unit(facts, text), kept=kept))


@lru_cache(maxsize=4096)
def _read(kind: Kind, text: str, *, kept: bool) -> Quantity:
    """Return what a text says; of a draft, read again each second, nearly all of it is known."""
    return read(kind, text, kept=kept)


@lru_cache(maxsize=1024)
def _read_when(text: str, *, kept: bool) -> When:
    return read_when(text, kept=kept)


def _with_unit(facts: FieldFacts, text: str) -> str:
    """Give a bare number the unit of its field, where that is not the usual one of its kind."""
    return f"{text} {facts.bare}" if facts.bare and is_bare(normalised(text)) else text


def none_of(text: str, choices: Iterable[str]) -> RefusedInputError:
    """Return the refusal of a text that is none of what can be chosen."""
    return refused(
        "not-one-of",
        "{text} is not one of: {choices}",
        text=quoted(text),
        choices=", ".join(choices),
    )


def checked_quantity(facts: FieldFacts, quantity: Quantity) -> Quantity:
    """Return the quantity if it lies within the field's limits.

    Raises RefusedInputError that names the limits.
    """
    if not facts.low <= quantity.value <= facts.high:
        raise refused(
            "outside-limits",
            "{quantity} is outside {limits}",
            quantity=quoted(quantity.text),
            limits=_limits(facts),
        )
    if quantity.spread is not None and quantity.spread > facts.high - facts.low:
        raise refused(
            "wider-than-limits",
            "{quantity} is wider than all of {limits}",
            quantity=quoted(quantity.text),
            limits=_limits(facts),
        )
    return quantity


def _limits(facts: FieldFacts) -> Message:
    return say(
        "limits",
        "{low} to {high}",
        low=show(facts.kind, facts.low),
        high=show(facts.kind, facts.high),
    )
