"""The brew sheet of a recipe and its day: all parts in brewing order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from designer.brewday.results import Outlook
from designer.library.packs import PackSize, pack_set_for
from designer.library.packs import packs as usual_packs
from designer.recipe.document import Recipe
from designer.sheet.afterwards import fermenting_all, packaging_all
from designer.sheet.blocks import (
    DEFAULT_FORM,
    Block,
    Form,
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
)
from designer.sheet.boiling import boil
from designer.sheet.boils import brew_days
from designer.sheet.brewing import to_the_boil
from designer.sheet.chilling import cooling
from designer.sheet.clock import start_minutes
from designer.sheet.correcting import correction_table
from designer.sheet.drawings import drawings
from designer.sheet.fermenting import fermenting
from designer.sheet.figures import Figures
from designer.sheet.filling import fermenter
from designer.sheet.head import head
from designer.sheet.language import language as spoken
from designer.sheet.language import message
from designer.sheet.packaging import near_their_limit, packaging, refusals
from designer.sheet.plan import Plan, one_line
from designer.sheet.planned import Brewed, brewed
from designer.sheet.preparing import preparing
from designer.sheet.preparing_all import preparing_all
from designer.sheet.watching import watch_out, with_stops
from designer.units import ShownUnits

VARIANTS = ("full", "bench")
FOOT = message(
    "Hobwort · a forecast: trust timer, marks and hydrometer; labels and local rules come first"
)


def brew_sheet(
    recipe: Recipe,
    outlook: Outlook,
    *,
    shown: ShownUnits,
    start: str | None,
    brew_date: date | None,
    variant: str = "full",
    language: str = "en",
    shop: str = "",
    form: Form = DEFAULT_FORM,
    packs: Sequence[PackSize] | None = None,
) -> Sheet:
    """Return the sheet to brew `recipe` from, its numbers those of `outlook`.

    `start` is a time of the 24 h clock (None: the recipe's); without `brew_date` days are counted
    and blanks left. `variant` is "full" or "bench", a one-page card for the stove; `language` is
    one of `LANGUAGES`. With the name of a `shop` it stands at the head, for a customer. `form` is
    how large and on how many pages the sheet is to be set. `packs` are the sizes in which the
    brewer's shop sells; None: those that are usual where such units are.

    Raises RefusedInputError for a start that is no time of the day, ValueError for an unknown
    variant or language.
    """
    if variant not in VARIANTS:
        raise ValueError(variant)
    sizes = usual_packs(pack_set_for(shown)) if packs is None else tuple(packs)
    figures = Figures(shown, spoken(language))
    plan = replace(plan_from(recipe, outlook, figures, start, brew_date), packs=sizes)
    sections = _bench(plan) if variant == "bench" else _full(plan)
    top = head(plan, shop)
    if variant == "bench":
        top = replace(top, figures=(), glass=None, credit="")
    return Sheet(variant, top, sections, plan.say(FOOT), language, form)


def plan_from(
    recipe: Recipe, outlook: Outlook, figures: Figures, start: str | None, brew_date: date | None
) -> Plan:
    """Return what the parts of the sheet are written from.

    Raises RefusedInputError for a start that is no time of the day.
    """
    minutes = start_minutes(start, recipe.process.start_time)
    return Plan(recipe, outlook, figures, minutes, brew_date)


def _full(plan: Plan) -> tuple[Section, ...]:
    made = brewed(plan)
    watch = watch_out(plan) if made is None else watch_out(plan, made.whose)
    before = preparing(plan) if made is None else preparing_all(made)
    after = _after(plan, made)
    parts = [before, watch, *_brew_days(plan, made), *after, _notes(plan)]
    return tuple(part for part in parts if part is not None)


def _brew_days(plan: Plan, made: Brewed | None) -> tuple[Section, ...]:
    return (_brewing(plan),) if made is None else brew_days(made)


def _after(plan: Plan, made: Brewed | None, *, with_energy: bool = True) -> tuple[Section, Section]:
    """The weeks in the fermenter, and the packaging."""
    if made is None:
        return fermenting(plan), packaging(plan, with_energy=with_energy)
    return fermenting_all(made), packaging_all(made, with_energy=with_energy)


def _brewing(plan: Plan) -> Section:
    steps, pitching = plain_steps(plan)
    blocks: tuple[Block, ...] = (
        drawings(plan),
        Steps(steps),
        correction_table(plan),
        Steps(pitching),
    )
    end = plan.clock(float(plan.day.total_min))
    lead = plan.say("{start} to about {end}", start=plan.clock(0.0), end=end)
    return Section("brew", plan.say("Brew day"), lead, blocks)


def plain_steps(plan: Plan) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Return the steps of a plain brew day: up to the reading, and from the pitching on."""
    filling, pitching = fermenter(plan)
    steps = with_stops(plan, (*to_the_boil(plan), *boil(plan), *cooling(plan), *filling))
    return steps, tuple(pitching)


def _notes(plan: Plan) -> Section:
    notes = one_line(plan.recipe.notes)
    blocks: tuple[Block, ...] = (Paragraph((notes,)),) if notes else ()
    lead = plan.say("what to do otherwise next time")
    return Section("notes", plan.say("Notes"), lead, (*blocks, Lines(2)))


def _bench(plan: Plan) -> tuple[Section, ...]:
    """The steps with their warnings alone, and the weeks after in short: a page for the stove."""
    made = brewed(plan)
    days = tuple(_terse_section(each) for each in _brew_days(plan, made))
    ferment, package = _after(plan, made, with_energy=False)
    near = near_their_limit(plan)
    to_do = [each.do for each in near]
    later = tuple(_terse(step) for step in ferment.steps if step.portions)
    told = spaced(
        (plan.say("Keep it {how}.", how=ferment.lead),) if ferment.lead else (),
        *_sentences(ferment),
        *(_in_short(plan, step) for step in ferment.steps if not step.portions),
        (Strong(plan.say("{label}:", label=package.title)), f" {package.lead}."),
        *_sentences(package),
        *(step.do for step in package.steps if _has_figures(step) and step.do not in to_do),
    )
    warned: list[Block] = [Steps(tuple(near))] if near else []
    bottles = plan.day.beer.bottled
    if bottles is not None and bottles.is_refused:
        warned += [Paragraph((each.text,), each.kind) for each in refusals(plan)]
    blocks = (*((Steps(later),) if later else ()), Paragraph(told), *warned)
    return *days, Section("ferment", plan.say("Afterwards"), "", blocks)


def _terse_section(section: Section) -> Section:
    blocks = (
        Steps(tuple(map(_terse, block.steps))) if isinstance(block, Steps) else block
        for block in section.blocks
        if isinstance(block, Steps | Table | Paragraph)
    )
    return replace(section, blocks=tuple(blocks))


def _sentences(section: Section) -> list[Words]:
    """What is said of all of a part before its steps."""
    return [block.words for block in section.blocks if isinstance(block, Paragraph)]


def spaced(*sentences: Words) -> Words:
    """Return sentences one after the other."""
    runs = [run for sentence in sentences if sentence for run in (*sentence, " ")]
    return tuple(runs[:-1])


def _has_figures(step: Step) -> bool:
    return any(isinstance(run, Strong) for run in step.do)


def _in_short(plan: Plan, step: Step) -> Words:
    """What is read on a day, or done if there are figures to it."""
    day = plan.say("{label}:", label=" ".join(step.when.split()))
    if not step.readings:
        return (f"{day} ", *step.do) if _has_figures(step) else ()
    return tuple(f"{day} {each.label} {each.forecast}." for each in step.readings)


def _terse(step: Step) -> Step:
    """A step with its warnings alone; a blank stays where the step does not give the figure."""
    said = plain_words(step.do)
    return replace(
        step,
        asides=tuple(each for each in step.asides if each.kind in ("care", "stop")),
        readings=tuple(each for each in step.readings if each.forecast not in said),
    )
