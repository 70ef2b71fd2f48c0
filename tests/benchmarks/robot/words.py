"""What the robot types: figures as kitchens write them, and what they must be read as."""

from __future__ import annotations

import random
from typing import Any, NamedTuple

from designer.recipe.document import PART_TYPES
from designer.recipe.fields import FieldFacts, facts_of
from designer.recipe.place import read_place
from designer.recipe.quantity import Kind
from designer.units import read, read_when
from tests.benchmarks.robot.disk import plain


class Typed(NamedTuple):
    """A text, and the value that it stands for."""

    text: str
    value: Any


MASSES = ("{:.2f} kg", "{:.2f}kg", "{:.3f} kg", "{:.1f} kg")
TABLE_MASSES = ("{:.2f} kg", "{:.1f} kg", "{:.2f} lb")
POUNDS = ("{:.1f} lb", "{:.2f}lb", "1 1/2 lb", "2 lb 3 oz", "{:.0f} lb")
WEIGHTS = ("{:.0f} g", "{:.1f}g", "{:.2f} oz", "1 1/4 oz", "{:.0f}g")
ALPHAS = ("{:.2f} %", "{:.1f} %", "{:.3f} %", "{:.1f} % ± 0.5 %", "{:.2f}%")
COLOURS = ("{:.0f} °L", "{:.0f} EBC", "{:.1f} °L")
DOSES = ("{:.0f} g", "{:.1f} g", "{:.0f} tablets", "1 tablet", "1/2 tsp", "{:.0f} packets")
BOILS = ("boil {} min", "flame-out", "boil {} min", "stand 20 min at 80 °C")
REFUSED = ("4.8 %", "abc", "12 °C", "1 2 3 kg", "-3 kg", "5 kg of it")
FIELDS = {
    "pot.volume": (8.0, 20.0, "{:.1f} L"),
    "fermenter.volume": (10.0, 25.0, "{:.1f} L"),
    "process.top_up_to": (8.0, 20.0, "{:.2f} L"),
    "process.start_water": (5.0, 9.0, "{:.1f}L"),
    "process.left_in_pot": (0.2, 0.8, "{:.3f} L"),
    "process.steep_temperature": (62.0, 76.0, "{:.1f} °C"),
    "process.steep_time": (15.0, 45.0, "{:.0f} min"),
    "process.boil_time": (30.0, 75.0, "{:.0f} min"),
    "process.evaporation": (1.2, 3.0, "{:.2f} L/h"),
    "process.cool_to": (18.0, 26.0, "{:.0f} °C"),
    "process.pitch_temperature": (17.0, 21.0, "{:.1f}°C"),
    "process.ferment_time": (7.0, 21.0, "{:.0f} d"),
    "yeast.attenuation": (70.0, 80.0, "{:.2f} %"),
}
"""Fields of the process that are always seen: sensible bounds, and how the figure is written."""


class Pen:
    """Writes figures, with the decimal sign of the place."""

    def __init__(self, draw: random.Random, *, comma: bool) -> None:
        self._draw, self._comma = draw, comma

    def _written(self, shapes: tuple[str, ...], low: float, high: float) -> str:
        text = self._draw.choice(shapes).format(self._draw.uniform(low, high))
        return text.replace(".", ",") if self._comma else text

    def _read(self, kind: Any, text: str) -> Typed:
        return Typed(text, plain(read(kind, text, decimal_comma=self._comma)))

    def mass(self) -> Typed:
        """Write the weight of a malt or an extract."""
        if self._draw.random() < 0.3:
            return self._read(Kind.MASS, self._written(POUNDS, 1.0, 4.0))
        return self._read(Kind.MASS, self._written(MASSES, 0.3, 2.0))

    def mass_in_a_table(self) -> Typed:
        """Write it as a spreadsheet does, with no figure that a pasted table is asked about."""
        return self._read(Kind.MASS, self._written(TABLE_MASSES, 0.3, 2.0))

    def weight(self) -> Typed:
        """Write the weight of a hop."""
        text = self._written(WEIGHTS, 5.0, 40.0)
        if "oz" in text and "/" not in text:
            text = self._written(("{:.2f} oz", "{:.1f}oz"), 0.3, 2.0)
        return self._read(Kind.MASS, text)

    def alpha(self) -> Typed:
        """Write an alpha acid."""
        return self._read(Kind.FRACTION, self._written(ALPHAS, 3.0, 14.0))

    def colour(self) -> Typed:
        """Write the colour of a malt."""
        return self._read(Kind.MALT_COLOUR, self._written(COLOURS, 3.0, 200.0))

    def dose(self) -> Typed:
        """Write how much of an extra."""
        return self._read(Kind.DOSE, self._written(DOSES, 2.0, 9.0))

    def when(self) -> Typed:
        """Write when something goes in."""
        text = self._draw.choice(BOILS).format(self._draw.randint(1, 60))
        return Typed(text, plain(read_when(text)))

    def field(self, place: str) -> Typed:
        """Write the figure of a field of the process."""
        low, high, shape = FIELDS[place]
        return self._read(_facts(place).kind, self._written((shape,), low, high))

    def refused(self) -> str:
        """Write what no weight can be."""
        return self._draw.choice(REFUSED)


def label_of(place: str) -> str:
    """Return the label of a field of the process."""
    return _facts(place).label


def _facts(place: str) -> FieldFacts:
    found = read_place(place)
    return facts_of(PART_TYPES[found.of], found.field)
