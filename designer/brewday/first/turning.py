"""What a run of the day changes about amounts: gravity, water, bitterness, and how much beer."""

from __future__ import annotations

from designer.brewday.findings_lines import WORTH_SAYING
from designer.brewday.first.amounts import FLAME_OUT, Amounts
from designer.brewday.first.kitchen import whole_batch
from designer.brewday.first.larder import Role
from designer.brewday.results import Day
from designer.wort.bitterness import POT_CEILING_IBU

LEAST_FOUND = 0.005
MOST_GRIST_KG_L, MOST_HOPS_KG_L = 0.8, 0.012
"""More than that for a litre of beer is no recipe, however much stays in the pot; judgement."""
LONGEST_HEATING_MIN = 100.0
"""So long a stove may take to bring the pot to the boil, where less water will do; judgement."""
MOST_LATE, MOST_LATE_HOPPY = 0.4, 0.6
"""Share of the bitterness that late hops may bring; judgement."""
FOAM_SPARE_L, MARK_SPARE_L, HOT_L_PER_L = 0.1, 0.3, 1.04
DENSEST_BOIL_SG = 1.115
"""Where late extract would make a boil denser, it is stirred in at flame-out; judgement."""
DENSEST_END = 0.150
"""No boil ends denser than 1.150, for it would burn on to the pot."""
LEAST_BATCH, SMALLER, NEARLY_SAID = 0.5, 0.93, 0.8
"""A batch that nobody asked for may be so much smaller than the fermenter takes; by how much each
turn where hops would not dissolve, from so near on to where it is said."""
_HEATING = ("heat water", "heat to boil")


def turn(amounts: Amounts, day: Day) -> None:
    """Change the amounts by what the day made of them."""
    task = amounts.task
    wanted = task.grist.original_gravity - 1.0
    found = max(float(day.beer.original_gravity) - 1.0, LEAST_FOUND)
    if task.packs:
        amounts.batch_l = min(max(amounts.batch_l * found / wanted, 0.5), amounts.most_l)
        packs_kg = sum(kg for _, kg in task.packs)
        amounts.grist_kg = packs_kg / max(task.grist.shares[0][1], 0.05)
    else:
        more = amounts.grist_kg * _no_leap(wanted / found)
        amounts.grist_kg = min(more, MOST_GRIST_KG_L * amounts.batch_l)
    if float(day.pot.boil_gravity_end) > DENSEST_BOIL_SG:
        amounts.late_when = FLAME_OUT
    _water(amounts, day)
    _bitter(amounts, day)
    amounts.share_out()


def _water(amounts: Amounts, day: Day) -> None:
    """As much as the foam line allows, leaves something to top up, and boils in good time."""
    more = (amounts.foam_l - FOAM_SPARE_L - float(day.pot.fullest_boiling_l)) / HOT_L_PER_L
    more = min(more, amounts.batch_l - MARK_SPARE_L - float(day.fermenter.from_pot_l))
    heating = sum(each.end_min - each.start_min for each in day.spans if each.key in _HEATING)
    longest = amounts.water_l * LONGEST_HEATING_MIN / max(heating, 1.0)
    amounts.water_l *= _no_leap(min(amounts.water_l + more, longest) / amounts.water_l)


def _bitter(amounts: Amounts, day: Day) -> None:
    """Fewer late hops where they alone would be too bitter, and so many for bitterness."""
    first, *others = amounts.hop_ibu(day)
    wanted, late = amounts.wanted_ibu(), sum(others)
    most = (MOST_LATE_HOPPY if amounts.task.aim.dry_hopped else MOST_LATE) * wanted
    times = min(1.0, most / late) if late > 0.0 else 1.0
    for amount in amounts.hops[1:]:
        if amount.role is Role.LATE:
            amount.kg *= times
    if first > 0.0:
        more = amounts.hops[0].kg * _no_leap((wanted - times * late) / first)
        amounts.hops[0].kg = min(more, MOST_HOPS_KG_L * amounts.batch_l)


def smaller_batch(amounts: Amounts, day: Day) -> None:
    """No larger a batch than the pot has wort for, nor, unasked, than it has bitterness for."""
    task, wanted = amounts.task, amounts.wanted_ibu()
    thick = float(day.pot.boil_gravity_end) - 1.0
    times = _no_leap(DENSEST_END / thick) if thick > DENSEST_END else 1.0
    if task.batch_l is None and amounts.batch_l > LEAST_BATCH * amounts.most_l:
        in_pot = max(float(day.fermenter.from_pot_l), 0.1)
        pot_ibu = wanted * float(day.fermenter.batch_l) / in_pot
        times = min(times, max(0.97 * POT_CEILING_IBU / pot_ibu, LEAST_BATCH))
        if float(day.beer.undissolved_ibu) > NEARLY_SAID * WORTH_SAYING * wanted:
            times = min(times, SMALLER)
    if times < 1.0 and not task.packs:
        smaller = whole_batch(times * amounts.batch_l)
        for amount in amounts.hops:
            amount.kg *= smaller / amounts.batch_l
        amounts.grist_kg *= smaller / amounts.batch_l
        amounts.batch_l = smaller


def _no_leap(times: float) -> float:
    """Return how many times an amount is changed in one turn: no more than doubled or halved."""
    return min(max(times, 0.5), 2.0)
