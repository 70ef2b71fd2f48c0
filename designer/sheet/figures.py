"""Figures of the sheet in the brewer's units, rounded as one reads a jug, a scale or a dial."""

from __future__ import annotations

from dataclasses import dataclass

from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits, show

PSI_PER_BAR = 14.5038
POUND_KG = 0.45359237
NO_AMOUNT = "amount not given"


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes figures in the units shown."""

    shown: ShownUnits

    def mass(self, kg: float) -> str:
        """Return a mass as a kitchen scale shows it."""
        return show(Kind.MASS, kg, self.shown)

    def rough_mass(self, kg: float) -> str:
        """Return a weight to lift, to the kilogram or pound."""
        pounds = f"{max(round(kg / POUND_KG), 1)} lb"
        return self._either(f"{max(round(kg), 1)} kg", pounds)

    def volume(self, litres: float) -> str:
        """Return a volume as a jug's marks show it."""
        rounded = litres if litres < 1.0 else round(litres, 1)
        metric = show(Kind.VOLUME, rounded)
        return self._either(metric, show(Kind.VOLUME, litres, ShownUnits.US))

    def temperature(self, temp_c: float) -> str:
        """Return a temperature to the degree."""
        metric = show(Kind.TEMPERATURE, float(round(temp_c)))
        return self._either(metric, show(Kind.TEMPERATURE, temp_c, ShownUnits.US))

    def _either(self, metric: str, us: str) -> str:
        """What is rounded is the figure shown, in each unit for itself."""
        if self.shown is ShownUnits.METRIC:
            return metric
        return us if self.shown is ShownUnits.US else f"{metric} ({us})"

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
        return (
            self.temperature(value) if kind is Kind.TEMPERATURE else show(kind, value, self.shown)
        )

    def minutes(self, minutes: float) -> str:
        """Return a duration to the minute."""
        return show(Kind.TIME, float(round(minutes)))

    def pressure(self, bar: float) -> str:
        """Return a gauge pressure."""
        return self._either(f"{bar:.1f} bar", f"{bar * PSI_PER_BAR:.0f} psi")

    def amount(self, quantity: Quantity | None, kind: Kind) -> str:
        """Return the amount of a line; doses as their packets are labelled, in g, mL or pieces."""
        if quantity is None:
            return NO_AMOUNT
        if kind is Kind.MASS:
            return self.mass(quantity.value)
        if quantity.unit in ("g", "mL"):
            return f"{round(quantity.value, 2):g} {quantity.unit}"
        return f"{pieces(quantity.value)} {quantity.unit or 'piece'}"

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
