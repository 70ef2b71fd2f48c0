"""What packaging takes, as text and as the plain values of its JSON.

Both show what a `Packaged` holds and nothing else: of what is refused there is no amount of sugar
to show, and the cautions stand wherever an amount does.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from designer.brewday.packaging.packaged import (
    KegSetting,
    Packaged,
    Packing,
    Pressure,
    SugarWanted,
    to_the_tenth_above,
)
from designer.recipe.choices import Package
from designer.recipe.day_words import day_words
from designer.recipe.message import Message
from designer.recipe.quantity import Kind
from designer.sheet.figures import US_GALLON_L, us_mass
from designer.translation import tr, trn
from designer.units import ShownUnits, show
from designer.workbench.figures import PLAIN, Figures
from designer.wort.carbonation import BAR_PER_PSI

CHART_ROWS = 6
_NO_SUGAR_G = 0.5


def packing_lines(packing: Packing, packed: Packaged, figures: Figures = PLAIN) -> Iterator[str]:
    """Return what packaging takes, in lines."""
    words = _InUnits(figures)
    yield words.beer(packing, packed)
    if packed.refusal is not None:
        yield packed.refusal.said(words.show)
    if packing.package == Package.KEG:
        yield from _keg(packed, words)
    else:
        yield from _bottles(packing, packed, words)
    for code, caution in packed.cautions:
        told = caution.said(words.show)
        yield tr("Mind: {caution}", caution=told) + (
            tr(" (tick it: {code})", code=code) if code in packed.to_tick else ""
        )
    for day, what in packed.dates:
        yield tr("{day}: {what}", day=day_words(day).text, what=what.said(words.show))


class _InUnits:
    """Says figures in the units that are shown."""

    def __init__(self, figures: Figures) -> None:
        self.show = figures
        self.units = figures.units

    def beer(self, packing: Packing, packed: Packaged) -> str:
        """Say how much beer there is and what it holds."""
        return tr(
            "{beer} of beer, warmest at {warmest}: holds {held} already, {wanted} wanted",
            beer=self.show(Kind.VOLUME, packing.beer_l),
            warmest=self.show(Kind.TEMPERATURE, packing.warmest_c),
            held=self.show.exactly(Kind.CARBONATION, round(packed.residual_volumes, 2)),
            wanted=self.show.exactly(Kind.CARBONATION, packing.volumes),
        )


def _bottles(packing: Packing, packed: Packaged, words: _InUnits) -> Iterator[str]:
    own = packed.sugar(packing.sugar)
    if own is not None and own.grams < _NO_SUGAR_G:
        yield tr("No sugar: the beer holds gas enough.")
    elif own is not None:
        yield tr("Sugar: {sugar}", sugar=_sugar(own, words))
        others = [_sugar(each, words) for each in packed.sugars if each.sugar != packing.sugar]
        yield tr("or {others}", others=", ".join(others))
        yield tr(
            "Boil it in water, cool it, pour it into a clean bucket, and siphon the beer onto it."
        )
    if packed.pressure is not None:
        yield _pressure(packed.pressure, words)
    if packing.bottles:
        yield trn(
            "{filled} in {number} bottle, {left} over",
            "{filled} in {number} bottles, {left} over",
            packed.caps - packed.empty_bottles,
            filled=words.show(Kind.VOLUME, packed.filled_l),
            left=words.show(Kind.VOLUME, round(packed.left_over_l, 3)),
        )
    if packed.empty_bottles:
        yield trn(
            "{number} bottle stays empty", "{number} bottles stay empty", packed.empty_bottles
        )


def _sugar(each: SugarWanted, words: _InUnits) -> str:
    sugar = tr(each.sugar.value)
    if words.units is ShownUnits.US:
        return tr(
            "{mass} of {sugar} ({rate} a gallon)",
            mass=us_mass(each.grams / 1000.0),
            sugar=sugar,
            rate=us_mass(each.grams_a_litre * US_GALLON_L / 1000.0),
        )
    return tr(
        "{grams} g of {sugar} ({rate} g a litre)",
        grams=f"{each.grams:.0f}",
        sugar=sugar,
        rate=words.show.number(each.grams_a_litre, 1),
    )


def _pressure(pressure: Pressure, words: _InUnits) -> str:
    return tr(
        "The fullest bottle: {cool} at {room}, {warm} at {hot}; at ease to {comfortable}, never "
        "above {never} ({kind})",
        cool=words.show(Kind.PRESSURE, to_the_tenth_above(pressure.at_20_bar)),
        room=words.show(Kind.TEMPERATURE, 20.0),
        warm=words.show(Kind.PRESSURE, to_the_tenth_above(pressure.warm_bar)),
        hot=words.show(Kind.TEMPERATURE, pressure.warm_c),
        comfortable=words.show(Kind.PRESSURE, pressure.comfortable_bar),
        never=words.show(Kind.PRESSURE, pressure.never_bar),
        kind=tr(pressure.kind.value),
    )


def _keg(packed: Packaged, words: _InUnits) -> Iterator[str]:
    if not packed.keg:
        return
    first = packed.keg[0]
    yield tr(
        "Set the regulator, no sugar. {days} days at rest, or {minutes} min shaken at that "
        "pressure.",
        days=f"{first.fewest_days:.0f}–{first.days:.0f}",
        minutes=f"{first.shaken_min:.0f}",
    )
    for each in packed.keg[:CHART_ROWS]:
        yield f"  {words.show.plain(keg_row(each))}"


def keg_row(each: KegSetting) -> str:
    """Return a row of the chart, in both units: regulators are marked in either."""
    return tr(
        "at {celsius} ({fahrenheit}): {bar} ({psi})",
        celsius=f"{each.temp_c:.0f} °C",
        fahrenheit=f"{_fahrenheit(each.temp_c):.0f} °F",
        bar=f"{each.bar:.2f} bar",
        psi=f"{each.bar / BAR_PER_PSI:.0f} psi",
    )


def _fahrenheit(temp_c: float) -> float:
    return 1.8 * temp_c + 32.0


def packing_said(packing: Packing, packed: Packaged) -> str:
    """Return in a line how a beer was packaged, as its log says it."""
    beer = show(Kind.VOLUME, packing.beer_l, rounded=True)
    if packing.package == Package.KEG:
        return tr("{beer} into a keg", beer=beer)
    bottles = trn(
        "{filled} in {number} bottle",
        "{filled} in {number} bottles",
        packed.caps - packed.empty_bottles,
        filled=show(Kind.VOLUME, packed.filled_l, rounded=True),
    )
    own = packed.sugar(packing.sugar)
    if own is None or own.grams < _NO_SUGAR_G:
        return bottles
    return tr(
        "{bottles}, with {grams} g of {sugar}",
        bottles=bottles,
        grams=f"{own.grams:.0f}",
        sugar=tr(own.sugar.value),
    )


def packing_document(packing: Packing, packed: Packaged) -> dict[str, Any]:
    """Return what packaging takes as plain values; `sugars` is empty where it is refused."""
    return {
        "package": str(packing.package),
        "beer_l": packing.beer_l,
        "wanted_vol": packing.volumes,
        "warmest_c": packing.warmest_c,
        "residual_vol": packed.residual_volumes,
        "unfinished_vol": packed.unfinished_volumes,
        "bears": str(packed.bears),
        "may_go_ahead": packed.may_go_ahead,
        "refusal": _refusal(packed),
        "sugar": str(packing.sugar),
        "sugars": [
            {"sugar": each.sugar.value, "g": each.grams, "g_per_l": each.grams_a_litre}
            for each in packed.sugars
        ],
        "pressure": None if packed.pressure is None else _pressure_document(packed.pressure),
        "bottles": [
            {"litres": each.litres, "count": each.count, "kind": each.kind.value}
            for each in packing.bottles
        ],
        "filled_l": packed.filled_l,
        "left_over_l": packed.left_over_l,
        "caps": packed.caps,
        "empty_bottles": packed.empty_bottles,
        "keg": [_setting(each) for each in packed.keg],
        "cautions": [
            {"code": code, "message": caution.text, "to_tick": code in packed.to_tick}
            for code, caution in packed.cautions
        ],
        "dates": [
            {"date": day.isoformat(), "code": what.id, "message": what.text}
            for day, what in packed.dates
        ],
    }


def _refusal(packed: Packaged) -> dict[str, str] | None:
    refusal: Message | None = packed.refusal
    if refusal is None:
        return None
    return {"code": str(packed.refused_for or ""), "message": refusal.text}


def _pressure_document(pressure: Pressure) -> dict[str, Any]:
    return {
        "kind": pressure.kind.value,
        "fullest_vol": pressure.volumes,
        "at_20_bar": pressure.at_20_bar,
        "warm_c": pressure.warm_c,
        "warm_bar": pressure.warm_bar,
        "comfortable_bar": pressure.comfortable_bar,
        "never_bar": pressure.never_bar,
        "comfortable_vol": pressure.comfortable_volumes,
        "never_vol": pressure.never_volumes,
    }


def _setting(each: KegSetting) -> dict[str, float]:
    return {
        "temp_c": each.temp_c,
        "temp_f": _fahrenheit(each.temp_c),
        "bar": each.bar,
        "psi": each.bar / BAR_PER_PSI,
        "least_days": each.fewest_days,
        "most_days": each.days,
        "shaken_min": each.shaken_min,
    }
