"""Before the days of a plan: one shopping list, what each boil gets, and all the water."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from designer.brewday.cooling import to_put_round
from designer.recipe.fields import number_or_none
from designer.sheet.blocks import Item, ItemList, Section, SideBySide
from designer.sheet.plan import Plan, name_of
from designer.sheet.planned import Brewed
from designer.sheet.preparing import shopping, treatment, washed, weighing


def preparing_all(made: Brewed) -> Section:
    """Return the lists of the day before, of all boils and all fermenters."""
    plan = made.plan
    lists = SideBySide((_bought(made), _cleaned(made)), (*_weighed_out(made), _water(made)))
    lead = plan.say("buy, weigh, freeze, clean")
    return Section("prepare", plan.say("Before the day"), lead, (lists,))


def _bought(made: Brewed) -> ItemList:
    """What is bought for the whole, with the yeast of every fermenter."""
    whole = shopping(made.whole)
    yeast = [each for each in whole.items if each.group == "Yeast"]
    kinds = {(each.recipe.yeast.name, each.recipe.yeast.form) for each in made.fermenters}
    if len(kinds) == 1 and made.plan.recipe.yeast.amount is not None:
        return whole
    place = whole.items.index(yeast[0])
    each_its_own = tuple(
        Item("Yeast", each.yeast.amount, each.yeast.name, each.yeast_packets)
        for each in made.fermenters
    )
    rest = tuple(each for each in whole.items if each not in yeast)
    return ItemList(whole.title, (*rest[:place], *each_its_own, *rest[place:]))


def _cleaned(made: Brewed) -> ItemList:
    tanks = [each.vessel for each in made.days.fermenters]
    names = [name_of(each.name) for each in made.pots]
    names += [name_of(each.name) for each in tanks]
    vessels = [
        name if names.count(name) == 1 else f"{names.count(name)} × {name}"
        for name in dict.fromkeys(names)
        if name
    ]
    return washed(made.plan, tanks, ", ".join(vessels))


def _weighed_out(made: Brewed) -> list[ItemList]:
    """What goes into each pot, and what later goes into each fermenter."""
    plan, boils = made.plan, made.boils
    if len(boils) == 1:
        lists = [weighing(boils[0])]
    elif made.days.boils_alike:
        lists = [weighing(boils[0], _several_times(plan, len(boils)), len(boils))]
    else:
        at_once = any(made.is_at_once(each) for each in made.rounds)
        lists = [
            weighing(
                each,
                plan.say("Weigh out for pot {number}, by when it goes in", number=str(number))
                if at_once
                else plan.say(
                    "Weigh out for boil {number}, by when it goes in", number=str(number)
                ),
            )
            for number, each in enumerate(boils, 1)
        ]
    return lists + _for_fermenters(made)


def _several_times(plan: Plan, count: int) -> str:
    if count == 2:
        return plan.say("Weigh this out twice, by when it goes in")
    return plan.say("Weigh this out {number} times, by when it goes in", number=str(count))


def _for_fermenters(made: Brewed) -> list[ItemList]:
    plan, tanks = made.plan, made.fermenters
    if not any(each.going_in for each in tanks):
        return []
    if len(tanks) == 1:
        return [weighing(tanks[0], plan.say("Weigh out for the fermenter"))]
    if len({(each.first_letter, each.going_in) for each in tanks}) == 1:
        title = plan.say("Weigh out for each of {number} fermenters", number=str(len(tanks)))
        return [weighing(tanks[0], title, len(tanks))]
    return [
        weighing(each, plan.say("Weigh out for fermenter {number}", number=str(number)))
        for number, each in enumerate(tanks, 1)
        if each.going_in
    ]


def _water(made: Brewed) -> ItemList:
    """The water and the ice of all boils and fermenters, with the parts they come in."""
    plan, figures = made.plan, made.plan.figures
    boils, tanks = made.boils, [each.day.fermenter for each in made.fermenters]
    items = [
        *_in_all(
            plan,
            [number_or_none(each.recipe.process, "start_water") or 0.0 for each in boils],
            figures.volume,
            plan.say("cold water for the pot"),
        ),
        *_in_all(
            plan,
            [round(float(each.frozen_kg), 3) for each in tanks],
            figures.mass,
            plan.say("water, boiled, to freeze in clean lidded tubs"),
        ),
        *_in_all(
            plan,
            [round(float(each.hot_l), 1) for each in tanks],
            figures.volume,
            plan.say("water to boil in a kettle, for extract in the fermenter"),
        ),
        *_in_all(
            plan,
            [round(float(each.cold_top_up_l), 1) for each in tanks],
            figures.volume,
            plan.say("water to top up with, boiled, kept cold and covered"),
        ),
        *_in_all(
            plan,
            [to_put_round(float(each.day.fermenter.bath_ice_kg)) for each in boils],
            figures.mass,
            plan.say("ice for the bath round the pot, made or bought"),
        ),
    ]
    return ItemList(plan.say("Water, the day before"), (*items, *treatment(made.whole)))


LEAST = 0.05
"""So little water is not put ready."""


def _in_all(
    plan: Plan, parts: Sequence[float], shown: Callable[[float], str], name: str
) -> list[Item]:
    total = sum(parts)
    if total <= LEAST:
        return []
    texts = [shown(each) for each in parts if each > LEAST]
    note = ""
    if len(texts) > 1 and len(set(texts)) == 1:
        note = f"{len(texts)} × {texts[0]}"
    elif len(texts) > 1:
        note = " + ".join(texts)
    return [Item("", shown(total), name, note, boxes=len(texts))]
