"""The brew day of a plan: its boils one after the other, twice the same, or pots at once.

Boils that are alike are told once, with a box for each; pots that are heated at once are told in
order of time, each step with the box of its pot.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from designer.brewday.results import BoilDay
from designer.sheet.blocks import Block, Paragraph, Section, Step, Steps, Words
from designer.sheet.boiling import boil as boiled
from designer.sheet.brewing import otherwise, step, to_the_boil
from designer.sheet.chilling import cooling
from designer.sheet.columns import Track, side_by_side
from designer.sheet.correcting import correction_table
from designer.sheet.doings import in_pot
from designer.sheet.drawings import drawn_of
from designer.sheet.language import message
from designer.sheet.plan import Plan
from designer.sheet.planned import BOIL, POT, Brewed, label, ready_min, since_start
from designer.sheet.sharing import dissolved, filled, mixed, poured
from designer.sheet.watching import with_stops

Round = tuple[BoilDay, ...]
ALONE = message(
    "Alone? Light the second pot 15 min later: all its times move with it, and only one comes to "
    "the boil at a time."
)


def brew_days(made: Brewed) -> tuple[Section, ...]:
    """Return the boils of the plan, each round of them a section."""
    return tuple(_section(made, each, number) for number, each in enumerate(made.rounds))


def _section(made: Brewed, boils: Round, place: int) -> Section:
    plan = made.plan
    numbers = ", ".join(str(each.number) for each in boils)
    title = plan.say("Brew day")
    if len(made.rounds) > 1:
        title = plan.say(pot_or_boil(made, boils), number=numbers)
    steps = steps_of(made, boils)
    if _by_clock(made, boils):
        steps = _each_reason_once(steps)
    blocks: list[Block] = [Paragraph(each) for each in _told_first(made, boils)]
    plans = [made.boils[each.number - 1] for each in boils]
    blocks += drawn_of(made, plans, with_tanks=place == 0)
    blocks += _with_table(made, steps, first=place == 0 or not _reads(made, made.rounds[:place]))
    return Section(
        "brew" if place == 0 else f"brew-{place + 1}", title, _lead(made, boils), tuple(blocks)
    )


def pot_or_boil(made: Brewed, boils: Round) -> str:
    """Return what the boils of a round are told by: their number, or that of their pot."""
    return POT if made.is_at_once(boils) else BOIL


def steps_of(made: Brewed, boils: Round) -> tuple[Step, ...]:
    """Return the steps of a round, a box for each of its boils or fermenters."""
    by_clock = _by_clock(made, boils)
    tracks = [_track(made, each) for each in boils]
    called = partial(label, made.plan, pot_or_boil(made, boils))
    steps = side_by_side(tracks, called, by_clock=by_clock)
    steps = (*steps, *mixed(made, boils))
    return tuple(sorted(steps, key=lambda each: each.minutes)) if by_clock else steps


def _by_clock(made: Brewed, boils: Round) -> bool:
    return made.is_at_once(boils) and not made.days.boils_alike


def _track(made: Brewed, boil: BoilDay) -> Track:
    """All of one boil, from cold water to what is in the fermenters."""
    plan = made.boils[boil.number - 1]
    before = [*to_the_boil(plan), *boiled(plan), *cooling(plan), *dissolved(made, boil)]
    steps = [*with_stops(plan, [*before, *poured(made, boil)]), *filled(made, boil)]
    steps += [_rinsed(plan)] if made.is_used_again(boil) else []
    since = since_start(boil)
    if made.is_with_others(boil) and boil.number > 1:
        steps = [_lit_later(plan, steps[0]), *steps[1:]]
    return Track(boil.number, tuple(each.later(since) for each in steps))


def _lit_later(plan: Plan, filling: Step) -> Step:
    """What paper says before the steps of pots at once is said at the stove where it is done."""
    first, *others = filling.doings
    first = replace(first, asides=(*first.asides, otherwise(plan.say(ALONE))))
    return replace(filling, doings=(first, *others))


def _rinsed(plan: Plan) -> Step:
    end = float(plan.day.total_min)
    do = plan.words("Rinse pot, spoon, bag and strainer for the next boil.")
    return step(plan, end, do, doing=in_pot(plan, "rinse", plan.say("Rinse for the next boil")))


def _each_reason_once(steps: Sequence[Step]) -> tuple[Step, ...]:
    """The steps of several pots with each reason and remedy said at the first; cautions at all."""
    said: set[str] = set()
    made = []
    for each in steps:
        asides = tuple(a for a in each.asides if a.kind in ("care", "stop") or a.text not in said)
        said.update(aside.text for aside in each.asides)
        made.append(replace(each, asides=asides))
    return tuple(made)


def _lead(made: Brewed, boils: Round) -> str:
    plan = made.plan
    end = plan.clock(max(ready_min(each) for each in boils))
    return plan.say("{start} to about {end}", start=plan.clock(since_start(boils[0])), end=end)


def _told_first(made: Brewed, boils: Round) -> list[Words]:
    """How the boxes are meant, where there are several."""
    plan, count = made.plan, len(boils)
    if count == 1:
        return []
    if made.is_at_once(boils):
        pots = plan.parted(
            f"{label(plan, POT, each.number)} {plan.name_of(each.recipe.pot.name)}"
            for each in boils
        )
        return [
            (
                *plan.words(
                    "*{number} pots at once*: box 1 is for pot 1, and so on.", number=str(count)
                ),
                f" {pots}. ",
                plan.say(ALONE),
            )
        ]
    if count == 2:
        said = plan.words(
            "*Do all of this twice*: boxes and blanks 1 are for the first boil, 2 for the second."
        )
    else:
        said = plan.words(
            "*Do all of this {number} times*: boxes and blanks 1 are for the first boil, 2 for the "
            "second, and so on.",
            number=str(count),
        )
    if made.each_its_own:
        own = plan.words("Each boil goes into a fermenter of its own, numbered like it.")
        said = (*said, " ", *own)
    return [said]


def _reads(made: Brewed, rounds: tuple[Round, ...]) -> bool:
    """Whether any gravity is read in these rounds."""
    last = [made.last_of(each) for each in made.days.fermenters]
    return any(boil in last for boils in rounds for boil in boils)


def _with_table(made: Brewed, steps: tuple[Step, ...], *, first: bool) -> list[Block]:
    """The steps, the first reading with its corrections."""
    read = next((n for n, each in enumerate(steps) if any(r.also for r in each.readings)), None)
    if read is None or not first:
        return [Steps(steps)]
    return [Steps(steps[: read + 1]), correction_table(made.plan), Steps(steps[read + 1 :])]
