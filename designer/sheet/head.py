"""The head of the sheet: what is brewed, in what, when, and what it will be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from designer.brewday.in_words import alcohol_in_words, bitterness_in_words, colour_in_words
from designer.brewday.instrument import reading_range
from designer.brewday.leaflet import stated_band
from designer.brewday.predictions import MAIN, ON_OTHER_SCALES, Prediction
from designer.brewday.results import Range
from designer.library.catalogue import find_style
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.document import Fermenter, Pot
from designer.recipe.plan import vessels_of
from designer.sheet.blocks import Aside, Drawing, Figure, Head, Label, Shape
from designer.sheet.clock import date_text
from designer.sheet.language import message
from designer.sheet.plan import Plan, name_of
from designer.sheet.planned import Brewed, brewed
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
        subtitle=plan.name_of(recipe.style),
        vessels=_vessels(plan),
        blanks=(
            (plan.say("Brewed on"), known),
            (plan.say("by"), ""),
            (plan.say("Start"), plan.clock(0.0)),
        ),
        figures=_figures(plan),
        glass=glass(plan),
        shop=name_of(shop),
        credit=_credit(recipe.style),
    )


def _credit(style: str) -> str:
    """The line of the style that stands above, and whose numbers the words below are of."""
    return STYLE_NUMBERS if style and find_style(style) is not None else ""


def _vessels(plan: Plan) -> str:
    """How much in how many fermenters, and all vessels, those that are alike counted."""
    batch = plan.figures.volume(float(plan.day.fermenter.batch_l))
    made = brewed(plan)
    tanks = vessels_of(plan.recipe)
    if len(tanks) == 1:
        parts = [plan.say("{volume} in the fermenter", volume=batch)]
    else:
        parts = [
            plan.language.count(
                "{volume} in {number} fermenter",
                "{volume} in {number} fermenters",
                len(tanks),
                volume=batch,
            )
        ]
    pots: tuple[Pot, ...] = (plan.recipe.pot,)
    if made is not None:
        pots = made.pots
        parts += _boils(made)
    vessels: tuple[Pot | Fermenter, ...] = (*pots, *tanks)
    counted = Counter(_vessel(plan, each) for each in vessels)
    parts += [name if count == 1 else f"{count} × {name}" for name, count in counted.items()]
    return " · ".join(part for part in parts if part)


def _boils(made: Brewed) -> list[str]:
    """In how many boils or pots, where it is more than one."""
    spoken, count = made.plan.language, len(made.days.boils)
    if count == 1:
        return []
    if made.is_at_once(made.days.boils):
        return [spoken.count("{number} pot", "{number} pots at once", count)]
    return [spoken.count("{number} boil", "{number} boils", count)]


def _vessel(plan: Plan, vessel: Pot | Fermenter) -> str:
    """The name of a vessel with its size, unless the name says that already."""
    name = plan.name_of(vessel.name)
    if vessel.volume is None or vessel.volume.text in name:
        return name
    volume = plan.figures.volume(vessel.volume.value)
    return plan.say("{vessel} of {volume}", vessel=name, volume=volume)


def _figures(plan: Plan) -> tuple[Figure, ...]:
    return tuple(_figure(plan, each) for each in MAIN)


def _figure(plan: Plan, each: Prediction) -> Figure:
    """On the scale of metric countries where units are metric, the other beside what it means."""
    other = ON_OTHER_SCALES.get(each.key)
    first, second = (other, each) if other and _is_metric(plan) else (each, other)
    found, form = plan.outlook.forecasts[first.key], f".{first.decimals}f"
    means = _MEANS[each.key](plan) if each.key in _MEANS else ""
    if second is not None:
        means = ", ".join(part for part in (means, _with_unit(plan, second)) if part)
    span = plan.figures.span(found.low, found.high, form)
    return Figure(
        plan.say(each.on_sheet or each.label),
        _with_unit(plan, first),
        plan.say(_LIKELY[found.leans], span=span),
        means,
    )


_LIKELY = {
    "": message("likely {span}"),
    "higher": message("{span}, more likely higher"),
    "lower": message("{span}, more likely lower"),
}


def _is_metric(plan: Plan) -> bool:
    return plan.figures.shown is ShownUnits.METRIC


def _with_unit(plan: Plan, each: Prediction) -> str:
    value = plan.figures.number(plan.outlook.forecasts[each.key].value, f".{each.decimals}f")
    return f"{value} {each.unit}".rstrip()


def _sugar(plan: Plan) -> str:
    plato = float(plato_from_gravity(_value(plan, "original_gravity")))
    return plan.say("wort sugar, {plato} °P", plato=plan.figures.number(plato, ".1f"))


def _bitter(plan: Plan) -> str:
    bitter, original = _value(plan, "bitterness_ibu"), _value(plan, "original_gravity")
    return plan.say(bitterness_in_words(bitter, original))


def _value(plan: Plan, key: str) -> float:
    return plan.outlook.forecasts[key].value


_MEANS: dict[str, Callable[[Plan], str]] = {
    "original_gravity": _sugar,
    "final_gravity": lambda plan: plan.say("what is left of it"),
    "abv_percent": lambda plan: plan.say(alcohol_in_words(_value(plan, "abv_percent"))),
    "bitterness_ibu": _bitter,
    "colour_srm": lambda plan: plan.say(colour_in_words(_value(plan, "colour_srm"))),
}
"""What a figure means to a newcomer; a forecast without such words stands by itself."""


def gravity_forecast(plan: Plan, found: Range) -> str:
    """Return a gravity as it stands beside a blank, with the range of what is read there."""
    figures = plan.figures
    span = figures.span(*reading_range(found, plan.recipe.process), ".3f")
    return plan.say("{gravity} (read {span})", gravity=figures.gravity(found.value), span=span)


def leaflet_says(plan: Plan, key: str) -> tuple[Aside, ...]:
    """Return what the leaflet of a kit states of a gravity that is read; often it is silent."""
    band = stated_band(plan.recipe.leaflet, key)
    if band is None:
        return ()
    makes = plan.recipe.leaflet.makes
    span = plan.figures.span(*band, ".3f")
    if makes is None:
        return (Aside("why", plan.say("The leaflet says {span}.", span=span)),)
    volume = plan.figures.volume(makes.value)
    said = plan.say("The leaflet says {span}, in {volume}.", span=span, volume=volume)
    return (Aside("why", said),)


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
