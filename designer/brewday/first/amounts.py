"""What is weighed out, while it is sought: kilograms of each line, litres, their recipe."""

from __future__ import annotations

from dataclasses import dataclass, replace

from designer.brewday.first.fermenting import pitching_c, time_for
from designer.brewday.first.grist import Grist
from designer.brewday.first.kitchen import (
    SMALLEST_BATCH_L,
    Scale,
    batch_for,
    boil_minutes,
    most_beer_l,
)
from designer.brewday.first.larder import Aim, Larder, Role
from designer.brewday.foam import foam_line_l
from designer.brewday.results import Day
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.fields import number, number_or_none
from designer.recipe.kind_defaults import alpha_acid, extract_fraction
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Stage, When
from designer.wort.extract import extract_for

EARLY_EXTRACT_KG_L = 0.105
"""Extract for a litre of water from the start: hops boil in wort of about 1.040; judgement."""
WORTH_SPLITTING, WORTH_SPLITTING_SIMPLE = 1.4, 2.2
"""So many times that of the base is put in in two parts; and where few lines are wanted."""
LATE_MIN, DRY_HOP_DAYS = 10.0, 4.0
STARTS_WITH, LEAST_WATER_L = 0.62, 0.2
LEFT_BEHIND, USUAL_UTILISATION, LEAST_ALPHA = 1.06, 0.2, 0.005
"""First guesses: what stays in the pot, how much of the alpha acid comes through."""
FLAME_OUT = When(Stage.FLAME_OUT, "flame-out")


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


@dataclass(slots=True)
class Fermented:
    """A fermentable, what it is for and how much of it goes in when."""

    line: Fermentable
    role: Role
    kg: float
    when: When


@dataclass(slots=True)
class Hopped:
    """A hop, what it is for and how much of it goes in when."""

    line: Hop
    role: Role
    kg: float
    when: When


class Amounts:
    """The amounts while they are sought; `base` and `others` are what ferments."""

    def __init__(self, task: Task) -> None:
        kitchen, gravity = task.kitchen, task.grist.original_gravity
        pot_l = number_or_none(kitchen.pot, "volume") or 0.0
        self.task = task
        self.pitch_c = pitching_c(task.grist.yeast, number(kitchen.process, "tap_temperature"))
        self.most_l = max(most_beer_l(kitchen), SMALLEST_BATCH_L)
        self.foam_l = foam_line_l(kitchen.pot) or 0.0
        self.batch_l = batch_for(kitchen, gravity, task.batch_l)
        self.water_l = max(min(STARTS_WITH * pot_l, self.batch_l), LEAST_WATER_L)
        self.boil_min = boil_minutes(kitchen, self.water_l)
        self.late_when = boil(LATE_MIN)
        extract = sum(share * extract_fraction(part.line) for part, share in task.grist.shares)
        self.grist_kg = LEFT_BEHIND * float(extract_for(gravity, self.batch_l)) / extract
        self.others = [
            Fermented(part.line, part.role, 0.0, _goes_in(part.role))
            for part, _ in task.grist.shares[1:]
        ]
        self.base: list[Fermented] = []
        self.hops = self._first_hops()
        self.share_out()

    def _first_hops(self) -> list[Hopped]:
        task, aim, larder = self.task, self.task.aim, self.task.larder
        alpha = max(alpha_acid(task.bittering), LEAST_ALPHA)
        kg = aim.near["bitterness_ibu"] * self.batch_l / (1e6 * alpha * USUAL_UTILISATION)
        late_kg = larder.late_g_l * aim.late_times * self.batch_l / 1000.0
        dry_kg = larder.dry_g_l * self.batch_l / 1000.0
        found = [Hopped(task.bittering, Role.BITTERING, kg, boil(self.boil_min))]
        found += [
            Hopped(hop, Role.LATE, late_kg / len(task.late), boil(LATE_MIN)) for hop in task.late
        ]
        if aim.dry_hopped and dry_kg > 0.0:
            dry = When(Stage.DRY_HOP, f"dry hop {DRY_HOP_DAYS:g} d", days=DRY_HOP_DAYS)
            found.append(Hopped(task.late[0], Role.DRY, dry_kg, dry))
        elif aim.dry_hopped:
            found.append(Hopped(task.late[0], Role.LATE, late_kg, FLAME_OUT))
        return found

    def share_out(self) -> None:
        """Give every fermentable its share; the base goes in early and late, or as packs."""
        shares = self.task.grist.shares
        for amount, (_, share) in zip(self.others, shares[1:], strict=True):
            amount.kg = share * self.grist_kg
        if self.task.packs:
            (line, kg), *more = self.task.packs
            self._split_base(line, kg)
            self.base += [Fermented(each, Role.BASE, kg, self.late_when) for each, kg in more]
        else:
            self._split_base(shares[0][0].line, shares[0][1] * self.grist_kg)

    def _split_base(self, line: Fermentable, kg: float) -> None:
        early = EARLY_EXTRACT_KG_L * self.water_l / extract_fraction(line)
        worth = WORTH_SPLITTING_SIMPLE if self.task.aim.is_simple else WORTH_SPLITTING
        if kg <= worth * early:
            self.base = [Fermented(line, Role.BASE, kg, boil(self.boil_min))]
        else:
            self.base = [
                Fermented(line, Role.BASE, early, boil(self.boil_min)),
                Fermented(line, Role.BASE, kg - early, self.late_when),
            ]

    @property
    def fermentables(self) -> tuple[Fermented, ...]:
        """All that ferments, the base first."""
        return (*self.base, *self.others)

    def recipe(self) -> Recipe:
        """Return the recipe of the amounts as they are, no yeast weighed out yet."""
        scale, kitchen, grist = self.task.scale, self.task.kitchen, self.task.grist
        process = replace(
            kitchen.process,
            start_water=scale.volume(self.water_l),
            top_up_to=scale.volume(self.batch_l),
            boil_time=typed(Kind.TIME, self.boil_min),
            pitch_temperature=typed(Kind.TEMPERATURE, self.pitch_c),
            ferment_time=time_for(self.pitch_c, grist.original_gravity),
            carbonation=typed(Kind.CARBONATION, self.task.carbonation),
        )
        return with_line_ids(
            Recipe(
                pot=kitchen.pot,
                fermenter=kitchen.fermenter,
                process=process,
                fermentables=tuple(
                    replace(each.line, amount=scale.mass(each.kg), when=each.when)
                    for each in self.fermentables
                ),
                hops=tuple(
                    replace(each.line, amount=scale.hop_mass(each.kg), when=each.when)
                    for each in self.hops
                ),
                yeast=grist.yeast,
            )
        )

    def hop_ibu(self, day: Day) -> list[float]:
        """Return what each hop brings, in their order; their lines are numbered last."""
        first = len(self.fermentables) + 1
        return [float(day.beer.hop_ibu.get(first + n, 0.0)) for n in range(len(self.hops))]

    def wanted_ibu(self) -> float:
        """Return the bitterness to aim at, so far within its range as hops cannot be weighed."""
        aim, wanted = self.task.aim, self.task.aim.near["bitterness_ibu"]
        low, high = aim.bands.get("bitterness_ibu", (0.0, 1000.0))
        if not low <= wanted <= high:
            return wanted
        inset = min(0.5, 0.2 * (high - low))
        return min(max(wanted, low + inset), high - inset)


def boil(minutes: float) -> When:
    """Return when something goes in that boils so long."""
    return When(Stage.BOIL, f"boil {minutes:g} min", minutes)


def _goes_in(role: Role) -> When:
    if role in (Role.CRYSTAL, Role.ROAST):
        return When(Stage.STEEP, "steep")
    return boil(LATE_MIN)
