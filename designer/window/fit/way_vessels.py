"""Pots and fermenters of a way, to be drawn: foam line, krausen line, and how full they come."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from math import isfinite
from typing import TYPE_CHECKING

from designer.brewday.fit.wish import room_l
from designer.recipe.quantity import Kind
from designer.translation import named, tr
from designer.window.fit.side_by_side import distinct, lots
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks
from designer.window.parts.vessels_drawing import SEEN_THROUGH_CM, Level, Vessel
from designer.wort.swatch import swatch_hex

if TYPE_CHECKING:
    from designer.brewday.fit.answer import Boil, Way
    from designer.brewday.results import FermenterDay


def vessels_of(way: Way, display: DisplayFormat, inks: Inks) -> tuple[Vessel, ...]:
    """Return the pot of each boil, and each fermenter; those that are filled alike but once."""
    pots = [_pot(boil, display, inks) for boil in distinct(way)]
    return (*pots, *_fermenters(way, display, inks))


def _beer(boil: Boil) -> str:
    return swatch_hex(float(boil.day.beer.colour_srm), SEEN_THROUGH_CM)


def _pot(boil: Boil, display: DisplayFormat, inks: Inks) -> Vessel:
    most = tr("fullest {volume}", volume=display.short(Kind.VOLUME, boil.fullest_l))
    levels = [Level(boil.fullest_l, most, most, inks.ink)]
    if isfinite(boil.foam_limit_l):
        line = display.short(Kind.VOLUME, boil.foam_limit_l)
        text = tr("foam line {volume}", volume=line)
        levels.append(Level(boil.foam_limit_l, text, text, inks.foam))
    rim = boil.rim_l if isfinite(boil.rim_l) else None
    return Vessel(named(boil.recipe.pot.name), rim, boil.fullest_l, _beer(boil), tuple(levels))


def _fermenters(way: Way, display: DisplayFormat, inks: Inks) -> Iterator[Vessel]:
    drawn = [_fermenter(each, display, inks) for each in way.plan.fermenters]
    for vessel, count in Counter(drawn).items():
        name = vessel.name if count == 1 or lots(way) > 1 else f"{count} × {vessel.name}"
        yield replace(vessel, name=name)


def _fermenter(each: FermenterDay, display: DisplayFormat, inks: Inks) -> Vessel:
    filled_l, from_pot_l = round(each.total_l, 2), round(each.from_pot_l, 2)
    whole = display.short(Kind.VOLUME, filled_l)
    wort = tr("{volume} wort", volume=display.short(Kind.VOLUME, from_pot_l))
    levels = [
        Level(filled_l, whole, whole, inks.ink),
        Level(from_pot_l, wort, wort, inks.ink_soft),
    ]
    most_l = room_l(each.vessel)
    if isfinite(most_l):
        text = tr("krausen line {volume}", volume=display.short(Kind.VOLUME, most_l))
        levels.append(Level(most_l, text, text, inks.foam))
    beer = swatch_hex(float(each.day.beer.colour_srm), SEEN_THROUGH_CM)
    return Vessel(named(each.vessel.name), each.brim_l, filled_l, beer, tuple(levels))
