"""What a first recipe could not meet: what gave way, and why."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.first.kitchen import most_beer_l
from designer.brewday.first.weighing import Weighed
from designer.brewday.predictions import BY_KEY
from designer.library.flavours import FlavourEntry
from designer.recipe.message import Message, Number, say, word
from designer.recipe.quantity import Kind
from designer.translation import message
from designer.workbench.first_aims import FORECASTS, Wanted
from designer.wort.bitterness import POT_CEILING_IBU

FELT = {
    "original_gravity": 0.0025,
    "abv_percent": 0.25,
    "bitterness_ibu": 2.5,
    "colour_srm": 2.0,
}
"""So far from what was asked for, it is said; judgement."""
NEARLY_ALL = 0.9
_DECIMALS = {"original_gravity": 3, "final_gravity": 3, "abv_percent": 1, "bitterness_ibu": 0,
             "colour_srm": 0}  # fmt: skip
_WHY = {
    ("original_gravity", True): message("it follows from the strength that was asked for"),
    ("original_gravity", False): message("it follows from the strength that was asked for"),
    ("final_gravity", True): message("no yeast of the style ferments this extract further"),
    ("final_gravity", False): message("every yeast of the style ferments as far"),
    ("abv_percent", True): message("it follows from where the gravity begins and ends"),
    ("abv_percent", False): message("it follows from where the gravity begins and ends"),
    ("bitterness_ibu", True): message("the late hops alone bring as much"),
    ("bitterness_ibu", False): message("the pot takes up no more bitterness"),
    ("colour_srm", True): message("the extract itself is as dark as that"),
    ("colour_srm", False): message("it would take more dark malt than is usual"),
}


def misses(
    key: str, asked: Wanted, found: Weighed, flavours: tuple[FlavourEntry, ...]
) -> tuple[Message, ...]:
    """Return what gave way, each with its reason."""
    return (
        *_outside_style(key, asked, found),
        *_not_as_asked(key, asked, found),
        *_other_batch(asked, found),
        *_no_flavour(asked, found, flavours),
    )


def _values(found: Weighed) -> dict[str, float]:
    return {key: float(BY_KEY[key].compute(found.day)) for key in FORECASTS}


def is_inside(key: str, value: float, band: tuple[float, float]) -> bool:
    """Whether a forecast, rounded as it is shown, is within the range of a style."""
    shown = round(value, _DECIMALS[key])
    return band[0] <= shown <= band[1] or band[0] <= value <= band[1]


def _figure(key: str, value: float) -> Message:
    prediction = BY_KEY[key]
    if prediction.kind is Kind.NUMBER:
        return say("per-cent", "{value} %", value=Number(f"{value:.{_DECIMALS[key]}f}"))
    return say("figure", "{0}", (prediction.kind, value))


def _outside_style(of: str, asked: Wanted, found: Weighed) -> Iterator[Message]:
    values = _values(found)
    for key, band in asked.bands.items():
        if is_inside(key, values[key], band):
            continue
        high = values[key] > band[1]
        typed = getattr(asked.answers, key, None)
        was_asked = typed is not None and not band[0] <= typed <= band[1]
        why = message("it was asked for") if was_asked else _reason(of, key, high, asked)
        yield say(
            "outside-style",
            "{name} {value}, where {style} has {low} to {high}: {why}.",
            name=word(BY_KEY[key].plain),
            value=_figure(key, values[key]),
            style=asked.style.name if asked.style is not None else "",
            low=_figure(key, band[0]),
            high=_figure(key, band[1]),
            why=word(why),
        )


def _not_as_asked(of: str, asked: Wanted, found: Weighed) -> Iterator[Message]:
    values = _values(found)
    for key, felt in FELT.items():
        typed = getattr(asked.answers, key)
        off = 0.0 if typed is None else abs(values[key] - typed)
        if typed is None or off <= max(felt, 0.12 * typed if felt > 1.0 else 0.0):
            continue
        why = _reason(of, key, values[key] > typed, asked)
        yield say(
            "not-as-asked",
            "{name} {value} instead of {typed}: {why}.",
            name=word(BY_KEY[key].plain),
            value=_figure(key, values[key]),
            typed=_figure(key, typed),
            why=word(why),
        )


def _reason(of: str, key: str, high: bool, asked: Wanted) -> str:
    if of == "study" and key == "colour_srm":
        return message("one malt gives no other colour")
    if key == "abv_percent" and asked.answers.original_gravity is not None:
        return message("the gravity that was asked for gives no other")
    if key == "original_gravity" and asked.answers.whole_packs:
        return message("tins and bags are used whole")
    return _WHY[key, high]


def _other_batch(asked: Wanted, found: Weighed) -> Iterator[Message]:
    typed, most_l = asked.answers.batch, most_beer_l(found.recipe)
    if typed is None and found.batch_l < NEARLY_ALL * most_l and not asked.answers.whole_packs:
        yield say(
            "smaller-batch",
            "{0} of beer, though the fermenter takes {1}: {why}.",
            (Kind.VOLUME, found.batch_l),
            (Kind.VOLUME, most_l),
            why=word(_pot_is_small(found)),
        )
    elif typed is not None and abs(found.batch_l - typed.value) >= 0.05:
        if asked.answers.whole_packs:
            why = message("tins and bags are used whole")
        elif found.batch_l > NEARLY_ALL * most_l:
            why = message("the fermenter takes no more with room for foam")
        else:
            why = _pot_is_small(found)
        yield say(
            "other-batch",
            "{0} of beer instead of {1}: {why}.",
            (Kind.VOLUME, found.batch_l),
            (Kind.VOLUME, typed),
            why=word(why),
        )


def _pot_is_small(found: Weighed) -> str:
    if float(found.day.fermenter.pot_ibu) > 0.6 * POT_CEILING_IBU:
        return message("the pot takes up no more bitterness")
    return message("the pot boils no more wort of that strength")


def _no_flavour(
    asked: Wanted, found: Weighed, flavours: tuple[FlavourEntry, ...]
) -> Iterator[Message]:
    recipe = found.recipe
    names = {each.name for each in recipe.fermentables} | {each.name for each in recipe.hops}
    for each in flavours:
        if names.isdisjoint((*each.extract, *each.grain, *each.hops, *each.sugar)):
            yield say(
                "no-flavour",
                "No {flavour}: nothing that brings it belongs in {style} of that colour.",
                flavour=word(each.name),
                style=asked.style.name if asked.style is not None else word(message("a beer")),
            )
