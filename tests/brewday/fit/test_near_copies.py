"""Ways that nobody can tell apart are one, with the others as its choice."""

from dataclasses import replace

import pytest

from designer.brewday.fit.answer import Compared, ToBuy
from designer.brewday.fit.near_copies import MUCH_THE_SAME_MIN, folded, much_the_same
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.workbench.fit_text import fit_document, fit_lines
from tests.brewday.fit.kitchens import pairs

MANY = pairs((6.0, 9.0, 15.0), (0.5, 0.95, 1.05), 3)


@pytest.fixture(scope="module")
def demo(breakwater_red):
    """The locked kit with a bucket for all of it and a pot that boils it concentrated."""
    return ways(breakwater_red, wish_for(breakwater_red, 9.0, (25.0,)))


def test_extract_late_and_a_shorter_boil_stand_behind_one_boil_of_the_kit(demo):
    """The same 20 L of the same beer, nothing bought, a quarter of an hour between them."""
    best = demo.ways[0]
    assert best.key == "one boil"
    assert [each.key for each in best.much_the_same] == [
        "late extract",
        "shorter boil",
        "off the boil",
    ]
    assert "late extract" not in {way.key for way in demo.ways}


def test_ranks_go_on_through_what_stands_behind(demo):
    assert [way.rank for way in demo.every_way] == list(range(1, len(demo.every_way) + 1))
    assert [way.rank for way in demo.ways] == list(range(1, len(demo.ways) + 1))
    assert demo.sentence.text.startswith(f"{len(demo.ways)} ways work")


def test_text_and_json_tell_what_is_much_the_same(demo, breakwater_red):
    text = " ".join(" ".join(fit_lines(breakwater_red, demo)).split())
    late = demo.ways[0].much_the_same[0]
    assert f"Much the same: {late.rank}. One boil, extract late. {late.judgement.text}" in text
    said = fit_document(demo)["ways"][0]["much_the_same"]
    assert [each["key"] for each in said] == ["late extract", "shorter boil", "off the boil"]
    assert said[0]["rank"] == late.rank
    assert said[0]["boils"][0]["boil_gravity_start"] < 1.01


@pytest.mark.parametrize(
    ("key", "within", "beyond"),
    [
        ("original_gravity", 0.0009, 0.0011),
        ("final_gravity", 0.0009, 0.0011),
        ("bitterness_ibu", 0.9, 1.1),
        ("colour_srm", 0.4, 0.6),
    ],
)
def test_beers_are_told_apart_just_beyond_what_a_kitchen_can_tell(demo, key, within, beyond):
    """A point, an IBU, half an SRM: common practice, no source."""
    one = demo.ways[0]
    before = one.forecasts[key]
    for change, same in ((within, True), (beyond, False), (-within, True), (-beyond, False)):
        value = before.value + change
        other = replace(
            one, forecasts={**one.forecasts, key: Compared(value, value, value, before.original)}
        )
        assert much_the_same(one, other) == same


def test_volume_time_purchases_hops_and_left_overs_tell_ways_apart(demo, breakwater_red):
    """A twenty minutes longer day is the same day: a judgement, no source."""
    one = demo.ways[0]
    assert MUCH_THE_SAME_MIN == 20.0
    assert much_the_same(one, replace(one, total_min=one.total_min + 19.0))
    assert not much_the_same(one, replace(one, total_min=one.total_min + 21.0))
    assert much_the_same(one, replace(one, batch_l=one.batch_l - 0.5))
    assert not much_the_same(one, replace(one, batch_l=one.batch_l - 0.7))
    assert not much_the_same(one, replace(one, must_buy=(ToBuy("a bucket"),)))
    part = next(way for way in ways(breakwater_red, wish_for(breakwater_red, 9.0, (12.0,))).ways
                if way.left_over)  # fmt: skip
    assert not much_the_same(one, replace(one, left_over=part.left_over))
    assert not much_the_same(one, replace(one, boils=one.boils * 2))
    hop = replace(one.recipes[0].hops[0], name="Magnum")
    boil = replace(one.boils[0], recipe=replace(one.recipes[0], hops=(hop,)))
    assert not much_the_same(one, replace(one, boils=(boil,)))
    pot = replace(one.boils[0].day.pot, reached_boil=False)
    lukewarm = replace(one.boils[0], day=replace(one.boils[0].day, pot=pot))
    assert not much_the_same(one, replace(one, boils=(lukewarm,)))


def test_copies_are_those_of_the_first_and_not_of_one_another(demo):
    """Each half a point from the next: the third is a whole point from the first."""
    one = demo.ways[0]

    def weaker(points):
        gravity = one.forecasts["original_gravity"]
        value = gravity.value - 0.0009 * points
        found = Compared(value, value, value, gravity.original)
        return replace(
            one, much_the_same=(), forecasts={**one.forecasts, "original_gravity": found}
        )

    first, second, third = (replace(weaker(n), key=str(n)) for n in range(3))
    found = folded([first, second, third])
    assert [(way.key, [each.key for each in way.much_the_same]) for way in found] == [
        ("0", ["1"]), ("2", []),
    ]  # fmt: skip
    assert [way.rank for way in (*found, *found[0].much_the_same)] == [1, 2, 3]


@pytest.mark.parametrize("name", MANY)
def test_nothing_is_lost_and_no_two_ways_beside_one_another_are_copies(name):
    answer = ways(*MANY[name])
    keys = [way.key for way in answer.every_way]
    assert len(keys) == len(set(keys))
    for place, way in enumerate(answer.ways):
        assert all(much_the_same(way, each) for each in way.much_the_same)
        assert not any(much_the_same(other, way) for other in answer.ways[:place])
