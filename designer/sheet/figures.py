"""Figures of the sheet in the brewer's units, rounded as one reads a jug, a scale or a dial."""

from __future__ import annotations

from dataclasses import dataclass, field

from designer.recipe.quantity import Kind, Quantity
from designer.sheet.language import Language, language, plural
from designer.units import ShownUnits, show
from designer.units.quick_words import FACTORS
from designer.units.scales import from_scale

POUND_KG, US_GALLON_L = FACTORS[Kind.MASS]["lb"], FACTORS[Kind.VOLUME]["gal"]
OUNCES_PER_POUND, QUARTS_PER_GALLON, FLUID_OUNCES_PER_GALLON = 16.0, 4.0, 128.0
NEAR_ENOUGH = 0.01
"""A figure is rounded as far as this share of it allows."""
PIECES = {
    "piece": plural("{number} piece", "{number} pieces"),
    "tablet": plural("{number} tablet", "{number} tablets"),
    "packet": plural("{number} packet", "{number} packets"),
    "sachet": plural("{number} packet", "{number} packets"),
    "drop": plural("{number} drop", "{number} drops"),
    "teaspoon": plural("{number} teaspoon", "{number} teaspoons"),
    "tablespoon": plural("{number} tablespoon", "{number} tablespoons"),
}
"""What doses are counted in, by the unit that is typed."""


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes figures in the units shown, with the decimal sign of the language."""

    shown: ShownUnits
    language: Language = field(default_factory=lambda: language("en"))

    def mass(self, kg: float) -> str:
        """Return a mass as a kitchen scale shows it."""
        return self._either(metric_mass(kg), us_mass(kg))

    def rough_mass(self, kg: float) -> str:
        """Return a weight to lift, to the kilogram or pound."""
        pounds = f"{max(round(kg / POUND_KG), 1)} lb"
        return self._either(f"{max(round(kg), 1)} kg", pounds)

    def volume(self, litres: float) -> str:
        """Return a volume as a jug's marks show it."""
        return self._either(show(Kind.VOLUME, litres, rounded=True), us_volume(litres))

    def temperature(self, temp_c: float) -> str:
        """Return a temperature to the degree."""
        return self.language.figure(show(Kind.TEMPERATURE, temp_c, self.shown, rounded=True))

    def _either(self, metric: str, us: str) -> str:
        """What is rounded is the figure shown, in each unit for itself."""
        if self.shown is ShownUnits.METRIC:
            text = metric
        elif self.shown is ShownUnits.US or metric == us:
            text = us
        else:
            text = f"{metric} ({us})"
        return self.language.figure(text)

    def scale_temperature(self, temp_c: float) -> str:
        """Return a temperature as it is printed on an instrument, to the tenth."""
        return self.language.figure(show(Kind.TEMPERATURE, temp_c, self.shown))

    def temperatures(self, low_c: float, high_c: float) -> str:
        """Return a span of temperatures, the unit once where one is shown."""
        return self.language.say("{low} to {high}", **self.ends(low_c, high_c))

    def ends(self, low_c: float, high_c: float) -> dict[str, str]:
        """Return both ends of a span of temperatures as the parts of a sentence."""
        low, high = self.temperature(low_c), self.temperature(high_c)
        if self.shown is not ShownUnits.BOTH:
            low = low.removesuffix(f" {self.degrees}")
        return {"low": low, "high": high}

    @property
    def degrees(self) -> str:
        """The unit in which a temperature is written down."""
        return "°F" if self.shown is ShownUnits.US else "°C"

    def of_kind(self, kind: Kind, value: float) -> str:
        """Return a figure of a finding."""
        known = {
            Kind.VOLUME: self.volume,
            Kind.TEMPERATURE: self.temperature,
            Kind.MASS: self.mass,
            Kind.CARBONATION: self.volumes,
        }.get(kind)
        if known is not None:
            return known(value)
        return self.language.figure(show(kind, value, self.shown, rounded=True))

    def volumes(self, volumes: float) -> str:
        """Return volumes of carbon dioxide."""
        return self.language.say("{number} volumes", number=self.number(volumes, ".3g"))

    def minutes(self, minutes: float) -> str:
        """Return a duration to the minute."""
        return self.language.figure(show(Kind.TIME, float(round(minutes))))

    def pressure(self, bar: float) -> str:
        """Return a gauge pressure."""
        return self.of_kind(Kind.PRESSURE, bar)

    def number(self, value: float, form: str) -> str:
        """Return a bare number."""
        return self.language.figure(format(value, form))

    def gravity(self, value: float) -> str:
        """Return a gravity as a hydrometer's scale shows it."""
        return self.number(value, ".3f")

    def span(self, low: float, high: float, form: str) -> str:
        """Return a range in words a newcomer knows: "1.060 to 1.066", one figure if both agree."""
        first, last = self.number(low, form), self.number(high, form)
        return (
            first if first == last else self.language.say("{low} to {high}", low=first, high=last)
        )

    def amount(self, quantity: Quantity | None, kind: Kind) -> str:
        """Return the amount of a line; doses as their packets are labelled, in g, mL or pieces."""
        if quantity is None:
            return self.language.say("amount not given")
        if kind is Kind.MASS:
            return self.mass(quantity.value)
        if quantity.unit in ("g", "mL"):
            return self.language.figure(f"{round(quantity.value, 2):g} {quantity.unit}")
        unit = quantity.unit or "piece"
        one, many = PIECES.get(unit) or PIECES.get(unit.removesuffix("s")) or PIECES["piece"]
        shown = self.language.figure(pieces(quantity.value))
        return self.language.count_of(one, many, quantity.value, shown)

    @property
    def sample_temperatures_c(self) -> tuple[float, ...]:
        """Sample temperatures of the correction table, round in the first unit shown, °C."""
        if self.shown is ShownUnits.US:
            fahrenheit = (50.0, 60.0, 70.0, 80.0, 90.0, 100.0)
            return tuple(from_scale(Kind.TEMPERATURE, each, "f") for each in fahrenheit)
        return (10.0, 15.0, 20.0, 25.0, 30.0, 35.0)


def metric_mass(kg: float) -> str:
    """Return a mass in grams or kilograms; what is not a round figure, as coarse as 1 % allows.

    Whole 5 g are round, or 725 g and 600 g that are weighed out would be bought as 1.32 kg.
    """
    if kg < 1.0 or abs(kg - 0.005 * round(kg / 0.005)) < 1e-6 or abs(kg - round(kg, 2)) < 1e-6:
        return show(Kind.MASS, kg)
    near = _coarsest(kg, (0.1, 0.05, 0.01))
    return show(Kind.MASS, kg if near is None else near)


def us_mass(kg: float) -> str:
    """Return a mass in ounces, or pounds and ounces, as coarse as 1 % allows.

    A label's own figure stays: 3.3 lb is "3.3 lb". What is too little for ounces is in grams.
    """
    ounces = OUNCES_PER_POUND * kg / POUND_KG
    pounds = kg / POUND_KG
    if pounds >= 1.0 and abs(pounds - round(pounds, 2)) < 2e-4 * pounds:
        return f"{round(pounds, 2):g} lb"
    if ounces < OUNCES_PER_POUND - 0.05:
        near = _coarsest(ounces, (0.1, 0.05, 0.01))
        return show(Kind.MASS, kg) if near is None else f"{near:g} oz"
    near = _coarsest(ounces, (1.0, 0.5, 0.1))
    whole, rest = divmod(round(ounces if near is None else near, 1), OUNCES_PER_POUND)
    return f"{whole:.0f} lb {round(rest, 1):g} oz" if rest >= 0.05 else f"{whole:.0f} lb"


def us_volume(litres: float) -> str:
    """Return a volume in fluid ounces, quarts up to two gallons, or gallons."""
    gallons = litres / US_GALLON_L
    if gallons < 0.25:
        ounces = FLUID_OUNCES_PER_GALLON * gallons
        near = _coarsest(ounces, (1.0, 0.5, 0.1, 0.05, 0.01))
        return show(Kind.VOLUME, litres, ShownUnits.US) if near is None else f"{near:g} fl oz"
    quarts = QUARTS_PER_GALLON * gallons
    whole_quarts = abs(quarts - round(quarts)) < 4e-3
    if gallons < 1.0 or (gallons < 2.0 and not whole_quarts):
        near = _coarsest(quarts, (0.5, 0.1, 0.05, 0.01))
        return f"{quarts if near is None else near:.3g} qt"
    near = _coarsest(gallons, (0.1, 0.05, 0.01))
    return f"{gallons if near is None else near:.4g} gal"


def _coarsest(value: float, steps: tuple[float, ...]) -> float | None:
    """Round to the largest step that stays near enough; None if none does."""
    for step in steps:
        rounded = round(round(value / step) * step, 2)
        if abs(rounded - value) <= NEAR_ENOUGH * value:
            return rounded
    return None


def pieces(count: float) -> str:
    """Return a count of tablets or packets, halves and quarters as fractions."""
    whole, part = divmod(count, 1.0)
    sign = {0.25: "¼", 0.5: "½", 0.75: "¾"}.get(part)
    if sign is None:
        return f"{count:g}"
    return sign if whole == 0.0 else f"{whole:.0f} {sign}"
