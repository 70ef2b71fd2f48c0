"""Before the day: what to buy, what to weigh out, water to prepare, what to clean."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from designer.brewday.cooling import to_put_round
from designer.recipe.choices import (
    Disinfectant,
    FermenterKind,
)
from designer.recipe.document import Fermenter
from designer.recipe.fields import number_or_none
from designer.sheet.blocks import Item, ItemList, Section, SideBySide
from designer.sheet.buying import SALTS, dose, left_over, shopping
from designer.sheet.language import message
from designer.sheet.plan import Plan

LEAST_POURED_L = 0.05
LEAST_WEIGHED_G = 1.0
"""What a good kitchen scale can still weigh to a tenth or so; common practice, no source."""
_FERMENTERS: dict[str, str] = {
    FermenterKind.PLASTIC_BUCKET: message("wash, rinse: pot, spoon, bag, bucket, lid, tap"),
    FermenterKind.GLASS_CARBOY: message(
        "wash, rinse: pot, spoon, bag, carboy (no hot water into cold glass)"
    ),
    FermenterKind.STEEL_VESSEL: message("wash, rinse: pot, spoon, bag, vessel, lid, tap"),
}


def preparing(plan: Plan) -> Section:
    """Return the lists of the day before."""
    lists = SideBySide(
        (shopping(plan), cleaning(plan)), (with_left_over(plan, weighing(plan)), water(plan))
    )
    lead = plan.say("buy, weigh, freeze, clean")
    return Section("prepare", plan.say("Before the day"), lead, (lists,))


def with_left_over(plan: Plan, weighed: ItemList) -> ItemList:
    """Return what is weighed out, and how what is then left of the packs is kept."""
    return ItemList(weighed.title, (*weighed.items, *left_over(plan)))


def weighing(plan: Plan, title: str = "", boxes: int = 1) -> ItemList:
    """Return the bags to weigh out, lettered in the order in which they go in.

    They are weighed out as often as there are `boxes` to tick.
    """
    items = [
        Item(
            group.words,
            portion.amount,
            portion.name,
            group.words if index == 0 else "",
            group.letter if index == 0 else "",
            boxes,
        )
        for group in plan.going_in
        for index, portion in enumerate(group.portions)
    ]
    return ItemList(title or plan.say("Weigh out, by when it goes in"), tuple(items))


def water(plan: Plan) -> ItemList:
    """Return the water of the day: for the pot, to freeze, to pour on top; and its treatment."""
    return waters(plan, [plan], [plan])


def waters(plan: Plan, boils: Sequence[Plan], fermenters: Sequence[Plan]) -> ItemList:
    """Return the water and the ice of all boils and fermenters, in the parts that they take."""
    litres, kilograms = plan.figures.volume, plan.figures.mass
    tanks = [each.day.fermenter for each in fermenters]
    starts = [number_or_none(each.recipe.process, "start_water") or 0.0 for each in boils]
    ice = [to_put_round(float(each.day.fermenter.bath_ice_kg)) for each in boils]
    items = [
        *_in_all(starts, litres, plan.say("cold water for the pot")),
        *_in_all(
            [float(each.frozen_kg) for each in tanks],
            kilograms,
            plan.say("water, boiled, to freeze in clean lidded tubs"),
        ),
        *_in_all(
            [float(each.hot_l) for each in tanks],
            litres,
            plan.say("water to boil in a kettle, for extract in the fermenter"),
        ),
        *_in_all(
            [float(each.cold_top_up_l) for each in tanks],
            litres,
            plan.say("water to top up with, boiled, kept cold and covered"),
            least=LEAST_POURED_L,
        ),
        *_in_all(ice, kilograms, plan.say("ice for the bath round the pot, made or bought")),
    ]
    return ItemList(plan.say("Water, the day before"), (*items, *treatment(plan)))


def _in_all(
    parts: Sequence[float], shown: Callable[[float], str], name: str, *, least: float = 0.0
) -> list[Item]:
    """So much in all, with a box for each part; parts are added up as they are shown, in tenths."""
    there = [each for each in parts if each > least]
    if not there:
        return []
    if len(there) == 1:
        return [Item("", shown(there[0]), name)]
    there = [round(each, 1) if each >= 1.0 else round(each, 2) for each in there]
    texts = [shown(each) for each in there]
    note = f"{len(texts)} × {texts[0]}" if len(set(texts)) == 1 else " + ".join(texts)
    return [Item("", shown(sum(there)), name, note, boxes=len(texts))]


def treatment(plan: Plan) -> list[Item]:
    """Return what takes chlorine out of the water, with its cautions; nothing without any."""
    said_dose = dose(plan)
    if not said_dose:
        return []
    process = plan.recipe.process
    salt = plan.say(SALTS[process.metabisulfite])
    if process.disinfectant == Disinfectant.CHLORINE:
        name = plan.say("{salt} into all of it against chlorine, 10 min", salt=salt)
    else:
        name = plan.say("{salt} into all of it against chloramine, 10 min", salt=salt)
    notes = [plan.say("sulfite: not near asthma or allergy, no dust, window open, weighed exactly")]
    if float(plan.day.beer.water_treatment_g) < LEAST_WEIGHED_G:
        solution = 100.0 * float(plan.day.beer.water_treatment_g)
        figure = f"{plan.figures.number(solution, '.2g')} mL"
        notes.append(plan.say("or {solution} of 1 g dissolved in 100 mL water", solution=figure))
    return [Item("", said_dose, name, plan.parted(notes))]


def cleaning(plan: Plan) -> ItemList:
    """Return what to clean, with the cautions that belong there; it is sanitised in the boil."""
    return washed(plan, (plan.recipe.fermenter,))


def washed(plan: Plan, fermenters: Sequence[Fermenter], vessels: str = "") -> ItemList:
    """Return what to clean with fermenters of these kinds; `vessels` says which where several."""
    kinds = dict.fromkeys(each.kind for each in fermenters)
    said = [plan.say(_FERMENTERS[kind]) for kind in kinds]
    said += [vessels] if vessels else []
    said.append(plan.say("gloves, open window; never mix cleaners"))
    return ItemList(plan.say("Clean, the day before"), tuple(Item("", "", text) for text in said))
