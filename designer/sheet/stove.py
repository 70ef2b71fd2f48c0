"""The brew day step by step, as it is done at the stove: the sheet's own steps, one at a time.

There is no second list: each step is one of the sheet's, a step with boxes for several boils or
fermenters once for each of them. Where paper tells the start of the boil together with what goes in
first, it is a step of its own here, for pressing it starts the boil's clock.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import partial

from designer.brewday.results import Outlook
from designer.recipe.document import Recipe
from designer.sheet.blanks import Blank, Countdown
from designer.sheet.blocks import Aside, Doing, Portion, Step, Turn, Words
from designer.sheet.boils import pot_or_boil, steps_of
from designer.sheet.content import plain_steps, plan_from
from designer.sheet.figures import Figures
from designer.sheet.language import language as language_of
from designer.sheet.language import language_spoken
from designer.sheet.plan import Plan
from designer.sheet.planned import FERMENTER, Brewed, brewed, since_start
from designer.units import ShownUnits

__all__ = ["ENDED_BY", "Blank", "Countdown", "StoveStep", "stove_steps"]

ASIDES = ("stop", "care", "if", "why")
"""What is said beside a step, the gravest first."""
ENDED_BY = {
    "lift": ("steep",),
    "flame-out": ("boil",),
    "kept hot": ("boil",),
    "stand": ("boil", "kept hot"),
    "cool": ("boil", "kept hot", "stand"),
    "move": ("boil", "kept hot", "stand"),
}
"""Kinds of timers that a step ends when it is done, by its kind."""


@dataclass(frozen=True, slots=True)
class StoveStep:
    """One thing to do now.

    `key` is its lasting name: the same step of the same recipe has the same key whatever else
    changes, so a log can name it. `kind` is "fill", "heat", "steep", "lift", "extract", "boils",
    "addition", "sanitise", "coil", "flame-out", "kept hot", "stand", "cool", "move", "top-up",
    "mix", "read", "pitch", "close", "cover", "rinse" or "other". `mark` is the letter of the bag
    that goes in, or the number of the step. `amount` and `name` are what is read from two metres
    ("400 g", "Light dry malt extract"; "40 °C", "Cool the wort"), `amount` is "" where there is no
    one figure; `title` is both in a line of a list ("400 g Light dry malt extract", "Cool to
    40 °C"). `do` is the sheet's sentence. `whose` is the boil, pot or fermenter where there are
    several. `minutes` counts from the start of the day, as planned. `left_min` is what is left of
    the boil at that moment. `portion_blanks` is what scale and packets may say of what goes in: the
    weight, and of hops the alpha acid. `boil` and `fermenter` count from 1, 0 for none; what is
    done with a fermenter has the boil whose wort came last.
    """

    key: str
    kind: str
    mark: str
    amount: str
    name: str
    do: Words
    minutes: float
    when: str
    left: str
    left_min: float | None
    boil: int
    fermenter: int
    on_day: int
    asides: tuple[Aside, ...] = ()
    portions: tuple[Portion, ...] = ()
    blanks: tuple[Blank, ...] = ()
    starts: Countdown | None = None
    title: str = ""
    whose: str = ""
    portion_blanks: tuple[Blank, ...] = ()


def stove_steps(
    recipe: Recipe,
    outlook: Outlook,
    *,
    shown: ShownUnits,
    start: str | None,
    brew_date: date | None,
    language: str | None = None,
) -> tuple[StoveStep, ...]:
    """Return the steps of the brew day, from filling the pot to closing the fermenter, in order.

    The arguments are those of `brew_sheet`, and so are the words; without a `language` they are in
    that of the program.

    Raises RefusedInputError for a start that is no time of the day, ValueError for an unknown
    language, DesignerError for one whose words are not there.
    """
    words = language_of(language) if language else language_spoken()
    plan = plan_from(recipe, outlook, Figures(shown, words), start, brew_date)
    made = brewed(plan)
    if made is None:
        steps = [each for part in plain_steps(plan) for each in part]
    else:
        steps = [each for boils in made.rounds for each in steps_of(made, boils)]
    told = [each for step in steps for each in _of_step(plan, made, step)]
    in_order = sorted(told, key=partial(_by_time, made))
    return tuple(
        each if each.mark else replace(each, mark=str(number))
        for number, each in enumerate(in_order, 1)
    )


def _by_time(made: Brewed | None, step: StoveStep) -> tuple[float, float]:
    """The minute of a step; before a boil begins, all of those before it is done."""
    begins = 0.0 if made is None else since_start(made.days.boils[step.boil - 1])
    return round(step.minutes, 6), begins


def _of_step(plan: Plan, made: Brewed | None, step: Step) -> Iterator[StoveStep]:
    """A step as it is done: for each box, and what paper joins one after the other."""
    for turn in step.turns or (Turn(1, step.when, step.minutes, step.doings),):
        for doing in turn.doings:
            is_last = doing is turn.doings[-1]
            asides = [
                *(each for each in step.asides if is_last or each.kind == "stop"),
                *doing.asides,
            ]
            yield StoveStep(
                doing.key,
                doing.kind,
                step.bag if is_last else "",
                doing.amount,
                doing.name,
                doing.do,
                turn.minutes,
                turn.when,
                step.left,
                doing.left_min,
                doing.boil,
                doing.fermenter,
                0 if made is None else made.days.boils[doing.boil - 1].on_day,
                tuple(sorted(asides, key=lambda each: ASIDES.index(each.kind))),
                step.portions if is_last else (),
                doing.blanks,
                doing.starts,
                doing.title,
                "" if made is None else _whose(plan, made, doing),
                doing.portion_blanks,
            )


def _whose(plan: Plan, made: Brewed, doing: Doing) -> str:
    """The fermenter or the boil of several, as the sheet calls it; "" where there is one."""
    if doing.fermenter and doing.kind != "move":
        several = len(made.fermenters) > 1
        return plan.say(FERMENTER, number=str(doing.fermenter)) if several else ""
    if len(made.boils) == 1:
        return ""
    boil = made.days.boils[doing.boil - 1]
    boils = next(each for each in made.rounds if boil in each)
    return plan.say(pot_or_boil(made, boils), number=str(doing.boil))
