"""Documents of older formats brought up to the present one, a named step for each format."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from designer.errors import RefusedInputError
from designer.library.catalogue import find_aid
from designer.library.document_reading import FORMAT
from designer.recipe.message import refused
from designer.recipe.quantity import Stage, When
from designer.units import read_when

LARGEST_TOLD = 10**9
"""A longer number is no number of a format and is not told in full."""

_FINING_WORDS = ("after fermentation", "haze")


def finings_before_packaging(document: dict[str, Any]) -> dict[str, Any]:
    """Say in `when` that finings go into the finished beer; until format 2 their purpose said it.

    "fermenter" meant with the yeast or days before packaging, as the words for the purpose had it;
    since then it is with the yeast.
    """
    extras = document.get("extras")
    if not isinstance(extras, list):
        return document
    return {**document, "extras": [_with_days(each) for each in extras]}


def _with_days(extra: Any) -> Any:
    if not isinstance(extra, dict) or not _is_fermenter(extra.get("when")):
        return extra
    name, purpose = (str(extra.get(key, "")) for key in ("name", "purpose"))
    aid = find_aid(name)
    if aid is not None and read_when(aid.goes_in).stage is Stage.FERMENTER:
        return {**extra, "when": aid.goes_in}
    if any(each in purpose for each in _FINING_WORDS):
        return {**extra, "when": "fermenter 3 days"}
    return extra


def _is_fermenter(when: object) -> bool:
    try:
        return isinstance(when, str) and read_when(when) == When(Stage.FERMENTER, when)
    except RefusedInputError:
        return False


STEPS: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {1: finings_before_packaging}
"""From a format's number to the step that makes the next format of it."""


def upgraded(document: object) -> object:
    """Return the document in the present format.

    Raises RefusedInputError for a document without a format, or from a newer program.
    """
    if not isinstance(document, dict):
        return document
    number = document.get("hobwort")
    if isinstance(number, bool) or not isinstance(number, int):
        if "hobwort" in document:
            raise refused(
                "odd-format-number",
                "hobwort: the format number is not a whole number; a recipe file begins with "
                '"hobwort": {format}',
                format=FORMAT,
            )
        raise refused(
            "no-format-number",
            'hobwort: the format number is missing; a recipe file begins with "hobwort": {format}',
            format=FORMAT,
        )
    told = str(number) if abs(number) < LARGEST_TOLD else f"{str(number)[:6]}…"
    if number > FORMAT:
        raise refused(
            "newer-format",
            "hobwort: format {told} is of a newer Hobwort than this one, which reads up to "
            "{format}. Update the program to open it.",
            told=told,
            format=FORMAT,
        )
    if number < 1:
        raise refused(
            "no-such-format",
            "hobwort: there is no format {told}; the present one is {format}",
            told=told,
            format=FORMAT,
        )
    while number < FORMAT:
        document = {**STEPS[number](document), "hobwort": number + 1}
        number += 1
    return document
