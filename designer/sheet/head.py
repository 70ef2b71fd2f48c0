"""The head of the sheet: what is brewed, in what, when, and what it will be."""

from __future__ import annotations

from designer.brewday.results import Range
from designer.recipe.fields import number_or_none
from designer.sheet.blocks import Drawing, Figure, Head, Label, Shape
from designer.sheet.clock import date_text
from designer.sheet.figures import gravity, span
from designer.sheet.plan import Plan, name_of
from designer.sheet.wording import alcohol_in_words, bitterness_in_words, colour_in_words
from designer.wort.swatch import swatch_hex


def head(plan: Plan) -> Head:
    """Return the head of the sheet."""
    recipe = plan.recipe
    known = "" if plan.brew_date is None else date_text(plan.brew_date)
    return Head(
        title=name_of(recipe.name) or "Untitled brew",
        subtitle=name_of(recipe.style),
        vessels=_vessels(plan),
        blanks=(("Brewed on", known), ("by", ""), ("Start", plan.clock(0.0))),
        figures=_figures(plan),
        glass=glass(plan),
    )


def _vessels(plan: Plan) -> str:
    parts = []
    for vessel in (plan.recipe.pot, plan.recipe.fermenter):
        volume = number_or_none(vessel, "volume")
        size = "" if volume is None else f" of {plan.figures.volume(volume)}"
        parts.append(f"{name_of(vessel.name)}{size}")
    return f"{plan.figures.volume(float(plan.day.batch_l))} in the fermenter · {' · '.join(parts)}"


def _figures(plan: Plan) -> tuple[Figure, ...]:
    known = plan.outlook.forecasts
    original, final = known["original_gravity"], known["final_gravity"]
    alcohol, bitter = known["abv_percent"], known["bitterness_ibu"]
    srm, ebc = known["colour_srm"], known["colour_ebc"]
    return (
        _figure("Before yeast, OG", original, ".3f", "", "sugar in the wort"),
        _figure("When done, FG", final, ".3f", "", "what is left of it"),
        _figure("Alcohol by volume", alcohol, ".1f", " %", alcohol_in_words(alcohol.value)),
        _figure(
            "Bitterness", bitter, ".0f", " IBU", bitterness_in_words(bitter.value, original.value)
        ),
        _figure("Colour", srm, ".0f", " SRM", f"{colour_in_words(srm.value)}, {ebc.value:.0f} EBC"),
    )


def _figure(label: str, found: Range, form: str, unit: str, means: str) -> Figure:
    return Figure(label, format(found.value, form) + unit, span(found.low, found.high, form), means)


def gravity_forecast(found: Range) -> str:
    """Return a gravity with its range, as it stands beside a blank."""
    return f"{gravity(found.value)} ({span(found.low, found.high, '.3f')})"


def glass(plan: Plan) -> Drawing:
    """Return a tumbler of the beer in its colour, with a head of foam."""
    srm = plan.outlook.forecasts["colour_srm"].value
    colour = swatch_hex(srm)
    beer = ((5.0, 20.0), (43.0, 20.0), (38.5, 66.0), (9.5, 66.0))
    foam = ((4.0, 10.0), (44.0, 10.0), (43.0, 20.0), (5.0, 20.0))
    wall = ((3.0, 4.0), (8.6, 69.0), (39.4, 69.0), (45.0, 4.0))
    shapes: tuple[Shape | Label, ...] = (
        Shape(beer, fill=colour, width=0.0),
        Shape(foam, fill="foam", width=0.0),
        Shape(wall, width=1.4),
    )
    words = colour_in_words(srm)
    return Drawing(48.0, 72.0, shapes, f"A glass of {words} beer, {srm:.0f} SRM")
