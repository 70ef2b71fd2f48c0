"""What can be turned of a recipe to see what comes of it: each amount, time, temperature, figure.

A knob has a span about what stands there now, in steps of the unit that is shown. What it gives at
a step is a text as a brewer would have typed it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor, log10

from designer.recipe.document import PART_TYPES, Recipe
from designer.recipe.edits import ChangeLine, ChangePart, changing, with_amount
from designer.recipe.fields import FieldFacts, quantity_fields
from designer.recipe.named import Line, is_locked, lines_of, part_of, value_of
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.translation import message
from designer.units import ShownUnits, read, read_when, show
from designer.units.converting import convert

GOES_IN = message("Goes in")
TURNED = (
    Kind.MASS, Kind.VOLUME, Kind.TIME, Kind.TEMPERATURE, Kind.EVAPORATION, Kind.FRACTION,
    Kind.MALT_COLOUR, Kind.DOSE, Kind.POWER, Kind.ABSORPTION, Kind.CARBONATION, Kind.LENGTH,
    Kind.RATE, Kind.EXTRACT_YIELD,
)  # fmt: skip
"""Kinds whose quantities can be turned; prices and how a hydrometer reads change no beer."""
NOT_TURNED = {
    ("process", "altitude"), ("process", "serving_temperature"), ("process", "hydrometer_made_for"),
}  # fmt: skip
FIRST_KG = {"fermentables": 0.5, "hops": 0.02}
"""Where an amount is not typed yet, about how much there may be."""
STEPS_ACROSS = 100
LONGEST_IN_MINUTES = 600.0
SHORTEST_SPAN_MIN, LONGEST_STAND_MIN, LONGEST_DRY_D = 90.0, 60.0, 14.0
DEGREES_ABOUT = 25.0
LEAST_STEPS = {
    "g": 1.0, "oz": 0.05, "lb": 0.05, "min": 1.0, "d": 1.0, "°C": 1.0, "°F": 1.0, "L": 0.1,
    "gal": 0.05, "W": 50.0, "%": 0.1, "°L": 0.5,
}  # fmt: skip
"""What a kitchen tells apart; a judgement."""


@dataclass(frozen=True, slots=True)
class Knob:
    """A quantity, or when a line goes in, of a recipe, with the span over which it is turned.

    `name` is that of the line, "" for a field of a part, `facts` None for when a line goes in.
    Figures are in `unit`.
    """

    place: Place
    name: str
    label: str
    facts: FieldFacts | None
    unit: str
    low: float
    step: float
    steps: int

    def figure(self, at: int) -> float:
        """Return the figure at a step."""
        return round(self.low + at * self.step, 6)

    def nearest(self, figure: float) -> int:
        """Return the step nearest to a figure."""
        return min(max(round((figure - self.low) / self.step), 0), self.steps)


Turned = Quantity | When


def knobs(
    recipe: Recipe, idle: frozenset[str] = frozenset(), units: ShownUnits = ShownUnits.METRIC
) -> tuple[Knob, ...]:
    """Return all that can be turned, lines first; what is locked or `idle` for a plan cannot."""
    return (*_of_lines(recipe, units), *_of_parts(recipe, idle, units))


def _of_lines(recipe: Recipe, units: ShownUnits) -> Iterator[Knob]:
    for lines in ("fermentables", "hops"):
        for line in lines_of(recipe, lines):
            if is_locked(line) or not line.name:
                continue
            for field, facts in quantity_fields(line):
                place = Place(lines, field.name, line.line_id)
                found = _quantity_knob(recipe, place, line.name, facts, units)
                if found is not None and not field.name.startswith("label_"):
                    yield found
                if field.name == "amount":
                    yield from _when_knob(recipe, line, Place(lines, "when", line.line_id))


def _of_parts(recipe: Recipe, idle: frozenset[str], units: ShownUnits) -> Iterator[Knob]:
    for part in ("process", "pot", "fermenter", "yeast"):
        for field, facts in quantity_fields(PART_TYPES[part]):
            if {part, f"{part}.{field.name}"} & idle or (part, field.name) in NOT_TURNED:
                continue
            found = _quantity_knob(recipe, Place(part, field.name), "", facts, units)
            if found is not None:
                yield found


def _quantity_knob(
    recipe: Recipe, place: Place, name: str, facts: FieldFacts, units: ShownUnits
) -> Knob | None:
    if facts.kind not in TURNED:
        return None
    now = now_at(recipe, place)
    assert not isinstance(now, When)
    value = facts.default if now is None else now.value
    if value is None and facts.kind is Kind.MASS:
        value = FIRST_KG.get(place.of)
    if value is None:
        return None
    unit = _unit(facts.kind, value, now, units)
    ends = [_in_unit(facts.kind, each, unit) for each in _ends(facts, value)]
    return _spanned(place, name, facts, unit, min(ends), max(ends))


def _when_knob(recipe: Recipe, line: Line, place: Place) -> Iterator[Knob]:
    when, boil = line.when, recipe.process.boil_time
    if when.stage is Stage.BOIL:
        longest = max(60.0 if boil is None else boil.value, when.minutes)
        yield _spanned(place, line.name, None, "min", 0.0, longest)
    elif when.stage is Stage.STAND:
        yield _spanned(place, line.name, None, "min", 0.0, max(LONGEST_STAND_MIN, when.minutes))
    elif when.stage is Stage.DRY_HOP:
        yield _spanned(place, line.name, None, "d", 1.0, max(LONGEST_DRY_D, when.days))


def _spanned(
    place: Place, name: str, facts: FieldFacts | None, unit: str, low: float, high: float
) -> Knob:
    step = max(_round_step((high - low) / STEPS_ACROSS), LEAST_STEPS.get(unit, 0.0))
    first = round(ceil(low / step - 1e-6) * step, 6)
    steps = max(floor((high - first) / step + 1e-6), 1)
    label = GOES_IN if facts is None else facts.label
    return Knob(place, name, label, facts, unit, first, step, steps)


def _round_step(about: float) -> float:
    """Return the largest of 1, 2, 5, 10, 20 and so on that is not more."""
    ten = 10.0 ** floor(log10(max(about, 1e-6)))
    return next(each * ten for each in (5.0, 2.0, 1.0) if each * ten <= about * 1.001)


def _ends(facts: FieldFacts, value: float) -> tuple[float, float]:
    """Return the ends of a span in the base unit, within what the field takes."""
    if facts.kind is Kind.TEMPERATURE:
        low, high = value - DEGREES_ABOUT, value + DEGREES_ABOUT
    elif facts.kind is Kind.VOLUME:
        low, high = 0.5 * value, 1.5 * value if value else 5.0
    elif facts.kind is Kind.TIME and value <= LONGEST_IN_MINUTES:
        low, high = 0.0, max(1.5 * value, SHORTEST_SPAN_MIN)
    elif facts.kind in (Kind.MASS, Kind.DOSE, Kind.TIME):
        low, high = 0.0, 2.0 * value if value else 1.0
    else:
        low, high = 0.5 * value, 1.5 * value if value else 1.0
    return max(low, facts.low), min(high, facts.high)


def _unit(kind: Kind, value: float, now: Quantity | None, units: ShownUnits) -> str:
    """Return the unit in which a quantity is turned: that in which it is shown."""
    if kind is Kind.DOSE:
        return now.unit if now is not None else ""
    if kind is Kind.TIME:
        return "min" if value <= LONGEST_IN_MINUTES else "d"
    return re.sub(r"^[-+\d.,/ ]+", "", show(kind, value, units))


def _in_unit(kind: Kind, value: float, unit: str) -> float:
    if kind in (Kind.DOSE, Kind.NUMBER) or not unit:
        return value
    return _scaled(kind, value, unit)


def _scaled(kind: Kind, value: float, unit: str) -> float:
    base = show(kind, 1.0) if kind not in (Kind.TEMPERATURE, Kind.MALT_COLOUR) else ""
    if base:  # a factor turns one into the other
        return value * convert(base, unit, kind).value / read(kind, base).value
    return convert(show(kind, value), unit, kind).value


def now_at(recipe: Recipe, place: Place) -> Quantity | When | None:
    """Return what stands at a place of a recipe; None where nothing is typed."""
    found: Quantity | When | None
    if place.line is None:
        found = value_of(part_of(recipe, place.of), place.field)
    else:
        found = value_of(_line(recipe, place), place.field)
    return found


def _line(recipe: Recipe, place: Place) -> Line:
    return next(each for each in lines_of(recipe, place.of) if each.line_id == place.line)


def figure_now(recipe: Recipe, knob: Knob) -> float:
    """Return what stands at a knob, in its unit: what was typed, or what is taken without."""
    now = now_at(recipe, knob.place)
    if isinstance(now, When):
        return now.days if now.stage is Stage.DRY_HOP else now.minutes
    assert knob.facts is not None
    value = knob.facts.default if now is None else now.value
    return 0.0 if value is None else _in_unit(knob.facts.kind, value, knob.unit)


def turned(recipe: Recipe, knob: Knob, at: int) -> Turned:
    """Return what stands at a knob that is turned to a step, with the ± that was typed."""
    figure, now = f"{knob.figure(at):g}", now_at(recipe, knob.place)
    if isinstance(now, When):
        return _moved(now, figure)
    assert knob.facts is not None
    text = f"{figure} {knob.unit}".rstrip()
    if now is not None and "±" in now.text:
        text = f"{text} ± {now.text.partition('±')[2].strip()}"
    return read(knob.facts.kind, text)


def _moved(when: When, figure: str) -> When:
    if when.stage is Stage.DRY_HOP:
        return read_when(f"dry hop {figure} {'day' if figure == '1' else 'days'}")
    if when.stage is Stage.STAND:
        _, at, temperature = when.text.partition(" at ")
        return read_when(f"stand {figure} min{at}{temperature}")
    return read_when(f"boil {figure} min")


def change_to(
    recipe: Recipe, knob: Knob, value: Turned | None, key: str
) -> ChangeLine | ChangePart:
    """Return the edit that puts a value at a knob; edits of one `key` are one step."""
    place, text = knob.place, changing(knob.label)
    if place.line is None:
        return ChangePart(place.of, place.field, value, text, key)
    changes: tuple[tuple[str, object], ...] = ((place.field, value),)
    if place.field == "amount" and not isinstance(value, When):
        changes = with_amount(_line(recipe, place), value)
    return ChangeLine(place.of, place.line, changes, text, key)
