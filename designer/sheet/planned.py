"""What the sheet of a planned recipe is written from: a plan for each boil, and for each fermenter.

All of them are plans of a plain recipe and its day, so what is written of a plain recipe can be
written of each.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from designer.brewday.findings import findings_of_boil, findings_of_fermenter
from designer.brewday.results import BoilDay, FermenterDay, Finding, Outlook, PlanDays, Poured
from designer.brewday.time_line import Addition
from designer.recipe.document import LINE_TYPES, Pot, Recipe
from designer.recipe.named import lines_of
from designer.recipe.plan import recipe_at, recipe_of_fermenter, whole_recipe
from designer.sheet.blocks import Words
from designer.sheet.language import message
from designer.sheet.plan import IN_FERMENTER, IN_POT, Plan
from designer.sheet.watching import AT_PACKAGING, SEVERE
from designer.units.clock import DAY_MIN

BOIL, POT, FERMENTER = (
    message("Boil {number}"),
    message("Pot {number}"),
    message("Fermenter {number}"),
)


@dataclass(frozen=True)
class Brewed:
    """A planned recipe: the sheet's plan of the whole, and the days of its boils and fermenters."""

    plan: Plan
    days: PlanDays

    @cached_property
    def whole(self) -> Plan:
        """The plan of all that goes in, as one plain list."""
        return replace(self.plan, recipe=whole_recipe(self.plan.recipe))

    @cached_property
    def boils(self) -> tuple[Plan, ...]:
        """The plan of each boil: what goes into its pot."""
        made: list[Plan] = []
        letter = 0
        for boil in self.days.boils:
            plan = self._of_boil(boil, 0 if self.days.boils_alike else letter)
            made.append(plan)
            letter = plan.first_letter + len(plan.going_in)
        return tuple(made)

    def _of_boil(self, boil: BoilDay, letter: int) -> Plan:
        found = tuple(findings_of_boil(boil.recipe, boil.day)) if self._boils_are_doubtful else ()
        fresh = [each.vessel for each in self.days.fermenters if self.first_of(each) is boil]
        return replace(
            self.plan,
            recipe=boil.recipe,
            outlook=Outlook(boil.day, boil.forecasts, found),
            start_min=self.plan.start_min + round(self._clock_from(boil)),
            places=IN_POT,
            first_letter=letter,
            vessels=tuple(fresh),
            tools_again=not self.is_with_others(boil),
            boil_number=boil.number,
        )

    def _clock_from(self, boil: BoilDay) -> float:
        """From when its clock is told: a day with a part of the sheet of its own has its own."""
        return since_start(boil) if self.days.boils_alike else boil.starts_min

    @cached_property
    def _boils_are_doubtful(self) -> bool:
        return any(each.severity in SEVERE for each in self.plan.outlook.findings)

    @cached_property
    def fermenters(self) -> tuple[Plan, ...]:
        """The plan of each fermenter, from its last wort on: what goes in there, and its beer.

        What is the same as in one before has the same letters.
        """
        letter = max(each.first_letter + len(each.going_in) for each in self.boils)
        made: list[Plan] = []
        for fermenter in self.days.fermenters:
            plan = self.of_fermenter(fermenter, self.last_of(fermenter), letter)
            twin = next((each for each in made if same_goes_in(each, plan)), None)
            if twin is not None:
                plan = replace(plan, first_letter=twin.first_letter)
            else:
                letter += len(plan.going_in)
            made.append(plan)
        return tuple(made)

    def of_fermenter(self, fermenter: FermenterDay, boil: BoilDay, letter: int) -> Plan:
        """Return the plan of a fermenter while the wort of a boil comes into it."""
        recipe = recipe_of_fermenter(self.plan.recipe, fermenter.number)
        day = replace(
            boil.day,
            fermenter=fermenter.day.fermenter,
            beer=fermenter.day.beer,
            additions=self._additions(fermenter, boil, recipe),
        )
        return replace(
            self.plan,
            recipe=recipe,
            outlook=Outlook(day, fermenter.forecasts, self._findings(fermenter, boil)),
            start_min=self.plan.start_min + round(self._clock_from(boil)),
            places=IN_FERMENTER,
            first_letter=letter,
            on_day=fermenter.on_day,
            boil_number=boil.number,
            fermenter_number=fermenter.number,
        )

    def _additions(
        self, fermenter: FermenterDay, boil: BoilDay, recipe: Recipe
    ) -> tuple[Addition, ...]:
        """What goes in with this boil, and what only others bring; of lines that are alike, one."""
        lines = {(name, each.line_id) for name in LINE_TYPES for each in lines_of(recipe, name)}
        found = {(each.lines, each.line_id): each for each in boil.day.additions}
        for poured in fermenter.poured:
            for each in self.days.boils[poured.boil - 1].day.additions:
                found.setdefault((each.lines, each.line_id), each)
        return tuple(each for key, each in found.items() if key in lines)

    def _findings(self, fermenter: FermenterDay, boil: BoilDay) -> tuple[Finding, ...]:
        if not self._boils_are_doubtful:
            return ()
        recipe = recipe_at(self.plan.recipe, fermenter.poured[0].boil, fermenter.number)
        bottles = (
            each for each in findings_of_boil(boil.recipe, boil.day) if each.code in AT_PACKAGING
        )
        return (*findings_of_fermenter(recipe, fermenter.day), *bottles)

    def whose(self, finding: Finding) -> Words:
        """Return which boil or fermenter a finding is about, where others have none such."""
        number = finding.about.line or 0
        of_fermenter = finding.about.of == "fermenters"
        plans = self.fermenters if of_fermenter else self.boils
        found = [
            any(each.message == finding.message for each in plan.outlook.findings) for plan in plans
        ]
        if number < 1 or all(found) or not any(found):
            return ()
        at_once = not of_fermenter and self.is_with_others(self.days.boils[number - 1])
        what = FERMENTER if of_fermenter else POT if at_once else BOIL
        return (f"{label(self.plan, what, number)} ",)

    def in_order(self, fermenter: FermenterDay) -> list[BoilDay]:
        """Return the boils that come into a fermenter, by when their wort is ready."""
        boils = [self.days.boils[each.boil - 1] for each in fermenter.poured]
        return sorted(boils, key=ready_min)

    def first_of(self, fermenter: FermenterDay) -> BoilDay:
        """Return the boil that comes into a fermenter first."""
        return self.in_order(fermenter)[0]

    def last_of(self, fermenter: FermenterDay) -> BoilDay:
        """Return the boil whose wort is in last: then the yeast is pitched."""
        return self.in_order(fermenter)[-1]

    def pours_of(self, boil: BoilDay) -> list[tuple[FermenterDay, Poured]]:
        """Return what of a boil goes into which fermenter."""
        return [
            (fermenter, poured)
            for fermenter in self.days.fermenters
            for poured in fermenter.poured
            if poured.boil == boil.number
        ]

    @cached_property
    def rounds(self) -> tuple[tuple[BoilDay, ...], ...]:
        """The boils that are told together: all where they are alike, else those at once."""
        if self.days.boils_alike:
            return (self.days.boils,)
        found: dict[float, list[BoilDay]] = {}
        for boil in self.days.boils:
            found.setdefault(since_start(boil), []).append(boil)
        return tuple(tuple(each) for each in found.values())

    @cached_property
    def each_its_own(self) -> bool:
        """Whether boils that are alike go into one fermenter each, numbered as they are."""
        into = [[each.number for each, _ in self.pours_of(boil)] for boil in self.days.boils]
        return self.days.boils_alike and into == [[each.number] for each in self.days.boils]

    def is_at_once(self, boils: tuple[BoilDay, ...]) -> bool:
        """Whether boils begin at the same time, each in a pot of its own."""
        return len(boils) > 1 and len({since_start(each) for each in boils}) == 1

    def is_with_others(self, boil: BoilDay) -> bool:
        """Whether another pot is heated at the same time."""
        since = since_start(boil)
        return sum(since_start(each) == since for each in self.days.boils) > 1

    def is_used_again(self, boil: BoilDay) -> bool:
        """Whether the pot of a boil is wanted for another later."""
        pot, since = boil.recipe.pot, since_start(boil)
        return any(each.recipe.pot == pot and since_start(each) > since for each in self.days.boils)

    def is_mixed(self, fermenter: FermenterDay) -> bool:
        """Whether the wort of several boils comes into a fermenter."""
        return len(fermenter.poured) > 1

    @property
    def has_pots_at_once(self) -> bool:
        """Whether any pots are heated at the same time, and so are told by their numbers."""
        return any(self.is_with_others(each) for each in self.days.boils)

    @property
    def pots(self) -> tuple[Pot, ...]:
        """The pots, each as often as it is there: pots that are heated at once are several."""
        pots = [each.recipe.pot for each in self.days.boils]
        if self.has_pots_at_once:
            return tuple(pots)
        return tuple(dict.fromkeys(pots))


def label(plan: Plan, what: str, number: int | str) -> str:
    """Return `BOIL`, `POT` or `FERMENTER` of that number as it stands before what it is about."""
    return plan.say("{label}:", label=plan.say(what, number=str(number)))


def same_goes_in(one: Plan, other: Plan) -> bool:
    """Whether the same goes into two fermenters at the same times."""
    return [(each.words, each.portions) for each in one.going_in] == [
        (each.words, each.portions) for each in other.going_in
    ]


def since_start(boil: BoilDay) -> float:
    """Return the minutes from the start of the first brew day to that of a boil."""
    return boil.starts_min + DAY_MIN * boil.on_day


def ready_min(boil: BoilDay) -> float:
    """Return the minute at which the wort of a boil is in the fermenter."""
    return since_start(boil) + float(boil.day.total_min)


def brewed(plan: Plan) -> Brewed | None:
    """Return what the sheet of a planned recipe is written from; None for a plain one."""
    days = plan.outlook.plan
    return None if days is None else Brewed(plan, days)
