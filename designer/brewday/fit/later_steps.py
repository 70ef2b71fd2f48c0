"""What goes into the fermenters with the yeast and in the days after: dry hops, finings.

Of two boils in one fermenter it is all of both; of two fermenters each has what its boil has.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from designer.brewday.fit.answer import Boil
from designer.brewday.fit.boil_steps import PotSteps, so_much
from designer.recipe.kinds import typed
from designer.recipe.message import Figure, Message, say
from designer.recipe.quantity import Kind

_A_DAY_MIN = 1440.0


def later_steps(boils: Sequence[Boil], *, into_one: bool, alike: bool) -> Iterator[Message]:
    """Yield what is put in when, and into which fermenter where there are several."""
    added = [PotSteps(boil).added_later() for boil in boils]
    if into_one or len(boils) == 1:
        shared = len(boils[0].fillings) > 1
        for lines, line in _together(added):
            yield _into_each(lines, line, shared=True) if shared else _put_in(lines, line)
    elif alike:
        for lines, line in added[0]:
            yield _into_each(lines, line, shared=False)
    else:
        for number, own in enumerate(added, 1):
            for lines, line in own:
                yield _of_boil(lines, line, number)


def _together(added: Sequence[list[tuple[str, Any]]]) -> Iterator[tuple[str, Any]]:
    """Yield each line once, with what all boils have of it."""
    for lines, line in added[0]:
        same = [
            other.amount
            for own in added
            for name, other in own
            if (name, other.line_id) == (lines, line.line_id) and other.amount is not None
        ]
        if not same:
            yield lines, line
            continue
        kind = Kind.DOSE if lines == "extras" else Kind.MASS
        unit = same[0].unit if lines == "extras" else None
        whole = typed(kind, sum(each.value for each in same), unit=unit)
        yield lines, replace(line, amount=same[0] if len(same) == 1 else whole)


def _put_in(lines: str, line: Any) -> Message:
    what = so_much(lines, line)
    if line.when.days > 0.0:
        return say("dry-hop", "{0} before bottling put in {what}.", _days(line), what=what)
    return say("with-the-yeast", "With the yeast put in {what}.", what=what)


def _into_each(lines: str, line: Any, *, shared: bool) -> Message:
    what, when = so_much(lines, line), _when(line)
    if shared:
        return say(
            "later-shared", "{when} share {what} out between the fermenters.", what=what, when=when
        )
    return say("later-into-each", "{when} put {what} into each fermenter.", what=what, when=when)


def _of_boil(lines: str, line: Any, number: int) -> Message:
    return say(
        "later-of-boil",
        "{when} put {what} into the fermenter of boil {n}.",
        what=so_much(lines, line),
        when=_when(line),
        n=number,
    )


def _when(line: Any) -> Message:
    if line.when.days > 0.0:
        return say("days-before-bottling", "{0} before bottling", _days(line))
    return say("as-the-yeast", "With the yeast")


def _days(line: Any) -> Figure:
    return Kind.TIME, line.when.days * _A_DAY_MIN
