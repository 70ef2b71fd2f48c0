"""What a chosen style says of a forecast, in words: inside, mostly inside, or how far off."""

from __future__ import annotations

from enum import Enum, auto
from typing import NamedTuple

from designer.brewday.asked_ranges import misses
from designer.brewday.results import Range
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.shown_scale import apart, number_shown


class Stands(Enum):
    """How a forecast and its range lie to the range of a style."""

    INSIDE = auto()
    MOSTLY = auto()
    OUTSIDE = auto()


class Verdict(NamedTuple):
    """How a forecast stands to a style, in words and in fewer and fewer."""

    stands: Stands
    forms: tuple[str, ...]


def judged(
    key: str, found: Range, asked: tuple[float, float], style: str, display: DisplayFormat
) -> Verdict:
    """Return how a forecast stands to what a style asks for.

    Figures are compared as they are read, so that no word contradicts them.
    """
    low, high, least, most = (
        number_shown(key, each, display) for each in (found.low, found.high, *asked)
    )
    missed = misses({key: found.value}, {key: asked})
    off = apart(key, found.value, missed[0].limit, display) if missed else ""
    if off:
        return Verdict(Stands.OUTSIDE, _off(off, style, is_above=missed[0].is_above))
    below = apart(key, found.low, asked[0], display) if low < least else ""
    above = apart(key, found.high, asked[1], display) if high > most else ""
    if not below and not above:
        return Verdict(Stands.INSIDE, (tr("inside {style}", style=style), tr("inside")))
    return Verdict(Stands.MOSTLY, _may_be(below, above))


def _off(off: str, style: str, *, is_above: bool) -> tuple[str, ...]:
    if is_above:
        text = tr("{more} above {style}", more=off, style=style)
        return text, tr("{more} above", more=off), tr("above")
    text = tr("{less} below {style}", less=off, style=style)
    return text, tr("{less} below", less=off), tr("below")


def _may_be(below: str, above: str) -> tuple[str, ...]:
    if below and above:
        text = tr("mostly inside, may be {less} below or {more} above", less=below, more=above)
        between = tr("{less} below to {more} above", less=below, more=above)
        return text, between, tr("may be outside")
    if above:
        text = tr("mostly inside, may be {more} above", more=above)
        return text, tr("may be {more} above", more=above), tr("may be above")
    text = tr("mostly inside, may be {less} below", less=below)
    return text, tr("may be {less} below", less=below), tr("may be below")
