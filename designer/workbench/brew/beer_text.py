"""The beer in the fermenter as text and as the plain values of its JSON."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from itertools import pairwise
from typing import Any

from designer.brewday.fermenting.beer_words import points_of
from designer.brewday.fermenting.course import BeerReading, CoursePoint, Fermenting
from designer.brewday.results import Range
from designer.recipe.day_words import day_and_year, day_words
from designer.recipe.message import Message
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.workbench.brew.beer import BeerNow, BeerSample
from designer.workbench.figures import PLAIN, Figures

Say = Callable[[Message], str]


def beer_lines(
    beer: BeerNow, packaged_on: date | None = None, figures: Figures = PLAIN
) -> Iterator[str]:
    """Return what is known of a beer, in lines."""
    said, found = figures.said, beer.fermenting
    yield _head(beer, said)
    if packaged_on is not None:
        yield tr("It was packaged on {day}.", day=day_and_year(packaged_on).text)
    yield tr("{title}. {words}", title=said(found.title), words=said(found.words))
    yield from _figures(found, figures)
    end = found.forecast_end or found.ends_at
    yield tr(
        "Forecast to end at {low} to {high}",
        low=figures(Kind.GRAVITY, end.low),
        high=figures(Kind.GRAVITY, end.high),
    )
    for each in beer.samples:
        yield from _sample(each, beer, figures)
    if packaged_on is None:
        for when, what in beer.dates:
            yield tr("{day}: {what}", day=day_words(when.date()).text, what=said(what))
        for caution in found.advice:
            yield tr("Mind: {caution}", caution=said(caution))


def _head(beer: BeerNow, said: Say) -> str:
    when = beer.when(0.0)
    pitched = tr(
        "pitched {day}, {clock}",
        day="?" if when is None else day_words(when.date()).text,
        clock="?" if when is None else f"{when:%H:%M}",
    )
    day = tr("day {day}", day=int(beer.now_day))
    return f"{pitched} · {day} · {said(beer.original_words)}"


def _figures(found: Fermenting, figures: Figures) -> Iterator[str]:
    if found.abv_percent is None or found.apparent_attenuation is None:
        return
    least, most = points_of(found.may_fall)
    yield tr(
        "Alcohol now {alcohol} % · eaten by the yeast {eaten} %, really {real} % · {kcal} kcal in "
        "100 mL",
        alcohol=figures.number(found.abv_percent, 1),
        eaten=f"{100 * found.apparent_attenuation:.0f}",
        real=f"{100 * (found.real_attenuation or 0.0):.0f}",
        kcal=f"{found.kcal_per_100ml or 0.0:.0f}",
    )
    yield tr("May still fall by {least} to {most} points", least=least, most=most)


def _sample(each: BeerSample, beer: BeerNow, figures: Figures) -> Iterator[str]:
    when = "?" if (at := beer.when(each.day)) is None else day_words(at.date()).text
    if each.reading is None:
        yield tr("  {when}, day {day}: {typed}", when=when, day=round(each.day), typed=each.typed)
    else:
        due = expected_on(beer.fermenting, each.reading)
        yield tr(
            "  {when}, day {day}: {gravity}, typed as {typed}; {low} to {high} was expected",
            when=when,
            day=round(each.day),
            typed=each.typed,
            gravity=figures(Kind.GRAVITY, each.reading.gravity),
            low=figures(Kind.GRAVITY, due.low),
            high=figures(Kind.GRAVITY, due.high),
        )
    if each.by_refractometer is not None:
        yield f"    {figures.said(each.by_refractometer.words)}"


def expected_on(found: Fermenting, reading: BeerReading) -> Range:
    """Return what the forecast had on the day of a reading."""
    band = found.forecast or found.course
    for one, other in pairwise(band):
        if one.day <= reading.day <= other.day:
            return _between(one, other, (reading.day - one.day) / (other.day - one.day))
    return band[-1].gravity


def _between(one: CoursePoint, other: CoursePoint, part: float) -> Range:
    def at(first: float, second: float) -> float:
        return first + part * (second - first)

    return Range(
        at(one.gravity.value, other.gravity.value),
        at(one.gravity.low, other.gravity.low),
        at(one.gravity.high, other.gravity.high),
    )


def beer_document(name: str, beer: BeerNow) -> dict[str, Any]:
    """Return a beer as plain values; `resources/schemas/beer.json` says what each is."""
    found = beer.fermenting
    return {
        "name": name,
        "fermenter": beer.fermenter,
        "pitched": _iso(beer, 0.0),
        "day": round(beer.now_day, 3),
        "original_gravity": round(beer.original, 5),
        "standing": str(found.standing),
        "title": str(found.title),
        "message": str(found.words),
        "expected_end": _range(found.forecast_end or found.ends_at),
        "ends_at": _range(found.ends_at),
        "may_fall": [round(each, 5) for each in found.may_fall],
        "abv_percent": _rounded(found.abv_percent, 2),
        "apparent_attenuation": _rounded(found.apparent_attenuation, 4),
        "real_attenuation": _rounded(found.real_attenuation, 4),
        "kcal_per_100ml": _rounded(found.kcal_per_100ml, 1),
        "warmest_since_done_c": _rounded(found.warmest_since_done_c, 2),
        "readings": [_reading(beer, each) for each in beer.samples],
        "course": [{"day": each.day, **_range(each.gravity)} for each in found.course],
        "what_to_do": [
            {"date": when.date().isoformat(), "message": str(what)} for when, what in beer.dates
        ],
        "advice": [str(each) for each in found.advice],
    }


def _reading(beer: BeerNow, each: BeerSample) -> dict[str, Any]:
    reading = each.reading
    return {
        "when": _iso(beer, each.day),
        "day": round(each.day, 3),
        "typed": each.typed,
        "gravity": None if reading is None else round(reading.gravity, 5),
        "half_width": None if reading is None else round(reading.half_width, 5),
        "by_refractometer": each.by_refractometer is not None,
        "expected": None if reading is None else _range(expected_on(beer.fermenting, reading)),
        "message": None if each.by_refractometer is None else str(each.by_refractometer.words),
    }


def _range(found: Range) -> dict[str, float]:
    told = {"value": found.value, "low": found.low, "high": found.high}
    return {key: round(value, 5) for key, value in told.items()}


def _rounded(value: float | None, places: int) -> float | None:
    return None if value is None else round(value, places)


def _iso(beer: BeerNow, day: float) -> str | None:
    when = beer.when(day)
    return None if when is None else when.isoformat(timespec="minutes")
