"""What is in the pot: kilograms of extract and water, grain in its bag, temperature, colour.

Every change is a mass and a heat that come in or go out, booked under the stage and its cause, and
the temperature follows from the heat content. So water, extract and heat balance at every stage.
The pot's own metal and the heat of dissolving are left out: a few parts in a hundred of the heat.
"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, field
from typing import NamedTuple

from designer.wort.extract import gravity, plato, volume_l
from designer.wort.heat import (
    boiling_point_rise,
    enthalpy_kj,
    heat_capacity_kj_k,
    temperature_for,
)
from designer.wort.numeric import Numeric, plus, smallest
from designer.wort.steeping import GRAIN_DISPLACEMENT_L_PER_KG, MALT_SPECIFIC_HEAT

EMPTY_C = 20.0
"""The temperature that an empty vessel is said to have."""
STRONGEST_RISE_PLATO = 60.0
"""Stronger wort is taken to boil no hotter."""


class Flow(NamedTuple):
    """What came in (positive) or went out (negative) at one moment: kg, kg, kg and kJ."""

    stage: str
    cause: str
    extract_kg: Numeric = 0.0
    water_kg: Numeric = 0.0
    grain_kg: Numeric = 0.0
    heat_kj: Numeric = 0.0


@dataclass(slots=True)
class _Known:
    """What has been worked out of the contents as they are; None until it is asked for."""

    heat_kj: Numeric | None = None
    temp_c: Numeric | None = None
    volume_l: Numeric | None = None
    gravity_sg: Numeric | None = None
    plato: Numeric | None = None
    boils_higher_k: Numeric | None = None


@dataclass(slots=True)
class Contents:
    """The contents of a vessel and, if it is kept, the book of all that went in and out of it.

    Dry grain counts as 0.40 of its mass of water in the heat content, and its heat leaves with it.
    """

    extract_kg: Numeric = 0.0
    water_kg: Numeric = 0.0
    grain_kg: Numeric = 0.0
    colour_units: Numeric = 0.0
    keeps_book: bool = False
    flows: list[Flow] = field(default_factory=list)
    _known: _Known = field(
        default_factory=lambda: _Known(temp_c=EMPTY_C), init=False, repr=False, compare=False
    )

    @property
    def heat_kj(self) -> Numeric:
        """Heat content, counted from liquid and grain at 0 °C."""
        known = self._known
        if known.heat_kj is None:
            known.heat_kj = enthalpy_kj(self.extract_kg, self._heat_water_kg, self.temp_c)
        return known.heat_kj

    @property
    def temp_c(self) -> Numeric:
        """Temperature in °C."""
        known = self._known
        if known.temp_c is None:
            known.temp_c = temperature_for(self.heat_kj, self.extract_kg, self._heat_water_kg)
        return known.temp_c

    @temp_c.setter
    def temp_c(self, temp_c: Numeric) -> None:
        """Let it have a temperature that is known already; no heat is booked."""
        self._known.temp_c, self._known.heat_kj = temp_c, None

    def without_book(self) -> Contents:
        """Return a pot with the same in it, to the last digit, that keeps no book."""
        same = copy(self)
        same.keeps_book, same.flows, same._known = False, [], copy(self._known)
        return same

    def heat_capacity_at(self, temp_c: Numeric) -> Numeric:
        """Kilojoules that warm it by one kelvin about `temp_c`."""
        return heat_capacity_kj_k(self.extract_kg, self._heat_water_kg, temp_c)

    @property
    def volume_l(self) -> Numeric:
        """Litres of wort at 20 °C."""
        known = self._known
        if known.volume_l is None:
            known.volume_l = volume_l(self.extract_kg, self.water_kg)
        return known.volume_l

    @property
    def filled_l(self) -> Numeric:
        """Litres of wort as hot as it is, with what the grain displaces."""
        wort = volume_l(self.extract_kg, self.water_kg, self.temp_c)
        return wort + GRAIN_DISPLACEMENT_L_PER_KG * self.grain_kg

    @property
    def gravity_sg(self) -> Numeric:
        """Specific gravity 20/20 °C of the wort."""
        known = self._known
        if known.gravity_sg is None:
            known.gravity_sg = gravity(self.extract_kg, self.water_kg)
        return known.gravity_sg

    @property
    def plato(self) -> Numeric:
        """Per cent of extract in the wort by mass, °P."""
        known = self._known
        if known.plato is None:
            known.plato = plato(self.extract_kg, self.water_kg)
        return known.plato

    @property
    def boils_higher_k(self) -> Numeric:
        """Kelvin by which the wort boils hotter than water."""
        known = self._known
        if known.boils_higher_k is None:
            known.boils_higher_k = boiling_point_rise(smallest(self.plato, STRONGEST_RISE_PLATO))
        return known.boils_higher_k

    @property
    def _heat_water_kg(self) -> Numeric:
        return plus(self.water_kg, MALT_SPECIFIC_HEAT * self.grain_kg)

    def book(
        self,
        stage: str,
        cause: str,
        *,
        extract_kg: Numeric = 0.0,
        water_kg: Numeric = 0.0,
        grain_kg: Numeric = 0.0,
        heat_kj: Numeric = 0.0,
    ) -> None:
        """Let mass and heat in (positive) or out (negative); the temperature follows."""
        heat = self.heat_kj + heat_kj
        self.extract_kg = plus(self.extract_kg, extract_kg)
        self.water_kg = plus(self.water_kg, water_kg)
        self.grain_kg = plus(self.grain_kg, grain_kg)
        self._known = _Known(heat_kj=heat)
        if self.keeps_book:
            self.flows.append(Flow(stage, cause, extract_kg, water_kg, grain_kg, heat_kj))

    def pour_in(
        self, stage: str, cause: str, extract_kg: Numeric, water_kg: Numeric, temp_c: Numeric
    ) -> None:
        """Stir in wort, water, extract or sugar at `temp_c`."""
        heat = enthalpy_kj(extract_kg, water_kg, temp_c)
        self.book(stage, cause, extract_kg=extract_kg, water_kg=water_kg, heat_kj=heat)

    def warm_to(self, stage: str, cause: str, temp_c: Numeric) -> None:
        """Bring to `temp_c` by heat alone."""
        if self.keeps_book:
            heat = enthalpy_kj(self.extract_kg, self._heat_water_kg, temp_c)
            self.flows.append(Flow(stage, cause, heat_kj=heat - self.heat_kj))
        self.temp_c = temp_c
