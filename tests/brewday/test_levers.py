"""What may be changed to bring a beer into ranges, how far, and in which steps; judgement."""

from dataclasses import replace

import pytest

from designer.brewday.aiming import TOP_UP
from designer.brewday.day import brew
from designer.brewday.levers import Lever, change_of, levers_of
from designer.recipe.document import Fermentable, Hop
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When
from tests.brewday.quantities import q


def names(recipe, lever):
    lines = (*recipe.fermentables, *recipe.hops)
    ids = [each.line_id for each in lever.means]
    return [each.name for each in lines if each.line_id in ids]


def grain(name, kg):
    return Fermentable(name, "steeping grain", q(kg, "kg"), When(Stage.STEEP, "steep"))


def hop(name, kg, minutes, **others):
    when = When(Stage.BOIL, f"boil {minutes} min", float(minutes))
    return Hop(name, "pellets", q(0.05), q(kg, "kg"), when, **others)


@pytest.fixture
def porter(harbour_porter):
    return harbour_porter


def test_all_extract_is_one_lever_and_all_hops_then_each_of_them(porter):
    found = levers_of(porter)
    assert [
        names(porter, each) for each in found if not each.is_time and TOP_UP not in each.means
    ] == [
        ["Light liquid malt extract", "Light dry malt extract"],
        ["Challenger", "East Kent Golding"],
        ["Medium crystal malt"],
        ["Light liquid malt extract"],
        ["Light dry malt extract"],
        ["Challenger"],
        ["East Kent Golding"],
    ]
    assert all((each.low, each.high) == (0.3, 3.0) for each in found[:3])


def test_the_mark_may_go_no_lower_than_what_the_pot_gives_and_no_higher_than_a_third_more(porter):
    (water,) = (each for each in levers_of(porter) if TOP_UP in each.means)
    from_pot = float(brew(porter).fermenter.from_pot_l)
    assert water.low == pytest.approx(max(from_pot / 10.0, 0.75))
    assert water.high == 1.35
    less = replace(porter, process=replace(porter.process, top_up_to=q(7.0, "L")))
    (water,) = (each for each in levers_of(less) if TOP_UP in each.means)
    assert water.low == pytest.approx(from_pot / 7.0, abs=0.005)
    assert water.low > 0.8
    low = replace(porter, process=replace(porter.process, top_up_to=q(2.0, "L")))
    (water,) = (each for each in levers_of(low) if TOP_UP in each.means)
    assert water.low == 1.0
    for nothing in (None, q(0.0, "L")):
        none = replace(porter, process=replace(porter.process, top_up_to=nothing))
        assert all(TOP_UP not in each.means for each in levers_of(none))


def test_a_hop_may_boil_from_five_minutes_to_the_whole_boil(porter):
    hops = (hop("Early", 0.03, 60), hop("Late", 0.02, 20), hop("Last", 0.01, 5))
    recipe = with_line_ids(replace(porter, hops=hops))
    times = [each for each in levers_of(recipe) if each.is_time]
    assert [names(recipe, each) for each in times] == [["Early"], ["Late"]]
    assert (times[0].low, times[0].high) == pytest.approx((5.0 / 60.0, 1.0))
    assert (times[1].low, times[1].high) == pytest.approx((0.25, 3.0))
    short = with_line_ids(replace(porter, hops=(hop("Short", 0.02, 5), hop("Brief", 0.01, 4))))
    times = [each for each in levers_of(short) if each.is_time]
    assert [names(short, each) for each in times] == [["Short"]]
    longer = with_line_ids(replace(porter, hops=(hop("Longer than the boil", 0.02, 75),)))
    assert not any(each.is_time for each in levers_of(longer))


def test_of_many_grains_the_four_largest_are_looked_at_one_by_one_then_all_as_one(porter):
    grains = tuple(
        grain(name, kg)
        for name, kg in (("a", 0.1), ("b", 0.5), ("c", 0.2), ("d", 0.4), ("e", 0.3), ("none", 0.0))
    )
    base = porter.fermentables[:1]
    recipe = with_line_ids(replace(porter, fermentables=(*base, *grains)))
    found = [names(recipe, each) for each in levers_of(recipe) if not each.is_time]
    assert [each for each in found if set(each) <= set("abcde") and each] == [
        ["b"], ["c"], ["d"], ["e"], ["a", "b", "c", "d", "e"],
    ]  # fmt: skip
    assert found.count(["Light liquid malt extract"]) == 1
    four = with_line_ids(replace(porter, fermentables=(*base, *grains[:4])))
    found = [names(four, each) for each in levers_of(four) if not each.is_time]
    assert ["a", "b", "c", "d"] not in found


def test_what_is_locked_or_never_heated_is_no_lever(porter):
    first, *others = porter.hops
    dry = replace(others[0], when=When(Stage.DRY_HOP, "dry hop 4 d", days=4.0))
    recipe = replace(
        porter,
        hops=(replace(first, locked=True), dry),
        fermentables=tuple(replace(each, locked=True) for each in porter.fermentables),
    )
    assert [each.means for each in levers_of(recipe)] == [(TOP_UP,)]


def changed(recipe, lever, factor, fineness=1.0):
    found = change_of(recipe, lever, lever.means[0], factor, fineness)
    if found is None:
        return None
    edit, text = found
    assert edit.text == text
    return edit.apply(recipe), text.text


def test_an_amount_is_changed_to_what_is_weighed_and_said(porter):
    crystal = levers_of(porter)[2]
    after, said = changed(porter, crystal, 1.5)
    assert after.fermentables[2].amount.value == pytest.approx(0.38)
    assert said == "Medium crystal malt 0.25 kg to 380 g"
    assert changed(porter, crystal, 1.5, 0.0)[0].fermentables[2].amount.value == 0.375
    assert changed(porter, crystal, 1.0) is None
    assert changed(porter, crystal, 1.005) is None


def test_the_mark_is_changed_to_what_is_read_and_said(porter):
    (water,) = (each for each in levers_of(porter) if TOP_UP in each.means)
    after, said = changed(porter, water, 1.084)
    assert after.process.top_up_to.value == pytest.approx(10.8)
    assert said == "top-up mark 10 L to 10.8 L"
    assert changed(porter, water, 1.004) is None


def test_a_boil_time_is_told_in_fives_and_finer_where_it_has_to_be(porter):
    recipe = with_line_ids(replace(porter, hops=(hop("Fuggle", 0.02, 20),)))
    (time,) = (each for each in levers_of(recipe) if each.is_time)
    after, said = changed(recipe, time, 1.7)
    assert after.hops[0].when == When(Stage.BOIL, "boil 35 min", 35.0)
    assert said == "Fuggle boiled for 35 min, not 20 min"
    assert changed(recipe, time, 1.7, 0.2)[0].hops[0].when.minutes == 34.0
    assert changed(recipe, time, 1.777, 0.0)[0].hops[0].when.minutes == pytest.approx(35.54)
    assert changed(recipe, time, 1.1) is None


def test_levers_that_share_a_line_are_not_pulled_together(porter):
    extracts, hops, *_, dry, _, _ = (each for each in levers_of(porter) if not each.is_time)
    assert extracts.overlaps(dry)
    assert dry.overlaps(extracts)
    assert not extracts.overlaps(hops)
    assert not Lever(()).overlaps(extracts)


def test_a_grain_that_was_typed_in_ounces_is_told_in_ounces(porter):
    ounces = Quantity(8 * 0.028349523125, "8 oz")
    lines = (*porter.fermentables[:2], replace(porter.fermentables[2], amount=ounces))
    recipe = replace(porter, fermentables=lines)
    assert changed(recipe, levers_of(recipe)[2], 1.25)[1] == "Medium crystal malt 8 oz to 10 oz"
