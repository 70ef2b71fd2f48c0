"""What stands in the table of Fit: the recipe as it is written and each way, cell by cell.

A figure that differs by more than the recipe's own range leaves open has a sign and a word, and so
has what asks for care and what does not fit. "Same" stands only where the figures shown are equal.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from designer.brewday.fit.original import VOLUME_DEADBAND
from designer.brewday.fit.pot_limits import foam_limit, fullest_at_the_boil_l, rim_of
from designer.brewday.fit.wish import room_l
from designer.brewday.predictions import BY_KEY, MAIN
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message, named, tr, trn
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.wort.bitterness import TABLE_SG

if TYPE_CHECKING:
    from designer.brewday.fit.answer import Boil, Compared, FitAnswer, Way
    from designer.brewday.fit.wish import FitWish
    from designer.brewday.results import Day
    from designer.recipe.document import Recipe

STRENGTH = ("original_gravity", "abv_percent")
"""Forecasts that share a row."""
LONGER_MIN = 60.0
"""A day that is longer by more than that asks for thought; a judgement, no source."""
_SLACK_L = 0.05
SHORTLY = {
    "full-pot": message("stay with the pot"),
    "pot-bitterness-way": message("more hops than a pot carries"),
    "strong-boil": message("stir, or it burns on"),
    "freeze-boiled": message("freeze boiled water before"),
}
"""The cautions of a way in a few words, by their ids; they stand in full below the table."""


class Mark(Enum):
    """What a cell says beyond its figure: the sign before it, and that in a word."""

    NONE = ("", "")
    DIFFERS = ("△", message("differs, or asks for care"))
    DOES_NOT_FIT = ("✕", message("does not fit"))

    @property
    def sign(self) -> str:
        """The sign before the figure."""
        return self.value[0]

    @property
    def words(self) -> str:
        """The same, to be read aloud."""
        return tr(self.value[1]) if self.value[1] else ""


@dataclass(frozen=True, slots=True)
class Cell:
    """What is said in one place of the table; `soft` where it is no news."""

    text: str
    mark: Mark = Mark.NONE
    soft: bool = False
    strong: bool = False

    @property
    def shown(self) -> str:
        """The text behind its sign."""
        return f"{self.mark.sign} {self.text}".strip()


@dataclass(frozen=True, slots=True)
class Column:
    """A way, or with `way` None the recipe as it is written."""

    title: str
    cells: tuple[Cell, ...]
    way: Way | None = None


def rows() -> tuple[str, ...]:
    """Return what heads the rows."""
    return (
        tr("Beer"),
        tr("OG, alcohol"),
        *(tr(BY_KEY[key].title) for key in _other_forecasts()),
        tr("Pot at its fullest"),
        tr("Wort at boil’s end"),
        tr("In the fermenter"),
        tr("At stove and sink"),
        tr("Buy or borrow"),
        tr("Left over"),
        tr("Worth knowing"),
    )


def _other_forecasts() -> tuple[str, ...]:
    """The forecasts with a row of their own: those by which ways are put in order."""
    return tuple(each.key for each in MAIN if each.weight is not None and each.key not in STRENGTH)


class SideBySide:
    """Makes the columns of an answer, in the units of the moment."""

    def __init__(
        self, recipe: Recipe, wish: FitWish, answer: FitAnswer, display: DisplayFormat
    ) -> None:
        self._recipe, self._wish, self._answer = recipe, wish, answer
        self._display, self._short = display, display.short

    def columns(self) -> tuple[Column, ...]:
        """Return the recipe as it is written, and each way in order."""
        return (self.as_written(), *(self.of_way(way) for way in self._answer.ways))

    # as it is written

    def as_written(self) -> Column:
        """Return the recipe in these vessels as it is: what does not fit is marked."""
        day, found = self._answer.original, self._answer.forecasts
        value = {key: figure(key, each.value, self._display) for key, each in found.items()}
        batch = float(day.fermenter.batch_l)
        cells = (
            Cell(self._short(Kind.VOLUME, batch)),
            Cell(" · ".join(value[key] for key in STRENGTH)),
            *(Cell(value[key]) for key in _other_forecasts()),
            self._pot(self._pot_in_hand(day)),
            self._boil_end([float(day.pot.boil_gravity_end)]),
            self._written_fermenter(batch),
            Cell(self._display.rounded(Kind.TIME, float(day.total_min))),
            Cell(""),
            Cell(""),
            Cell(""),
        )
        return Column(tr("as it is written"), cells)

    def _pot_in_hand(self, day: Day) -> list[_Fullest]:
        pot = self._wish.pot
        boiling = fullest_at_the_boil_l(self._recipe, day)
        return [_Fullest(float(day.pot.fullest_l), boiling, rim_of(pot), foam_limit(pot))]

    def _written_fermenter(self, batch_l: float) -> Cell:
        largest = max(self._wish.fermenters, key=room_l)
        brim = largest.volume
        if brim is None:
            return Cell(self._short(Kind.VOLUME, batch_l))
        mark = Mark.NONE
        if batch_l > room_l(largest) + _SLACK_L:
            mark = Mark.DOES_NOT_FIT if batch_l > brim.value else Mark.DIFFERS
        return Cell(self._of(batch_l, brim.value), mark)

    # a way

    def of_way(self, way: Way) -> Column:
        """Return a way beside it."""
        cells = (
            self._beer(way),
            self._forecast(STRENGTH, way),
            *(self._forecast((key,), way) for key in _other_forecasts()),
            self._pot([_fullest(boil) for boil in distinct(way)]),
            self._boil_end([float(b.day.pot.boil_gravity_end) for b in distinct(way)]),
            self._fermenters(way),
            self._time(way),
            self._buy(way),
            self._left(way),
            self._know(way),
        )
        return Column(tr(way.name), cells, way)

    def _beer(self, way: Way) -> Cell:
        differs = abs(way.batch_l - way.original_batch_l) > VOLUME_DEADBAND * way.original_batch_l
        text = self._short(Kind.VOLUME, way.batch_l)
        if lots(way) > 1:
            text = trn("{volume}", "{volume}, in {number} lots", lots(way), volume=text)
        return Cell(text, Mark.DIFFERS if differs else Mark.NONE)

    def _forecast(self, keys: Sequence[str], way: Way) -> Cell:
        """Return figures of the way: "same" where all that is shown is equal."""
        now = [figure(key, way.forecasts[key].value, self._display) for key in keys]
        before = [figure(key, way.forecasts[key].original, self._display) for key in keys]
        if now == before:
            return Cell(tr("same"), soft=True)
        differs = any(self._outside(key, way.forecasts[key]) for key in keys)
        return Cell(" · ".join(now), Mark.DIFFERS if differs else Mark.NONE)

    def _outside(self, key: str, found: Compared) -> bool:
        """Tell whether a forecast lies outside the recipe's own range."""
        own = self._answer.forecasts[key]
        untold = BY_KEY[key].deadband or 0.0
        return (
            not min(own.low, own.value - untold) <= found.value <= max(own.high, own.value + untold)
        )

    def _pot(self, pots: list[_Fullest]) -> Cell:
        mark = Mark.NONE
        if any(each.fullest_l > each.rim_l for each in pots):
            mark = Mark.DOES_NOT_FIT
        elif any(each.boiling_l > each.foam_l + _SLACK_L for each in pots):
            mark = Mark.DIFFERS
        return Cell(self._in_a_row([each.fullest_l for each in pots]), mark)

    def _boil_end(self, gravities: list[float]) -> Cell:
        texts = [figure("original_gravity", each, self._display) for each in gravities]
        text = " · ".join(dict.fromkeys(texts))
        if max(gravities) > TABLE_SG[1]:
            return Cell(tr("{gravity}, a syrup", gravity=text), Mark.DIFFERS)
        return Cell(text)

    def _fermenters(self, way: Way) -> Cell:
        filled: dict[str, int] = {}
        for each in way.plan.fermenters:
            litres = each.total_l
            text = (
                self._short(Kind.VOLUME, litres)
                if each.brim_l is None
                else self._of(litres, each.brim_l)
            )
            filled[text] = filled.get(text, 0) + 1
        if lots(way) > 1:
            return Cell(tr("{filled}, each time", filled=", ".join(filled)))
        return Cell(
            ", ".join(text if count == 1 else f"{count} × {text}" for text, count in filled.items())
        )

    def _time(self, way: Way) -> Cell:
        longer = way.total_min - float(self._answer.original.total_min) > LONGER_MIN
        count = lots(way)
        text = self._display.rounded(Kind.TIME, way.total_min / count)
        text = text if count == 1 else f"{count} × {text}"
        return Cell(text, Mark.DIFFERS if longer else Mark.NONE)

    def _buy(self, way: Way) -> Cell:
        if not way.must_buy:
            return Cell(tr("nothing"), strong=True)
        priced = self._priced(way)
        return Cell(tr("{things} (later)", things=priced) if way.in_hand else priced)

    def _priced(self, way: Way) -> str:
        """Return what has to be bought, with its price as far as that is known."""
        things = ", ".join(self.to_buy(way))
        known = sum(each.price or 0.0 for each in way.must_buy)
        if known <= 0.0:
            return tr("{things}: no price", things=things)
        money = self._display.value(Kind.MONEY, round(known, 2))
        if way.cost_to_buy is None:
            return tr("{things}: {money} and more", things=things, money=money)
        return tr("{things}: {money}", things=things, money=money)

    def to_buy(self, way: Way) -> Iterator[str]:
        """Yield in short what has to be bought or borrowed for a way."""
        vessels: dict[str, int] = {}
        for boil in way.boils:
            for filling in boil.fillings:
                if not filling.in_hand:
                    fermenter = filling.fermenter
                    name = _vessel(fermenter.kind, fermenter.volume, self._short)
                    vessels[name] = vessels.get(name, 0) + 1
        for name, count in vessels.items():
            yield name if count == 1 else f"{count} × {name}"
        packets = sum(1 for each in way.must_buy if each.kind == "yeast")
        if packets:
            one = tr("yeast")
            yield one if packets == 1 else tr("{number} × yeast", number=packets)
        for each in way.must_buy:
            if each.kind not in ("", "yeast") and each.mass_kg is not None:
                yield f"{self._display.rounded(Kind.MASS, each.mass_kg)} {each.what}"

    def _left(self, way: Way) -> Cell:
        if not way.left_over:
            return Cell(tr("nothing"), soft=True)
        share = _share_left(self._recipe, way)
        if share < 0.005:
            return Cell(self._first_left(way), Mark.DIFFERS)
        text = self._short(Kind.FRACTION, round(share, 2))
        worth = _worth(self._recipe, way)
        if worth is None:
            return Cell(tr("{share} of the ingredients", share=text), Mark.DIFFERS)
        money = self._display.value(Kind.MONEY, round(worth, 2))
        return Cell(
            tr("{share} of the ingredients, {money}", share=text, money=money), Mark.DIFFERS
        )

    def _first_left(self, way: Way) -> str:
        names = [named(each.name) for each in way.left_over]
        if len(names) == 1:
            return names[0]
        return trn(
            "{name} and {number} more", "{name} and {number} more", len(names) - 1, name=names[0]
        )

    def _know(self, way: Way) -> Cell:
        known = [tr(SHORTLY[each.id]) for each in way.cautions if each.id in SHORTLY]
        return Cell(", ".join(dict.fromkeys(known)))

    # figures

    def _of(self, litres: float, brim_l: float) -> str:
        size, filled = self._short(Kind.VOLUME, brim_l), self._short(Kind.VOLUME, litres)
        figure_, _, unit = filled.rpartition(" ")
        if size.rpartition(" ")[2] == unit:
            filled = figure_
        return tr("{filled} of {size}", filled=filled, size=size)

    def _in_a_row(self, litres: Sequence[float]) -> str:
        return " · ".join(self._short(Kind.VOLUME, each) for each in litres)


@dataclass(frozen=True, slots=True)
class _Fullest:
    """How full a pot comes to be, at its worst and at the boil, and what it bears; litres hot."""

    fullest_l: float
    boiling_l: float
    rim_l: float
    foam_l: float


def _fullest(boil: Boil) -> _Fullest:
    return _Fullest(
        boil.fullest_l, boil.foam_limit_l - boil.foam_room_l, boil.rim_l, boil.foam_limit_l
    )


def lots(way: Way) -> int:
    """Return on how many days a way brews: the fermenter is filled once on each of them."""
    return len({each.on_day for each in way.plan.fermenters})


def distinct(way: Way) -> Sequence[Boil]:
    """Return the boils of a way, those that are all alike as one."""
    return way.boils[:1] if way.plan.boils_alike else way.boils


def _vessel(kind: str, volume: Quantity | None, short: Callable[[Kind, float], str]) -> str:
    name = tr(kind)
    if volume is None:
        return name
    return tr("{size} {vessel}", size=short(Kind.VOLUME, volume.value), vessel=name)


def _share_left(recipe: Recipe, way: Way) -> float:
    """Return the share of what is fermented, by weight, that a way leaves over."""
    whole = sum(line.amount.value for line in recipe.fermentables if line.amount is not None)
    left = sum(each.amount.value for each in way.left_over if each.lines == "fermentables")
    return left / whole if whole > 0.0 else 0.0


def _worth(recipe: Recipe, way: Way) -> float | None:
    """Return the price of what is left over; None where one is not known."""
    worth = 0.0
    for each in way.left_over:
        line = next((x for x in lines_of(recipe, each.lines) if x.line_id == each.line_id), None)
        if line is None or line.price is None or not line.amount or line.amount.value <= 0.0:
            return None
        worth += float(line.price.value) * each.amount.value / line.amount.value
    return worth
