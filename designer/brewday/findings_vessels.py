"""Findings about pot, fermenter, stove, water and cooling."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.cures import (
    frozen_water_for,
    less_start_water,
    rounded_down,
    rounded_up,
    set_volume,
    steep_at,
)
from designer.brewday.foam import foam_line_l
from designer.brewday.inputs import held_by_stove
from designer.brewday.results import Day, Finding, doubt
from designer.recipe.choices import is_grain
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangePart, Edit
from designer.recipe.fields import facts_of, number, number_or_none
from designer.recipe.kinds import typed
from designer.recipe.message import say, word
from designer.recipe.place import Place
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.wort.heat import STOVE_EFFICIENCY, evaporation_kg_h
from designer.wort.steeping import HOTTEST_STEEP_C
from designer.wort.water import WATER_KG_PER_L

TOO_COOL_STEEP_C = 60.0
USUAL_STEEP_C = 68.0
WARMEST_PITCH_C = 25.0
PITCH_NEAR_C = 5.0
MOST_HEADSPACE = 0.9
"""A vessel that is to be emptier than that is a figure gone wrong; common practice, no source."""
ROUNDING_L = 0.05
LONG_TO_HEAT_MIN = 180.0
"""So long a pot heats in all before the boil, where it is said; judgement."""
FIT = "fit"
"""The page that has the ways to brew it in these vessels."""
_HEATING = ("heat water", "heat to boil")


def pot_too_full(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """The pot overflows, or foam has no room at the boil."""
    rim = number_or_none(recipe.pot, "volume")
    if rim is None:
        yield doubt(
            Severity.NOTE,
            Place("pot", "volume"),
            "pot-unknown",
            "Say how large the pot is to see whether it fits.",
        )
        return
    foam = foam_line_l(recipe.pot) or 0.0
    fullest, boiling = float(day.pot.fullest_l), float(day.pot.fullest_boiling_l)
    too_full = boiling > foam + ROUNDING_L

    def less_water() -> Edit | None:
        return less_start_water(recipe, day, boiling - foam) if too_full else None

    if fullest > rim:
        yield doubt(
            Severity.STOP,
            Place("process", "start_water"),
            "pot-overflows",
            "{0} in the pot will not fit its {1} ({stage}). Start with less water "
            "and top up in the fermenter, or take a larger pot.",
            (Kind.VOLUME, fullest),
            (Kind.VOLUME, rim),
            stage=word(day.pot.fullest_at),
            seeks=less_water,
            leads_to=FIT,
        )
    elif too_full:
        yield doubt(
            Severity.CARE,
            Place("process", "start_water"),
            "foam-room",
            "At the boil the pot holds {0}, above the {1} that leave room for foam under its "
            "{2} rim. It may boil over: stay with it, or start with less water.",
            (Kind.VOLUME, boiling),
            (Kind.VOLUME, foam),
            (Kind.VOLUME, rim),
            seeks=less_water,
        )


def fermenter_too_full(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """The fermenter overflows, or krausen has no room."""
    brim = number_or_none(recipe.fermenter, "volume")
    if brim is None:
        return
    batch = float(day.fermenter.batch_l)
    headspace = number(recipe.fermenter, "headspace")
    room = brim * (1.0 - headspace)
    if batch <= room + ROUNDING_L:
        return
    if headspace > MOST_HEADSPACE and batch <= brim:
        usual = facts_of(recipe.fermenter, "headspace").default or 0.0
        room_left = typed(Kind.FRACTION, usual)
        yield doubt(
            Severity.CARE,
            Place("fermenter", "headspace"),
            "krausen-room",
            "{0} of room for krausen leaves no more than {1} for beer in the fermenter; {2} is "
            "usual.",
            (Kind.FRACTION, headspace),
            (Kind.VOLUME, room),
            (Kind.FRACTION, usual),
            fix=ChangePart(
                "fermenter",
                "headspace",
                room_left,
                say("leave-room", "Leave {0}", (Kind.FRACTION, room_left)),
            ),
        )
        return
    lower = rounded_down(room, 0.1)
    fix = None
    if float(day.fermenter.from_pot_l) < lower and recipe.process.top_up_to is not None:
        fix = set_volume("top_up_to", lower, say("top-up-to", "Top up to {0}"))
    over = batch > brim
    yield doubt(
        Severity.STOP if over else Severity.CARE,
        Place("process", "top_up_to"),
        "fermenter-overflows" if over else "krausen-room",
        "{0} will not fit the {1} fermenter. Top up to {2} at most, or take a larger one."
        if over
        else "{0} in the {1} fermenter leaves little room for foam: {2} is the most that "
        "does. Or fit a blow-off tube.",
        (Kind.VOLUME, batch),
        (Kind.VOLUME, brim),
        (Kind.VOLUME, room),
        fix=fix,
        leads_to=FIT,
    )


def no_top_up_possible(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """The mark lies below what the pot gives."""
    mark = number_or_none(recipe.process, "top_up_to")
    batch = float(day.fermenter.batch_l)
    if mark is not None and batch > mark + ROUNDING_L:
        enough = rounded_up(batch, 0.1)
        yield doubt(
            Severity.CARE,
            Place("process", "top_up_to"),
            "no-top-up",
            "{0} come from the pot: more than the {1} of the top-up mark, so no water goes in and "
            "the batch is larger and weaker. Start with less water, or raise the mark.",
            (Kind.VOLUME, batch),
            (Kind.VOLUME, mark),
            fix=set_volume("top_up_to", enough, say("make-it", "Make it {0}")),
        )


def no_water(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """No water at all, or a pot that boils dry."""
    if number_or_none(recipe.process, "start_water") in (None, 0.0):
        yield doubt(
            Severity.STOP,
            Place("process", "start_water"),
            "no-water",
            "Say how much water the pot starts with.",
        )
    elif float(day.pot.boil_gravity_end) > 1.2:
        yield doubt(
            Severity.STOP,
            Place("process", "start_water"),
            "boils-dry",
            "The boil ends at {0}, a syrup that burns on to the pot. Start with more water, or "
            "put extract in late.",
            (Kind.GRAVITY, float(day.pot.boil_gravity_end)),
            leads_to=FIT,
        )


def stove(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """A stove that cannot reach the boil, or not drive off what was typed."""
    power = number(recipe.pot, "power")
    net = STOVE_EFFICIENCY[recipe.pot.stove] * power
    loss = number(recipe.pot, "heat_loss")
    left = net - loss * (float(day.pot.boiling_c) - number(recipe.process, "room_temperature"))
    most_l_h = max(float(evaporation_kg_h(left)), 0.0) / WATER_KG_PER_L
    wanted = number(recipe.process, "evaporation")
    if not day.pot.reached_boil:
        yield doubt(
            Severity.STOP,
            Place("pot", "power"),
            "no-boil",
            "A {0} stove cannot bring this pot to the boil. Boil less at a time, cover part "
            "of the pot, or use a stronger stove.",
            (Kind.POWER, power),
        )
    elif held_by_stove(recipe) and wanted > 1.02 * most_l_h:
        most = typed(Kind.EVAPORATION, round(most_l_h, 2))
        yield doubt(
            Severity.NOTE,
            Place("process", "evaporation"),
            "evaporation-held",
            "{0} of evaporation takes more heat than the {1} stove gives: the forecast uses {2}. "
            "Boil plain water once, and type what it loses with its ±.",
            (Kind.EVAPORATION, wanted),
            (Kind.POWER, power),
            (Kind.EVAPORATION, most_l_h),
            fix=ChangePart(
                "process",
                "evaporation",
                most,
                say("count-on-evaporation", "Count on {0}", (Kind.EVAPORATION, most)),
            ),
        )
    elif wanted > 1.1 * most_l_h:
        yield doubt(
            Severity.NOTE,
            Place("process", "evaporation"),
            "evaporation-too-high",
            "{0} of evaporation takes more heat than the {1} stove gives: {2} at the most. "
            "Measure it once with plain water.",
            (Kind.EVAPORATION, wanted),
            (Kind.POWER, power),
            (Kind.EVAPORATION, most_l_h),
        )


def slow_stove(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """A stove that reaches the boil, but only after hours."""
    heating = sum(each.end_min - each.start_min for each in day.spans if each.key in _HEATING)
    if day.pot.reached_boil and heating > LONG_TO_HEAT_MIN:
        power = number(recipe.pot, "power")
        yield doubt(
            Severity.CARE,
            Place("pot", "power"),
            "slow-stove",
            "A {0} stove heats this pot for {1} before it boils. Boil less at a time, or use a "
            "stronger stove.",
            (Kind.POWER, power),
            (Kind.TIME, heating),
        )


def steep_heat(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """A steep outside its window draws tannin or little."""
    if not any(is_grain(line.kind) for line in recipe.fermentables):
        return
    wanted, got = number(recipe.process, "steep_temperature"), float(day.steep.steeped_c)
    if wanted > HOTTEST_STEEP_C:
        yield doubt(
            Severity.CARE,
            Place("process", "steep_temperature"),
            "steep-too-hot",
            "Steeping at {0} draws tannin from the husks; stay below {1} (Palmer, How to Brew).",
            (Kind.TEMPERATURE, wanted),
            (Kind.TEMPERATURE, HOTTEST_STEEP_C),
            fix=steep_at(USUAL_STEEP_C),
        )
    elif wanted < TOO_COOL_STEEP_C:
        yield doubt(
            Severity.NOTE,
            Place("process", "steep_temperature"),
            "steep-too-cool",
            "Yields are known for steeps at 66 to 77 °C; at {0} less comes out.",
            (Kind.TEMPERATURE, wanted),
            fix=steep_at(USUAL_STEEP_C),
        )
    elif got < wanted - 2.0:
        yield doubt(
            Severity.CARE,
            Place("process", "steep_temperature"),
            "steep-not-reached",
            "So much grain cools the water to {0}, below the {1} wanted, even put in at the "
            "boil. Take more water or less grain.",
            (Kind.TEMPERATURE, got),
            (Kind.TEMPERATURE, wanted),
        )


def pitching_heat(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Wort too warm or too cold for the yeast once mixed."""
    pitch, mixed = number(recipe.process, "pitch_temperature"), float(day.fermenter.mixed_c)
    figures = ((Kind.TEMPERATURE, mixed), (Kind.TEMPERATURE, pitch))

    def freeze() -> Edit | None:
        return frozen_water_for(recipe, day, pitch)

    if mixed > min(pitch + PITCH_NEAR_C, max(WARMEST_PITCH_C, pitch)):
        yield doubt(
            Severity.CARE,
            Place("process", "frozen_top_up"),
            "too-warm",
            "The mixed wort will be at {0}, too warm to pitch the yeast at {1}. Freeze more of "
            "the top-up, cool the pot longer, or wait with the lid on.",
            *figures,
            seeks=freeze,
        )
    elif mixed < pitch - PITCH_NEAR_C:
        yield doubt(
            Severity.CARE,
            Place("process", "frozen_top_up"),
            "too-cold",
            "The mixed wort will be at {0}, below the {1} to pitch at. Freeze less of the top-up.",
            *figures,
            seeks=freeze,
        )


def frozen_left_over(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """More frozen water than the top-up takes, or ice that does not melt."""
    typed, used = number(recipe.process, "frozen_top_up"), float(day.fermenter.frozen_kg)
    if typed > used + 0.05:
        yield doubt(
            Severity.NOTE,
            Place("process", "frozen_top_up"),
            "frozen-left-over",
            "Of {0} of frozen water only {1} fit below the top-up mark.",
            (Kind.MASS, typed),
            (Kind.MASS, used),
        )
    elif not day.fermenter.frozen_melted:
        yield doubt(
            Severity.CARE,
            Place("process", "frozen_top_up"),
            "ice-remains",
            "Not all of the {0} of frozen water melts: pitch only when it has, at pitching "
            "temperature.",
            (Kind.MASS, used),
        )


FINDERS = (
    no_water,
    pot_too_full,
    fermenter_too_full,
    no_top_up_possible,
    stove,
    slow_stove,
    steep_heat,
    pitching_heat,
    frozen_left_over,
)
