"""Whole packs of a kit: against every choice of them at every tenth of a litre."""

from dataclasses import replace
from itertools import product

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import line_kg, with_amounts, with_process
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.original import apart_day, original_of
from designer.brewday.fit.pot_limits import filled
from designer.brewday.fit.whole_packs import MOST_APART, whole_packs
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import Fermentable
from designer.recipe.edits import next_line_id
from tests.brewday.quantities import q


def kitchen(recipe, pot_l=9.0, fermenters=(12.0,), **changes):
    return Kitchen(replace(wish_for(recipe, pot_l, fermenters), **changes), original_of(recipe))


def packs_of(recipe):
    return [each for each in recipe.fermentables if "grain" not in each.kind]


CASES = [("slipway_bitter", 6.0), ("slipway_bitter", 9.0), ("slipway_bitter", 12.0),
         ("porter", 9.0)]  # fmt: skip


@pytest.fixture(params=CASES, ids=lambda case: f"{case[0]}, {case[1]:g} L")
def case(request):
    """A recipe, a kitchen with that fermenter and a pot of 14 L, and the way of whole packs."""
    name, fermenter = request.param
    recipe = request.getfixturevalue(name)
    here = kitchen(recipe, 14.0, (fermenter,))
    return recipe, here, whole_packs(here)


def test_of_each_pack_all_goes_in_or_none(case):
    recipe, _, draft = case
    old = {each.line_id: each for each in recipe.fermentables}
    [made] = draft.recipes
    used = packs_of(made)
    assert 0 < len(used) < len(packs_of(recipe))
    assert all(each.amount == old[each.line_id].amount for each in used)
    assert draft.keeps_rest
    assert draft.effort == 1
    assert draft.key == "whole packs"
    for each in packs_of(recipe):
        assert (each.name in draft.steps[0].text) == (each in used)


def test_the_choice_is_the_nearest_of_all(case):
    """Every choice at the largest volume that holds the gravity, in as much water as the pot takes;
    water in hand to come nearer still may only help."""
    recipe, here, draft = case
    found = apart_day(here.original.day, brew(draft.recipes[0]))
    most = here.wish.fermenters[0].volume.value * 0.85
    lines = packs_of(recipe)
    nearest = []
    for used in product((False, True), repeat=len(lines)):
        if not any(used) or all(used):
            continue
        taken = {each.line_id: line_kg(each) * use for each, use in zip(lines, used, strict=True)}
        for tenths in range(int(10 * min(most, 10.0)), 29, -1):
            share = tenths / 10 / here.original.batch_l
            rest = {each.line_id: share * line_kg(each)
                    for each in (*recipe.fermentables, *recipe.hops)}  # fmt: skip
            made = with_amounts(recipe, {**rest, **taken})
            made = replace(with_process(made, top_up_to=q(tenths / 10, "L")), pot=here.wish.pot)
            if float(brew(made).beer.original_gravity) >= here.original.least_gravity:
                full = filled(made, here.original, 30.0, hold_bitterness=False)
                if full is not None:
                    nearest.append(apart_day(here.original.day, brew(full)))
                break
    assert found <= min(nearest) + 0.2


def test_the_volume_is_the_largest_that_holds_the_gravity(case):
    _, here, draft = case
    [made] = draft.recipes
    mark = made.process.top_up_to.value
    room = here.wish.fermenters[0].volume.value * 0.85
    assert float(brew(made).beer.original_gravity) >= here.original.least_gravity - 2e-4
    assert mark <= room + 1e-9
    fuller = brew(with_process(made, top_up_to=q(mark + 0.2, "L")))
    weaker = float(fuller.beer.original_gravity) < here.original.least_gravity
    assert mark > room - 0.11 or weaker


def test_grain_hops_and_finings_go_in_the_share_of_the_volume(case):
    """The rest of them is kept: nothing goes missing, for the draft keeps the rest."""
    recipe, here, draft = case
    [made] = draft.recipes
    share = made.process.top_up_to.value / here.original.batch_l
    assert share < 1.0
    for old in recipe.fermentables:
        if "grain" in old.kind:
            [new] = [each for each in made.fermentables if each.line_id == old.line_id]
            assert line_kg(new) == pytest.approx(line_kg(old) * share, abs=0.003)
    for old, new in zip(recipe.hops, made.hops, strict=True):
        rest = line_kg(old) - line_kg(new)
        assert rest > 0.05 * line_kg(old) or rest == 0.0
        if rest > 0.0:
            assert line_kg(new) == pytest.approx(line_kg(old) * share, abs=0.0003)
    for old, new in zip(recipe.extras, made.extras, strict=True):
        assert 0.0 < new.amount.value <= old.amount.value


def line(recipe, name, kg, kind="dry extract"):
    return Fermentable(name, kind, q(kg, "kg"), line_id=next_line_id(recipe))


def refused(found):
    return found is not None and not isinstance(found, Draft)


def test_one_pack_or_more_than_six_are_no_choice(porter):
    """Sixty-four choices are the most that are tried."""
    syrup = porter.fermentables[0]
    one = replace(porter, fermentables=(syrup, porter.fermentables[2]))
    assert refused(whole_packs(kitchen(one)))
    many = [replace(syrup, amount=q(0.3, "kg"), line_id=50 + n) for n in range(7)]
    seven = replace(porter, fermentables=tuple(many))
    found = whole_packs(kitchen(seven, 20.0, (9.0,)))
    assert refused(found)
    assert "divide one and keep the rest" in found.reason.text
    six = whole_packs(kitchen(replace(porter, fermentables=tuple(many[:6])), 20.0, (9.0,)))
    assert isinstance(six, Draft)
    assert 1 <= len(six.recipes[0].fermentables) < 6


def test_a_line_of_nothing_is_no_pack(porter):
    syrup, dry, grain = porter.fermentables
    empty = replace(porter, fermentables=(syrup, replace(dry, amount=q(0, "kg")), grain))
    assert refused(whole_packs(kitchen(empty)))
    bare = replace(porter, fermentables=(grain,))
    assert whole_packs(kitchen(bare)) is None


def test_a_batch_below_three_litres_is_no_choice(porter):
    assert refused(whole_packs(kitchen(porter, 9.0, (3.5,))))


def test_packs_that_make_another_beer_are_not_offered(porter):
    """All black or all sugar: neither is the beer of both. Two pale ones are much the same."""
    first = line(porter, "Extract", 0.8)
    second = replace(line(porter, "Sugar", 0.4, "sugar"), line_id=90)

    def found(first_colour):
        black = replace(first, colour=q(first_colour, "°L"))
        return whole_packs(kitchen(replace(porter, fermentables=(black, second)), 20.0, (9.0,)))

    assert refused(found(400))
    pale = found(2)
    assert isinstance(pale, Draft)
    beer = original_of(replace(porter, fermentables=(replace(first, colour=q(2, "°L")), second)))
    assert apart_day(beer.day, brew(pale.recipes[0])) <= MOST_APART


def test_a_pot_too_small_for_every_choice_leaves_none(breakwater_red):
    assert refused(whole_packs(kitchen(breakwater_red, 2.0)))
