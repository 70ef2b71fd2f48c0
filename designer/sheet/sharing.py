"""From the pots into the fermenters of a plan: shared out, waiting for more, topped up, pitched.

Wort that waits for another boil is cool and covered, and gets no yeast before all is in; pouring by
turns gives each fermenter the same wort (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from designer.brewday.measured.readings import Measured
from designer.brewday.results import BoilDay, FermenterDay, Poured
from designer.sheet.blocks import Aside, Reading, Step, Words
from designer.sheet.brewing import care, step, why
from designer.sheet.columns import Track, side_by_side
from designer.sheet.doings import in_fermenter, in_pot, volume_blank
from designer.sheet.filling import (
    close_up,
    into_fermenter,
    mix,
    move,
    pitch,
    read_gravity,
    sludge,
    top_up,
    vessel_cares,
    wait_before_moving,
)
from designer.sheet.lifting import pouring
from designer.sheet.plan import GoingIn, Plan
from designer.sheet.planned import FERMENTER, Brewed, label, since_start
from designer.sheet.watching import with_stops


def dissolved(made: Brewed, boil: BoilDay) -> list[Step]:
    """Return what is done in fermenters before their first wort: extract in water just boiled."""
    tracks = []
    for fermenter, _ in made.pours_of(boil):
        if made.first_of(fermenter) is not boil:
            continue
        letter = made.fermenters[fermenter.number - 1].first_letter
        plan = made.of_fermenter(fermenter, boil, letter)
        steps = tuple(
            into_fermenter(plan, each) for each in plan.at("fermenter") if _is_hot(plan, each)
        )
        tracks.append(Track(fermenter.number, steps))
    return _in_fermenters(made, tracks)


def _is_hot(plan: Plan, group: GoingIn) -> bool:
    """Whether it goes in before the wort comes."""
    return group.time_min < plan.spans("move")[0].start_min


def poured(made: Brewed, boil: BoilDay) -> list[Step]:
    """Return how the cooled wort of a boil gets into its fermenters."""
    plan, pours = made.boils[boil.number - 1], made.pours_of(boil)
    if len(pours) > 1:
        return [_stirred(plan), _shared(plan, pours)]
    several = len(made.fermenters) > 1
    return [
        move(_of_pour(plan, *each), _number(made, each[0]), is_one_of_several=several)
        for each in pours
    ]


def _number(made: Brewed, fermenter: FermenterDay) -> int:
    """The number a fermenter is told by; 0 where none is needed."""
    return 0 if made.each_its_own or len(made.fermenters) == 1 else fermenter.number


def _stirred(plan: Plan) -> Step:
    do = plan.words("Stir the wort in the pot gently, top to bottom; let the sludge settle again.")
    layers = plan.say("Wort lies in layers: unstirred, one fermenter gets the stronger share.")
    doing = in_pot(plan, "other", plan.say("Stir the wort gently"), key="stir")
    return step(plan, plan.spans("move")[0].start_min, do, why(layers), doing=doing)


def _shared(plan: Plan, pours: list[tuple[FermenterDay, Poured]]) -> Step:
    figures = plan.figures
    shares: Words = ()
    for fermenter, part in pours:
        share = plan.words(
            "*{volume}* into fermenter *{number}*",
            volume=figures.volume(part.from_pot_l),
            number=str(fermenter.number),
        )
        shares = (*shares, ", ", *share) if shares else share
    do = plan.words(
        "Pour or siphon it through a strainer, *by turns, a jug at a time*: {shares}.",
        shares=shares,
    )
    into = [_of_pour(plan, *each) for each in pours]
    waits = dict.fromkeys(wait_before_moving(each) for each in into)
    cares: list[Aside] = pouring(plan)
    for each in into:
        cares += [care for care in vessel_cares(each) if care not in cares]
    blanks = tuple(
        volume_blank(
            share,
            Measured.INTO_FERMENTER,
            plan.say("Into fermenter {number}", number=str(fermenter.number)),
            part.from_pot_l,
        )
        for share, (fermenter, part) in zip(into, pours, strict=True)
    )
    readings = tuple(Reading(each.label, each.forecast) for each in blanks)
    doing = in_pot(plan, "move", plan.say("Share it between the fermenters"), blanks=blanks)
    do = (*(run for wait in waits for run in wait), *do, *sludge(plan))
    alike = why(plan.say("By turns, each gets the same wort."))
    start = plan.spans("move")[0].start_min
    return step(plan, start, do, *cares, alike, readings=readings, doing=doing)


def _of_pour(plan: Plan, fermenter: FermenterDay, part: Poured) -> Plan:
    """The plan of a boil with what goes of it into one fermenter."""
    filled = replace(
        plan.day.fermenter,
        from_pot_l=part.from_pot_l,
        top_up_l=part.top_up_l,
        frozen_kg=part.frozen_kg,
        hot_l=fermenter.day.fermenter.hot_l if len(fermenter.poured) == 1 else 0.0,
        batch_l=part.filled_l,
    )
    return replace(
        plan,
        fermenter_number=fermenter.number,
        recipe=replace(plan.recipe, fermenter=fermenter.vessel, yeast=fermenter.yeast),
        outlook=replace(plan.outlook, day=replace(plan.day, fermenter=filled)),
    )


def filled(made: Brewed, boil: BoilDay) -> list[Step]:
    """Return what is done with the fermenters once the wort of a boil is in them.

    Those that several boils come into wait; what is done after the last of them: `mixed`.
    """
    tracks = []
    for fermenter, part in made.pours_of(boil):
        if not made.is_mixed(fermenter):
            steps = _finished(made, fermenter, part)
        elif made.last_of(fermenter) is not boil:
            steps = _waiting(made, fermenter, part, boil)
        else:
            continue
        tracks.append(Track(fermenter.number, tuple(steps)))
    return _in_fermenters(made, tracks)


def mixed(made: Brewed, boils: Sequence[BoilDay]) -> list[Step]:
    """Return what is done with fermenters that several boils come into, the last one of these."""
    tracks = []
    for fermenter in made.days.fermenters:
        last = made.last_of(fermenter)
        if made.is_mixed(fermenter) and last in boils:
            part = next(each for each in fermenter.poured if each.boil == last.number)
            steps = [each.later(since_start(last)) for each in _finished(made, fermenter, part)]
            tracks.append(Track(fermenter.number, tuple(steps)))
    return _in_fermenters(made, tracks)


def _in_fermenters(made: Brewed, tracks: list[Track]) -> list[Step]:
    called = partial(label, made.plan, FERMENTER)
    return list(side_by_side(tracks, called, by_clock=True))


def _topping(made: Brewed, fermenter: FermenterDay, part: Poured, boil: BoilDay) -> Plan:
    """The plan of the water that follows the wort of one boil, up to the mark it then stands at."""
    plan = _of_pour(made.boils[boil.number - 1], fermenter, part)
    order = made.in_order(fermenter)
    whole = fermenter.day.fermenter
    if _all_water_last(made, fermenter):
        water = whole
    else:
        before = [each.number for each in order[: order.index(boil) + 1]]
        mark = sum(each.filled_l for each in fermenter.poured if each.boil in before)
        water = replace(plan.day.fermenter, batch_l=mark, frozen_melted=whole.frozen_melted)
    return replace(plan, outlook=replace(plan.outlook, day=replace(plan.day, fermenter=water)))


def _all_water_last(made: Brewed, fermenter: FermenterDay) -> bool:
    """Whether no water is poured between two worts: of pots at once, or onto dissolved extract."""
    last = made.last_of(fermenter)
    return float(fermenter.day.fermenter.hot_l) > 0.0 or made.is_with_others(last)


def _waiting(made: Brewed, fermenter: FermenterDay, part: Poured, boil: BoilDay) -> list[Step]:
    """Topped up as far as its own water goes, then covered until the next wort is in."""
    plan = _topping(made, fermenter, part, boil)
    order = made.in_order(fermenter)
    after = order[order.index(boil) + 1]
    water = [] if _all_water_last(made, fermenter) else top_up(plan)
    span = plan.spans("top up" if water else "move")[0]
    minutes = span.end_min if water else 0.5 * (span.start_min + span.end_min)
    cover, danger = _cover(made, boil, after)
    key = f"cover after boil {boil.number}"
    doing = in_fermenter(plan, "cover", plan.say("Cover it: no yeast yet"), key=key)
    return [*water, step(plan, minutes, cover, care(danger), doing=doing)]


def _cover(made: Brewed, boil: BoilDay, after: BoilDay) -> tuple[Words, str]:
    """How wort is kept until that of the next boil comes, and what not to do."""
    plan, number = made.plan, str(after.number)
    if after.on_day > boil.on_day:
        cover = plan.words(
            "Sanitised lid and airlock on, into the fridge. *No yeast yet*: boil {number} is to "
            "come.",
            number=number,
        )
        danger = plan.say(
            "Wort without yeast spoils overnight unless it is as cold as a fridge. No room there? "
            "Pitch now, and pour the next boil onto the young beer."
        )
        return cover, danger
    if made.is_with_others(after):
        cover = plan.words(
            "Sanitised lid on. *No yeast yet*: only when the wort of pot {number} is in and cool "
            "too, the same day.",
            number=number,
        )
    else:
        cover = plan.words(
            "Sanitised lid and airlock on. *No yeast yet*: only when the wort of boil {number} is "
            "in and cool too, the same day.",
            number=number,
        )
    danger = plan.say(
        "Wort without yeast spoils: covered it waits for hours, never overnight. Do not open, "
        "taste or stir it."
    )
    return cover, danger


def _finished(made: Brewed, fermenter: FermenterDay, part: Poured) -> list[Step]:
    """Topped up to the mark, stirred, read, pitched and closed."""
    plan, boil = made.fermenters[fermenter.number - 1], made.last_of(fermenter)
    cold = [into_fermenter(plan, each) for each in plan.at("fermenter") if not _is_hot(plan, each)]
    water = top_up(_topping(made, fermenter, part, boil))
    packets = plan.yeast_packets
    steps = [*cold, *water, mix(plan), read_gravity(plan), pitch(plan, packets), close_up(plan)]
    return list(with_stops(plan, steps))
