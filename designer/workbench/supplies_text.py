"""What the day takes besides ingredients, for a terminal: salts, heat, yeast, sugar, money."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.beer import warmest_after_c
from designer.brewday.fit.answer import per_litre
from designer.brewday.fit.costs import cost
from designer.brewday.results import Beer, Day
from designer.recipe.choices import Disinfectant, Package
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.quantity import Kind
from designer.translation import tr, trn
from designer.units.clock import USUAL_START_MIN, minutes_of
from designer.workbench.day_reading import clock_and_day
from designer.workbench.figures import Figures


def water_lines(recipe: Recipe, beer: Beer, figures: Figures) -> Iterator[str]:
    """Yield how the water is treated; nothing where no chlorine is told of."""
    dose = float(beer.water_treatment_g)
    if dose > 0.0:
        chlorine = recipe.process.disinfectant == Disinfectant.CHLORINE
        said = tr(
            "Water: {grams} g of {salt} into {volume} against {disinfectant}, 10 min before use",
            grams=figures.plain(f"{dose:.2g}"),
            salt=tr(recipe.process.metabisulfite),
            volume=figures(Kind.VOLUME, float(beer.water_l)),
            disinfectant=tr("chlorine") if chlorine else tr("chloramine"),
        )
        yield f"  {said}"
        care = tr(
            "Care: sulfite harms people with asthma or a sulfite allergy; weigh it exactly, "
            "breathe none of its dust, open a window"
        )
        yield f"  {care}"


def steep_lines(day: Day, figures: Figures) -> Iterator[str]:
    """Yield how hot the water has to be for the grain; nothing where none is steeped."""
    if any(each.key == "steep" for each in day.spans):
        said = tr(
            "Steep: water at {strike}, {steep} with the grain in",
            strike=figures(Kind.TEMPERATURE, float(day.steep.strike_c)),
            steep=figures(Kind.TEMPERATURE, float(day.steep.steeped_c)),
        )
        yield f"  {said}"


def time_line(recipe: Recipe, day: Day, starts_min: float = 0.0) -> str:
    """Return from when to when a day goes, so long after the start, and when its boil begins."""
    start = start_of(recipe)
    first = next((each.start_min for each in day.spans if each.key == "boil"), None)
    said = tr(
        "Day: {start} to {end}",
        start=clock_and_day(start, starts_min),
        end=clock_and_day(start, starts_min + float(day.total_min)),
    )
    if first is not None:
        boil = clock_and_day(start, starts_min + first)
        said = tr("{day}, the boil from {boil}", day=said, boil=boil)
    return f"  {said}"


def start_of(recipe: Recipe) -> int:
    """Return when the day starts, in minutes after midnight."""
    typed = minutes_of(recipe.process.start_time)
    return USUAL_START_MIN if typed is None else typed


def after_lines(recipe: Recipe, day: Day, figures: Figures) -> Iterator[str]:
    """Yield what yeast and packaging take, and what goes in costs where all of it is priced."""
    beer = day.beer
    yeast = tr(
        "Yeast: {low} to {high} g if it is dry",
        low=f"{float(beer.yeast_low_g):.0f}",
        high=f"{float(beer.yeast_high_g):.0f}",
    )
    bought = trn("{number} packet", "{number} packets", beer.yeast_packets)
    yield f"  {yeast} ({bought})"
    yield f"  {_packaging(recipe, beer, figures)}"
    price = cost(recipe)
    litre = per_litre(price, float(day.fermenter.batch_l))
    if price is not None and litre is not None:
        said = tr(
            "Cost of what goes in: {money}, {litre} a litre",
            money=figures(Kind.MONEY, price),
            litre=figures(Kind.MONEY, litre),
        )
        yield f"  {said}"


def _packaging(recipe: Recipe, beer: Beer, figures: Figures) -> str:
    process = recipe.process
    if process.package == Package.KEG:
        return tr(
            "Keg: {pressure} at {temperature}",
            pressure=figures(Kind.PRESSURE, max(float(beer.keg_bar), 0.0)),
            temperature=figures(Kind.TEMPERATURE, number(process, "serving_temperature")),
        )
    bottles = beer.bottled
    if bottles is not None and bottles.is_refused:
        return tr(
            "Bottles: no priming sugar is given, for these would burst ({bottle})",
            bottle=tr(bottles.kind),
        )
    others = (
        f"{figures.grams(float(grams))} {tr(sugar)}"
        for sugar, grams in beer.priming_g.items()
        if sugar != process.priming_sugar
    )
    return tr(
        "Bottles: {amount} of {sugar} for {volume} (or {others}), never warmer than {warmest} "
        "since it fermented",
        amount=figures.grams(float(beer.priming_g[process.priming_sugar])),
        sugar=tr(process.priming_sugar),
        volume=figures(Kind.VOLUME, float(beer.packaged_l)),
        others=", ".join(others),
        warmest=figures(Kind.TEMPERATURE, warmest_after_c(process)),
    )
