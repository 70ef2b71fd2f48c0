"""What the panels show of a beer, put into words and figures."""

from __future__ import annotations

from itertools import pairwise

from designer.brewday.fermenting.beer_words import points_of, stuck_advice
from designer.brewday.fermenting.course import CoursePoint, Standing
from designer.brewday.fermenting.warmths import Stretch, drawn_together
from designer.recipe.day_words import day_words
from designer.recipe.message import Message
from designer.recipe.quantity import Kind
from designer.translation import tr, trn
from designer.window.brew.fermenting.course_shown import CourseShown, ReadingShown, WarmthShown
from designer.window.brew.fermenting.standing_panel import StandingShown
from designer.window.parts.display_format import DisplayFormat
from designer.workbench.brew.beer import READS_AGAIN, BeerNow, BeerSample
from designer.wort.fermentation import KJ_PER_KCAL

TROUBLED = (Standing.SLOW, Standing.STUCK)
MOST_STRETCHES = 8
"""So many temperatures can be read below the picture; those of a logger are drawn together."""


def course_shown(beer: BeerNow, display: DisplayFormat, keep: str) -> CourseShown:
    """Return the picture of a fermentation; `keep` says how warm it is to be kept."""
    found = beer.fermenting
    points = found.forecast or found.course
    ends = found.forecast_end or found.ends_at
    short = display.short
    return CourseShown(
        points,
        ends,
        tuple(
            each
            for each in (_reading(one, beer, display) for one in _in_order(beer))
            if each is not None
        ),
        _warmths(beer, display),
        beer.now_day,
        _again(beer),
        keep,
        tr(
            "forecast to end at {low} to {high}",
            low=short(Kind.GRAVITY, ends.low),
            high=short(Kind.GRAVITY, ends.high),
        ),
        _known(beer),
    )


def _known(beer: BeerNow) -> tuple[CoursePoint, ...]:
    """Return the band from the last reading on, as it is known by then; none before a reading."""
    if not beer.readings:
        return ()
    since = beer.readings[-1].day
    return tuple(each for each in beer.fermenting.course if each.day >= since)


def _in_order(beer: BeerNow) -> list[BeerSample]:
    return sorted(beer.samples, key=lambda each: each.day)


def _reading(sample: BeerSample, beer: BeerNow, display: DisplayFormat) -> ReadingShown | None:
    if sample.reading is None:
        return None
    figure = display.short(Kind.GRAVITY, sample.reading.gravity)
    when = beer.when(sample.day)
    said = tr(
        "{figure} on {day}, day {number}: typed {typed}",
        figure=figure,
        day="" if when is None else day_words(when.date()),
        number=int(sample.day),
        typed=sample.typed,
    )
    return ReadingShown(sample.entry, sample.day, sample.reading.gravity, figure, said)


def _warmths(beer: BeerNow, display: DisplayFormat) -> tuple[WarmthShown, ...]:
    """Return how warm it was, stretches that read alike as one."""
    found: list[WarmthShown] = []
    if not beer.warmths:
        return ()
    told = sorted(beer.warmths, key=lambda each: each.day)
    noted = drawn_together(
        tuple(Stretch(max(each.day, 0.0), each.temp_c) for each in told), MOST_STRETCHES
    )
    ends = [*(each.day for each in noted[1:]), max(beer.now_day, noted[-1].day)]
    for each, until in zip(noted, ends, strict=True):
        figure = display.short(Kind.TEMPERATURE, each.temp_c)
        if found and found[-1].figure == figure:
            found[-1] = WarmthShown(found[-1].day, until, figure)
        else:
            found.append(WarmthShown(each.day, until, figure))
    return tuple(found)


def _again(beer: BeerNow) -> tuple[float, str] | None:
    step = next(((d, what) for d, what in beer.fermenting.steps if what.id in READS_AGAIN), None)
    if step is None:
        return None
    when = beer.when(step[0])
    words = tr("read again, {day}", day="" if when is None else day_words(when.date()))
    if not beer.samples:
        words = tr("read first, {day}", day="" if when is None else day_words(when.date()))
    return step[0], words


def standing_shown(beer: BeerNow, display: DisplayFormat) -> StandingShown:
    """Return where a beer stands."""
    found = beer.fermenting
    troubled = found.standing in TROUBLED
    return StandingShown(
        said(found.title, display),
        said(found.words, display),
        _figures(beer, display),
        _dates(beer, display),
        tuple(said(each, display) for each in found.advice),
        ()
        if troubled or found.standing in (Standing.DONE, Standing.NOT_READ)
        else tuple(said(each, display) for each in stuck_advice()),
        is_done=found.standing is Standing.DONE,
    )


def said(message: Message, display: DisplayFormat) -> str:
    """Return a message in the units that are shown."""
    return message.said(display.short)


def _figures(beer: BeerNow, display: DisplayFormat) -> tuple[tuple[str, str, str], ...]:
    found = beer.fermenting
    told: list[tuple[str, str, str]] = []
    if found.abv_percent is not None:
        kcal, tip = found.kcal_per_100ml, ""
        if kcal is not None:
            tip = tr(
                "{kj} kJ ({kcal} kcal) in 100 mL",
                kj=f"{KJ_PER_KCAL * kcal:.0f}",
                kcal=f"{kcal:.0f}",
            )
        alcohol = display.decimal(f"{found.abv_percent:.1f} %")
        told.append((tr("Alcohol now"), alcohol, tip))
    if found.apparent_attenuation is not None:
        tip = ""
        if found.real_attenuation is not None:
            real = f"{100.0 * found.real_attenuation:.0f} %"
            tip = tr("As the hydrometer tells it; of all that was there, {real}", real=real)
        told.append((tr("Eaten by the yeast"), f"{100.0 * found.apparent_attenuation:.0f} %", tip))
    low, high = points_of(found.may_fall)
    if told:
        falls = trn("{number} point", "{number} points", high) if low >= high else tr(
            "{low} to {high} points", low=low, high=high
        )  # fmt: skip
        tip = tr("A point is 0.001 of gravity; each makes half a volume of gas in a bottle")
        told.append((tr("May still fall by"), falls, tip))
    return tuple(told)


def _dates(beer: BeerNow, display: DisplayFormat) -> tuple[tuple[str, str], ...]:
    dates = beer.dates
    told = [(str(day_words(when.date())), said(what, display)) for when, what in dates]
    for number, (before, one) in enumerate(pairwise([when.date() for when, _ in dates]), start=1):
        if before == one:
            told[number] = tr("the same day"), told[number][1]
    return tuple(told)


def pitched_words(beer: BeerNow, display: DisplayFormat) -> str:
    """Return since when it ferments, and what it began with."""
    when = beer.when(0.0)
    day = "" if when is None else f"{day_words(when.date())}, {when:%H:%M}"
    return tr("pitched {day} · {original}", day=day, original=said(beer.original_words, display))
