"""What is asked of a first recipe, and sums that owe the program nothing but its weights.

Ranges of styles: BJCP Style Guidelines 2021. Shares: the program's own data, for which Daniels,
Designing Great Beers, 1996, is the source, from memory. A pot boils over above four fifths of its
rim, a fermenter foams over above 85 % of its own; common practice, no source. Gravity and colour
are reckoned here from what is weighed in: points of gravity a kilogram in a litre by the catalogue,
malt colour units by Morey's curve, 1.4922 x MCU^0.6859 (BrewingTechniques, 1990s, second-hand).
"""

from dataclasses import dataclass, field

from designer.library import catalogue
from designer.library.style_grists import grist_of
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.workbench.first_recipe import Answers, first_recipes

KITCHENS = ((5.0, 6.0), (9.0, 12.0), (15.0, 20.0), (30.0, 30.0))
"""Pots and their fermenters, litres."""
RANGES = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm")
SHOWN = {"original_gravity": 3, "final_gravity": 3, "abv_percent": 1, "bitterness_ibu": 0,
         "colour_srm": 0}  # fmt: skip
POINTS_A_KG, MCU_A_KG = 386.0, 8.345
"""Points x litres of a kilogram of extract (46.3 ppg), MCU x litres of a kilogram of 1 °L."""
MOST_OF_POT, MOST_OF_FERMENTER = 0.80, 0.85


@dataclass
class Found:
    """One recipe: what it is outside of, whether it says so, and what is wrong with it."""

    style: str
    pot_l: float
    key: str
    draft: object
    outside: dict[str, str] = field(default_factory=dict)
    said: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)
    cares: list[str] = field(default_factory=list)


def drafts_of(style, pot_l, fermenter_l, **others):
    return first_recipes(
        Answers(
            words=style.name,
            pot=typed(Kind.VOLUME, pot_l),
            fermenter=typed(Kind.VOLUME, fermenter_l),
            **others,
        )
    )


def looked_at(style, pot_l, fermenter_l, **others):
    """Return the three recipes of a style in a kitchen, and what is found about each."""
    found = []
    for draft in drafts_of(style, pot_l, fermenter_l, **others):
        each = Found(style.name, pot_l, draft.key, draft)
        each.said = [said.text for said in draft.gave_way]
        _ranges(each, style)
        _shares(each, style)
        _sums(each)
        _vessels(each, pot_l, fermenter_l)
        findings = draft.outlook.findings
        each.wrong += [f"grave: {one.code}" for one in findings if one.severity is Severity.STOP]
        each.cares = [one.code for one in findings if one.severity is Severity.CARE]
        found.append(each)
    found[1].wrong += _unlike(*found, style)
    return found


def _ranges(each, style):
    for key in RANGES:
        low, high = getattr(style, key)
        value = each.draft.outlook.forecasts[key].value
        if low <= value <= high or low <= round(value, SHOWN[key]) <= high:
            continue
        each.outside[key] = f"{value:.{SHOWN[key] + 1}f}, not {low:g} to {high:g}"
        if not any("where" in said and style.name in said for said in each.said):
            each.wrong.append(f"outside {key} and says nothing")


def grams(recipe):
    """Return what is weighed in, by what it is: the names are those of the catalogue."""
    kinds = {"crystal": 0.0, "roast": 0.0, "sugar": 0.0, "body": 0.0, "extract": 0.0}
    for line in recipe.fermentables:
        entry = catalogue.find_fermentable(line.name)
        if "rystal malt" in line.name or line.name.startswith("Extra dark crystal"):
            kind = "crystal"
        elif line.kind == "steeping grain":
            kind = "roast"
        elif line.kind == "sugar":
            kind = "body" if entry.fermentability < 0.1 and line.name != "Lactose" else "sugar"
        else:
            kind = "extract"
        kinds[kind] += line.amount.value
    return kinds


def _shares(each, style):
    family = grist_of(style.name).family
    weighed = grams(each.draft.recipe)
    total = sum(weighed.values())
    for kind, (low, high) in (("crystal", family.crystal), ("roast", family.roast)):
        share = weighed[kind] / total
        if weighed[kind] and not low <= share <= high:
            each.wrong.append(f"{100 * share:.1f} % {kind}, not {100 * low:g} to {100 * high:g}")
    if weighed["sugar"] > family.sugar_most * total:
        each.wrong.append(f"{100 * weighed['sugar'] / total:.1f} % sugar")
    if weighed["body"] > family.dextrin_most * total:
        each.wrong.append(f"{100 * weighed['body'] / total:.1f} % maltodextrin")


def _sums(each):
    """Gravity and colour out of the weights alone, less what stays with trub and hops."""
    draft, recipe = each.draft, each.draft.recipe
    day = draft.outlook.day
    batch, moved = float(day.fermenter.batch_l), float(day.fermenter.moved_fraction)
    points = colour = 0.0
    for line in recipe.fermentables:
        entry = catalogue.find_fermentable(line.name)
        points += line.amount.value * entry.extract * POINTS_A_KG * moved / batch
        colour += line.amount.value * entry.colour * MCU_A_KG * moved / batch
    gravity = 1.0 + points / 1000.0
    srm = 1.4922 * colour**0.6859
    if abs(gravity - draft.outlook.forecasts["original_gravity"].value) > 0.0015 + points / 25000.0:
        each.wrong.append(f"gravity by weight {gravity:.4f}")
    if abs(srm - draft.outlook.forecasts["colour_srm"].value) > 0.03 * srm + 0.1:
        each.wrong.append(f"colour by weight {srm:.1f}")


def _vessels(each, pot_l, fermenter_l):
    day = each.draft.outlook.day
    if float(day.pot.fullest_boiling_l) > MOST_OF_POT * pot_l + 0.06:
        each.wrong.append(f"{float(day.pot.fullest_boiling_l):.2f} L boil in a pot of {pot_l:g} L")
    if float(day.fermenter.batch_l) > MOST_OF_FERMENTER * fermenter_l + 0.06:
        each.wrong.append(f"{float(day.fermenter.batch_l):.2f} L ferment in {fermenter_l:g} L")
    recipe = each.draft.recipe
    for line in (*recipe.fermentables, *recipe.hops):
        step = 0.0005 if line in recipe.hops else 0.005
        if abs(line.amount.value / step - round(line.amount.value / step)) > 1e-6:
            each.wrong.append(f"{line.amount.text} of {line.name} cannot be weighed")


def _unlike(drier, rounder, hoppier, style):
    """What the names promise: an end further down, and more hops late on."""
    ends = [
        each.draft.outlook.forecasts["final_gravity"].value for each in (drier, rounder, hoppier)
    ]
    late = [late_g_l(each.draft) for each in (drier, rounder, hoppier)]
    width = style.final_gravity[1] - style.final_gravity[0]
    wrong = []
    if ends[1] < ends[0] and width > 0.0025:
        wrong.append(f"rounder ends at {ends[1]:.4f}, drier at {ends[0]:.4f}")
    if late[2] < 1.3 * max(late[:2]):
        wrong.append(f"hoppier has {late[2]:.1f} g/L late, the others {late[0]:.1f}, {late[1]:.1f}")
    return wrong


def late_g_l(draft):
    """Return the hops that bring scent, grams a litre of beer: of the last 15 minutes or later."""
    batch = float(draft.outlook.day.fermenter.batch_l)
    late = [
        hop for hop in draft.recipe.hops if hop.when.stage != "boil" or hop.when.minutes <= 15.0
    ]
    return 1000.0 * sum(hop.amount.value for hop in late) / batch
