"""The ends of what lies ahead and may still be changed, and what changing it costs a search.

Kitchen steps: a jug shows decilitres, a scale grams; how far anything may go is judgement, no
source.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.measured.advice_ahead import (
    _added,
    _boil_time,
    _late,
    _of_line,
    _takes_extract,
    _top_up,
    _weighed,
    extract_to_add,
    first_amount,
    ice_ahead,
    levers_ahead,
    room_l,
)
from designer.brewday.measured.advice_search import Search
from designer.brewday.measured.boil_lever import BoilTime
from designer.brewday.measured.line_levers import Weighed
from designer.brewday.measured.standing import At, Standing
from designer.brewday.measured.water_levers import TopUp
from designer.brewday.outlook import look_ahead
from designer.brewday.results import FermenterDay, Poured
from designer.recipe.document import Fermenter, Hop, PlannedBoil, PlannedFermenter, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.plan import wort_share
from designer.recipe.quantity import Kind, Quantity, Stage, When
from tests.brewday.days import with_figures
from tests.brewday.quantities import q

POUND = 0.45359237


def boil(minutes):
    return When(Stage.BOIL, f"boil {minutes} min", float(minutes))


def hop(name, kg, minutes):
    return Hop(name, "pellets", q(0.05), q(kg, "kg"), boil(minutes))


@pytest.fixture
def porter(harbour_porter):
    """The porter with hops at 60 and 20 min, finings at 5, extract at 60 and 15."""
    hops = (hop("Early", 0.02, 60), hop("Late", 0.0105, 20))
    return with_line_ids(replace(harbour_porter, hops=hops))


def test_hops_may_go_from_three_tenths_to_twice_and_extract_from_a_step_to_twice(porter):
    early = _of_line("hops", porter.hops[0], 1, porter)
    assert (early.low, early.high) == (-14, 20)
    late = _of_line("hops", porter.hops[1], 1, porter)
    assert (late.low, late.high) == (-7, 10)  # 10.5 g: not below 3.15
    powder = _of_line("fermentables", porter.fermentables[1], 1, porter)
    assert (powder.low, powder.high) == (-49, 50)


@pytest.mark.parametrize(
    ("left", "gone", "ends"),
    [
        (60.0, (), (0, 30)),  # hops for the whole of it are ahead
        (60.0, ("Early", "Light liquid malt extract"), (-15, 30)),
        (28.0, ("Early", "Light liquid malt extract"), (-8, 30)),
        (20.5, ("Early", "Light liquid malt extract"), (0, 30)),
        (18.0, ("Early", "Late", "Light liquid malt extract"), (-3, 30)),
        (9.0, ("Early", "Late", "Light liquid malt extract", "Light dry malt extract"), (-4, 30)),
        (2.0, ("Early", "Late", "Light liquid malt extract", "Light dry malt extract"), (0, 30)),
    ],
)
def test_a_boil_is_no_shorter_than_what_has_still_to_go_in_wants(porter, left, gone, ends):
    """Half an hour longer, a quarter shorter at the most."""
    lines = {"fermentables": porter.fermentables, "hops": porter.hops}
    gone_in = frozenset(
        (name, each.line_id, 1)
        for name, some in lines.items()
        for each in some
        if each.name in gone
    )
    standing = Standing(boils={1: At.BOILING}, gone_in=gone_in, left_min={1: left})
    (found,) = _boil_time(porter, 1, standing)
    assert (found.low, found.high) == ends
    assert {line.name for _, line in found.gone_in} == set(gone)


def test_what_boils_for_less_than_is_left_bounds_what_is_taken_off(porter):
    """Hops of 20 min that are in cannot boil for less than nothing."""
    recipe = replace(porter, extras=(), fermentables=porter.fermentables[2:])
    gone_in = frozenset(("hops", each.line_id, 1) for each in recipe.hops)
    standing = Standing(boils={1: At.BOILING}, gone_in=gone_in, left_min={1: 12.0})
    (found,) = _boil_time(recipe, 1, standing)
    assert found.low == -12
    short = replace(recipe, hops=(replace(recipe.hops[0], when=boil(4)),))
    (found,) = _boil_time(
        short, 1, replace(standing, gone_in=frozenset({("hops", short.hops[0].line_id, 1)}))
    )
    assert found.low == -4
    (begun,) = _boil_time(short, 1, Standing())
    assert (begun.low, begun.before.value) == (-15, 60.0)


def fermenter(recipe, total_l, from_pot_l, brim=12.0):
    day = with_figures(brew(recipe), batch_l=total_l)
    vessel = Fermenter(volume=None if brim is None else q(brim, "L"))
    poured = (Poured(1, 1.0, from_pot_l, total_l - from_pot_l, 0.0, total_l),)
    return FermenterDay(1, vessel, Yeast(), poured, day, {}, 0.0, 0)


def test_a_fermenter_has_room_below_its_krausen(porter):
    assert room_l(fermenter(porter, 10.0, 6.0)) == pytest.approx(10.2)
    assert room_l(fermenter(porter, 10.0, 6.0, brim=None)) is None


@pytest.mark.parametrize(
    ("from_pot", "brim", "ends"),
    [
        (6.0, 12.0, (-25, 2)),
        (8.0, 12.0, (-20, 2)),
        (6.0, 30.0, (-25, 35)),
        (6.0, None, (-25, 35)),
        (10.5, 12.0, (0, 2)),
        (6.0, 11.0, (-25, 0)),
    ],
)
def test_a_mark_may_go_from_three_quarters_or_what_the_pot_gave_to_a_third_more(
    porter, from_pot, brim, ends
):
    """10 L: not below 7.5, nor above 13.5 or the room for krausen."""
    found = _top_up(porter, [1], [fermenter(porter, 10.0, from_pot, brim)], is_after=False)
    assert (found.low, found.high) == ends
    assert (found.before.value, found.is_new, found.boil) == (10.0, False, 1)
    after = _top_up(porter, [1], [fermenter(porter, 9.8, from_pot, brim)], is_after=True)
    assert after.low == 0
    assert after.before.value == pytest.approx(9.8)
    none = replace(porter, process=replace(porter.process, top_up_to=None))
    new = _top_up(none, [1], [fermenter(porter, 6.04, 6.04, brim)], is_after=False)
    assert (new.is_new, new.low, new.before.value) == (True, 0, 6.0)
    assert _top_up(none, [1], [fermenter(porter, 0.0, 0.0, brim)], is_after=False) is None


@pytest.mark.parametrize(
    ("left", "when"),
    [(45.0, "boil 10 min"), (10.0, "boil 10 min"), (7.8, "boil 7 min"), (1.2, "boil 1 min"),
     (0.9, "flame-out")],
)  # fmt: skip
def test_extract_of_its_own_goes_in_ten_minutes_before_the_end_or_as_late_as_it_is(
    porter, left, when
):
    assert _late(porter, 1, Standing(left_min={1: left})).text == when
    assert _late(porter, 1, Standing()).text == "boil 10 min"


def test_a_quarter_of_the_extract_may_be_put_in_beside_it(porter):
    """1.5 kg of syrup: 375 g, in steps of 10."""
    syrup = replace(porter, fermentables=porter.fermentables[::2])
    found = _added(syrup, 1, 0, Standing())
    assert (found.high, found.line.line_id) == (37, 1001)
    assert (found.line.name, found.line.kind) == ("Light dry malt extract", "dry extract")
    assert found.line.when.text == "boil 10 min"
    assert _added(syrup, 1, 1, Standing()).line.line_id == 1002
    over = _added(syrup, 1, 0, Standing(boils={1: At.BOILED}))
    assert over.line.when.stage is Stage.FERMENTER
    assert _added(porter, 1, 0, Standing()) is None  # its own dry extract is ahead
    dry_in = frozenset({("fermentables", porter.fermentables[1].line_id, 1)})
    assert _added(porter, 1, 0, Standing(gone_in=dry_in)).high == 50
    assert _added(replace(porter, fermentables=()), 1, 0, Standing()) is None
    known = extract_to_add([*porter.fermentables[:2]])
    assert (known.name, known.amount) == ("Light dry malt extract", None)


@pytest.mark.parametrize(
    ("at", "ahead"),
    [(At.BEFORE, {"Early", "Late"}), (At.BOILING, {"Early", "Late"}), (At.BOILED, set())],
)
def test_hops_of_a_boil_are_ahead_until_it_is_over(porter, at, ahead):
    found = {each.line.name for each in _weighed(porter, 1, Standing(boils={1: at}))}
    assert found & {"Early", "Late"} == ahead
    locked = replace(porter, hops=tuple(replace(each, locked=True) for each in porter.hops))
    names = {each.line.name for each in _weighed(locked, 1, Standing(boils={1: at}))}
    assert not names & {"Early", "Late"}
    assert "Medium crystal malt" not in names
    none = replace(
        porter, hops=(replace(porter.hops[0], amount=q(0)), replace(porter.hops[1], amount=None))
    )
    assert not {each.line.name for each in _weighed(none, 1, Standing())} & {"Early", "Late"}


def test_the_last_hops_are_known_as_such_where_there_are_others(porter):
    found = {each.line.name: each.is_last for each in _weighed(porter, 1, Standing())}
    assert (found["Early"], found["Late"]) == (False, True)
    one = replace(porter, hops=porter.hops[:1])
    (only,) = (each for each in _weighed(one, 1, Standing()) if each.line.name == "Early")
    assert not only.is_last


def test_a_boil_that_is_over_takes_extract_until_the_yeast_is_in(porter):
    assert _takes_extract(porter, 1, Standing()) == [1]
    over = Standing(boils={1: At.BOILED})
    assert _takes_extract(porter, 0, over) == [1]
    assert _takes_extract(porter, 0, replace(over, fermenters={1: At.PITCHED})) == []
    assert _takes_extract(porter, 0, Standing(boils={1: At.BOILING})) == []


@pytest.mark.parametrize(
    ("frozen", "low"),
    [
        (q(1.5, "kg"), -15),
        (Quantity(2.0 * POUND, "2 lb"), -32),
        (Quantity(2.0 * POUND, "2 pounds"), -32),
        (Quantity(0.3, "300 g"), -3),
    ],
)
def test_all_of_the_ice_may_be_left_out_once_the_wort_is_cooled(porter, frozen, low):
    """An ounce a step where it was weighed in pounds, else 100 g."""
    recipe = replace(porter, process=replace(porter.process, frozen_top_up=frozen))
    cooled = Standing(boils={1: At.COOLED})
    (ice,) = ice_ahead(recipe, cooled)
    assert (ice.low, ice.boil) == (low, 1)
    assert list(ice_ahead(recipe, Standing(boils={1: At.BOILED}))) == []
    assert list(ice_ahead(recipe, replace(cooled, fermenters={1: At.TOPPED_UP}))) == []
    for none in (None, q(0, "kg")):
        recipe = replace(porter, process=replace(porter.process, frozen_top_up=none))
        assert list(ice_ahead(recipe, cooled)) == []


def searched(effort, slopes=(1.0, 1.0), start=2.0):
    def values(steps):
        return {"a": start - sum(n * each for n, each in zip(steps, slopes, strict=True))}

    ends = [(-5, 5)] * len(slopes)
    return Search(values, ends, lambda found: found["a"] ** 2, effort).best()


def test_of_two_levers_that_do_the_same_the_lighter_is_pulled():
    assert searched(lambda place, n: (0.1, 0.2)[place] * abs(n))[0].steps == (2, 0)
    assert searched(lambda place, n: (0.2, 0.1)[place] * abs(n))[0].steps == (0, 2)


def test_another_lever_is_pulled_only_where_that_gains_more_than_a_twenty_fifth():
    """One of the two would do: 0.04 is what one more thing to change has to gain."""
    found = searched(lambda place, n: 0.01 * abs(n))
    assert sorted(found[0].steps) == [0, 2]
    costly = searched(lambda place, n: 0.0, slopes=(2.0, 0.3), start=2.3)
    assert costly[0].steps == (1, 1)
    near = searched(lambda place, n: 0.0, slopes=(2.0, 0.19), start=2.19)
    assert near[0].steps == (1, 0)


def test_what_it_costs_to_change_is_weighed_against_what_is_missed():
    """Two steps gain 4 of cost and then 1: at 2 a step only the first is worth it."""
    assert searched(lambda place, n: 2.0 * abs(n), slopes=(1.0,))[0].steps == (1,)
    assert searched(lambda place, n: 0.5 * abs(n), slopes=(1.0,))[0].steps == (2,)
    found = searched(lambda place, n: 9.0 * abs(n), slopes=(1.0,))
    assert found[-1].steps == (0,)


@pytest.fixture
def halved(porter):
    """The same in two boils one after the other, into one fermenter."""
    half = PlannedBoil(porter.pot, typed(Kind.FRACTION, 0.5), start_water=q(4, "L"))
    return replace(porter, boils=(half, half))


@pytest.mark.parametrize(
    ("boils", "looked_at", "boiling"),
    [
        ({}, {1}, 1),
        ({1: At.BOILING}, {1}, 1),
        ({1: At.BOILED}, {2}, 2),
        ({1: At.MOVED, 2: At.BOILING}, {2}, 2),
        ({1: At.MOVED, 2: At.BOILED}, set(), None),
    ],
)
def test_of_several_boils_only_the_first_that_is_not_over_is_looked_at(
    halved, boils, looked_at, boiling
):
    outlook = look_ahead(halved, ranges=False)
    found = levers_ahead(halved, outlook, Standing(boils=boils))
    assert {each.boil for each in found if isinstance(each, Weighed)} == looked_at
    times = [each.boil for each in found if isinstance(each, BoilTime)]
    assert times == ([] if boiling is None else [boiling])


def test_hops_that_stand_are_ahead_until_the_boil_that_is_over_is_cooled(halved):
    stands = When(Stage.STAND, "stand 10 min 80 °C", 10.0, temperature=80.0)
    recipe = replace(halved, hops=(replace(halved.hops[0], when=stands), halved.hops[1]))
    outlook = look_ahead(recipe, ranges=False)

    def ahead(at):
        found = levers_ahead(recipe, outlook, Standing(boils={1: at}))
        return {(each.line.name, each.boil) for each in found if isinstance(each, Weighed)}

    assert ("Early", 1) in ahead(At.BOILED)
    assert ("Late", 1) not in ahead(At.BOILED)
    assert ("Early", 1) not in ahead(At.COOLED)
    assert ("Late", 2) in ahead(At.COOLED)


@pytest.mark.parametrize(
    ("at", "levers"), [(At.BEFORE, ["top-up:1"]), (At.TOPPED_UP, ["water:1"]), (At.PITCHED, [])]
)
def test_water_goes_on_top_until_the_yeast_is_in(porter, at, levers):
    outlook = look_ahead(porter, ranges=False)
    found = levers_ahead(porter, outlook, Standing(fermenters={1: at}))
    assert [each.code for each in found if isinstance(each, TopUp)] == levers


def into(recipe, *marks):
    """The wort in halves into fermenters that are topped up to these marks."""
    fermenters = tuple(
        PlannedFermenter(
            Fermenter(f"Bucket {number}", q(12, "L")), (wort_share(1, 0.5),), top_up_to=mark
        )
        for number, mark in enumerate(marks, 1)
    )
    recipe = replace(recipe, process=replace(recipe.process, frozen_top_up=None))
    return replace(recipe, fermenters=fermenters)


def top_ups(recipe, **fermenters):
    found = levers_ahead(recipe, look_ahead(recipe, ranges=False), Standing(**fermenters))
    assert None not in found
    return [
        (each.fermenters, each.of_many, each.is_new) for each in found if isinstance(each, TopUp)
    ]


def test_fermenters_that_are_filled_alike_are_topped_up_as_one(porter):
    assert top_ups(porter) == [((1,), False, False)]
    assert top_ups(into(porter, q(5, "L"), q(5, "L"))) == [((1, 2), False, False)]
    unlike = into(porter, q(5, "L"), q(6, "L"))
    assert top_ups(unlike) == [((1,), True, False), ((2,), True, False)]
    without = into(porter, None, None)
    assert top_ups(without) == [((1, 2), False, True)]
    half_done = {"fermenters": {1: At.TOPPED_UP}}
    alike = into(porter, q(5, "L"), q(5, "L"))
    assert top_ups(alike, **half_done) == [((1,), True, False), ((2,), True, False)]


def test_a_fermenter_that_is_full_takes_no_lever(porter):
    full = replace(porter, fermenter=Fermenter(volume=q(11.7, "L")))
    done = Standing(fermenters={1: At.TOPPED_UP})
    found = levers_ahead(full, look_ahead(full, ranges=False), done)
    assert not [each for each in found if isinstance(each, TopUp)]


def test_extract_is_weighed_in_the_units_of_the_first_that_has_an_amount(porter, halved):
    none = replace(porter.fermentables[0], amount=None)
    assert first_amount([none, *porter.fermentables[1:]]) == porter.fermentables[1].amount
    assert first_amount([none]) is None
    syrup = replace(porter, fermentables=porter.fermentables[:1])
    assert not _added(syrup, 1, 0, Standing()).of_many
    both = replace(halved, fermentables=halved.fermentables[:1])
    assert _added(both, 1, 0, Standing()).of_many
