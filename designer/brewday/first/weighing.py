"""A grist and hops weighed out for a kitchen: the day is run until gravity and bitterness hold.

Each turn the day says what gravity, bitterness and fullness came of the amounts, and they are
changed in proportion. Then they are rounded to what a kitchen can weigh, the base extract last of
what ferments, for it sets the gravity, and last of all the bittering hops.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from designer.brewday.beer import COOL_FERMENT_C
from designer.brewday.cures import frozen_water_for
from designer.brewday.day import brew
from designer.brewday.findings_lines import WORTH_SAYING
from designer.brewday.first.grist import Grist, gravity_wanted
from designer.brewday.first.kitchen import (
    SMALLEST_BATCH_L,
    Scale,
    batch_for,
    boil_minutes,
    most_beer_l,
    step_for,
    whole_batch,
)
from designer.brewday.first.larder import Aim, Larder, Role
from designer.brewday.foam import foam_line_l
from designer.brewday.results import Day
from designer.recipe.choices import YeastForm
from designer.recipe.document import Fermentable, Hop, Recipe, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.fields import number, number_or_none
from designer.recipe.kind_defaults import alpha_acid, extract_fraction
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.wort.bitterness import POT_CEILING_IBU
from designer.wort.extract import extract_for
from designer.wort.fermentation import REAL_PER_APPARENT
from designer.wort.pitching import LARGEST_PACKET_G, PACKET_G

TURNS, SETTLED, SMALLER = 8, 2, 0.93
EARLY_EXTRACT_KG_L = 0.105
"""Extract for a litre of water from the start: hops boil in wort of about 1.040; judgement."""
WORTH_SPLITTING = 1.4
LATE_MIN = 10.0
DRY_HOP_DAYS = 4.0
LONGEST_HEATING_MIN = 100.0
"""So long a stove may take to bring the pot to the boil, where less water will do; judgement."""
MOST_LATE, MOST_LATE_HOPPY = 0.4, 0.6
"""Share of the bitterness that late hops may bring; judgement."""
FOAM_SPARE_L, MARK_SPARE_L = 0.1, 0.3
DENSEST_BOIL_SG = 1.115
"""Where late extract would make a boil denser, it is stirred in at flame-out; judgement."""
DENSEST_END = 0.150
"""No boil ends denser than 1.150, for it would burn on to the pot."""
LEAST_BATCH = 0.5
"""A batch that nobody asked for may be so much smaller than the fermenter takes."""
USUAL_UTILISATION, LEAST_FOUND = 0.2, 0.005
COLD_DAYS, STRONG_SG, STRONG_DAYS, USUAL_DAYS = 28, 1.070, 21, 14
"""How long beer ferments that is cool, strong, or neither; common practice, no source."""
USUAL_PITCH_C, UP_THE_RANGE, ABOVE_TAP_K = 19.0, 0.4, 2.0
_BY_EXTRACT = ("original_gravity", "final_gravity", "abv_percent")
_HEATING = ("heat water", "heat to boil")
_FLAME_OUT = When(Stage.FLAME_OUT, "flame-out")


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be weighed out: the grist, the hops, the vessels and how amounts are weighed.

    `kitchen` has pot and fermenter, and what else is known of them. `packs` are amounts of the base
    extract that are used whole, () where it is weighed. `carbonation` are volumes.
    """

    kitchen: Recipe
    larder: Larder
    aim: Aim
    grist: Grist
    bittering: Hop
    late: tuple[Hop, ...]
    scale: Scale
    batch_l: float | None = None
    packs: tuple[tuple[Fermentable, float], ...] = ()
    carbonation: float = 2.0


@dataclass(frozen=True, slots=True)
class Weighed:
    """A recipe with its day, and what each line is in it for, by line_id."""

    recipe: Recipe
    day: Day
    roles: dict[int, Role]
    batch_l: float


@dataclass(slots=True)
class _Amount:
    line: Fermentable | Hop
    role: Role
    kg: float
    when: When


class Weighing:
    """The amounts while they are sought."""

    def __init__(self, task: Task) -> None:
        self.task = task
        tap_c = number(task.kitchen.process, "tap_temperature")
        self.pitch_c = pitching_c(task.grist.yeast, tap_c)
        self.most_l = max(most_beer_l(task.kitchen), SMALLEST_BATCH_L)
        pot = number_or_none(task.kitchen.pot, "volume") or 0.0
        self.foam_l = foam_line_l(task.kitchen.pot) or 0.0
        self.batch_l = batch_for(task.kitchen, task.grist.original_gravity, task.batch_l)
        self.water_l = max(min(0.62 * pot, self.batch_l), 0.2)
        self.boil_min = boil_minutes(task.kitchen, self.water_l)
        self.late_when = _boil(LATE_MIN)
        self.grist_kg = self._first_grist_kg()
        self.others = [
            _Amount(part.line, part.role, 0.0, _goes_in(part.role))
            for part, _ in task.grist.shares[1:]
        ]
        self.base: list[_Amount] = []
        self.hops = self._first_hops()
        self._share_out()

    def done(self) -> Weighed:
        """Return the recipe once gravity, bitterness and vessels hold, rounded for a kitchen."""
        for turn in range(TURNS):
            day = brew(self.recipe())
            if turn >= SETTLED:
                self._smaller_batch(day)
            self._turn(day)
        self._round()
        day = self._settled()
        recipe = self._with_yeast(self.recipe(), day)
        day = brew(recipe)
        recipe, day = self._pitched(recipe, day)
        amounts = (*self.base, *self.others, *self.hops)
        ids = [
            *(each.line_id for each in recipe.fermentables),
            *(each.line_id for each in recipe.hops),
        ]
        roles = {line_id: each.role for line_id, each in zip(ids, amounts, strict=True)}
        return Weighed(recipe, day, roles, self.batch_l)

    # What it starts from

    def _first_grist_kg(self) -> float:
        grist = self.task.grist
        extract = sum(share * extract_fraction(part.line) for part, share in grist.shares)
        return 1.06 * float(extract_for(grist.original_gravity, self.batch_l)) / extract

    def _first_hops(self) -> list[_Amount]:
        task, aim, larder = self.task, self.task.aim, self.task.larder
        alpha = max(alpha_acid(task.bittering), 0.005)
        kg = aim.near["bitterness_ibu"] * self.batch_l / (1e6 * alpha * USUAL_UTILISATION)
        found = [_Amount(task.bittering, Role.BITTERING, kg, _boil(self.boil_min))]
        late_kg = larder.late_g_l * aim.late_times * self.batch_l / 1000.0
        dry_kg = larder.dry_g_l * self.batch_l / 1000.0 if aim.dry_hopped else 0.0
        found += [
            _Amount(hop, Role.LATE, late_kg / len(task.late), _boil(LATE_MIN)) for hop in task.late
        ]
        if aim.dry_hopped and dry_kg > 0.0:
            dry = When(Stage.DRY_HOP, f"dry hop {DRY_HOP_DAYS:g} d", days=DRY_HOP_DAYS)
            found.append(_Amount(task.late[0], Role.DRY, dry_kg, dry))
        elif aim.dry_hopped:
            found.append(_Amount(task.late[0], Role.LATE, late_kg, _FLAME_OUT))
        return found

    def _share_out(self) -> None:
        """Give every fermentable its share; the base goes in early and late, or as packs."""
        shares = self.task.grist.shares
        for amount, (_, share) in zip(self.others, shares[1:], strict=True):
            amount.kg = share * self.grist_kg
        if self.task.packs:
            (line, kg), *others = self.task.packs
            self._split_base(line, kg)
            self.base += [_Amount(each, Role.BASE, kg, self.late_when) for each, kg in others]
            return
        line, kg = shares[0][0].line, shares[0][1] * self.grist_kg
        self._split_base(line, kg)

    def _split_base(self, line: Fermentable, kg: float) -> None:
        early = EARLY_EXTRACT_KG_L * self.water_l / max(extract_fraction(line), 0.1)
        if kg <= WORTH_SPLITTING * early:
            self.base = [_Amount(line, Role.BASE, kg, _boil(self.boil_min))]
        else:
            self.base = [
                _Amount(line, Role.BASE, early, _boil(self.boil_min)),
                _Amount(line, Role.BASE, kg - early, self.late_when),
            ]

    # What a turn changes

    def recipe(self) -> Recipe:
        """Return the recipe of the amounts as they are."""
        scale, kitchen = self.task.scale, self.task.kitchen
        fermentables = tuple(
            replace(each.line, amount=scale.mass(each.kg), when=each.when)
            for each in (*self.base, *self.others)
            if isinstance(each.line, Fermentable)
        )
        hops = tuple(
            replace(each.line, amount=scale.hop_mass(each.kg), when=each.when)
            for each in self.hops
            if isinstance(each.line, Hop)
        )
        yeast, pitch_c = self.task.grist.yeast, self.pitch_c
        process = replace(
            kitchen.process,
            start_water=scale.volume(self.water_l),
            top_up_to=scale.volume(self.batch_l),
            boil_time=typed(Kind.TIME, self.boil_min),
            pitch_temperature=typed(Kind.TEMPERATURE, pitch_c),
            ferment_time=_time_for(pitch_c, self.task.grist.original_gravity),
            carbonation=typed(Kind.CARBONATION, self.task.carbonation),
        )
        return with_line_ids(
            Recipe(
                pot=kitchen.pot,
                fermenter=kitchen.fermenter,
                process=process,
                fermentables=fermentables,
                hops=hops,
                yeast=yeast,
            )
        )

    def _turn(self, day: Day) -> None:
        wanted = 1000.0 * (self.task.grist.original_gravity - 1.0)
        found = 1000.0 * max(float(day.beer.original_gravity) - 1.0, LEAST_FOUND)
        if self.task.packs:
            self.batch_l = min(max(self.batch_l * found / wanted, 0.5), self.most_l)
            share = self.task.grist.shares[0][1]
            self.grist_kg = sum(kg for _, kg in self.task.packs) / max(share, 0.05)
        else:
            self.grist_kg *= _no_leap(wanted / found)
        if float(day.pot.boil_gravity_end) > DENSEST_BOIL_SG:
            self.late_when = _FLAME_OUT
        self._water(day)
        self._bitter(day)
        self._share_out()

    def _water(self, day: Day) -> None:
        more = (self.foam_l - FOAM_SPARE_L - float(day.pot.fullest_boiling_l)) / 1.04
        more = min(more, self.batch_l - MARK_SPARE_L - float(day.fermenter.from_pot_l))
        heating = sum(each.end_min - each.start_min for each in day.spans if each.key in _HEATING)
        longest = self.water_l * LONGEST_HEATING_MIN / max(heating, 1.0)
        self.water_l *= _no_leap(min(self.water_l + more, longest) / self.water_l)

    def _bitter(self, day: Day) -> None:
        """Scale the late hops where they alone would be too bitter, and the bittering hops."""
        ibu = self._hop_ibu(day)
        wanted = self._wanted_ibu()
        late = sum(ibu[1:])
        most = (MOST_LATE_HOPPY if self.task.aim.dry_hopped else MOST_LATE) * wanted
        times = min(1.0, most / late) if late > 0.0 else 1.0
        for amount in self.hops[1:]:
            if amount.role is Role.LATE:
                amount.kg *= times
        if ibu[0] > 0.0:
            self.hops[0].kg *= _no_leap((wanted - times * late) / ibu[0])

    def _hop_ibu(self, day: Day) -> list[float]:
        """What each hop brings, in the order of the hops; their lines are numbered last."""
        before = len(self.base) + len(self.others)
        return [
            float(day.beer.hop_ibu.get(before + place, 0.0))
            for place in range(1, len(self.hops) + 1)
        ]

    def _wanted_ibu(self) -> float:
        """The bitterness that is wanted, so far within its range as hops cannot be weighed."""
        aim, wanted = self.task.aim, self.task.aim.near["bitterness_ibu"]
        low, high = aim.bands.get("bitterness_ibu", (0.0, 1000.0))
        if not low <= wanted <= high:
            return wanted
        inset = min(0.5, 0.2 * (high - low))
        return min(max(wanted, low + inset), high - inset)

    def _smaller_batch(self, day: Day) -> None:
        """No larger a batch than the pot has wort for, nor, unasked, than it has bitterness for."""
        thick = float(day.pot.boil_gravity_end) - 1.0
        times = _no_leap(DENSEST_END / thick) if thick > DENSEST_END else 1.0
        if self.task.batch_l is None and self.batch_l > LEAST_BATCH * self.most_l:
            in_pot = max(float(day.fermenter.from_pot_l), 0.1)
            pot_ibu = self._wanted_ibu() * float(day.fermenter.batch_l) / in_pot
            times = min(times, max(0.97 * POT_CEILING_IBU / pot_ibu, LEAST_BATCH))
            if float(day.beer.undissolved_ibu) > 0.8 * WORTH_SAYING * self._wanted_ibu():
                times = min(times, SMALLER)
        if times < 1.0 and not self.task.packs:
            smaller = whole_batch(times * self.batch_l)
            for amount in self.hops:
                amount.kg *= smaller / self.batch_l
            self.grist_kg *= smaller / self.batch_l
            self.batch_l = smaller

    # What is rounded

    def _round(self) -> None:
        scale = self.task.scale
        for amount in self.others:
            amount.kg = scale.weighed(amount.kg, self._steps(amount))
        for amount in self.hops:
            amount.kg = scale.weighed(amount.kg, scale.hops)
        self.water_l = scale.measured_down(self.water_l)
        if self.task.batch_l is None:
            self.batch_l = round(self.batch_l / scale.litres) * scale.litres
            self.batch_l = min(self.batch_l, scale.measured_down(self.most_l))
        if len(self.base) > 1:
            early, late = self.base[:2]
            kg = early.kg + late.kg
            early.kg = scale.weighed(early.kg, scale.extract)
            if self.task.packs and early.line is late.line:
                late.kg = kg - early.kg  # a tin put in in two parts is still used whole

    def _steps(self, amount: _Amount) -> tuple[tuple[float, float], ...]:
        """Extract is weighed in its steps; grain and sugar, of which there is less, in finer."""
        scale = self.task.scale
        return scale.extract if amount.role in (Role.BASE, Role.BESIDE) else scale.grain

    def _settled(self) -> Day:
        """Weigh out the base extract, draw off what is too much water, weigh the bittering hops."""
        step_l = self.task.scale.litres
        day = brew(self.recipe()) if self.task.packs else self._with_base()
        for _ in range(2):
            if self._kept_in_shares() and not self.task.packs:
                day = self._with_base()
        while self._too_full(day) and self.water_l > 2.0 * step_l:
            self.water_l -= step_l
            day = brew(self.recipe())
        return self._bittered(day)

    def _with_base(self) -> Day:
        """Weigh out the base for the gravity; a step more or less where that is in the ranges."""
        scale, last = self.task.scale, self.base[-1]
        day = brew(self.recipe())
        for _ in range(2):
            began, ended = (
                max(float(each) - 1.0, LEAST_FOUND)
                for each in (day.beer.original_gravity, day.beer.final_gravity)
            )
            ferments = REAL_PER_APPARENT * (1.0 - ended / began)
            wanted = gravity_wanted(self.task.aim, ferments) - 1.0
            all_kg = sum(each.kg for each in (*self.base, *self.others))
            missing = all_kg * (wanted / began - 1.0)
            last.kg = scale.weighed(max(last.kg + missing, 0.0), scale.extract)
            day = brew(self.recipe())
        if not self._beyond(day):
            return day
        kg, step = last.kg, step_for(last.kg, scale.extract)
        tried = [(self._beyond(day), kg, day)]
        for other in (kg + step, kg - step):
            if other > 0.0:
                last.kg = other
                after = brew(self.recipe())
                tried.append((self._beyond(after), other, after))
        _, last.kg, day = min(tried, key=lambda each: each[0])
        return day

    def _kept_in_shares(self) -> bool:
        """Take off or put on a step where rounding has left the shares that are usual."""
        larder, changed = self.task.larder, False
        total = sum(each.kg for each in (*self.base, *self.others))
        for role, (low, high) in larder.usual.items():
            own = [each for each in self.others if each.role is role]
            kg = sum(each.kg for each in own)
            if own and not low * total <= kg <= high * total:
                most = max(own, key=lambda each: each.kg)
                step = step_for(most.kg, self._steps(most))
                most.kg = max(most.kg + (step if kg < low * total else -step), step)
                changed = True
        return changed

    def _beyond(self, day: Day) -> float:
        """How far strength and end are out of their ranges, in widths of those."""
        bands = self.task.aim.bands
        return sum(
            max(low - value, value - high, 0.0) / (high - low)
            for key in _BY_EXTRACT
            if key in bands
            for (low, high), value in [(bands[key], float(getattr(day.beer, key)))]
        )

    def _too_full(self, day: Day) -> bool:
        return (
            float(day.pot.fullest_boiling_l) > self.foam_l
            or float(day.fermenter.batch_l) > self.batch_l + 0.02
        )

    def _bittered(self, day: Day) -> Day:
        scale, hop = self.task.scale, self.hops[0]
        for _ in range(2):
            own = self._hop_ibu(day)[0]
            missing = self._wanted_ibu() - float(day.beer.bitterness_ibu)
            step = step_for(hop.kg, scale.hops)
            steps = round(missing * hop.kg / max(own, 0.01) / step)
            if steps == 0:
                break
            hop.kg = max(round(hop.kg / step) + steps, 1) * step
            day = brew(self.recipe())
        return day

    def _with_yeast(self, recipe: Recipe, day: Day) -> Recipe:
        count = max(ceil(float(day.beer.yeast_wanted_g) / LARGEST_PACKET_G - 0.05), 1)
        dose = (
            typed(Kind.DOSE, count * PACKET_G, unit="g")
            if recipe.yeast.form == YeastForm.DRY
            else typed(Kind.DOSE, float(count), unit="packet" if count == 1 else "packets")
        )
        return replace(recipe, yeast=replace(recipe.yeast, amount=dose))

    def _pitched(self, recipe: Recipe, day: Day) -> tuple[Recipe, Day]:
        """Freeze some of the top-up where the mix would be too warm for the yeast."""
        pitch_c = self.pitch_c
        if float(day.fermenter.mixed_c) <= pitch_c + 3.0:
            return recipe, day
        edit = frozen_water_for(recipe, day, pitch_c)
        if edit is None:
            return recipe, day
        cooled = edit.apply(recipe)
        return cooled, brew(cooled)


def pitching_c(yeast: Yeast, tap_c: float) -> float:
    """Return at how many °C to pitch: two fifths up the range that the yeast likes; judgement.

    It is no nearer to that of the tap than a cold bath cools the wort in good time, if the yeast
    bears that.
    """
    low, high = number_or_none(yeast, "lowest"), number_or_none(yeast, "highest")
    if low is None or high is None:
        return USUAL_PITCH_C
    wanted = low + UP_THE_RANGE * (high - low)
    return float(round(max(wanted, min(tap_c + ABOVE_TAP_K, high))))


def _no_leap(times: float) -> float:
    """Return how many times an amount is changed in one turn: no more than doubled or halved."""
    return min(max(times, 0.5), 2.0)


def _time_for(pitch_c: float, gravity: float) -> Quantity:
    days = (
        COLD_DAYS
        if pitch_c < COOL_FERMENT_C
        else STRONG_DAYS
        if gravity > STRONG_SG
        else USUAL_DAYS
    )
    return replace(typed(Kind.TIME, days * 1440.0), text=f"{days} d")


def _boil(minutes: float) -> When:
    return When(Stage.BOIL, f"boil {minutes:g} min", minutes)


def _goes_in(role: Role) -> When:
    if role in (Role.CRYSTAL, Role.ROAST):
        return When(Stage.STEEP, "steep")
    return _boil(LATE_MIN)


def weighed(task: Task) -> Weighed:
    """Return what is to be weighed out, as a recipe, with the day it makes."""
    return Weighing(task).done()
