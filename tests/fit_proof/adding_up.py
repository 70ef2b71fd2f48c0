"""What a way lists, added up as a brewer would with the list in hand, against the recipe's lines.

Nothing but what is printed is read: names, amounts, what is bought, what is left over. All of it
over all boils must be what the recipe has and what is bought, to what a kitchen scale shows: a
gram from 100 g, a tenth of one below (common practice, no source).
"""

import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from math import isclose

from designer.recipe.quantity import Kind
from designer.units import read
from designer.workbench.fit_text import fit_document
from tests.fit_proof.balance import every_way

SACHET_G = 11.0
"""What one sachet of dry yeast weighs, 11 or 11.5 g; common practice, no source."""
COUNTED_IN = ("packet", "packets", "sachet", "sachets")


def kilograms(text):
    """Return the kilograms of a printed mass."""
    return read(Kind.MASS, text).value


def shown_to_kg(kg):
    """Return by how much a mass that is shown may be off: half of the last digit."""
    return 0.0005 if kg >= 0.09995 else 0.00005


def faults(recipe, wish, answer) -> Iterator[str]:
    """Yield what does not add up, in words."""
    in_hand = Counter({hop.name: hop.mass_kg for hop in wish.hops_in_hand})
    for way, said in zip(answer.every_way, every_way(fit_document(answer)), strict=True):
        for fault in (
            *_masses(recipe, in_hand, way, said),
            *_doses(recipe, way),
            *_packets(recipe, way, said),
            *_packs(said),
        ):
            yield f"{said['key']}: {fault}"


def _masses(recipe, in_hand, way, said):
    """Weights: what is in all boils and left over is what there was and is bought.

    Of hops in hand no more is used than there is.
    """
    there, listed, off = Counter(), Counter(), defaultdict(float)
    for line in (*recipe.fermentables, *recipe.hops):
        if line.amount is not None:
            there[line.name] += line.amount.value
            off[line.name] += shown_to_kg(line.amount.value)
    for name, kg in _bought(said):
        there[name] += kg
        off[name] += shown_to_kg(kg)
    for name, kg in (*_in_boils(way, said), *_left(way, said)):
        listed[name] += kg
        off[name] += shown_to_kg(kg)
    for name in there | listed:
        more = listed[name] - there[name]
        if not -off[name] - 1e-9 <= more <= in_hand[name] + off[name] + 1e-9:
            yield (
                f"{name}: {1000 * there[name]:.2f} g there and bought, "
                f"{1000 * listed[name]:.2f} g used and left over"
            )


def _in_boils(way, said):
    for boil, printed in zip(way.boils, said["boils"], strict=True):
        for addition, each in zip(boil.goes_in, printed["goes_in"], strict=True):
            if addition.lines != "extras" and each["amount"]:
                yield each["name"], kilograms(each["amount"])


def _left(way, said):
    for left, printed in zip(way.left_over, said["left_over"], strict=True):
        if left.lines not in ("extras", "yeast"):
            yield printed["name"], kilograms(printed["amount"])


def _bought(said):
    for each in said["must_buy"]:
        if each["amount"] and not _is_yeast(each):
            yield each["what"], kilograms(each["amount"])


def _is_yeast(bought):
    return "packet of yeast" in bought["what"]


def _doses(recipe, way):
    """Finings: all boils and what is left over are what there was, or a quarter piece more."""
    there = Counter({each.name: each.amount.value for each in recipe.extras if each.amount})
    listed, boils = Counter(), Counter()
    for boil in way.boils:
        for each in boil.recipe.extras:
            if each.amount is not None:
                listed[each.name] += each.amount.value
                boils[each.name] += 1
    for each in way.left_over:
        if each.lines == "extras":
            listed[each.name] += each.amount.value
    for name, dose in there.items():
        if not -1e-6 <= listed[name] - dose <= 0.25 * (boils[name] - 1) + 1e-6:
            yield f"{name}: a dose of {dose:g} becomes {listed[name]:g}"


def _packets(recipe, way, said):
    """Yeast: a packet for each fermenter, of the recipe's own first; the rest stay closed."""
    wanted = fermenters_of(said)
    there = packets_of(recipe.yeast)
    bought = sum(_is_yeast(each) for each in said["must_buy"])
    if bought != max(wanted - there, 0):
        yield f"{wanted} fermenters, {there} packets there and {bought} bought"
    for left in (each for each in way.left_over if each.lines == "yeast"):
        closed = _counted(left.amount)
        pitched = packets_of(way.boils[0].recipe.yeast)
        if max(pitched, wanted) + closed != there:
            yield f"{there} packets there, {pitched} pitched and {closed} left closed"


def fermenters_of(said):
    """Return how many fermenters a way fills; two boils may go into one."""
    in_each = [len(boil["fermenters"]) for boil in said["boils"]]
    into_one = any("into the one fermenter" in step for step in said["steps"])
    return in_each[0] if into_one else sum(in_each)


def packets_of(yeast):
    """Return how many packets a recipe has: counted, or by what one weighs."""
    return _counted(yeast.amount)


def _counted(amount):
    if amount is None or amount.unit not in ("g", *COUNTED_IN):
        return 1
    return max(int(amount.value / SACHET_G if amount.unit == "g" else amount.value), 1)


def _packs(said):
    """Packs: so many of such a size hold the amount, and the rest is what is over."""
    for each in said["must_buy"]:
        if not each["packs"] or _is_yeast(each):
            continue
        amount = kilograms(each["amount"])
        packs = sum(
            pack["count"] * kilograms(re.match(r"[\d.]+ k?g", pack["pack"])[0])
            for pack in each["packs"]
        )
        if not isclose(packs - amount, each["over_kg"], abs_tol=shown_to_kg(amount) + 1e-9):
            yield f"{each['what']}: packs of {packs} kg for {amount} kg leave {each['over_kg']}"
