"""The weeks after brew day where there are several fermenters: a box and a blank for each."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from designer.sheet.blocks import Block, Paragraph, Section, Step, Steps
from designer.sheet.columns import Track, side_by_side
from designer.sheet.fermenting import fermenting
from designer.sheet.packaging import packaging
from designer.sheet.planned import FERMENTER, Brewed, label, since_start


def fermenting_all(made: Brewed) -> Section:
    """Return the weeks in all fermenters."""
    sections = [fermenting(each) for each in made.fermenters]
    leads = dict.fromkeys(each.lead for each in sections)
    lead = sections[0].lead if len(leads) == 1 else ""
    blocks: tuple[Block, ...] = (Steps(_together(made, [each.steps for each in sections])),)
    if len(leads) > 1:
        told = made.plan.parted(
            f"{label(made.plan, FERMENTER, number)} {each.lead}"
            for number, each in enumerate(sections, 1)
        )
        blocks = (Paragraph((f"{told}.",)), *blocks)
    return replace(sections[0], lead=lead, blocks=blocks)


def packaging_all(made: Brewed, *, with_energy: bool = True) -> Section:
    """Return how the beer of all fermenters is packaged, each with its own sugar."""
    whole = packaging(made.whole, with_energy=with_energy)
    sections = [packaging(each) for each in made.fermenters]
    steps = Steps(_together(made, [each.steps for each in sections]))
    if len(sections) == 1:
        return replace(whole, blocks=(steps,))
    each = made.plan.words(
        "*Each fermenter by itself*: its own sugar, weighed for it, and its own beer."
    )
    return replace(whole, blocks=(Paragraph(each), steps))


def _together(made: Brewed, lists: list[tuple[Step, ...]]) -> tuple[Step, ...]:
    tracks = [
        Track(number, tuple(_since(made, number, each) for each in steps))
        for number, steps in enumerate(lists, 1)
    ]
    steps = side_by_side(tracks, partial(label, made.plan, FERMENTER))
    return tuple(sorted(steps, key=lambda each: each.minutes))


def _since(made: Brewed, number: int, step: Step) -> Step:
    """The step with its minutes from the first brew day."""
    boil = made.last_of(made.days.fermenters[number - 1])
    return replace(step, minutes=step.minutes + since_start(boil))
