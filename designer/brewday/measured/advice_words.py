"""What advice says: what has come otherwise, what the change makes of it, and what gives way."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from designer.brewday.measured.advice_levers import Lever
from designer.brewday.predictions import BY_KEY, Prediction
from designer.brewday.results import Range
from designer.recipe.message import Message, Number, in_a_row, in_turn, plain_figure, say, word
from designer.recipe.quantity import Kind

Forecasts = Mapping[str, Range]
IsOff = Callable[[str, float, Forecasts], bool]


def title_of(said: Sequence[Message]) -> Message:
    """Return several changes as one title."""
    if len(said) == 1:
        return said[0]
    return say("advice-several", "{changes}", changes=_in_one(said))


def _in_one(said: Sequence[Message]) -> object:
    found: object = said[0]
    for each in said[1:]:
        found = say("advice-and", "{first}. {next}", first=found, next=each)
    return found


def button(pulled: Sequence[tuple[Lever, int]]) -> tuple[Message, Message]:
    """Return what the two buttons say: take it, leave it."""
    if len(pulled) == 1:
        lever, steps = pulled[0]
        return lever.use(steps), lever.keep(steps)
    both = say("advice-do-both", "Do both"), say("advice-keep-plan", "Keep the plan")
    if len(pulled) == 2:
        return both
    return say("advice-do-all", "Do all"), both[1]


def reason_of(
    plan: Forecasts,
    now: Forecasts,
    after: Mapping[str, float],
    keys: Sequence[str],
    is_off: IsOff,
    extract_kg: float = 0.0,
) -> Message:
    """Return why: what it would be without the change, what it is with it, and what gives way.

    `extract_kg` is how much more of it the pots hold than planned.
    """
    off = [BY_KEY[key] for key in keys if is_off(key, now[key].value, plan)]
    off = off or [BY_KEY[STRENGTH]]
    if any(each.key == STRENGTH for each in off):
        off = [each for each in off if each.key not in FOLLOW]
    before = in_a_row([_against(each, now[each.key].value, plan[each.key].value) for each in off])
    then = in_a_row([_figure(each, after[each.key]) for each in off])
    stronger = now[STRENGTH].value > plan[STRENGTH].value
    is_why = any(each.key == STRENGTH for each in off) and stronger == (extract_kg > 0.0)
    return in_turn(
        *([more_extract(extract_kg)] if is_why and abs(extract_kg) >= LEAST_EXTRACT_KG else []),
        say("advice-as-it-is", "As it is: {what}.", what=before),
        say("advice-so", "With it: {what}.", what=then),
        *_gives_way(plan, now, after, keys, is_off),
    )


def more_extract(kg: float) -> Message:
    """Return that there is so much more extract than planned, or less below 0."""
    mass = (Kind.MASS, round(abs(kg), 2))
    if kg > 0.0:
        return say("advice-pot-more", "The pot holds some {0} more extract than planned.", mass)
    return say("advice-pot-less", "The pot holds some {0} less extract than planned.", mass)


STRENGTH, FOLLOW = "original_gravity", ("final_gravity", "abv_percent")
"""What follows from the strength is not told beside it."""
LEAST_EXTRACT_KG = 0.02
"""So much more or less extract is told: two spoons; a judgement."""


def _against(each: Prediction, value: float, planned: float) -> Message:
    return say(
        "advice-against",
        "{name} {now}, planned {plan}",
        name=_name(each),
        now=_plain(each, value),
        plan=_plain(each, planned),
    )


def _figure(each: Prediction, value: float) -> Message:
    return say("advice-figure", "{name} {now}", name=_name(each), now=_plain(each, value))


def _name(each: Prediction) -> Message:
    return word(each.abbreviation) if each.abbreviation else word(each.plain.lower())


def _plain(each: Prediction, value: float) -> Message:
    if each.kind is Kind.NUMBER:
        return say("advice-share", "{figure} {unit}", figure=Number(f"{value:.1f}"), unit=each.unit)
    return say("figure", "{0}", (each.kind, value))


def _gives_way(
    plan: Forecasts,
    now: Forecasts,
    after: Mapping[str, float],
    keys: Sequence[str],
    is_off: IsOff,
) -> Iterator[Message]:
    """Say which forecasts the change leads away from the plan."""
    given = []
    for key in keys:
        each, planned = BY_KEY[key], plan[key].value
        further = abs(after[key] - planned) > abs(now[key].value - planned)
        alike = plain_figure(each.kind, after[key]) == plain_figure(each.kind, now[key].value)
        if further and not alike and is_off(key, after[key], plan):
            given.append(_against(each, after[key], planned))
    if given:
        yield say("advice-gives-way", "What gives way: {what}.", what=in_a_row(given))
