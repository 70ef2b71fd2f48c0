"""The pot and the fermenter of a day as lines for a terminal."""

from __future__ import annotations

from designer.brewday.results import Day
from designer.brewday.time_line import at_stage
from designer.recipe.document import Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.workbench.figures import Figures
from designer.wort.numeric import Numeric


def pot_lines(recipe: Recipe, day: Day, figures: Figures) -> list[str]:
    """Return how full the pot gets, how strong the boil is and how it is cooled."""
    rim = number_or_none(recipe.pot, "volume")

    def litres(value: Numeric) -> str:
        return figures(Kind.VOLUME, float(value))

    pot = tr(
        "Pot: start with {start}, fullest {fullest} ({when})",
        start=litres(day.pot.start_water_l),
        fullest=litres(day.pot.fullest_l),
        when=at_stage(day.pot.fullest_at),
    )
    boil = tr(
        "Boil: gravity {first} to {last}, {left} left at its end, hot",
        first=figures(Kind.GRAVITY, float(day.pot.boil_gravity_start)),
        last=figures(Kind.GRAVITY, float(day.pot.boil_gravity_end)),
        left=litres(day.boil_end_hot_l),
    )
    cool = tr(
        "Cool: {minutes} min to {pour}, mixed {mixed}",
        minutes=f"{float(day.fermenter.cooling_min):.0f}",
        pour=figures(Kind.TEMPERATURE, float(day.fermenter.cool_to_c)),
        mixed=figures(Kind.TEMPERATURE, float(day.fermenter.mixed_c)),
    )
    ice_kg = float(day.fermenter.bath_ice_kg)
    if ice_kg > 0.0:
        cool = tr(
            "{cooled}, with {ice} of ice in the bath",
            cooled=cool,
            ice=figures(Kind.MASS, round(ice_kg, 1)),
        )
    if rim is not None:
        pot = tr("{filled} of {whole}", filled=pot, whole=litres(rim))
    return [f"  {line}" for line in (pot, boil, cool)]


def fermenter_line(recipe: Recipe, day: Day, figures: Figures) -> str:
    """Return what the one fermenter of a day is filled with."""
    brim, fermenter = number_or_none(recipe.fermenter, "volume"), _fermenter(day, figures)
    if brim is not None:
        fermenter = tr("{filled} of {whole}", filled=fermenter, whole=figures(Kind.VOLUME, brim))
    return f"  {fermenter}"


def _fermenter(day: Day, figures: Figures) -> str:
    def litres(value: Numeric) -> str:
        return figures(Kind.VOLUME, float(value))

    batch = litres(day.fermenter.batch_l)
    water_l = float(day.fermenter.top_up_l)
    if water_l == 0.0:
        return tr("Fermenter: no water on top, it holds {batch}", batch=batch)
    parts = {
        "wort": litres(day.fermenter.from_pot_l),
        "water": litres(water_l),
        "batch": batch,
    }
    hot_l = float(day.fermenter.hot_l)
    if hot_l > 0.0:
        return tr(
            "Fermenter: {wort} from the pot and {water} of water make {batch}; {hot} of it just "
            "boiled, for the extract there",
            **parts,
            hot=litres(hot_l),
        )
    return tr("Fermenter: {wort} from the pot and {water} of water make {batch}", **parts)
