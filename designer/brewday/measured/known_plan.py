"""A planned recipe after readings: what was told of the day of each pour.

A pour is a day of its own, as if all wort of its boil went its way. What is read in the pot is read
of that day; what is read in the fermenter is of the pour's share of it, and of what other boils
brought as well. Boils that are alike, but were measured differently, are no longer alike.

What was read of a boil in its pot, and of what came out of it, tells something of the other boils
in the same pot, whichever was first (`other_boils`). Boils in other pots, and what is read of a
fermenter that is topped up, tell nothing of each other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property

from designer.brewday.day import brew
from designer.brewday.measured.as_read import as_read
from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.observed import Told, is_observed
from designer.brewday.measured.other_boils import OtherBoil, measured_alike
from designer.brewday.measured.readings import Measured, Readable, Reading
from designer.brewday.measured.sampled_wort import SampledWort, mixed_worts
from designer.brewday.plan_days import ToldOfPours, cooled_for_all
from designer.brewday.results import Day, Range
from designer.recipe.choices import Turn
from designer.recipe.document import Recipe
from designer.recipe.plan import Pour, at_once, boils_of, pours, recipe_of_pour

IN_FERMENTER = (
    Measured.INTO_FERMENTER,
    Measured.TOPPED_UP,
    Measured.MIXED,
    Measured.ORIGINAL_GRAVITY,
)
"""What is read in a fermenter; the rest is read of a boil."""


class KnownPlan(ToldOfPours):
    """What readings tell of the pours of a planned recipe."""

    def __init__(self, recipe: Recipe, readings: Sequence[Reading] = ()) -> None:
        self._recipe, self._readings = recipe, tuple(readings)
        self._all = pours(recipe)
        self._known: dict[Pour, KnownDay] = {}

    def of(self, pour: Pour) -> tuple[Told | OtherBoil, ...]:
        """Return the readings that tell something of a pour, and the other boils in its pot."""
        return (*self.own(pour), *self._other_boils(pour))

    def own(self, pour: Pour) -> tuple[Told, ...]:
        """Return the readings that are of a pour itself."""
        found = (self._told(pour, each) for each in self._readings)
        return tuple(each for each in found if each is not None)

    def recipe(self, made: Recipe, pour: Pour) -> Recipe:
        """Return the plain recipe of a pour with what was read of what the brewer decided."""
        return as_read(made, [each.of_the_day for each in self.own(pour)])

    def expected(self, readable: Readable) -> Range:
        """Return what is there to be read.

        What comes into a fermenter is that of the boil that is named; the mark to which it is
        topped up after that boil is of all that is in it then.
        """
        what = readable.what
        if what not in IN_FERMENTER:
            own = [each for each in self._all if each.boil == readable.boil]
            found = [
                self._day(each).expected(what, readable.left_min)
                for each in (own if what is Measured.COOLED else own[:1])
            ]
            return min(found, key=lambda each: each.value)  # it is cooled for the coldest
        own = self._read_of(readable)
        days = [self._day(each) for each in own]
        ranges = [each.as_marked(readable, each.expected(what)) for each in days]
        if what in (Measured.INTO_FERMENTER, Measured.TOPPED_UP):
            return _summed(ranges, [each.share for each in own])
        litres = [each.share * _batch_l(self._day(each).plain.day) for each in own]
        return _summed(ranges, [each / max(sum(litres), 1e-9) for each in litres])

    def wort_in(self, fermenter: int = 1) -> SampledWort:
        """Return the wort of a fermenter in each sample, of all that is poured into it."""
        own = [each for each in self._all if each.fermenter == fermenter] or [self._all[0]]
        return mixed_worts([self._day(each).wort_in() for each in own], [e.share for e in own])

    def _day(self, pour: Pour) -> KnownDay:
        found = self._known.get(pour)
        if found is None:
            made = recipe_of_pour(self._recipe, pour)
            made = cooled_for_all(self._recipe, pour, made)
            found = self._known[pour] = KnownDay(made, self.of(pour))
        return found

    def _told(self, pour: Pour, reading: Reading) -> Told | None:
        if reading.what not in IN_FERMENTER:
            is_of_it = reading.boil == pour.boil or self._of_one_packet(reading, pour)
            return Told(reading) if is_of_it else None
        own = self._read_of(reading)
        if pour not in own:
            return None
        if reading.what is Measured.TOPPED_UP:
            return Told(
                reading, pour.share * sum(each.of_fermenter for each in own) / pour.of_fermenter
            )
        if reading.what is Measured.INTO_FERMENTER:
            return Told(reading, pour.share * self._times(pour, own, _from_pot_l))
        if reading.what is Measured.MIXED:
            return Told(reading) if len(own) == 1 else None
        return Told(reading, self._times(pour, own, _points_l) / self._times(pour, own, _batch_l))

    def _other_boils(self, pour: Pour) -> Iterator[OtherBoil]:
        """Yield the other boils in the pot of a pour of which nature was read there."""
        read = [each.reading for each in self.own(pour)]
        for number, _ in enumerate(boils_of(self._recipe), 1):
            if not self._in_one_pot(number, pour.boil):
                continue
            poured = [each for each in self._all if each.boil == number]
            told = tuple(self._told_of_pot(poured)) if poured else ()
            if any(is_observed(each.reading) for each in told):
                yield OtherBoil(
                    number,
                    recipe_of_pour(self._recipe, poured[0]),
                    told,
                    same_day=self._day_of(number) == self._day_of(pour.boil),
                    same_fermenter=poured[0].fermenter == pour.fermenter,
                    same_measure=measured_alike(read, [each.reading for each in told]),
                )

    def _told_of_pot(self, poured: Sequence[Pour]) -> Iterator[Told]:
        """Yield what was read of a boil in its pot, and of what came from it into a fermenter.

        Of wort that was shared between fermenters a level tells as much of how it was shared.
        """
        for each in self.own(poured[0]):
            into = each.reading.what is Measured.INTO_FERMENTER and len(poured) == 1
            if each.reading.what not in IN_FERMENTER or into:
                yield each

    def _in_one_pot(self, boil: int, other: int) -> bool:
        """Whether two boils are brewed in one and the same pot.

        Pots that boil at once are several, however alike, and nobody says which is used again.
        """
        boils = boils_of(self._recipe)
        pot = boils[boil - 1].pot
        if boil == other or boils[other - 1].pot != pot:
            return False
        alike = [n for n, each in enumerate(boils, 1) if each.pot == pot]
        rounds = [self._round_of(each) for each in alike]
        return len(set(rounds)) == len(rounds)

    def _day_of(self, boil: int) -> int:
        return sum(e.turn == Turn.ANOTHER_DAY for e in boils_of(self._recipe)[1:boil])

    def _read_of(self, readable: Readable) -> list[Pour]:
        """Return the pours that a reading in a fermenter is of."""
        own = [each for each in self._all if each.fermenter == readable.fermenter]
        if readable.what is Measured.INTO_FERMENTER:
            return [each for each in own if each.boil == readable.boil] or own
        if readable.what is Measured.TOPPED_UP:
            last = self._round_of(readable.boil)
            return [each for each in own if self._round_of(each.boil) <= last] or own
        return own

    def _round_of(self, boil: int) -> int:
        """Return when a boil's wort is topped up: that of pots at once together."""
        return sum(not at_once(each) for each in boils_of(self._recipe)[1:boil])

    def _of_one_packet(self, reading: Reading, pour: Pour) -> bool:
        """Whether it is the packet of another boil, and neither has hops of its own."""
        boils = boils_of(self._recipe)
        if reading.what is not Measured.ALPHA or not 1 <= reading.boil <= len(boils):
            return False
        return boils[reading.boil - 1].hops is None and boils[pour.boil - 1].hops is None

    def _times(self, pour: Pour, own: Sequence[Pour], figure: Callable[[Day], float]) -> float:
        """Return how many times what a pour brings it and others bring together."""
        brought = {each: each.share * figure(self._planned[each]) for each in own}
        return sum(brought.values()) / max(brought[pour], 1e-9)

    @cached_property
    def _planned(self) -> dict[Pour, Day]:
        return {each: brew(recipe_of_pour(self._recipe, each)) for each in self._all}


def _from_pot_l(day: Day) -> float:
    return float(day.fermenter.from_pot_l)


def _batch_l(day: Day) -> float:
    return float(day.fermenter.batch_l)


def _points_l(day: Day) -> float:
    return _batch_l(day) * (float(day.beer.original_gravity) - 1.0)


def _summed(ranges: Sequence[Range], weights: Sequence[float]) -> Range:
    def of(name: str) -> float:
        return sum(w * float(getattr(each, name)) for each, w in zip(ranges, weights, strict=True))

    quartiles = of("first_quartile"), of("middle"), of("third_quartile")
    return Range(of("value"), of("low"), of("high"), (), *quartiles)
