"""The brew sheet of a recipe and its day: all parts in brewing order."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from designer.brewday.results import Outlook
from designer.recipe.document import Recipe
from designer.sheet.blocks import (
    Block,
    Lines,
    Paragraph,
    Section,
    Sheet,
    Step,
    Steps,
    Strong,
    Table,
    Words,
    plain_words,
    strong,
)
from designer.sheet.brewing import boil, to_the_boil
from designer.sheet.chilling import cooling, fermenter
from designer.sheet.clock import start_minutes
from designer.sheet.correcting import correction_table
from designer.sheet.drawings import drawings
from designer.sheet.fermenting import fermenting
from designer.sheet.figures import Figures
from designer.sheet.head import head
from designer.sheet.packaging import packaging
from designer.sheet.plan import Plan, one_line
from designer.sheet.preparing import preparing
from designer.units import ShownUnits

VARIANTS = ("full", "bench")
FOOT = "Hobwort · a forecast: trust timer, marks and hydrometer; labels and local rules come first"


def brew_sheet(
    recipe: Recipe,
    outlook: Outlook,
    *,
    shown: ShownUnits,
    start: str | None,
    brew_date: date | None,
    variant: str = "full",
) -> Sheet:
    """Return the sheet to brew `recipe` from, its numbers those of `outlook`.

    `start` is a time of the 24 h clock (None: the recipe's); without `brew_date` days are counted
    and blanks left. `variant` is "full" or "bench", a one-page card for the stove.

    Raises RefusedInputError for a start that is no time of the day, ValueError for an unknown
    variant.
    """
    if variant not in VARIANTS:
        raise ValueError(variant)
    minutes = start_minutes(start, recipe.process.start_time)
    plan = Plan(recipe, outlook, Figures(shown), minutes, brew_date)
    sections = _bench(plan) if variant == "bench" else _full(plan)
    top = head(plan)
    if variant == "bench":
        top = replace(top, figures=(), glass=None)
    return Sheet(variant, top, sections, FOOT)


def _full(plan: Plan) -> tuple[Section, ...]:
    brewing = _brewing(plan)
    watch = _watch_out(plan)
    parts = [preparing(plan), watch, brewing, fermenting(plan), packaging(plan), _notes(plan)]
    return tuple(part for part in parts if part is not None)


def _brewing(plan: Plan) -> Section:
    filling, pitching = fermenter(plan)
    steps = (*to_the_boil(plan), *boil(plan), *cooling(plan), *filling)
    blocks: tuple[Block, ...] = (
        drawings(plan), Steps(steps), correction_table(plan), Steps(tuple(pitching)),
    )  # fmt: skip
    lead = f"{plan.clock(0.0)} to about {plan.clock(float(plan.day.total_min))}"
    return Section("brew", "Brew day", lead, blocks)


def _watch_out(plan: Plan) -> Section | None:
    said = []
    for finding in plan.outlook.findings:
        if finding.severity in ("stop", "care"):
            kind = "stop" if finding.severity == "stop" else "care"
            text = one_line(finding.said(plan.figures.of_kind))
            said.append(Paragraph((text,), kind))
    if not said:
        return None
    return Section("watch", "Watch out", "", tuple(said))


def _notes(plan: Plan) -> Section:
    notes = one_line(plan.recipe.notes)
    blocks: tuple[Block, ...] = (Paragraph((notes,)),) if notes else ()
    return Section("notes", "Notes", "what to do otherwise next time", (*blocks, Lines(1)))


def _bench(plan: Plan) -> tuple[Section, ...]:
    """The steps with their warnings alone, and the weeks after in short: a page for the stove."""
    brew = _brewing(plan)
    steps: tuple[Block, ...] = tuple(
        Steps(tuple(_terse(step) for step in block.steps)) if isinstance(block, Steps) else block
        for block in brew.blocks
        if isinstance(block, Steps | Table)
    )
    ferment, package = fermenting(plan), packaging(plan)
    later = tuple(_terse(step) for step in ferment.steps if step.portions)
    told = (
        f"Keep it {ferment.lead}. ",
        *(run for step in ferment.steps for run in _reading_day(step)),
        strong(f"{package.title}: "),
        f"{package.lead}. ",
        *(run for step in package.steps if _has_figures(step) for run in (*step.do, " ")),
    )
    blocks = (*((Steps(later),) if later else ()), Paragraph(told))
    return replace(brew, blocks=steps), Section("ferment", "Afterwards", "", blocks)


def _has_figures(step: Step) -> bool:
    return any(isinstance(run, Strong) for run in step.do)


def _reading_day(step: Step) -> Words:
    day = " ".join(step.when.split())
    return tuple(f"{day}: {each.label} {each.forecast}. " for each in step.readings)


def _terse(step: Step) -> Step:
    """A step with its warnings alone; a blank stays where the step does not give the figure."""
    said = plain_words(step.do)
    return replace(
        step,
        asides=tuple(each for each in step.asides if each.kind == "care"),
        readings=tuple(each for each in step.readings if each.forecast not in said),
    )
