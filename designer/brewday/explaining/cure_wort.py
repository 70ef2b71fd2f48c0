"""The wort as it is by one explanation: its recipe, its figures, the room that is left for more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from designer.brewday.explaining.asked import Asked, Taken, TestCode
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.cause_words import line_of, share_of
from designer.brewday.explaining.cure_recipes import Place, Step, settings_of, together
from designer.brewday.explaining.explained import CauseCode, Cure
from designer.brewday.explaining.posterior import Weighed
from designer.brewday.explaining.verdicts import bitterness_of
from designer.brewday.measured.advice_ahead import room_l
from designer.brewday.measured.advice_checks import is_worse
from designer.brewday.measured.ahead import KEYS
from designer.brewday.outlook import look_ahead
from designer.brewday.plan_days import days_of
from designer.brewday.results import FermenterDay, Outlook, Range
from designer.brewday.weighable import weighable
from designer.recipe.choices import Package
from designer.recipe.document import Recipe
from designer.recipe.kinds import typed
from designer.recipe.message import Message
from designer.recipe.plan import fermenters_of
from designer.recipe.quantity import Kind
from designer.wort.carbonation import BOTTLE_LIMITS
from designer.wort.extract import extract_for

ANOTHER_VOLUME = 0.005
"""A volume that is nearer to that of the plan is the same."""


@dataclass(frozen=True, slots=True, eq=False)
class Own:
    """The recipe that a wort was brewed by, the fermenter that was read, and the plain day."""

    recipe: Recipe
    place: Place
    before: Outlook
    _known: list[tuple[Recipe, Outlook]] = field(default_factory=list, repr=False)

    def outlook(self, changed: Recipe) -> Outlook:
        """Return the plain day of a changed recipe; each is run once."""
        found = next((day for recipe, day in self._known if recipe == changed), None)
        if found is None:
            found = look_ahead(changed, ranges=False)
            self._known.append((changed, found))
        return found

    def with_steps(self, steps: Sequence[Step]) -> Recipe:
        """Return the recipe after steps."""
        changed = self.recipe
        for each in steps:
            changed = each.edit.apply(changed)
        return changed


@dataclass(frozen=True, slots=True, eq=False)
class Wort:
    """A wort as it is, and as it was meant; litres and gravities at 20 °C.

    `read_l` is the level as it was read, else as planned. `as_is` are the steps that make the
    recipe that of this wort, its volume left out. `room_l` is
    what the fermenter holds below the room for krausen, None where nobody said. Without a recipe of
    its `own` its figures are those of a mass balance.
    """

    part: Weighed
    beliefs: Beliefs
    gravity: float
    litres: float
    wanted: float
    planned_l: float
    read_l: float
    as_meant: dict[str, Range]
    room_l: float | None = None
    own: Own | None = None
    as_is: tuple[Step, ...] = ()
    has_mark: bool = True
    bears_no_pressure: bool = False

    def steps_with(self, own: Own, steps: Sequence[Step], litres: float) -> tuple[Step, ...]:
        """Return all steps to the recipe of the wort with what is put in."""
        every = (*self.as_is, *steps)
        if self.has_mark and abs(litres - self.planned_l) > ANOTHER_VOLUME * self.planned_l:
            every = (*every, own.place.volume(litres))
        return every

    def is_worse_with(self, steps: Sequence[Step], litres: float) -> bool:
        """Whether what is put in brings something grave to watch out for."""
        if self.own is None:
            return False
        before, after = (
            self.own.outlook(self.own.with_steps(self.steps_with(self.own, *each)))
            for each in (((), self.litres), (steps, litres))
        )
        return is_worse(before, after)

    def cure(
        self,
        code: str,
        title: Message,
        words: Message,
        offer: Message,
        steps: Sequence[Step],
        litres: float,
        gravity: float,
    ) -> Cure:
        """Return a cure that puts something in, or nothing, with the forecasts after it."""
        if self.own is None:
            return Cure(code, title, words, offer, after=self._by_balance(litres, gravity))
        every = self.steps_with(self.own, steps, litres)
        since = self.own.place.since(litres - self.read_l, gravity - self.gravity)
        changes = (*(each.change for each in every), *since)
        return Cure(
            code,
            title,
            words,
            offer,
            together(every, title),
            settings_of(every),
            after=self._of_the_day(self.own, every),
            changes=changes,
        )

    def _of_the_day(self, own: Own, every: Sequence[Step]) -> dict[str, Range]:
        """Return the five forecasts: those that stand, moved by what the steps make of the day."""
        changed, number = own.with_steps(every), own.place.fermenter
        was = forecasts_of(own.recipe, own.before, number)
        then = forecasts_of(changed, own.outlook(changed), number)
        return {
            key: stands.moved_to(stands.value + then[key].value - was[key].value)
            for key in KEYS
            for stands in (self.as_meant[key],)
        }

    def _by_balance(self, litres: float, gravity: float) -> dict[str, Range]:
        found = balanced(self.beliefs, 1000.0 * (gravity - 1.0))
        ibu = bitterness_of(self.part, self.beliefs)
        if ibu is not None:
            found["bitterness_ibu"] = ibu * self.litres / litres
        return {key: Range(value, value, value) for key, value in found.items()}


def balanced(beliefs: Beliefs, points: float) -> dict[str, float]:
    """Return gravities and alcohol of a wort of so many points that ferments as it was meant to."""
    share = points / max(beliefs.planned_points, 1e-6)
    return {
        "original_gravity": 1.0 + points / 1000.0,
        "final_gravity": 1.0 + (beliefs.final_gravity - 1.0) * share,
        "abv_percent": beliefs.abv_of(points),
    }


def forecasts_of(recipe: Recipe, outlook: Outlook, fermenter: int) -> Mapping[str, Range]:
    """Return the forecasts of the beer of one fermenter."""
    found = days_of(recipe, outlook).fermenters
    if len(found) < 2:
        return outlook.forecasts
    return found[fermenter - 1].forecasts


def wort_of(
    part: Weighed,
    asked: Asked,
    beliefs: Beliefs,
    own: Own | None,
) -> Wort:
    """Return the wort as one explanation says that it is, of its own recipe if there is one."""
    wanted = beliefs.expected.value
    litres = beliefs.planned_l * part.volume_factor
    told = balanced(beliefs, beliefs.planned_points)
    if beliefs.bitterness_ibu is not None:
        told["bitterness_ibu"] = beliefs.bitterness_ibu
    alone = Wort(
        part,
        beliefs,
        part.original_gravity,
        litres,
        wanted,
        beliefs.planned_l,
        asked.mark_l or beliefs.planned_l,
        {key: Range(value, value, value) for key, value in told.items()},
    )
    return alone if own is None else _of_recipe(alone, asked, own)


def own_of(asked: Asked, recipe: Recipe | None) -> Own | None:
    """Return the recipe that a wort was brewed by, with its plain day; None for none."""
    if recipe is None:
        return None
    number = min(max(asked.samples[-1].fermenter, 1), len(fermenters_of(recipe)))
    return Own(recipe, Place(recipe, number), look_ahead(recipe, ranges=False))


def _of_recipe(alone: Wort, asked: Asked, own: Own) -> Wort:
    recipe, number = own.recipe, own.place.fermenter
    day = _day(recipe, own.before, number)
    as_meant = forecasts_of(recipe, alone.beliefs.outlook or own.before, number)
    has_mark = fermenters_of(recipe)[number - 1].top_up_to is not None
    room, no_pressure = room_l(day), _bears_no_pressure(recipe)
    if CauseCode.VOLUME in alone.part.causes and not has_mark:
        # No mark says how full it is: what went off or stayed behind, nobody knows. So it is told.
        return replace(alone, room_l=room, bears_no_pressure=no_pressure)
    in_pot = asked.samples[-1].taken is Taken.POT
    litres = day.total_l
    if not in_pot:
        litres = max(round(_litres(alone, day, asked), 2), day.from_pot_l)
    made = replace(
        alone,
        litres=litres,
        planned_l=day.total_l,
        read_l=asked.mark_l or day.total_l,
        as_meant={key: as_meant[key] for key in KEYS},
        room_l=room,
        own=own,
        as_is=tuple(_lines_as_they_are(alone, own.place)),
        has_mark=has_mark and not in_pot,
        bears_no_pressure=no_pressure,
    )
    changed = own.with_steps(made.steps_with(own, (), litres))
    then = own.outlook(changed)
    moved = forecasts_of(changed, then, number)["original_gravity"].value
    was = forecasts_of(recipe, own.before, number)["original_gravity"].value
    gravity = as_meant["original_gravity"].value + moved - was
    return replace(made, gravity=gravity, litres=_day(changed, then, number).total_l)


def _litres(alone: Wort, day: FermenterDay, asked: Asked) -> float:
    """Return how full the fermenter is: by its level where that is known, else by its gravity."""
    if CauseCode.VOLUME not in alone.part.causes:
        return day.total_l
    weighed = any(e.test is TestCode.WEIGH and e.value is not None for e in asked.answers)
    if asked.mark_l is not None or weighed or len(alone.part.causes) > 1:
        return day.total_l * alone.part.volume_factor
    have = extract_for(float(day.day.beer.original_gravity), day.total_l)
    return day.total_l * float(have / extract_for(alone.gravity, day.total_l))


def _day(recipe: Recipe, outlook: Outlook, number: int) -> FermenterDay:
    return days_of(recipe, outlook).fermenters[number - 1]


def _bears_no_pressure(recipe: Recipe) -> bool:
    """Whether the beer is meant for bottles whose limit is nothing."""
    process = recipe.process
    is_bottled = process.package == Package.BOTTLES
    return is_bottled and BOTTLE_LIMITS[process.bottle].never_bar <= 0.0


def _lines_as_they_are(wort: Wort, place: Place) -> list[Step]:
    """Return the steps that give a line the amount of it that really went in."""
    line, share = line_of(wort.part, wort.beliefs), share_of(wort.part)
    if line is None or not line.line_id or not share:
        return []
    own = place.fermentable(line.line_id)
    if own is None or own.amount is None:
        return []
    went_in = typed(Kind.MASS, 0.0)
    if share > -1.0:
        went_in = weighable(own.amount.value * (1.0 + share), own.amount)
    return list(place.amount(line.line_id, went_in))
