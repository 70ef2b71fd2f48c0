"""What a step is at the stove, told where the step is written: its lasting key, and it in short.

A key is made of the place and of the ids of the lines that go in, so it is the same whatever their
amounts, times and names, and in whatever language and units.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from designer.brewday.measured.readings import By, Measured
from designer.recipe.quantity import Kind
from designer.sheet.blanks import Blank, Countdown
from designer.sheet.blocks import Doing, Portion
from designer.sheet.plan import GoingIn, Plan


def in_pot(
    plan: Plan,
    kind: str,
    title: str = "",
    *,
    key: str = "",
    amount: str = "",
    name: str = "",
    group: GoingIn | None = None,
    left_min: float | None = None,
    blanks: tuple[Blank, ...] = (),
    starts: Countdown | None = None,
    fermenter: int = 0,
) -> Doing:
    """Return what is done with the pot: a thing with a short `title`, or a `group` that goes in.

    `amount` and `name` say what the title does, in large type; without them it is the title.
    """
    named = key or (kind if group is None else lines_of_key(group.portions))
    if group is not None and not title:
        amount, name, title = in_short(group)
    return Doing(
        f"boil {plan.boil_number}/{named}",
        kind,
        amount,
        name or title,
        title,
        left_min=left_min,
        boil=plan.boil_number,
        fermenter=fermenter,
        blanks=blanks,
        portion_blanks=() if group is None else tuple(_of_portions(plan, group)),
        starts=starts,
    )


def in_fermenter(
    plan: Plan,
    kind: str,
    title: str = "",
    *,
    key: str = "",
    amount: str = "",
    name: str = "",
    group: GoingIn | None = None,
    blanks: tuple[Blank, ...] = (),
) -> Doing:
    """Return what is done with the fermenter; see `in_pot`."""
    made = in_pot(plan, kind, title, key=key, amount=amount, name=name, group=group, blanks=blanks)
    _, named = made.key.split("/", 1)
    number = plan.fermenter_number
    return replace(made, key=f"fermenter {number}/{named}", fermenter=number)


def lines_of_key(portions: Sequence[Portion]) -> str:
    """Return the lines that go in by their ids, such as "hops 3 4, extras 1"."""
    lines: dict[str, list[int]] = {}
    for each in sorted(portions, key=lambda each: (each.lines, each.line_id)):
        lines.setdefault(each.lines, []).append(each.line_id)
    return ", ".join(f"{name} {' '.join(map(str, ids))}" for name, ids in lines.items())


def in_short(group: GoingIn) -> tuple[str, str, str]:
    """Return amount, name and title of what goes in: the bag's letter where that is several."""
    titles = [f"{each.amount} {each.name}" for each in group.portions]
    if len(group.portions) > 1:
        return group.letter, ", ".join(titles), ", ".join(titles)
    return of_portion(group.portions[0])


def of_portion(portion: Portion) -> tuple[str, str, str]:
    """Return amount, name and title of one thing; of what is not weighed the amount is small."""
    title = f"{portion.amount} {portion.name}"
    return (portion.amount, portion.name, title) if portion.value > 0.0 else ("", title, title)


def _of_portions(plan: Plan, group: GoingIn) -> Iterator[Blank]:
    """What the scale says of each, and of hops the packet, which the recipe may not know."""
    alone = len(group.portions) == 1
    for each in group.portions:
        if each.lines not in ("fermentables", "hops"):
            continue
        weighed = plan.say("Weighed") if alone else plan.say("{name}, weighed", name=each.name)
        amount = each.amount if each.value > 0.0 else ""
        blank = _blank(plan, Measured.WEIGHT, weighed, Kind.MASS, amount, each.value, By.SCALE)
        yield replace(blank, lines=each.lines, line_id=each.line_id)
        if each.lines == "hops":
            yield _of_packet(plan, each, alone=alone)


def _of_packet(plan: Plan, portion: Portion, *, alone: bool) -> Blank:
    hop = next(each for each in plan.recipe.hops if each.line_id == portion.line_id)
    share = hop.alpha
    label = plan.say("Alpha acid")
    if not alone:
        label = plan.say("{name}, alpha acid", name=portion.name)
    text = "" if share is None else plan.figures.of_kind(Kind.FRACTION, share.value)
    value = 0.0 if share is None else share.value
    blank = _blank(plan, Measured.ALPHA, label, Kind.FRACTION, text, value, By.PACKET)
    return replace(blank, lines=portion.lines, line_id=portion.line_id)


def volume_blank(
    plan: Plan, what: Measured, label: str, litres: float, left_min: float | None = None
) -> Blank:
    """Return the blank of a volume that is read off marks."""
    text = plan.figures.volume(litres)
    return _blank(plan, what, label, Kind.VOLUME, text, litres, By.MARK, left_min)


def temperature_blank(plan: Plan, what: Measured, label: str, temp_c: float) -> Blank:
    """Return the blank of a temperature."""
    text = plan.figures.temperature(temp_c)
    return _blank(plan, what, label, Kind.TEMPERATURE, text, temp_c, By.THERMOMETER)


def gravity_blank(
    plan: Plan,
    what: Measured,
    label: str,
    gravity_sg: float,
    forecast: str = "",
    left_min: float | None = None,
) -> Blank:
    """Return the blank of a gravity; `forecast` is how the sheet writes it, if not plainly."""
    text = forecast or plan.figures.gravity(gravity_sg)
    return _blank(plan, what, label, Kind.GRAVITY, text, gravity_sg, By.HYDROMETER, left_min)


def _blank(
    plan: Plan,
    what: Measured,
    label: str,
    kind: Kind,
    forecast: str,
    value: float,
    by: By,
    left_min: float | None = None,
) -> Blank:
    boil, fermenter = plan.boil_number, plan.fermenter_number
    return Blank(what, label, kind, forecast, value, by, boil, fermenter, left_min)
