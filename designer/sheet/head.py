"""The head of the sheet: what is brewed, in what, when, and what it will be."""

from __future__ import annotations

from designer.brewday.results import Range
from designer.recipe.fields import number_or_none
from designer.sheet.blocks import Drawing, Figure, Head, Label, Shape
from designer.sheet.clock import date_text
from designer.sheet.language import message
from designer.sheet.plan import Plan, name_of
from designer.sheet.wording import alcohol_in_words, bitterness_in_words, colour_in_words
from designer.units import ShownUnits
from designer.wort.density import plato_from_gravity
from designer.wort.swatch import swatch_hex

ORIGINAL, FINAL = message("OG"), message("FG")


def head(plan: Plan, shop: str = "") -> Head:
    """Return the head of the sheet; `shop` is the name of who hands it out."""
    recipe = plan.recipe
    known = "" if plan.brew_date is None else date_text(plan.brew_date, plan.language)
    return Head(
        title=name_of(recipe.name) or plan.say("Untitled brew"),
        subtitle=name_of(recipe.style),
        vessels=_vessels(plan),
        blanks=(
            (plan.say("Brewed on"), known),
            (plan.say("by"), ""),
            (plan.say("Start"), plan.clock(0.0)),
        ),
        figures=_figures(plan),
        glass=glass(plan),
        shop=name_of(shop),
    )


def _vessels(plan: Plan) -> str:
    batch = plan.figures.volume(float(plan.day.batch_l))
    parts = [plan.say("{volume} in the fermenter", volume=batch)]
    for vessel in (plan.recipe.pot, plan.recipe.fermenter):
        litres, name = number_or_none(vessel, "volume"), name_of(vessel.name)
        if litres is None:
            parts.append(name)
        else:
            volume = plan.figures.volume(litres)
            parts.append(plan.say("{vessel} of {volume}", vessel=name, volume=volume))
    return " · ".join(part for part in parts if part)


def _figures(plan: Plan) -> tuple[Figure, ...]:
    known, say = plan.outlook.forecasts, plan.say
    original, final = known["original_gravity"], known["final_gravity"]
    alcohol, bitter = known["abv_percent"], known["bitterness_ibu"]
    plato = plan.figures.number(float(plato_from_gravity(original.value)), ".1f")
    return (
        _figure(plan, say("Before yeast, OG"), original, ".3f", "",
                say("wort sugar, {plato} °P", plato=plato)),
        _figure(plan, say("When done, FG"), final, ".3f", "", say("what is left of it")),
        _figure(plan, say("Alcohol by volume"), alcohol, ".1f", " %",
                say(alcohol_in_words(alcohol.value))),
        _figure(plan, say("Bitterness"), bitter, ".0f", " IBU",
                say(bitterness_in_words(bitter.value, original.value))),
        _colour(plan),
    )  # fmt: skip


def _colour(plan: Plan) -> Figure:
    """EBC where units are metric, else SRM; the other one beside the word for it."""
    found = {unit: plan.outlook.forecasts[f"colour_{unit.lower()}"] for unit in ("EBC", "SRM")}
    metric = plan.figures.shown is ShownUnits.METRIC
    first, second = ("EBC", "SRM") if metric else ("SRM", "EBC")
    words = plan.say(colour_in_words(found["SRM"].value))
    means = f"{words}, {found[second].value:.0f} {second}"
    return _figure(plan, plan.say("Colour"), found[first], ".0f", f" {first}", means)


def _figure(plan: Plan, label: str, found: Range, form: str, unit: str, means: str) -> Figure:
    span = plan.figures.span(found.low, found.high, form)
    likely = plan.say("likely {span}", span=span)
    return Figure(label, plan.figures.number(found.value, form) + unit, likely, means)


def gravity_forecast(plan: Plan, found: Range) -> str:
    """Return a gravity with its range, as it stands beside a blank."""
    figures = plan.figures
    return f"{figures.gravity(found.value)} ({figures.span(found.low, found.high, '.3f')})"


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
    says = plan.say(
        "A glass of beer, {colour}, {srm} SRM",
        colour=plan.say(colour_in_words(srm)),
        srm=plan.figures.number(srm, ".0f"),
    )
    return Drawing(48.0, 72.0, shapes, says)
