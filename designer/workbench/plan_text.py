"""The boils and fermenters of a planned recipe as lines for a terminal, a paragraph for each."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.predictions import Prediction
from designer.brewday.results import BoilDay, FermenterDay, Outlook, PlanDays, Range
from designer.recipe.document import Recipe
from designer.recipe.message import Message, in_a_row
from designer.recipe.plan import boils_of, share_of
from designer.recipe.plan_words import ALL_OF_IT, plan_words, vessel_words
from designer.recipe.quantity import Kind
from designer.translation import parted, tr, trn
from designer.units.quoting import one_line
from designer.workbench.day_reading import clock_and_day
from designer.workbench.figures import Figures, told_forecasts
from designer.workbench.supplies_text import start_of, steep_lines, time_line
from designer.workbench.vessels_text import pot_lines


def plan_lines(recipe: Recipe, outlook: Outlook, plan: PlanDays, figures: Figures) -> Iterator[str]:
    """Yield how a recipe is brewed, then each boil and each fermenter."""
    yield f"  {_said(plan_words(recipe), figures)}"
    for boil in plan.boils:
        yield ""
        yield from _boil(recipe, boil, figures)
    for fermenter in plan.fermenters:
        yield ""
        yield from _fermenter(recipe, fermenter, outlook, figures)
    yield ""


def _said(what: object, figures: Figures) -> str:
    return figures.said(what) if isinstance(what, Message) else one_line(str(what))


def _boil(recipe: Recipe, boil: BoilDay, figures: Figures) -> Iterator[str]:
    share = share_of(recipe, boils_of(recipe)[boil.number - 1])
    parts = {"number": boil.number, "pot": _said(vessel_words(boil.recipe.pot), figures)}
    heads = (
        tr("Boil {number}, {pot}:", **parts)
        if abs(share - 1.0) < ALL_OF_IT
        else tr(
            "Boil {number}, {pot}, {share} of the recipe:",
            **parts,
            share=figures(Kind.FRACTION, share),
        )
    )
    yield f"  {_on_its_day(heads, boil.on_day)}"
    day = boil.day
    for line in (
        *steep_lines(day, figures),
        *pot_lines(boil.recipe, day, figures),
        time_line(recipe, day, boil.starts_min),
    ):
        yield f"  {line}"


def _on_its_day(said: str, on_day: int) -> str:
    if on_day == 0:
        return said
    return tr("Day {day}: {said}", day=on_day + 1, said=said)


def _fermenter(
    recipe: Recipe, filled: FermenterDay, outlook: Outlook, figures: Figures
) -> Iterator[str]:
    yield f"  {_filled(filled, figures)}"
    when = clock_and_day(start_of(recipe), filled.pitched_min)
    yeast = tr(
        "Yeast: {low} to {high} g if it is dry ({packets}), in at {time}",
        low=f"{float(filled.day.beer.yeast_low_g):.0f}",
        high=f"{float(filled.day.beer.yeast_high_g):.0f}",
        packets=trn("{number} packet", "{number} packets", filled.day.beer.yeast_packets),
        time=when,
    )
    yield f"    {_on_its_day(yeast, filled.on_day)}"
    others = [
        said
        for each in told_forecasts()
        if (said := _figure(each, filled.forecasts[each.key], figures))
        != _figure(each, outlook.forecasts[each.key], figures)
    ]
    if others:
        yield f"    {tr('Its own beer: {figures}', figures=parted(others))}"


def _filled(filled: FermenterDay, figures: Figures) -> str:
    """Say what a fermenter is filled with, and to where."""

    def litres(value: float) -> str:
        return figures(Kind.VOLUME, value)

    parts = [
        tr("{volume} from boil {boil}", volume=litres(each.from_pot_l), boil=each.boil)
        for each in filled.poured
    ]
    if filled.top_up_l > 0.0:
        parts.append(tr("{volume} of water", volume=litres(filled.top_up_l)))
    if filled.frozen_kg > 0.0:
        ice = figures(Kind.MASS, round(filled.frozen_kg, 1))
        parts[-1] = tr("{water}, {ice} of it frozen", water=parts[-1], ice=ice)
    hot_l = float(filled.day.fermenter.hot_l)
    if hot_l > 0.0:
        parts[-1] = tr("{water}, {hot} of it just boiled", water=parts[-1], hot=litres(hot_l))
    return tr(
        "Fermenter {number}, {vessel}: {filled}: {whole}",
        number=filled.number,
        vessel=_said(vessel_words(filled.vessel), figures),
        filled=in_a_row(parts),
        whole=litres(filled.total_l),
    )


def _figure(each: Prediction, found: Range, figures: Figures) -> str:
    low, high = figures.span(each, found)
    return tr(
        "{label} {value} ({low} to {high})",
        label=tr(each.label),
        value=figures.forecast(each, found.value),
        low=low,
        high=high,
    )
