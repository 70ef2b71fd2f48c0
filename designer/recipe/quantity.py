"""A quantity as a brewer typed it: the number in its base unit, and the text.

The text is kept so that nothing drifts by being shown and read back; the number is what the
calculations use. Base units, one for each kind:

| kind | base unit | kind | base unit |
| --- | --- | --- | --- |
| mass | kg | fraction | 0 to 1 |
| volume | L | power | W |
| temperature | °C | loss rate | W/K |
| temperature difference | K | absorption | L/kg |
| time | min | length | m |
| gravity | SG at 20/20 °C | money | as typed |
| malt colour | degrees Lovibond | concentration | mg/L |
| beer colour | SRM | carbonation | volumes of CO2 |
| evaporation | L/h, counted cold | rate | 1/min |
| bitterness | IBU | extract yield | 0 to 1, of the mass as it is |
| number | none | dose | g, mL or pieces: see `Quantity.unit` |
| pressure | bar, above that of the air | | |
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """The dimension of a field, which decides the units it takes."""

    MASS = "mass"
    VOLUME = "volume"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    TIME = "time"
    GRAVITY = "gravity"
    MALT_COLOUR = "malt colour"
    BEER_COLOUR = "beer colour"
    EVAPORATION = "evaporation"
    BITTERNESS = "bitterness"
    FRACTION = "fraction"
    POWER = "power"
    LOSS_RATE = "loss rate"
    ABSORPTION = "absorption"
    LENGTH = "length"
    PRESSURE = "pressure"
    MONEY = "money"
    CONCENTRATION = "concentration"
    CARBONATION = "carbonation"
    RATE = "rate"
    EXTRACT_YIELD = "extract yield"
    DOSE = "dose"
    NUMBER = "number"


@dataclass(frozen=True, slots=True)
class Quantity:
    """A typed quantity.

    `value` is in the base unit of its kind; `text` is what was typed; `spread` is half the width
    of its 5 to 95 % range in the base unit where the brewer typed one (`7.2 % ± 0.5 %`), else None;
    `ends` are the ends of a range that stands behind the figure (`6 % (4.5-8.9 %)`) and need not
    lie evenly about it, else None; `unit` is set for doses alone: "g", "mL" or the name of the
    piece ("tablet", "packet").
    """

    value: float
    text: str
    spread: float | None = None
    unit: str = ""
    ends: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class TaughtQuantity(Quantity):
    """A quantity that stands in an empty field because so many brews taught it.

    It is reckoned with and never written into a recipe: there the field stays empty.
    """

    brews: int = 0

    def as_typed(self) -> Quantity:
        """Return the figure as if the brewer had typed it."""
        return Quantity(self.value, self.text, self.spread)


class Stage(StrEnum):
    """Where in the day something goes in."""

    STEEP = "steep"
    FIRST_WORT = "first wort"
    BOIL = "boil"
    FLAME_OUT = "flame-out"
    STAND = "stand"
    FERMENTER = "fermenter"
    DRY_HOP = "dry hop"


@dataclass(frozen=True, slots=True)
class When:
    """When something goes in, as typed.

    `minutes` is the boil time left (boil) or the length of the stand; `temperature` that of a
    stand, °C; `days` how long before packaging something goes into the fermenter, dry hops and
    finings (fermenter, 0: with the yeast).
    """

    stage: Stage
    text: str
    minutes: float = 0.0
    temperature: float | None = None
    days: float = 0.0
