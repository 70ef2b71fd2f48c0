"""The mass balance of a brew day from first principles, with none of the program's reckoning.

What goes in is what a way lists: litres of water, kilograms by when they go in, minutes of boil,
litres an hour of steam, what stays in the pot. What must come out follows: extract and water are
kept, whatever happens to them.

Sources: mass and heat balance; density of sucrose solutions, see `sucrose`; 18 points of a pound
of crystal malt of the 46 of sugar, Palmer, How to Brew, 1st ed., online, table 9; 1 L/kg held by
drained grain, Oliver (ed.), The Oxford Companion to Beer, OUP 2012 (0.75 to 1.04); 5 L/kg held by
whole hops and 6 by pellets, home records, second-hand, and from memory; a stove's efficiency,
Sweeney et al., ACEEE Summer Study 2014; solids of syrup and powder, 0.3 L left in the pot,
1.8 L/h and 2000 W where nobody said: common practice, no source; room taken by grain, from memory.
"""

from dataclasses import dataclass, field
from itertools import groupby

from tests.fit_proof.sucrose import gravity, litres, water_kg_l, water_to_fill

SOLIDS = {
    "liquid extract": 0.80, "dry extract": 0.965, "hopped kit extract": 0.80, "sugar": 1.0,
    "steeping grain": 18.0 / 46.21, "mash grain": 0.0,
}  # fmt: skip
GRAIN = ("steeping grain", "mash grain")
EFFICIENCY = {"electric": 0.74, "gas": 0.40, "induction": 0.84}
HELD_BY_HOPS_L_KG = {"whole": 5.0, "pellets": 6.0}
GRAIN_ROOM_L_KG = 0.8
BOILS_C, STEAM_KJ_KG = 100.0, 2257.0
WATER_KJ_KG_K, EXTRACT_KJ_KG_K = 4.19, 2.05
"""Of dissolved sugar between 20 and 100 °C: Bubník et al., Sugar Technologists Manual (1995)."""


@dataclass(frozen=True)
class PutIn:
    """A line as it goes into a vessel: what it is, kilograms, when, minutes left of the boil."""

    name: str
    kind: str
    kg: float
    stage: str
    boil_left_min: float = 0.0
    solids: float | None = None

    @property
    def extract_kg(self):
        share = SOLIDS[self.kind] if self.solids is None else min(self.solids, 1.0)
        return self.kg * share

    @property
    def water_kg(self):
        return 0.0 if self.is_grain else self.kg - self.extract_kg

    @property
    def is_grain(self):
        return self.kind in GRAIN

    @property
    def is_hop(self):
        return self.kind in HELD_BY_HOPS_L_KG


@dataclass(frozen=True)
class Stated:
    """What is stated of one boil; None where nobody said."""

    start_water_l: float
    put_in: tuple[PutIn, ...]
    boil_min: float = 60.0
    evaporation_l_h: float | None = None
    left_in_pot_l: float | None = None
    top_up_to_l: float | None = None
    tap_c: float = 12.0
    room_c: float = 20.0
    steep_c: float = 68.0
    grain_absorption_l_kg: float = 1.0
    hop_absorption_l_kg: float | None = None
    stove: str = "electric"
    power_w: float | None = None
    heat_loss_w_k: float = 4.0
    coil_l: float = 0.0
    frozen_kg: float = 0.0
    measured_evaporation: bool = False


@dataclass
class Vessel:
    """Kilograms of extract and water."""

    extract_kg: float = 0.0
    water_kg: float = 0.0

    def add(self, extract_kg, water_kg):
        self.extract_kg += extract_kg
        self.water_kg += water_kg

    def litres(self, temp_c=20.0):
        return litres(self.extract_kg, self.water_kg, temp_c)

    @property
    def gravity(self):
        return gravity(self.extract_kg, self.water_kg)


@dataclass
class Came:
    """What comes of a boil: litres at 20 °C unless hot, gravities, kilograms in the fermenter."""

    fullest_hot_l: float = 0.0
    boil_gravity_start: float = 1.0
    boil_gravity_end: float = 1.0
    steam_kg: float = 0.0
    from_pot_l: float = 0.0
    top_up_l: float = 0.0
    stays_extract_kg: float = 0.0
    stays_water_kg: float = 0.0
    in_grain_kg: float = 0.0
    fermenter: Vessel = field(default_factory=Vessel)


def reckoned(stated):
    """Return what comes of a boil, from cold water to the filled fermenter."""
    pot, came = Vessel(0.0, stated.start_water_l * water_kg_l(stated.tap_c)), Came()
    _steep(stated, pot, came)
    _boil(stated, pot, came)
    _move(stated, pot, came)
    _top_up(stated, came)
    return came


def _steep(stated, pot, came):
    grain = [each for each in stated.put_in if each.is_grain]
    dry_kg = sum(each.kg for each in grain)
    if dry_kg:
        room_l = GRAIN_ROOM_L_KG * dry_kg
        came.fullest_hot_l = pot.litres(stated.steep_c) + room_l
        for each in grain:
            pot.add(each.extract_kg, 0.0)
        came.in_grain_kg = min(
            dry_kg * stated.grain_absorption_l_kg * water_kg_l(20.0), 0.9 * pot.water_kg
        )
        pot.add(0.0, -came.in_grain_kg)


def _boil(stated, pot, came):
    before = [each for each in stated.put_in if _from_the_start(each, stated)]
    for each in before:
        pot.add(each.extract_kg, each.water_kg)
    came.boil_gravity_start = pot.gravity
    _as_full_as(stated, pot, came)
    boiled = [each for each in stated.put_in if each.stage == "boil"]
    late = sorted(
        (each for each in boiled if not each.is_hop and not each.is_grain and each not in before),
        key=lambda each: -each.boil_left_min,
    )
    left, cold_kj = stated.boil_min, 0.0
    for at, together in groupby(late, key=lambda each: each.boil_left_min):
        _steam(stated, pot, came, left - at, cold_kj)
        cold_kj = 0.0
        for each in together:
            pot.add(each.extract_kg, each.water_kg)
            cold_kj += _kj_to_boil(stated, each)
        _as_full_as(stated, pot, came, BOILS_C - _cooled_k(pot, cold_kj))
        left = at
    _steam(stated, pot, came, left, cold_kj)
    came.boil_gravity_end = pot.gravity
    cold_kj = 0.0
    for each in stated.put_in:
        if each.stage in ("flame-out", "stand") and not each.is_hop:
            pot.add(each.extract_kg, each.water_kg)
            cold_kj += _kj_to_boil(stated, each)
    _as_full_as(stated, pot, came, BOILS_C - _cooled_k(pot, cold_kj))


def _from_the_start(each, stated):
    """Whether it is in when the boil begins; what boils longer than the boil is in as well."""
    if each.is_grain or each.is_hop:
        return False
    early = each.stage in ("steep", "first wort")
    return early or (each.stage == "boil" and each.boil_left_min >= stated.boil_min)


def _kj_to_boil(stated, each):
    warmer = BOILS_C - stated.room_c
    return (EXTRACT_KJ_KG_K * each.extract_kg + WATER_KJ_KG_K * each.water_kg) * warmer


def _cooled_k(pot, kj):
    return kj / (WATER_KJ_KG_K * pot.water_kg + EXTRACT_KJ_KG_K * pot.extract_kg)


def _spare_w(stated):
    net_w = EFFICIENCY[stated.stove] * (2000.0 if stated.power_w is None else stated.power_w)
    return net_w - stated.heat_loss_w_k * (BOILS_C - stated.room_c)


def _steam(stated, pot, came, minutes, cold_kj):
    """Boil off for so many minutes, less what it takes to bring what was cold to the boil."""
    warming = 1000.0 * cold_kj / _spare_w(stated) / 60.0
    if cold_kj and warming < minutes:
        _as_full_as(stated, pot, came)
    a_minute = (1.8 if stated.evaporation_l_h is None else stated.evaporation_l_h) / 60.0
    kg = a_minute * water_kg_l(20.0) * max(minutes - warming, 0.0)
    if stated.power_w is not None and not stated.measured_evaporation:
        most = _spare_w(stated) / 1000.0 / STEAM_KJ_KG * 60.0
        kg = min(kg, most * max(minutes - warming, 0.0))
    pot.add(0.0, -kg)
    came.steam_kg += kg


def _as_full_as(stated, pot, came, temp_c=BOILS_C):
    came.fullest_hot_l = max(came.fullest_hot_l, pot.litres(temp_c) + stated.coil_l)


def _move(stated, pot, came):
    whole_l = pot.litres()
    left = 0.3 if stated.left_in_pot_l is None else stated.left_in_pot_l
    held = sum(
        each.kg
        * (
            HELD_BY_HOPS_L_KG[each.kind]
            if stated.hop_absorption_l_kg is None
            else stated.hop_absorption_l_kg
        )
        for each in stated.put_in
        if each.is_hop and each.stage not in ("dry hop", "fermenter")
    )
    came.from_pot_l = max(whole_l - left - held, 0.0)
    moved = came.from_pot_l / whole_l
    came.fermenter.add(moved * pot.extract_kg, moved * pot.water_kg)
    came.stays_extract_kg = (1.0 - moved) * pot.extract_kg
    came.stays_water_kg = (1.0 - moved) * pot.water_kg


def _top_up(stated, came):
    inside = came.fermenter
    for each in stated.put_in:
        if each.stage in ("fermenter", "dry hop") and not each.is_hop and not each.is_grain:
            inside.add(each.extract_kg, each.water_kg)
    water_kg = stated.frozen_kg
    if stated.top_up_to_l is not None:
        wanted = water_to_fill(inside.extract_kg, stated.top_up_to_l)
        water_kg = max(wanted - inside.water_kg, 0.0)
    inside.add(0.0, water_kg)
    came.top_up_l = water_kg / water_kg_l(20.0)
