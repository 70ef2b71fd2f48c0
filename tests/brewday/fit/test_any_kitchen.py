"""Any recipe in any kitchen: an answer comes, adds up and can be applied; nothing is raised."""

from dataclasses import replace
from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import FitWish, HopInHand
from designer.recipe.document import (
    FERMENTABLE_KINDS,
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    Pot,
    Process,
    Recipe,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.workbench.fit_text import fit_document, fit_lines
from tests.brewday.quantities import q


def maybe(strategy):
    return st.none() | strategy


def litres(low, high):
    return st.integers(round(10 * low), round(10 * high)).map(lambda n: q(n / 10, "L"))


def kilograms(low, high):
    return st.integers(round(1000 * low), round(1000 * high)).map(lambda n: q(n / 1000, "kg"))


WHENS = st.one_of(
    st.sampled_from(
        [
            When(Stage.STEEP, "steep"),
            When(Stage.FIRST_WORT, "first wort"),
            When(Stage.FLAME_OUT, "flame-out"),
            When(Stage.STAND, "stand 20 min at 80 °C", 20.0, 80.0),
            When(Stage.FERMENTER, "fermenter"),
            When(Stage.DRY_HOP, "dry hop 3 days", days=3.0),
        ]
    ),
    st.integers(0, 90).map(lambda n: When(Stage.BOIL, f"boil {n} min", float(n))),
)
FERMENTABLES = st.builds(
    Fermentable,
    name=st.sampled_from(["Extract", "Grain {0}", "Sugar"]),
    kind=st.sampled_from(FERMENTABLE_KINDS),
    amount=maybe(kilograms(0, 3)),
    when=WHENS,
    label_bitterness=maybe(st.just(q(24, "IBU"))),
    label_volume=maybe(st.just(q(20, "L"))),
    price=maybe(st.just(q(5))),
    locked=st.booleans(),
)
HOPS = st.builds(
    Hop,
    name=st.sampled_from(["Fuggle", "Hop {x}"]),
    form=st.sampled_from(["pellets", "whole"]),
    alpha=maybe(st.just(q(0.06))),
    amount=maybe(kilograms(0, 0.05)),
    when=WHENS,
    price=maybe(st.just(q(2))),
    locked=st.booleans(),
)
RECIPES = st.builds(
    Recipe,
    pot=st.builds(Pot, volume=maybe(litres(2, 40))),
    process=st.builds(
        Process,
        start_water=maybe(litres(0, 25)),
        boil_time=maybe(st.integers(0, 90).map(lambda n: q(n, "min"))),
        evaporation=maybe(litres(0, 4)),
        top_up_to=maybe(litres(0, 25)),
        frozen_top_up=maybe(kilograms(0, 5)),
        cooling=st.sampled_from(["ice bath", "cold water bath", "coil", "standing in air"]),
    ),
    fermentables=st.lists(FERMENTABLES, min_size=1, max_size=4).map(tuple),
    hops=st.lists(HOPS, max_size=3).map(tuple),
    yeast=st.sampled_from([Yeast(), Yeast("Ale {y}", "dry", Quantity(11.0, "11 g", unit="g"))]),
    extras=st.lists(
        st.builds(Extra, amount=maybe(st.just(Quantity(1.0, "1 tablet", unit="tablet")))),
        max_size=1,
    ).map(tuple),
).map(with_line_ids)
WISHES = st.builds(
    FitWish,
    pot=st.builds(Pot, volume=maybe(litres(2, 30))),
    fermenters=st.lists(
        st.builds(Fermenter, volume=maybe(litres(2, 30))), min_size=1, max_size=3
    ).map(tuple),
    second_pot=maybe(st.builds(Pot, volume=litres(2, 12))),
    late_fraction=st.sampled_from([0.0, 0.4, 1.0]),
    whole_packs=st.booleans(),
    hops_in_hand=st.lists(
        st.just(HopInHand("Magnum {z}", typed(Kind.FRACTION, 0.12), 0.03)), max_size=1
    ).map(tuple),
    most_frozen_kg=maybe(st.sampled_from([0.0, 2.0, 6.0])),
    may_buy_fermenter=st.booleans(),
)


@given(RECIPES, WISHES)
@settings(max_examples=60, deadline=None)
def test_an_answer_comes_and_can_be_applied_and_printed(recipe, wish):
    answer = ways(recipe, wish)
    for way in answer.every_way:
        assert way.edit.apply(recipe) == way.planned
        assert way.closeness >= 0.0
        assert isfinite(way.closeness)
        assert all(left.amount.value > 0.0 for left in way.left_over)
        for boil in way.boils:
            assert boil.fullest_l <= boil.rim_l
            assert boil.foam_room_l >= -1e-9, (way.key, boil.recipe.process, boil.recipe.pot)
            assert boil.start_water_l > 0.0
    assert fit_lines(recipe, answer)
    assert fit_document(answer)["sentence"]


@given(RECIPES, WISHES)
@settings(max_examples=20, deadline=None)
def test_a_pot_twice_the_size_is_never_worse(recipe, wish):
    if wish.pot.volume is None:
        return
    larger = replace(wish.pot, volume=q(2.0 * wish.pot.volume.value, "L"))
    small, large = ways(recipe, wish), ways(recipe, replace(wish, pot=larger))
    if small.ways:
        assert large.ways
        assert large.ways[0].closeness <= small.ways[0].closeness


def kit_beside(start_l, boil_min):
    """A little extract in much water, and beside it a hopped kit of which no amount is given."""
    steep = When(Stage.STEEP, "steep")
    return with_line_ids(
        Recipe(
            pot=Pot(),
            process=Process(start_water=q(start_l, "L"), boil_time=q(boil_min, "min")),
            fermentables=(
                Fermentable("Extract", "liquid extract", q(0.065, "kg"), when=steep),
                Fermentable(
                    "Kit", "hopped kit extract", when=steep,
                    label_bitterness=q(24, "IBU"), label_volume=q(20, "L"),
                ),
            ),
        )
    )  # fmt: skip


def best_in(recipe, pot_l, fermenters_l, **more):
    fermenters = tuple(Fermenter(volume=q(each, "L")) for each in fermenters_l)
    return ways(recipe, FitWish(Pot(volume=q(pot_l, "L")), fermenters, **more)).ways[0]


@pytest.mark.parametrize("start_l", [17.5, 19.0])
def test_a_fuller_boil_is_not_taken_where_it_makes_a_kit_too_bitter(start_l):
    """The kit's bitterness cannot be weighed out: of a fuller pot it would be more."""
    kit = kit_beside(start_l, 30)
    small, large = (best_in(kit, pot, (6.0,)) for pot in (7.9, 15.8))
    assert (small.key, large.key) == ("smaller batch", "smaller batch")
    assert large.closeness <= small.closeness
    assert large.recipes[0].process.start_water.value < 15.8 * 0.8


def test_a_recipe_stronger_in_hops_than_a_pot_carries_is_no_further_off_as_it_is_written(porter):
    strong = replace(
        porter, hops=tuple(replace(each, amount=q(0.12, "kg")) for each in porter.hops)
    )
    way = best_in(strong, 40.0, (40.0,))
    assert way.pot_bitterness_ibu > way.ceiling_ibu
    assert (way.key, way.effort, way.closeness) == ("one boil", 0, 0.0)


def test_hops_are_weighed_more_closely_where_half_a_gram_counts():
    """In four litres of ninety units half a gram is four units: the batch need not be smaller."""
    bitter = with_line_ids(
        Recipe(
            pot=Pot(),
            process=Process(
                start_water=q(15.6, "L"), boil_time=q(69, "min"), evaporation=q(3.8, "L/h"),
                top_up_to=q(11.4, "L"),
            ),
            fermentables=(
                Fermentable("Extract", "liquid extract", q(0.858, "kg"),
                            when=When(Stage.BOIL, "boil 35 min", 35.0)),
                Fermentable("Sugar", "sugar", q(0.722, "kg"),
                            when=When(Stage.DRY_HOP, "dry hop 3 days", days=3.0),
                            label_bitterness=q(24, "IBU"), label_volume=q(20, "L")),
            ),
            hops=(Hop("Fuggle", "pellets", q(0.06), q(0.03, "kg"),
                      When(Stage.BOIL, "boil 50 min", 50.0)),),
        )
    )  # fmt: skip
    small, large = (
        best_in(bitter, pot, (2.4, 2.4), may_buy_fermenter=False) for pot in (8.4, 16.8)
    )
    assert large.batch_l == pytest.approx(4.0, abs=0.05)
    assert large.closeness <= small.closeness


def strong_ale_without_top_up():
    """Six litres of a very strong ale: of what is in two pots none can be thinned afterwards."""

    def boil(minutes):
        return When(Stage.BOIL, f"boil {minutes} min", float(minutes))

    return with_line_ids(
        Recipe(
            process=Process(
                start_water=q(4.4, "L"), boil_time=q(71, "min"), evaporation=q(0.2, "L/h"),
                top_up_to=q(5.4, "L"), cooling="standing in air",
            ),
            fermentables=(
                Fermentable("Sugar", "sugar", q(1.739, "kg"), when=boil(54), locked=True),
                Fermentable("Extract", "dry extract", q(1.095, "kg"), when=boil(82)),
                Fermentable("Extract", "dry extract", q(0.934, "kg"), when=boil(65)),
            ),
            hops=(Hop("Fuggle", "whole", q(0.06), q(0.044, "kg"), boil(25)),),
        )
    )  # fmt: skip


@pytest.mark.parametrize("pot_l", [6.6, 13.2])
def test_a_pot_that_is_filled_as_a_smaller_one_would_be_stays_the_pot_it_is(pot_l):
    second = Pot("Old pot", volume=q(6.5, "L"))
    small, large = (
        best_in(strong_ale_without_top_up(), pot, (11.0,), second_pot=second)
        for pot in (pot_l / 2.0, pot_l)
    )
    assert large.closeness <= small.closeness
    assert [boil.rim_l for boil in large.boils] == [pot_l, 6.5][: len(large.boils)]
    assert large.edit.apply(strong_ale_without_top_up()) == large.planned
    assert all(boil.foam_room_l >= 0.0 for boil in large.boils)


def test_lines_without_numbers_are_told_apart(porter):
    """A recipe built by hand may have no line numbers yet."""
    bare = replace(
        porter,
        fermentables=tuple(replace(each, line_id=0) for each in porter.fermentables),
        hops=tuple(replace(each, line_id=0) for each in porter.hops),
        extras=tuple(replace(each, line_id=0) for each in porter.extras),
    )
    wish = FitWish(Pot(volume=q(5, "L")), (Fermenter(volume=q(12, "L")),))
    assert [way.key for way in ways(bare, wish).ways] == [
        way.key for way in ways(porter, wish).ways
    ]


def test_cost_is_known_where_all_prices_are(porter):
    priced = replace(
        porter,
        fermentables=tuple(replace(each, price=q(6)) for each in porter.fermentables),
        hops=tuple(replace(each, price=q(2)) for each in porter.hops),
        extras=tuple(replace(each, price=q(1)) for each in porter.extras),
        yeast=replace(porter.yeast, price=q(3)),
    )
    wish = FitWish(Pot(volume=q(5, "L")), (Fermenter(volume=q(12, "L")),))
    found = {way.key: way for way in ways(priced, wish).every_way}
    assert found["two boils"].cost == pytest.approx(3 * 6 + 2 * 2 + 1 + 3)
    assert 3.0 < found["smaller batch"].cost < found["two boils"].cost
    assert all(way.cost is None for way in ways(porter, wish).ways)
