"""What is done at the pot, in the order of the day: steep, boil, what goes in when, cool.

Everything is read off the day and the recipe of one boil; the weights are those of its lines.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from designer.brewday.cooling import to_put_round
from designer.brewday.fit.answer import Boil, named
from designer.brewday.stages import KEPT_HOT_C, KEPT_HOT_MIN
from designer.brewday.time_line import Addition
from designer.recipe.choices import is_grain
from designer.recipe.edits import LISTS
from designer.recipe.fields import number
from designer.recipe.message import Figure, Message, in_a_row, say, word
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind, Stage

_Key = tuple[str, int]
_LATER = (Stage.DRY_HOP, Stage.FERMENTER)


class PotSteps:
    """The steps of one boil."""

    def __init__(self, boil: Boil) -> None:
        self._day, self._recipe = boil.day, boil.recipe
        self._fermenters = len(boil.fillings)
        self._lines: dict[_Key, Any] = {
            (lines, line.line_id): line for lines in LISTS for line in lines_of(boil.recipe, lines)
        }
        self._in_order = sorted(boil.day.additions, key=lambda each: each.time_min)

    def to_the_boil(self) -> Iterator[Message]:
        """Yield what is done before it boils."""
        cold = self._of("extras", "steep") + self._of("extras", "first wort")
        if cold:
            yield say("into-cold-water", "Stir {what} into the cold water.", what=self.words(cold))
        yield from self._steep()
        early = self._at("steep", "first wort")
        early = [each for each in early if each not in cold and not self._is_grain(each)]
        extract, hops = _parted(early)
        if extract:
            yield say(
                "before-the-boil",
                "Put in {what} before it comes to the boil; stir until all is dissolved.",
                what=self.words(extract),
            )
        if hops:
            yield say(
                "hops-before-the-boil",
                "Put in {what} before it comes to the boil.",
                what=self.words(hops),
            )
        extract = self._at("extract in")
        if extract:
            yield say(
                "extract-at-start",
                "Heat it to the boil, burner off, stir in {what} until all is dissolved; back to "
                "the boil.",
                what=self.words(extract),
            )
        else:
            yield say("heat-to-boil", "Heat it to the boil.")

    def _steep(self) -> Iterator[Message]:
        grain = [each for each in self._at("steep") if self._is_grain(each)]
        if not grain:
            return
        process = self._recipe.process
        yield say(
            "steep-in-bag",
            "Heat it to {0}, burner off, hang {what} in it in a bag; {1} at {2}. Lift it out and "
            "let it drip.",
            (Kind.TEMPERATURE, float(self._day.steep.strike_c)),
            (Kind.TIME, number(process, "steep_time")),
            (Kind.TEMPERATURE, number(process, "steep_temperature")),
            what=self.words(grain),
        )

    def boil(self) -> Iterator[Message]:
        """Yield the boil, counted down, and what goes in at its end."""
        minutes = number(self._recipe.process, "boil_time")
        during = [each for each in self._in_order if each.boil_left_min is not None]
        during = [each for each in during if each.stage != "extract in"]
        at_start = [each for each in during if _left(each) >= minutes]
        yield say("boil-for", "Boil it for {0}.", (Kind.TIME, minutes))
        if at_start:
            yield say("as-it-boils", "As it boils, put in {what}.", what=self.words(at_start))
        later = [each for each in during if _left(each) < minutes]
        for left, group in groupby(later, key=_left):
            yield self._with_left(left, list(group))
        yield from self._flame_out()

    def _with_left(self, left_min: float, group: Sequence[Addition]) -> Message:
        left: Figure = (Kind.TIME, left_min)
        what = self.words(group)
        if left_min <= 0.0:
            return say("at-the-end", "At the end of the boil put in {what}.", what=what)
        extract, hops = _parted(group)
        if extract and hops:
            return say(
                "extract-and-hops-with-left",
                "With {0} left, burner off, stir in {extract} until all is dissolved; back to the "
                "boil, then put in {hops}.",
                left,
                extract=self.words(extract),
                hops=self.words(hops),
            )
        if extract:
            return say(
                "extract-with-left",
                "With {0} left, burner off, stir in {what} until all is dissolved; back to the "
                "boil.",
                left,
                what=what,
            )
        return say("hops-with-left", "With {0} left, put in {what}.", left, what=what)

    def _flame_out(self) -> Iterator[Message]:
        at_once = self._of("hops", "flame-out") + self._of("extras", "flame-out")
        at_once += self._of("extras", "stand")
        if at_once:
            yield say("at-flame-out", "Burner off; stir in {what}.", what=self.words(at_once))
        else:
            yield say("burner-off", "Burner off.")
        extract = self._of("fermentables", "flame-out")
        if not extract:
            return
        hot: Figure = (Kind.TEMPERATURE, KEPT_HOT_C)
        yield say(
            "stir-in-off-boil",
            "When it is still, stir in {what} until nothing lies on the bottom.",
            what=self.words(extract),
        )
        if any(span.key == "heat again" for span in self._day.spans):
            yield say("heat-again", "Burner on, low; stir until it is at {0}, burner off.", hot)
        yield say(
            "keep-hot",
            "Lid on, {0} at {1} or more: a clean tin is nearly sterile, and this kills what is "
            "left.",
            (Kind.TIME, KEPT_HOT_MIN),
            hot,
        )

    def cool(self) -> Iterator[Message]:
        """Yield stands and cooling, with what is dissolved in the fermenter meanwhile."""
        for each in self._recipe.hops:
            if each.when.stage is Stage.STAND and each.amount is not None:
                yield say(
                    "stand-at",
                    "Cool it to {0}, stir in {what}, lid on, {1}.",
                    (Kind.TEMPERATURE, each.when.temperature or 80.0),
                    (Kind.TIME, each.when.minutes),
                    what=so_much("hops", each),
                )
        unboiled = self._of("fermentables", "fermenter")
        hot_l = float(self._day.fermenter.hot_l)
        if unboiled and hot_l > 0.0:
            yield self._dissolve(self.words(unboiled), (Kind.VOLUME, hot_l))
        yield self._cool_down()
        if unboiled and hot_l <= 0.0:
            yield say(
                "stir-into-wort",
                "Put {what} into the clean, sanitised fermenter; stir it into the cool wort.",
                what=self.words(unboiled),
            )

    def _dissolve(self, what: object, hot: Figure) -> Message:
        if self._fermenters > 1:
            return say(
                "dissolve-in-buckets",
                "While the pot cools, share {what} out into the clean, sanitised fermenters, and "
                "{0} of water just boiled on it; stir until nothing lies on the bottom; lids on.",
                hot,
                what=what,
            )
        return say(
            "dissolve-in-bucket",
            "While the pot cools, put {what} into the clean, sanitised fermenter, pour {0} of "
            "water just boiled on it and stir until nothing lies on the bottom; lid on.",
            hot,
            what=what,
        )

    def _cool_down(self) -> Message:
        filled = self._day.fermenter
        figures = (
            (Kind.TIME, float(filled.cooling_min)),
            (Kind.TEMPERATURE, float(filled.cool_to_c)),
        )
        way = word(self._recipe.process.cooling)
        ice_kg = to_put_round(float(filled.bath_ice_kg))
        if ice_kg > 0.0:
            return say(
                "cool-with-ice",
                "Cool it to {1}, some {0} ({way}); {2} of ice goes round it when cold water has "
                "done its part. From now on only what is sanitised touches the wort.",
                *figures,
                (Kind.MASS, ice_kg),
                way=way,
            )
        return say(
            "cool-to",
            "Cool it to {1}, some {0} ({way}). From now on only what is sanitised touches the "
            "wort.",
            *figures,
            way=way,
        )

    def added_later(self) -> list[tuple[str, Any]]:
        """Return what goes into the fermenter with the yeast or days after: list and line."""
        found = [(each.lines, self._lines[each.lines, each.line_id]) for each in self._in_order]
        return [
            (lines, line)
            for lines, line in found
            if lines != "fermentables" and line.when.stage in _LATER
        ]

    def words(self, group: Sequence[Addition]) -> object:
        """Return what goes in together, each with its weight."""
        return in_a_row(
            [so_much(each.lines, self._lines[each.lines, each.line_id]) for each in group]
        )

    def _at(self, *stages: str) -> list[Addition]:
        return [each for each in self._in_order if each.stage in stages]

    def _of(self, lines: str, stage: str) -> list[Addition]:
        return [each for each in self._at(stage) if each.lines == lines]

    def _is_grain(self, each: Addition) -> bool:
        return each.lines == "fermentables" and is_grain(self._lines[each.lines, each.line_id].kind)


def _parted(group: Sequence[Addition]) -> tuple[list[Addition], list[Addition]]:
    """Return what dissolves, and what does not: hops and finings."""
    dissolves = [each for each in group if each.lines == "fermentables"]
    return dissolves, [each for each in group if each not in dissolves]


def _left(each: Addition) -> float:
    return each.boil_left_min or 0.0


def so_much(lines: str, line: Any) -> object:
    """Return a line of the recipe with its weight, or its dose."""
    if line.amount is None:
        return named(line.name)
    figure: Figure = (
        (Kind.DOSE, line.amount) if lines == "extras" else (Kind.MASS, line.amount.value)
    )
    return say("so-much-of", "{0} of {name}", figure, name=named(line.name))
