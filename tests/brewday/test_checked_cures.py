"""A cure is never offered that is worse than the fault, and what it makes of the beer is said."""

from dataclasses import replace
from itertools import product

import pytest

from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.brewday.predictions import BY_KEY
from designer.library.recipe_file import load
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from tests.some_cases import some_of

EXAMPLES = ("breakwater_red", "foghorn_wheat", "harbour_lamp_porter", "slipway_bitter")
POTS, FERMENTERS = (3.0, 5.0, 9.0, 40.0), (5.0, 12.0, 25.0)
WATERS, COOLED, FROZEN = (None, 3.0, 9.0, 20.0), (None, 60.0), (None, 0.0, 3.0)


def example(name):
    return load(resource_path(f"examples/{name}.hobwort"))


def in_kitchen(recipe, pot, fermenter, water=None, cooled=None, frozen=None):
    changes = {
        "start_water": (Kind.VOLUME, water),
        "cool_to": (Kind.TEMPERATURE, cooled),
        "frozen_top_up": (Kind.MASS, frozen),
    }
    process = replace(
        recipe.process,
        **{key: typed(kind, at) for key, (kind, at) in changes.items() if at is not None},
    )
    return replace(
        recipe,
        pot=replace(recipe.pot, volume=typed(Kind.VOLUME, pot)),
        fermenter=replace(recipe.fermenter, volume=typed(Kind.VOLUME, fermenter)),
        process=process,
    )


def found_in(recipe):
    return findings(recipe, brew(recipe))


def one(recipe, code):
    return next(each for each in found_in(recipe) if each.code == code)


def changed(before, after, key):
    each = BY_KEY[key]
    change = float(each.compute(after)) - float(each.compute(before))
    return abs(change) > each.deadband


@pytest.mark.parametrize(("name", "pot"), some_of(list(product(EXAMPLES, POTS)), 3))
def test_after_a_cure_its_finding_is_gone_and_nothing_as_grave_has_come(name, pot):
    tried = 0
    for kitchen in product(FERMENTERS, WATERS, COOLED, FROZEN):
        recipe = in_kitchen(example(name), pot, *kitchen)
        before = found_in(recipe)
        places = {(each.code, each.about) for each in before}
        for finding in before:
            if finding.fix is None:
                continue
            tried += 1
            after = found_in(finding.fix.apply(recipe))
            left = {(each.code, each.about): each.severity.rank for each in after}
            assert (finding.code, finding.about) not in left
            new = {code: rank for code, rank in left.items() if code not in places}
            assert not [code for code, rank in new.items() if rank <= finding.severity.rank]
    assert tried > 30


@pytest.mark.parametrize("name", some_of(EXAMPLES, 2, 1))
def test_a_cure_that_changes_the_beer_says_what_it_comes_to(name):
    said = 0
    for pot, *kitchen in product(POTS, FERMENTERS, WATERS, COOLED, FROZEN):
        recipe = in_kitchen(example(name), pot, *kitchen)
        before = brew(recipe)
        for finding in findings(recipe, before):
            if finding.fix is None:
                continue
            after, offered = brew(finding.fix.apply(recipe)), finding.offer.text
            assert offered.startswith(finding.fix.text.text)
            gravity = f"OG {after.beer.original_gravity:.3f}"
            bitterness = f"{after.beer.bitterness_ibu:.0f} IBU"
            assert (gravity in offered) is changed(before, after, "original_gravity")
            assert (bitterness in offered) is changed(before, after, "bitterness_ibu")
            said += changed(before, after, "original_gravity")
    assert said > 5


def test_less_top_up_into_a_small_bucket_says_how_strong_it_makes_the_kit():
    """Half of the water leaves all of the kit: twice the gravity above one, twice the bitterness.

    Mass balance.
    """
    recipe = in_kitchen(example("breakwater_red"), 9.0, 12.0)
    finding = one(recipe, "fermenter-overflows")
    before, after = brew(recipe), brew(finding.fix.apply(recipe))
    ratio = (after.beer.original_gravity - 1.0) / (before.beer.original_gravity - 1.0)
    assert ratio == pytest.approx(20.0 / 10.2, rel=0.01)
    assert finding.offer.text.startswith("Top up to 10.2 L: that makes OG 1.08")
    assert finding.offer.text.count(" IBU") == 1
    assert finding.leads_to == "fit"


def test_less_water_is_no_cure_where_the_boil_then_burns_on():
    recipe = in_kitchen(example("breakwater_red"), 3.0, 25.0)
    finding = one(recipe, "pot-overflows")
    assert finding.fix is None
    assert finding.offer is None
    assert finding.leads_to == "fit"


def test_extract_late_is_not_offered_where_the_pot_then_carries_too_much_bitterness():
    offered = []
    for pot, fermenter, water in product(POTS, FERMENTERS, WATERS):
        recipe = in_kitchen(example("harbour_lamp_porter"), pot, fermenter, water)
        found = [each for each in found_in(recipe) if each.code == "extract-early"]
        offered += [each.fix is not None for each in found]
    assert offered


def test_vessels_that_are_large_enough_lead_nowhere():
    recipe = in_kitchen(example("breakwater_red"), 40.0, 40.0)
    assert not [each.leads_to for each in found_in(recipe) if each.leads_to]
