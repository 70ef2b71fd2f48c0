"""The boils and fermenters of a planned recipe as lines for a terminal, a paragraph for each."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.predictions import PREDICTIONS, Prediction
from designer.brewday.results import BoilDay, FermenterDay, Outlook, PlanDays, Poured, Range
from designer.recipe.document import Recipe
from designer.recipe.message import in_a_row
from designer.recipe.plan import boils_of, share_of
from designer.recipe.plan_words import ALL_OF_IT, plan_words, vessel_words
from designer.recipe.quantity import Kind
from designer.translation import tr, trn
from designer.units import show
from designer.units.quoting import one_line
from designer.workbench.day_reading import clock_and_day
from designer.workbench.supplies_text import start_of, steep_lines, time_line
from designer.workbench.vessels_text import litres, pot_lines


def plan_lines(recipe: Recipe, outlook: Outlook, plan: PlanDays) -> Iterator[str]:
    """Yield how a recipe is brewed, then each boil and each fermenter."""
    yield f"  {one_line(str(plan_words(recipe)))}"
    for boil in plan.boils:
        yield ""
        yield from _boil(recipe, boil)
    for fermenter in plan.fermenters:
        yield ""
        yield from _fermenter(recipe, fermenter, outlook)
    yield ""


def _boil(recipe: Recipe, boil: BoilDay) -> Iterator[str]:
    share = share_of(recipe, boils_of(recipe)[boil.number - 1])
    parts = {"number": boil.number, "pot": one_line(str(vessel_words(boil.recipe.pot)))}
    heads = (
        tr("Boil {number}, {pot}:", **parts)
        if abs(share - 1.0) < ALL_OF_IT
        else tr(
            "Boil {number}, {pot}, {share} of the recipe:",
            **parts,
            share=show(Kind.FRACTION, share, rounded=True),
        )
    )
    yield f"  {_on_its_day(heads, boil.on_day)}"
    day = boil.day
    for line in (
        *steep_lines(day),
        *pot_lines(boil.recipe, day),
        time_line(recipe, day, boil.starts_min),
    ):
        yield f"  {line}"


def _on_its_day(said: str, on_day: int) -> str:
    if on_day == 0:
        return said
    return tr("Day {day}: {said}", day=on_day + 1, said=said)


def _fermenter(recipe: Recipe, filled: FermenterDay, outlook: Outlook) -> Iterator[str]:
    yield f"  {_filled(filled)}"
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
        for each in PREDICTIONS
        if (said := _figure(each, filled.forecasts[each.key]))
        != _figure(each, outlook.forecasts[each.key])
    ]
    if others:
        yield f"    {tr('Its own beer: {figures}', figures='; '.join(others))}"


def _filled(filled: FermenterDay) -> str:
    """Say what a fermenter is filled with, and to where."""
    parts = [_poured(each) for each in filled.poured]
    if filled.top_up_l > 0.0:
        parts.append(tr("{volume} of water", volume=litres(filled.top_up_l)))
    if filled.frozen_kg > 0.0:
        ice = show(Kind.MASS, round(filled.frozen_kg, 1), rounded=True)
        parts[-1] = tr("{water}, {ice} of it frozen", water=parts[-1], ice=ice)
    hot_l = float(filled.day.fermenter.hot_l)
    if hot_l > 0.0:
        parts[-1] = tr("{water}, {hot} of it just boiled", water=parts[-1], hot=litres(hot_l))
    return tr(
        "Fermenter {number}, {vessel}: {filled}: {whole}",
        number=filled.number,
        vessel=one_line(str(vessel_words(filled.vessel))),
        filled=in_a_row(parts),
        whole=litres(filled.total_l),
    )


def _poured(poured: Poured) -> str:
    return tr("{volume} from boil {boil}", volume=litres(poured.from_pot_l), boil=poured.boil)


def _figure(each: Prediction, found: Range) -> str:
    figures = (f"{figure:.{each.decimals}f}" for figure in (found.value, found.low, found.high))
    value, low, high = figures
    unit = f" {each.unit}" if each.kind is Kind.NUMBER else ""
    return tr(
        "{label} {value} ({low} to {high})",
        label=tr(each.label),
        value=value + unit,
        low=low,
        high=high,
    )
