"""Part of a recipe at the edges: shares by line, what a kitchen weighs, doses, nothing lost."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import boil_left, line_kg, with_amounts, with_process
from designer.brewday.fit.hop_roles import bitters
from designer.brewday.fit.portion import Shares, hops_held, in_shares, portion
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When
from designer.recipe.shares import dose_in_share
from tests.brewday.days import with_figures


def q(value, unit=""):
    return Quantity(float(value), f"{value:g} {unit}".strip(), unit=unit if unit != "kg" else "")


DRY = When(Stage.DRY_HOP, "dry hop 3 days", days=3.0)
IN_FERMENTER = When(Stage.FERMENTER, "fermenter")


@pytest.fixture
def bill():
    return with_line_ids(
        Recipe(
            fermentables=(
                Fermentable("syrup", "liquid extract", q(1, "kg")),
                Fermentable("sugar", "sugar", q(1, "kg")),
                Fermentable("crystal", "steeping grain", q(1, "kg")),
                Fermentable("mash malt", "mash grain", q(1, "kg")),
            ),
            hops=(
                Hop("boiled", amount=q(0.1, "kg"), when=boil_left(60)),
                Hop("dry", amount=q(0.1, "kg"), when=DRY),
                Hop("late dry", amount=q(0.1, "kg"), when=IN_FERMENTER),
                Hop("untyped", when=boil_left(60)),
            ),
        )
    )


def kilograms(recipe):
    return [line_kg(each) for each in (*recipe.fermentables, *recipe.hops)]


def test_each_line_has_the_share_of_its_sort(bill):
    made = in_shares(bill, Shares(0.9, 0.8, 0.7, 0.65, 0.6))
    assert kilograms(made) == pytest.approx([0.9, 0.9, 0.8, 0.8, 0.07, 0.06, 0.06, 0.0])


def test_a_dry_hop_or_one_without_weight_bitters_nothing(bill):
    assert [hop.name for hop in bitters(bill)] == ["boiled"]


def weighed(kind, kg, share):
    made = in_shares(
        with_line_ids(Recipe(fermentables=(Fermentable("it", kind, q(kg, "kg")),))),
        Shares(share, share, share, share, share),
    )
    return line_kg(made.fermentables[0])


def hops_weighed(kg, share):
    made = in_shares(
        with_line_ids(Recipe(hops=(Hop("it", amount=q(kg, "kg")),))), Shares(1, 1, share, share, 1)
    )
    return line_kg(made.hops[0])


def test_amounts_are_rounded_to_what_a_kitchen_weighs():
    """Extract to five grams and hops to half a gram, ten steps or less five times as finely:
    common practice, no source."""
    assert weighed("dry extract", 1.0, 0.3333) == pytest.approx(0.335)
    assert weighed("dry extract", 0.1, 0.3333) == pytest.approx(0.033)
    assert weighed("dry extract", 0.1, 0.4911) == pytest.approx(0.049)
    assert weighed("dry extract", 0.1, 0.5111) == pytest.approx(0.05)
    assert hops_weighed(0.03, 0.3333) == pytest.approx(0.010)
    assert hops_weighed(0.03, 0.41) == pytest.approx(0.0125)
    assert hops_weighed(0.01, 0.3333) == pytest.approx(0.0033)


def test_a_share_below_one_is_never_rounded_up_to_more_than_there_is():
    assert weighed("dry extract", 1.7, 0.9999) == 1.7
    assert weighed("dry extract", 1.702, 0.9999) == pytest.approx(1.7)
    assert weighed("dry extract", 1.698, 0.9999) == 1.698
    assert weighed("dry extract", 1.698, 1.001) == pytest.approx(1.7)


def test_the_whole_stays_as_it_was_typed_however_odd(bill):
    odd = with_amounts(bill, {1: 0.9871, 5: 0.0123})
    assert in_shares(odd, Shares(1.0, 1.0, 1.0, 1.0, 1.0)) == odd
    exact = in_shares(odd, Shares(0.5, 0.5, 0.5, 0.5, 0.5), exact=True)
    assert kilograms(exact)[0] == pytest.approx(0.4936, abs=1e-4)


@pytest.mark.parametrize(
    ("unit", "amount", "share", "dose"),
    [
        ("tablet", 1.0, 0.5, 0.5),
        ("tablet", 1.0, 0.4, 0.5),
        ("tablet", 1.0, 0.37, 0.25),
        ("tablet", 1.0, 0.01, 0.25),
        ("tablet", 0.0, 0.5, 0.0),
        ("tablet", 0.2, 0.5, 0.2),
        ("tablet", 0.5, 2.1, 1.0),
        ("tsp", 2.0, 0.6, 1.25),
        ("g", 10.0, 0.333, 3.3),
        ("g", 10.0, 0.9999, 10.0),
        ("mL", 25.0, 0.333, 8.3),
        ("g", 10.0, 2.22, 22.0),
        ("g", 10.03, 1.0, 10.03),
    ],
)
def test_doses_go_in_quarters_of_a_piece_and_else_in_two_figures(unit, amount, share, dose):
    """A spoon or a tablet is divided in four at most: common practice, no source."""
    found = dose_in_share(q(amount, unit), share)
    assert found.value == pytest.approx(dose)
    assert found.unit == unit
    if share != 1.0:
        assert found.text == f"{dose:g} {unit}"


def without_pot(recipe):
    """A pot that takes what comes: only the amounts are sought."""
    big = replace(recipe.pot, volume=q(60, "L"), power=q(6000, "W"))
    return with_process(replace(recipe, pot=big), frozen_top_up=None)


@pytest.fixture(scope="module", params=["porter", "quay_pale", "slipway_bitter"])
def recipe(request):
    return without_pot(request.getfixturevalue(request.param))


def water_of(share):
    """Water in proportion, whatever the pot: the day is asked for nothing else."""
    return lambda tried: with_process(
        tried, start_water=q(share * tried.process.start_water.value, "L")
    )


@pytest.mark.parametrize("ratio", [0.4, 0.75, 1.6])
def test_gravity_bitterness_and_colour_are_held_before_rounding(recipe, ratio):
    target = brew(recipe)
    batch = ratio * float(target.fermenter.batch_l)
    made, shares = portion(recipe, target, batch, water_of(ratio))
    day = brew(made)
    assert made.process.top_up_to.value == pytest.approx(batch, abs=0.001)
    gravity = float(target.beer.original_gravity)
    assert float(day.beer.original_gravity) == pytest.approx(gravity, abs=2e-4)
    assert float(day.beer.bitterness_ibu) == pytest.approx(
        float(target.beer.bitterness_ibu), rel=0.005
    )
    assert float(day.beer.colour_srm) == pytest.approx(float(target.beer.colour_srm), rel=0.004)
    for share in (shares.extract, shares.bittering):
        assert share / ratio == pytest.approx(round(1000 * share / ratio) / 1000)
    assert shares.dry == shares.late == pytest.approx(ratio)


def test_exact_shares_are_not_rounded_to_a_scale(recipe):
    target = brew(recipe)
    made, shares = portion(recipe, target, 0.37 * float(target.fermenter.batch_l), water_of(0.37))
    for old, new in zip(recipe.hops, made.hops, strict=True):
        dry = old.when.stage in (Stage.DRY_HOP, Stage.FERMENTER)
        late = shares.dry if dry else shares.late
        share = shares.bittering if old.when.minutes >= 30.0 else late
        assert line_kg(new) == pytest.approx(share * line_kg(old), abs=5.1e-5)


def test_from_contents_grain_goes_with_the_extract_and_no_share_is_above_one(recipe):
    target = brew(recipe)
    for ratio in (0.5, 1.0):
        made, shares = portion(
            recipe,
            target,
            ratio * float(target.fermenter.batch_l),
            water_of(ratio),
            from_contents=True,
        )
        assert shares.grain == shares.extract
        assert max(shares.extract, shares.bittering) <= 1.0
        for old, new in zip(recipe.fermentables, made.fermentables, strict=True):
            assert line_kg(new) <= line_kg(old) + 1e-9


def test_where_no_water_will_do_there_is_no_portion(porter):
    assert portion(porter, brew(porter), 5.0, lambda tried: None) is None
    calls = []

    def once(tried):
        calls.append(tried)
        return tried if len(calls) == 1 else None

    assert portion(porter, brew(porter), 5.0, once) is None
    assert len(calls) == 2


def test_without_grain_or_hops_only_the_gravity_is_sought(porter):
    plain = without_pot(replace(porter, fermentables=porter.fermentables[:2], hops=()))
    target = brew(plain)
    _, shares = portion(plain, target, 5.0, water_of(0.5))
    assert shares.grain == shares.bittering == pytest.approx(5.0 / float(target.fermenter.batch_l))


def test_the_hops_that_bitter_are_brought_to_the_share_that_holds_the_bitterness(porter):
    recipe = without_pot(porter)
    target = brew(recipe)
    late = [each for each in recipe.hops if each.when.minutes < 30.0]
    for times in (0.5, 2.0):
        wrong = with_amounts(recipe, {each.line_id: times * line_kg(each) for each in recipe.hops})
        wrong = with_amounts(wrong, {each.line_id: line_kg(each) for each in late})
        made = hops_held(wrong, target)
        assert made.fermentables == recipe.fermentables
        assert float(brew(made).beer.bitterness_ibu) == pytest.approx(
            float(target.beer.bitterness_ibu), abs=0.5
        )
        assert line_kg(made.hops[0]) == pytest.approx(line_kg(porter.hops[0]), abs=0.0005)
    assert hops_held(replace(recipe, hops=()), target) == replace(recipe, hops=())


def test_hops_of_a_third_of_the_bitterness_can_be_trebled_but_no_more(porter):
    recipe = without_pot(porter)
    faint = with_amounts(recipe, {each.line_id: 0.1 * line_kg(each) for each in recipe.hops})
    made = hops_held(faint, brew(recipe))
    assert line_kg(made.hops[0]) == pytest.approx(3 * line_kg(faint.hops[0]))


def test_a_dry_hop_stays_when_bitterness_is_held(slipway_bitter):
    recipe = without_pot(slipway_bitter)
    target = with_figures(brew(recipe), bitterness_ibu=15.0)
    made = hops_held(recipe, target)
    dry = [(a, b) for a, b in zip(recipe.hops, made.hops, strict=True)
           if a.when.stage in (Stage.DRY_HOP, Stage.FERMENTER)]  # fmt: skip
    assert dry
    assert all(a == b for a, b in dry)
    assert float(brew(made).beer.bitterness_ibu) == pytest.approx(15.0, abs=0.7)
