"""Figures of the sheet in the brewer's units, rounded as one reads a jug, a scale or a dial."""

from __future__ import annotations

from dataclasses import dataclass

from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits, show

PSI_PER_BAR = 14.5038
NO_AMOUNT = "amount not given"


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes figures in the units shown."""

    shown: ShownUnits

    def mass(self, kg: float) -> str:
        """Return a mass as a kitchen scale shows it."""
        return show(Kind.MASS, kg, self.shown)

    def volume(self, litres: float) -> str:
        """Return a volume as a jug's marks show it."""
        value = litres if litres < 1.0 else round(litres, 1)
        return show(Kind.VOLUME, value, self.shown)

    def temperature(self, temp_c: float) -> str:
        """Return a temperature to the degree."""
        return show(Kind.TEMPERATURE, float(round(temp_c)), self.shown)

    def temperatures(self, low_c: float, high_c: float) -> str:
        """Return a span of temperatures, the unit once where one is shown."""
        low, high = self.temperature(low_c), self.temperature(high_c)
        unit = " °F" if self.shown is ShownUnits.US else " °C"
        if self.shown is ShownUnits.BOTH:
            return f"{low} to {high}"
        return f"{low.removesuffix(unit)} to {high}"

    def of_kind(self, kind: Kind, value: float) -> str:
        """Return a figure of a finding."""
        if kind is Kind.VOLUME:
            return self.volume(value)
        return self.temperature(value) if kind is Kind.TEMPERATURE else show(kind, value, self.shown)

    def minutes(self, minutes: float) -> str:
        """Return a duration to the minute."""
        return show(Kind.TIME, float(round(minutes)))

    def pressure(self, bar: float) -> str:
        """Return a gauge pressure."""
        metric, us = f"{bar:.1f} bar", f"{bar * PSI_PER_BAR:.0f} psi"
        if self.shown is ShownUnits.METRIC:
            return metric
        return us if self.shown is ShownUnits.US else f"{metric} ({us})"

    def amount(self, quantity: Quantity | None, kind: Kind) -> str:
        """Return the amount of a line; doses in the unit they were typed in."""
        if quantity is None:
            return NO_AMOUNT
        if kind is Kind.MASS or (kind is Kind.DOSE and quantity.unit == "g"):
            return self.mass(quantity.value if kind is Kind.MASS else quantity.value / 1000.0)
        if quantity.unit == "mL":
            return show(Kind.VOLUME, quantity.value / 1000.0, self.shown)
        return f"{pieces(quantity.value)} {quantity.unit or 'piece'}".strip()

    @property
    def sample_temperatures_c(self) -> tuple[float, ...]:
        """Sample temperatures of the correction table, round in the first unit shown, °C."""
        if self.shown is ShownUnits.US:
            return tuple((f - 32.0) / 1.8 for f in (50.0, 60.0, 70.0, 80.0, 90.0, 100.0))
        return (10.0, 15.0, 20.0, 25.0, 30.0, 35.0)


def pieces(count: float) -> str:
    """Return a count of tablets or packets, halves and quarters as fractions."""
    whole, part = divmod(count, 1.0)
    sign = {0.25: "¼", 0.5: "½", 0.75: "¾"}.get(part)
    if sign is None:
        return f"{count:g}"
    return sign if whole == 0.0 else f"{whole:.0f} {sign}"


def gravity(value: float) -> str:
    """Return a gravity as a hydrometer's scale shows it."""
    return f"{value:.3f}"


def span(low: float, high: float, form: str) -> str:
    """Return a range in words a newcomer knows: "1.060 to 1.066", one figure if both agree."""
    first, last = format(low, form), format(high, form)
    return first if first == last else f"{first} to {last}"
