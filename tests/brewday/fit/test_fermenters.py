"""Dividing a batch among fermenters, at the edges of their room.

Fifteen hundredths of a fermenter are left for krausen: common practice, no source. A quarter is
used here where the room is to come out even.
"""

import pytest

from designer.brewday.fit.fermenters import (
    Cellar,
    brim_for,
    cellar_for,
    most_owned_l,
    pair_for,
    shares,
)
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import FitWish, room_l, sized_fermenter, sized_pot, wish_for
from designer.recipe.document import Fermenter, Pot
from designer.recipe.quantity import Quantity


def vessel(litres, name="Bucket", headspace=0.25):
    return Fermenter(
        name, Quantity(litres, f"{litres:g} L"), headspace=Quantity(headspace, f"{headspace}")
    )


SMALL, LARGE = vessel(8.0, "Small bucket"), vessel(16.0, "Large bucket")  # room for 6 L and 12 L
UNKNOWN = Fermenter("Old carboy")


def wish(*fermenters, buy=True):
    return FitWish(Pot(), fermenters, may_buy_fermenter=buy)


def test_room_leaves_out_what_krausen_needs():
    assert room_l(LARGE) == 12.0
    assert room_l(Fermenter(volume=Quantity(12.0, "12 L"))) == pytest.approx(10.2)
    assert room_l(UNKNOWN) == float("inf")
    assert Cellar((SMALL, LARGE)).room_l == most_owned_l(wish(SMALL, LARGE)) == 18.0


def test_the_fewest_fermenters_are_taken_and_the_largest_first():
    both = wish(SMALL, LARGE)
    assert cellar_for(both, 5.0).fermenters == (LARGE,)
    assert cellar_for(both, 12.0).fermenters == (LARGE,)
    assert cellar_for(both, 13.0).fermenters == (LARGE, SMALL)
    assert cellar_for(both, 18.0).bought == 0


def test_a_fermenter_takes_a_twentieth_of_a_litre_more_but_not_twice_that():
    """No jug and no mark tell that: common practice, no source."""
    assert cellar_for(wish(LARGE, buy=False), 12.05) is not None
    assert cellar_for(wish(LARGE, buy=False), 12.1) is None
    assert cellar_for(wish(LARGE, buy=True), 24.05).bought == 1
    assert pair_for(wish(LARGE, LARGE, buy=False), 24.05) is not None
    assert pair_for(wish(LARGE, LARGE, buy=False), 24.1) is None
    assert pair_for(wish(LARGE), 24.05).bought == 1
    assert pair_for(wish(LARGE), 24.1) is None


def test_what_is_bought_is_like_the_largest_and_no_more_than_two():
    one, two = cellar_for(wish(SMALL, LARGE), 20.0), cellar_for(wish(SMALL, LARGE), 42.0)
    assert (one.fermenters, one.bought) == ((LARGE, SMALL, LARGE), 1)
    assert (two.fermenters, two.bought) == ((LARGE, SMALL, LARGE, LARGE), 2)
    assert cellar_for(wish(SMALL, LARGE), 43.0) is None


def test_nothing_is_bought_where_the_brewer_will_not():
    assert cellar_for(wish(LARGE, buy=False), 20.0) is None
    assert pair_for(wish(LARGE, buy=False), 20.0) is None


def test_a_pair_is_of_the_two_largest_in_hand_and_else_one_is_bought():
    assert pair_for(wish(SMALL, LARGE, SMALL), 18.0) == Cellar((LARGE, SMALL))
    assert pair_for(wish(SMALL, LARGE), 19.0) == Cellar((LARGE, LARGE), 1)
    assert pair_for(wish(LARGE), 19.0) == Cellar((LARGE, LARGE), 1)
    assert pair_for(wish(SMALL, LARGE), 25.0) is None


def test_one_fermenter_stands_for_itself_in_a_recipe():
    assert Cellar((SMALL,)).as_one() is SMALL


def test_several_stand_in_a_recipe_as_one_of_their_volume_and_their_room():
    alike = Cellar((LARGE, LARGE)).as_one()
    assert (alike.name, alike.volume.value, alike.volume.text) == ("2 × Large bucket", 32.0, "32 L")
    mixed = Cellar((LARGE, vessel(8.0, "Jar", 0.5))).as_one()
    assert mixed.name == "Large bucket and Jar"
    assert mixed.volume.value == 24.0
    assert room_l(mixed) == pytest.approx(12.0 + 4.0, abs=1e-4)
    assert mixed.headspace.text == "33.3333 %"
    assert mixed.kind == LARGE.kind


def test_a_batch_is_shared_equally_where_that_fits_and_else_by_room():
    assert shares(Cellar((LARGE, SMALL)), 12.0) == (0.5, 0.5)
    assert shares(Cellar((LARGE, SMALL)), 12.1) == (0.5, 0.5)  # 6.05 L: no mark tells it
    assert shares(Cellar((LARGE, SMALL)), 13.0) == pytest.approx((2 / 3, 1 / 3))
    assert shares(Cellar((LARGE, LARGE, SMALL)), 29.0) == pytest.approx((0.4, 0.4, 0.2))
    assert shares(Cellar((LARGE,)), 12.0) == (1.0,)


def test_a_fermenter_of_unknown_size_takes_all_that_may_come():
    first, second = shares(Cellar((UNKNOWN, SMALL)), 18.0)
    assert first + second == pytest.approx(1.0)
    assert first / second == pytest.approx(18.0 / 6.0)


@pytest.fixture(scope="module")
def shared(breakwater_red):
    """The ways of a 20 L kit with a 16 L and an 8 L bucket, with ice, none to be bought."""
    wish = FitWish(
        sized_pot(breakwater_red.pot, 9.0),
        (vessel(20.0, "Large"), vessel(10.0, "Small")),
        most_frozen_kg=2.0,
        may_buy_fermenter=False,
    )
    found = ways(breakwater_red, wish).ways
    return next(each for each in found if len(each.boils) == 1 and len(each.boils[0].fillings) == 2)


def test_wort_and_water_go_into_each_fermenter_in_the_same_shares(shared):
    large, small = shared.boils[0].fillings
    filled = shared.boils[0].day.fermenter
    assert large.filled_l + small.filled_l == pytest.approx(shared.batch_l)
    for name, whole in (
        ("from_pot_l", filled.from_pot_l),
        ("frozen_kg", filled.frozen_kg),
        ("liquid_top_up_l", filled.liquid_top_up_l),
    ):
        parts = [getattr(each, name) for each in (large, small)]
        assert sum(parts) == pytest.approx(float(whole), abs=0.01)
        # marks are told to 0.1 L, ice to 10 g and shares to 0.1 %
        assert parts[0] * small.filled_l == pytest.approx(parts[1] * large.filled_l, rel=0.03)
    assert (large.room_l, small.room_l) == (15.0, 7.5)
    assert large.filled_l <= large.room_l + 0.05
    assert small.filled_l <= small.room_l + 0.05
    assert [each.in_hand for each in (large, small)] == [True, True]


def test_the_last_of_the_fermenters_are_those_to_be_bought(breakwater_red):
    wish = FitWish(sized_pot(breakwater_red.pot, 9.0), (vessel(16.0),))
    found = [each for each in ways(breakwater_red, wish).ways if len(each.boils[0].fillings) == 2]
    assert found
    assert all([it.in_hand for it in each.boils[0].fillings] == [True, False] for each in found)


def test_the_fermenter_a_batch_wants_leaves_its_krausen_room():
    assert brim_for(12.0, SMALL) == 16.0
    assert brim_for(10.2, Fermenter()) == pytest.approx(12.0)


def test_a_vessel_of_the_size_it_had_is_left_as_it_is():
    pot = Pot("Kitchen pot", Quantity(9.0, "9 L"), diameter=Quantity(0.24, "24 cm"))
    assert sized_pot(pot, 9.0) is pot
    assert sized_fermenter(LARGE, 16.0) is LARGE


def test_a_pot_of_another_size_is_of_another_width_which_nobody_has_measured():
    pot = Pot("Kitchen pot", Quantity(9.0, "9 L"), diameter=Quantity(0.24, "24 cm"), stove="gas")
    made = sized_pot(pot, 12.5)
    assert (made.name, made.volume.value, made.volume.text) == ("12.5 L pot", 12.5, "12.5 L")
    assert made.diameter is None
    assert made.stove == "gas"
    assert sized_pot(Pot(), 7.0).volume.value == 7.0


def test_a_fermenter_of_another_size_keeps_its_kind_and_headspace():
    made = sized_fermenter(LARGE, 30.0)
    assert (made.name, made.volume.value, made.volume.text) == ("30 L fermenter", 30.0, "30 L")
    assert made.headspace == LARGE.headspace
    assert sized_fermenter(UNKNOWN, 5.0).volume.value == 5.0


def test_a_wish_without_vessels_is_for_those_of_the_recipe(porter):
    plain = wish_for(porter)
    assert plain.pot is porter.pot
    assert plain.fermenters == (porter.fermenter,)
    assert plain.pot.power is None
    assert plain.late_fraction == 1.0
    assert plain.may_buy_fermenter
    assert plain.boil_time_may_change
    assert plain.lid_may_be_used
    assert not plain.whole_packs


def test_a_wish_takes_the_vessels_and_the_stove_that_are_named(porter):
    wish = wish_for(porter, 7.0, (5.0, 12.0), power_w=1500.0)
    assert wish.pot.volume.value == 7.0
    assert [each.volume.value for each in wish.fermenters] == [5.0, 12.0]
    assert (wish.pot.power.value, wish.pot.power.text) == (1500.0, "1500 W")
