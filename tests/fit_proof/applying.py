"""A way that is used, saved and opened again gives what it promised, each figure as printed."""

from collections.abc import Iterator
from math import isclose

from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import BY_KEY
from designer.library.recipe_file import document_of, load, save
from designer.recipe.named import lines_of
from designer.workbench.fit_text import fit_document
from tests.fit_proof.balance import every_way
from tests.fit_proof.sentences import mass, volume

NEAR_L = 0.002
"""Less than half of what is printed of a litre, so that no rounding hides a difference."""


def faults(recipe, answer, folder) -> Iterator[str]:
    """Yield what a way promised and its file does not give; the files are left in the folder."""
    for place, (way, said) in enumerate(
        zip(answer.every_way, every_way(fit_document(answer)), strict=True)
    ):
        path = folder / f"{place} {way.key}.hobwort"
        used = way.edit.apply(recipe)
        save(used, path)
        again = load(path)
        for fault in (*_kept(recipe, used, again), *promised(said, again)):
            yield f"{way.key}: {fault}"


def _kept(recipe, used, again):
    """What is written stays beside the plan, in memory and in the file."""
    if document_of(again) != document_of(used):
        yield "the file gives another recipe"
    if [*used.boils, *used.fermenters] == [] and used != recipe:
        yield "there is no plan, but the recipe is changed"
    for name in ("fermentables", "hops", "extras"):
        if lines_of(again, name) != lines_of(recipe, name):
            yield f"the {name} are not those that are written"
    if (again.process, again.pot, again.fermenter) != (
        recipe.process,
        recipe.pot,
        recipe.fermenter,
    ):
        yield "the day as written is changed"


def promised(said, again):
    """Yield where a recipe's own outlook is not what the way said."""
    outlook = look_ahead(again)
    yield from _beer(said["forecasts"], outlook.forecasts)
    batch_l = float(outlook.day.fermenter.batch_l)
    yield from _litres("beer", said["batch_l"], batch_l)
    if outlook.plan is None:
        yield from _boil(said["boils"][0], again, outlook.day)
        return
    if len(outlook.plan.boils) != len(said["boils"]):
        yield f"{len(outlook.plan.boils)} boils of {len(said['boils'])}"
    for each, boil in zip(said["boils"], outlook.plan.boils, strict=False):
        yield from _boil(each, boil.recipe, boil.day)
    yield from _fermenters(said, outlook.plan.fermenters)


def _beer(said, forecasts):
    for key, each in BY_KEY.items():
        for which in ("value", "low", "high"):
            was, now = (
                f"{figure:.{each.decimals}f}"
                for figure in (said[key][which], getattr(forecasts[key], which))
            )
            if was != now:
                yield f"{each.label}, {which}: {was} was promised, {now} it is"


def _boil(said, recipe, day):
    for what, now in (
        ("start_water_l", recipe.process.start_water.value),
        ("fullest_l", day.pot.fullest_l),
        ("from_pot_l", day.fermenter.from_pot_l),
        ("top_up_l", day.fermenter.top_up_l),
        ("batch_l", day.fermenter.batch_l),
    ):
        yield from _litres(what, said[what], float(now))
    for what, now in (
        ("boil_gravity_start", day.pot.boil_gravity_start),
        ("boil_gravity_end", day.pot.boil_gravity_end),
    ):
        if f"{said[what]:.3f}" != f"{float(now):.3f}":
            yield f"{what}: {said[what]:.3f} was promised, {float(now):.3f} it is"


def _litres(what, said, now):
    if volume(said) != volume(now) or not isclose(said, now, abs_tol=NEAR_L):
        yield f"{what}: {said:.4f} L were promised, {now:.4f} L it is"


def _fermenters(said, fermenters):
    """Each fermenter has what the boils that go into it were said to pour, add and fill."""
    wanted = [dict(each) for each in said["boils"][0]["fermenters"]]
    for boil in said["boils"][1:]:
        if len(fermenters) == len(wanted):  # the same ones again
            for whole, more in zip(wanted, boil["fermenters"], strict=True):
                for key in ("from_pot_l", "filled_l", "liquid_top_up_l", "frozen_kg"):
                    whole[key] += more[key]
        else:
            wanted += boil["fermenters"]
    if len(wanted) != len(fermenters):
        yield f"{len(fermenters)} fermenters of {len(wanted)}"
    for each, now in zip(wanted, fermenters, strict=False):
        poured = sum(part.from_pot_l for part in now.poured)
        yield from _litres(f"{each['name']}, poured", each["from_pot_l"], poured)
        yield from _litres(f"{each['name']}, filled", each["filled_l"], now.total_l)
        water = sum(part.liquid_top_up_l for part in now.poured)
        yield from _litres(f"{each['name']}, water", each["liquid_top_up_l"], water)
        if mass(each["frozen_kg"]) != mass(now.frozen_kg):
            yield f"{each['name']}: {each['frozen_kg']} kg of ice, {now.frozen_kg} it is"
