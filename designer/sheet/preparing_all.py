"""Before the days of a plan: one shopping list, what each boil gets, and all the water."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from designer.sheet.blocks import Item, ItemList, Section, SideBySide
from designer.sheet.buying import shopping
from designer.sheet.plan import Plan
from designer.sheet.planned import FERMENTER, POT, Brewed, label
from designer.sheet.preparing import washed, waters, weighing, with_left_over


def preparing_all(made: Brewed) -> Section:
    """Return the lists of the day before, of all boils and all fermenters."""
    plan = made.plan
    water = waters(made.whole, made.boils, made.fermenters)
    *others, last = _weighed_out(made)
    weighed = (*others, with_left_over(plan, last))
    lists = SideBySide((_bought(made), _cleaned(made)), (*weighed, water))
    lead = plan.say("buy, weigh, freeze, clean")
    return Section("prepare", plan.say("Before the day"), lead, (lists,))


def _bought(made: Brewed) -> ItemList:
    """What is bought for the whole, with the yeast of every fermenter."""
    whole = shopping(made.plan)
    yeasts = {each.recipe.yeast for each in made.fermenters}
    if len(yeasts) == 1 and made.plan.recipe.yeast.amount is not None:
        return whole
    items = [each for each in whole.items if each.group != "Yeast"]
    place = next(n for n, each in enumerate(whole.items) if each.group == "Yeast")
    counted = Counter(
        (each.yeast.amount, each.yeast.name, each.packets_to_buy) for each in made.fermenters
    )
    items[place:place] = [
        Item(
            "Yeast",
            amount if count == 1 else f"{count} × {amount}",
            name,
            made.plan.packets(count * packets),
        )
        for (amount, name, packets), count in counted.items()
    ]
    return ItemList(whole.title, tuple(items))


def _cleaned(made: Brewed) -> ItemList:
    plan, tanks = made.plan, [each.vessel for each in made.days.fermenters]
    names = [
        *_named(plan, POT, [plan.name_of(each.name) for each in made.pots], made.has_pots_at_once),
        *_named(plan, FERMENTER, [plan.name_of(each.name) for each in tanks], len(tanks) > 1),
    ]
    vessels = plan.parted(each for each in names if each)
    if made.has_pots_at_once or len(tanks) > 1:
        said = plan.say("all of them, numbered with tape: {vessels}", vessels=vessels)
    else:
        said = plan.say("all of them: {vessels}", vessels=vessels)
    return washed(plan, tanks, said)


def _named(plan: Plan, what: str, names: list[str], numbered: bool) -> list[str]:
    """The names of pots or fermenters, with their numbers where they are told by them."""
    if not numbered:
        return names
    said = []
    number = 1
    for name, same in groupby(names):
        last = number + len(list(same)) - 1
        numbers = str(number) if last == number else f"{number}–{last}"
        said.append(f"{label(plan, what, numbers)} {name}".rstrip())
        number = last + 1
    return said


def _weighed_out(made: Brewed) -> list[ItemList]:
    """What goes into each pot, and what later goes into each fermenter."""
    plan, boils = made.plan, made.boils
    if len(boils) == 1:
        lists = [weighing(boils[0])]
    elif made.days.boils_alike:
        lists = [weighing(boils[0], _several_times(plan, len(boils)), len(boils))]
    else:
        at_once = made.has_pots_at_once
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
