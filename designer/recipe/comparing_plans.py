"""What differs between the plans by which two recipes are brewed, in a brewer's words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import Field, fields
from itertools import zip_longest
from typing import Any

from designer.recipe.comparing_parts import (
    Difference,
    fields_that_differ,
    lines_that_differ,
    value_text,
)
from designer.recipe.document import LINE_TYPES, PlannedBoil, PlannedFermenter, Recipe, WortShare
from designer.recipe.fields import default_text_of, label_of
from designer.recipe.message import Message, in_a_row, say, within
from designer.recipe.named import lines_of
from designer.recipe.plan import is_planned, recipe_of_boil
from designer.recipe.plan_words import brewed, vessel_words
from designer.translation import tr

_BOIL_LINES = tuple(LINE_TYPES)


def plans_that_differ(before: Recipe, after: Recipe) -> Iterator[Difference]:
    """Yield how either is brewed, where that differs, then what differs of each boil and vessel.

    Where one is brewed as it is written, the sentence says all.
    """
    said = [brewed(each).text for each in (before, after)]
    if said[0] != said[1]:
        yield Difference(tr("Brewed"), *said)
    if not is_planned(before) or not is_planned(after):
        return
    for number, (old, new) in enumerate(zip_longest(before.boils, after.boils), 1):
        which = say("which-boil", "Boil {number}", number=number)
        if old is None or new is None:
            yield Difference(which.text, _boil_text(old), _boil_text(new))
        else:
            yield from _of(which, _boils(before, after, number, old, new))
    for number, (first, second) in enumerate(zip_longest(before.fermenters, after.fermenters), 1):
        which = say("which-fermenter", "Fermenter {number}", number=number)
        if first is None or second is None:
            yield Difference(which.text, _fermenter_text(first), _fermenter_text(second))
        else:
            yield from _of(which, _fermenters(first, second))


def _of(which: Message, found: Iterator[Difference]) -> Iterator[Difference]:
    for each in found:
        what = tr("{which}, {what}", which=which, what=each.what)
        yield Difference(what, each.before, each.after)


def _boils(
    before: Recipe, after: Recipe, number: int, old: PlannedBoil, new: PlannedBoil
) -> Iterator[Difference]:
    for each in fields(PlannedBoil):
        first, second = getattr(old, each.name), getattr(new, each.name)
        if first == second:
            continue
        if each.name in _BOIL_LINES:
            # What one takes as its share may be listed by the other: then it is no difference.
            made = (recipe_of_boil(before, number), recipe_of_boil(after, number))
            yield from lines_that_differ(*(lines_of(one, each.name) for one in made))
        else:
            yield from _field(each, first, second)


def _field(each: Field[Any], first: Any, second: Any) -> Iterator[Difference]:
    """Yield what differs of a field that is a value, or a part with fields of its own."""
    if "part" in each.metadata and first is not None and second is not None:
        for one in fields_that_differ(first, second):
            yield Difference(str(within(one.what)), one.before, one.after)
        return
    texts = (_text(each, value) for value in (first, second))
    yield Difference(str(within(label_of(each))), *texts)


def _text(each: Field[Any], value: Any) -> str:
    if value is None:
        return tr(default_text_of(each)) if default_text_of(each) else ""
    if "part" in each.metadata:
        return ", ".join(
            text for one in fields(value) if (text := value_text(one, getattr(value, one.name)))
        )
    return value_text(each, value)


def _fermenters(old: PlannedFermenter, new: PlannedFermenter) -> Iterator[Difference]:
    for each in fields(PlannedFermenter):
        first, second = getattr(old, each.name), getattr(new, each.name)
        if first == second:
            continue
        if each.name == "wort_from":
            label = str(within(label_of(each)))
            yield Difference(label, _wort_text(first), _wort_text(second))
        elif each.name == "yeast" and first is not None and second is not None:
            for one in fields_that_differ(first, second):
                what = tr("yeast, {what}", what=within(one.what))
                yield Difference(what, one.before, one.after)
        else:
            yield from _field(each, first, second)


def _wort_text(wort: tuple[WortShare, ...]) -> str:
    if not wort:
        return tr("an equal share of every boil")
    return str(in_a_row([_one_wort(each) for each in wort]))


def _one_wort(each: WortShare) -> Message:
    if each.share is None:
        return say("of-boil", "boil {boil}", boil=each.boil)
    return say("share-of-boil", "{share} of boil {boil}", share=each.share.text, boil=each.boil)


def _boil_text(boil: PlannedBoil | None) -> str:
    if boil is None:
        return ""
    found = [str(vessel_words(boil.pot))]
    found += [each.text for each in (boil.share, boil.start_water) if each is not None]
    return str(in_a_row(found))


def _fermenter_text(fermenter: PlannedFermenter | None) -> str:
    if fermenter is None:
        return ""
    found = [str(vessel_words(fermenter.fermenter)), _wort_text(fermenter.wort_from)]
    if fermenter.top_up_to is not None:
        found.append(fermenter.top_up_to.text)
    return str(in_a_row(found))
