"""The smallest change of amounts after which forecasts lie in their ranges.

What is found is run through the day again; that nothing smaller does is tried by hand. Projecting
onto ranges in turn is Kaczmarz's way (1937): of all points at which one sum holds, the nearest.
"""

from dataclasses import replace

import pytest

from designer.brewday.aiming import Means
from designer.brewday.bringing_in import _missed, _Point, _Search, _towards, bring_in
from designer.brewday.day import brew
from designer.brewday.levers import Lever
from designer.recipe.document import Hop
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Stage, When
from tests.brewday.quantities import q


@pytest.fixture
def porter(harbour_porter):
    """1.063, 1.017, 6.2 %, 30 IBU, 11 SRM."""
    return harbour_porter


def after(recipe, found):
    for edit in found.edits:
        recipe = edit.apply(recipe)
    return brew(recipe).beer


def kilograms(recipe):
    return [each.amount.value for each in (*recipe.fermentables, *recipe.hops)]


def test_what_lies_in_its_ranges_is_left_as_it_is(porter):
    found = bring_in(porter, {"bitterness_ibu": (20.0, 40.0), "original_gravity": (1.060, 1.063)})
    assert (found.edits, found.changes, found.missing) == ((), None, ())
    assert not found.is_out_of_reach
    beer = brew(porter).beer
    assert found.values == {
        "bitterness_ibu": float(beer.bitterness_ibu),
        "original_gravity": float(beer.original_gravity),
    }


@pytest.mark.parametrize(("low", "high"), [(40.0, 50.0), (15.0, 22.0)])
def test_bitterness_is_brought_in_by_all_hops_alike_and_just_over_the_edge(porter, low, high):
    found = bring_in(porter, {"bitterness_ibu": (low, high)})
    beer = after(porter, found)
    assert low <= float(beer.bitterness_ibu) <= high
    assert found.values["bitterness_ibu"] == pytest.approx(float(beer.bitterness_ibu))
    nearer = low if low > 30.0 else high
    assert abs(float(beer.bitterness_ibu) - nearer) < 0.2 * (high - low)
    changed = porter
    for edit in found.edits:
        changed = edit.apply(changed)
    assert changed.fermentables == porter.fermentables
    assert changed.process == porter.process
    first, second = (each.amount.value for each in changed.hops)
    assert first == second != 0.02
    assert found.changes.text.startswith("Challenger 0.02 kg to ")
    assert ", East Kent Golding 0.02 kg to " in found.changes.text


def test_gravity_is_brought_in_by_all_extract_alike(porter):
    found = bring_in(porter, {"original_gravity": (1.050, 1.056)})
    beer = after(porter, found)
    assert 1.0530 < float(beer.original_gravity) <= 1.0560
    syrup, powder = (edit.apply(porter) for edit in found.edits)
    assert syrup.fermentables[0].amount.value / 1.5 == pytest.approx(
        powder.fermentables[1].amount.value / 0.5, rel=0.03
    )


def test_a_little_too_strong_is_topped_up_and_a_little_too_pale_takes_grain(porter):
    water = bring_in(porter, {"original_gravity": (1.061, 1.062)})
    assert water.changes.text == "top-up mark 10 L to 10.2 L"
    grain = bring_in(porter, {"colour_srm": (12.5, 13.0), "original_gravity": (1.062, 1.064)})
    assert grain.changes.text == "Medium crystal malt 0.25 kg to 320 g"
    assert 12.5 <= float(after(porter, grain).colour_srm) <= 13.0


def test_two_ranges_take_two_levers(porter):
    asked = {"original_gravity": (1.050, 1.056), "bitterness_ibu": (20.0, 25.0)}
    found = bring_in(porter, asked)
    beer = after(porter, found)
    for key, (low, high) in asked.items():
        assert low <= float(getattr(beer, key)) <= high
        assert found.values[key] == pytest.approx(float(getattr(beer, key)))
    assert len(found.edits) == 4


def test_what_no_amount_reaches_is_told_with_the_nearest(porter):
    """Three times the grain is as far as it goes."""
    found = bring_in(porter, {"colour_srm": (60.0, 70.0)})
    assert found.edits == ()
    assert found.changes is None
    assert found.is_out_of_reach
    (miss,) = found.missing
    assert (miss.key, miss.is_above) == ("colour_srm", False)
    assert 20.0 < miss.value < 40.0
    assert _missed(found) == pytest.approx((60.0 - miss.value) / 8.0)


def test_where_amounts_alone_do_not_do_a_hop_boils_longer(porter):
    late = Hop("Fuggle", "pellets", q(0.05), q(0.02, "kg"), When(Stage.BOIL, "boil 15 min", 15.0))
    recipe = with_line_ids(replace(porter, hops=(late,)))
    asked = {"bitterness_ibu": (30.0, 33.0)}
    found = bring_in(recipe, asked)
    assert "Fuggle boiled for " in found.changes.text
    assert 29.5 <= float(after(recipe, found).bitterness_ibu) < 33.5
    easy = bring_in(recipe, {"bitterness_ibu": (14.0, 16.0)})
    assert "boiled for" not in easy.changes.text


def test_where_neither_weight_nor_time_of_a_hop_does_both_go_together(porter):
    """Three times the late hop is 25 IBU, the whole boil of it 20: 41 take some of each."""
    late = Hop("Fuggle", "pellets", q(0.05), q(0.02, "kg"), When(Stage.BOIL, "boil 15 min", 15.0))
    recipe = with_line_ids(replace(porter, hops=(late,)))
    for alone in ({"amount": q(0.06, "kg")}, {"when": When(Stage.BOIL, "boil 60 min", 60.0)}):
        assert float(brew(replace(recipe, hops=(replace(late, **alone),))).beer.bitterness_ibu) < 30
    found = bring_in(recipe, {"bitterness_ibu": (40.0, 42.0)})
    assert 39.5 <= float(after(recipe, found).bitterness_ibu) < 42.5
    changed = recipe
    for edit in found.edits:
        changed = edit.apply(changed)
    (hop,) = changed.hops
    assert hop.amount.value > 0.02
    assert hop.when.minutes > 15.0
    assert changed.fermentables == recipe.fermentables


def test_a_change_that_wants_more_yeast_brings_it_along(porter):
    found = bring_in(porter, {"original_gravity": (1.110, 1.120)})
    assert found.changes.text.endswith(". Pitch 3 packets, 33 g")
    assert found.edits[-1].text.text == "Pitch 3 packets, 33 g"
    assert not found.is_out_of_reach
    assert 1.110 <= found.values["original_gravity"] <= 1.120


def test_a_change_that_brings_something_grave_is_none(porter):
    """So many hops do not dissolve."""
    found = bring_in(porter, {"bitterness_ibu": (70.0, 80.0)})
    assert (found.edits, found.changes, found.missing) == ((), None, ())
    assert found.graver.code == "more-hops-than-dissolve"
    assert found.is_out_of_reach
    assert 70.0 <= found.values["bitterness_ibu"] <= 80.0


def test_a_search_that_is_not_wanted_any_more_ends(porter):
    asked = []

    def is_wanted():
        asked.append(True)
        return False

    found = bring_in(porter, {"bitterness_ibu": (40.0, 50.0)}, is_wanted)
    assert len(asked) == 1
    assert found.edits == ()
    assert found.missing[0].value == 30.0


ONE = Lever((Means("hops", 1, "One"),))
TWO = Lever((Means("hops", 2, "Two"),))


def point(now=10.0, one=3.0, two=4.0, at=1.0):
    slopes = {ONE: {"bitterness_ibu": one}, TWO: {"bitterness_ibu": two}}
    return _Point({ONE: at, TWO: 1.0}, {"bitterness_ibu": now}, slopes)


def test_levers_are_pulled_along_the_steepest_way_to_the_nearest_edge():
    """From 10 to 20 at slopes of 3 and 4: by 30/25 and 40/25."""
    factors = {ONE: 1.0, TWO: 1.0}
    assert _towards("bitterness_ibu", (20.0, 30.0), point(), factors)
    assert [factors[ONE], factors[TWO]] == pytest.approx([2.2, 2.6])
    assert pytest.approx(20.0) == 10.0 + 3.0 * 1.2 + 4.0 * 1.6
    factors = {ONE: 1.0, TWO: 1.0}
    assert _towards("bitterness_ibu", (5.0, 8.0), point(), factors)
    assert [factors[ONE], factors[TWO]] == pytest.approx([0.76, 0.68])


def test_levers_start_from_where_they_stand_and_stop_at_their_ends():
    factors = {ONE: 2.0, TWO: 1.0}
    assert _towards("bitterness_ibu", (18.0, 30.0), point(at=1.0), factors)
    assert [factors[ONE], factors[TWO]] == pytest.approx([2.0 + 15.0 / 25.0, 1.8])
    factors = {ONE: 1.0, TWO: 1.0}
    assert _towards("bitterness_ibu", (90.0, 99.0), point(), factors)
    assert [factors[ONE], factors[TWO]] == [3.0, 3.0]
    factors = {ONE: 1.0, TWO: 1.0}
    assert _towards("bitterness_ibu", (0.0, 0.0), point(one=0.0, two=8.0), factors)
    assert [factors[ONE], factors[TWO]] == [1.0, 0.3]


def test_nothing_is_pulled_where_it_holds_or_nothing_moves_it():
    factors = {ONE: 1.0, TWO: 1.0}
    assert not _towards("bitterness_ibu", (10.0, 30.0), point(), factors)
    assert not _towards("bitterness_ibu", (20.0, 30.0), point(one=0.0, two=0.0), factors)
    assert factors == {ONE: 1.0, TWO: 1.0}


def test_ranges_are_aimed_at_a_part_of_their_width_inside(porter):
    search = _Search(porter, {"bitterness_ibu": (40.0, 50.0), "colour_srm": (10.0, 20.0)})
    assert search._aims(0.12) == {
        "bitterness_ibu": (pytest.approx(41.2), pytest.approx(48.8)),
        "colour_srm": (pytest.approx(11.2), pytest.approx(18.8)),
    }


def test_slopes_tell_what_pulling_a_lever_moves(porter):
    """Twice the hops are nearly twice the bitterness, and next to no other gravity."""
    search = _Search(porter, {"bitterness_ibu": (40.0, 50.0), "original_gravity": (1.0, 2.0)})
    hops = search._levers[1]
    assert search._slopes[hops]["bitterness_ibu"] == pytest.approx(29.5, rel=0.06)
    assert search._slopes[hops]["original_gravity"] == pytest.approx(0.0, abs=0.004)
    extract = search._levers[0]
    assert search._slopes[extract]["original_gravity"] == pytest.approx(0.0586, rel=0.03)
    left = search._left((hops,), {hops: 1.0})
    assert left == pytest.approx(10.0 / 18.0)
    assert search._left((hops,), {hops: 1.2}) == pytest.approx(5.0 / 18.0, abs=0.07)
    assert search._left((hops,), {hops: 1.5}) == 0.0


def test_one_lever_is_tried_before_two_and_a_time_only_where_it_is_asked_for(porter):
    search = _Search(porter, {"bitterness_ibu": (33.0, 36.0)})
    order = search._in_order(0.12, with_times=False)
    assert len(order[0]) == 1
    assert not any(each.is_time for chosen in order for each in chosen)
    assert max(map(len, order)) == 3
    assert not any(a.overlaps(b) for each in order for a in each for b in each if a is not b)
    times = search._in_order(0.02, with_times=True)
    assert {sum(each.is_time for each in chosen) for chosen in times} == {1}
    assert len(set(order)) == len(order)
