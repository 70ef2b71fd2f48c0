"""Why beer is not packaged so: the reason, the danger, and when or how it may be."""

from __future__ import annotations

from datetime import date

from designer.brewday.bottles import Bottled
from designer.brewday.packaging.packaged import Packing, to_the_tenth_above
from designer.recipe.choices import Package
from designer.recipe.day_words import day_words
from designer.recipe.message import Figure, Message, say, word
from designer.recipe.quantity import Kind
from designer.wort.carbonation import WARMEST_STORE_C

POINT_SG = 0.001


def not_read(packing: Packing, first: date, again: date) -> Message:
    """Nobody knows whether it has fermented out."""
    if packing.package == Package.KEG:
        return say(
            "keg-not-read",
            "Not yet: nobody has read whether it has fermented out. What still ferments in a "
            "closed keg drives its pressure up. Read the gravity on {first} and again on {again}.",
            first=day_words(first),
            again=day_words(again),
        )
    return say(
        "bottles-not-read",
        "Not yet: nobody has read whether it has fermented out. What still ferments makes gas in "
        "the bottles until they burst, and glass flies. Read the gravity on {first} and again on "
        "{again}.",
        first=day_words(first),
        again=day_words(again),
    )


def unfinished(packing: Packing, judged: Bottled | None, adds: float, again: date) -> Message:
    """It may still ferment; `adds` are the volumes of gas that this makes."""
    falls, day = _points(packing.may_fall or 0.0), day_words(again)
    if packing.package == Package.KEG:
        return say(
            "keg-unfinished",
            "Not today: {points} may still ferment, and in a closed keg that gas drives its "
            "pressure up. Read again on {day}.",
            points=falls,
            day=day,
        )
    if packing.may_fall == 0.0 or not adds > 0.0:
        return say(
            "bottles-not-settled",
            "Not today: readings do not say yet that it has fermented out. What still ferments "
            "makes gas in the bottles until they burst, and glass flies. Read again on {day}.",
            day=day,
        )
    if judged is not None and judged.is_refused:
        return say(
            "bottles-unfinished",
            "Not today. If {points} still ferment, they add {0} of gas: up to {1} at {2}, over the "
            "{3} that these bottles bear. Bottles burst at that, and glass flies. Read again on "
            "{day}.",
            (Kind.CARBONATION, adds),
            most_bar(judged),
            (Kind.TEMPERATURE, WARMEST_STORE_C),
            (Kind.PRESSURE, judged.never_bar),
            points=falls,
            day=day,
        )
    return say(
        "bottles-unfinished-within",
        "Not today. If {points} still ferment, they add {0} of gas, and nobody knows how far it "
        "goes. Bottles burst so, and glass flies. Read again on {day}.",
        (Kind.CARBONATION, adds),
        points=falls,
        day=day,
    )


def too_much(judged: Bottled, adds: float = 0.0, again: date | None = None) -> Message:
    """The fullest bottle comes to more than its kind gets; `adds` is what may still ferment."""
    most, kind = most_bar(judged), word(judged.kind)
    if not judged.is_made_for_pressure:
        return say(
            "not-for-pressure",
            "Bottles: {bottle}. They are not made for pressure: with {0} in them they burst, and "
            "glass flies. Take beer or sparkling-wine bottles, soft-drink bottles of plastic, or a "
            "keg.",
            most,
            bottle=kind,
        )
    warm, never = (Kind.TEMPERATURE, WARMEST_STORE_C), (Kind.PRESSURE, judged.never_bar)
    aim = (Kind.CARBONATION, max(judged.comfortable_volumes - adds, 0.0))
    if adds > 0.0 and again is not None:
        return say(
            "too-much-with-what-ferments",
            "Bottles: {bottle}. With what may still ferment the fullest may come to {0} at {1}, "
            "and above {2} they burst, and glass flies. Aim at {3}, take bottles made for more, or "
            "read again on {day}: if it has not fallen, less may come.",
            most,
            warm,
            never,
            aim,
            bottle=kind,
            day=day_words(again),
        )
    return say(
        "too-much-pressure",
        "Bottles: {bottle}. The fullest may come to {0} at {1}, and above {2} they burst, and "
        "glass flies. Aim at {3}, take bottles made for more, or a keg.",
        most,
        warm,
        never,
        aim,
        bottle=kind,
    )


def too_warm_a_keg(temp_c: float, limit_bar: float) -> Message:
    """The keg would need more pressure than one may get."""
    return say(
        "warm-keg",
        "At {0} so much gas takes more than {1}, which is more than a keg should get. Chill the "
        "keg, or want less gas.",
        (Kind.TEMPERATURE, temp_c),
        (Kind.PRESSURE, limit_bar),
    )


def no_figure() -> Message:
    """Some figure is none."""
    return say("packing-no-figure", "How much beer, how much gas and how warm have to be numbers.")


def most_bar(judged: Bottled) -> Figure:
    """Return the pressure of the fullest bottle, to the tenth above: it may just exceed a limit."""
    return Kind.PRESSURE, to_the_tenth_above(judged.most_bar)


def _points(falls: float) -> Message:
    points = falls / POINT_SG
    if round(points, 1) == 1.0:
        return say("one-point", "1 point")
    return say("points", "{0} points", (Kind.NUMBER, round(points, 1)))
