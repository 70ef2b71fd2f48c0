"""Making it so at its edges: what is offered, how near it comes, how far it can go, what it says.

The check is always the day itself, run with the amount in it. Steps of a kitchen's scales and marks
(a gram; hops a tenth of a gram; 0.05 L) are common practice, no source.
"""

from dataclasses import replace

import pytest

from designer.brewday import aiming
from designer.brewday.aiming import LARGEST_AMOUNT_KG, STEPS, TOP_UP, Means, make_it, means_for
from designer.brewday.day import brew
from designer.brewday.first.kitchen import step_for
from designer.brewday.predictions import MAIN, PREDICTIONS
from designer.recipe.document import Fermentable
from designer.recipe.fields import facts_of
from designer.recipe.quantity import Quantity, Stage, When
from tests.brewday.quantities import assert_no_half_gram_comes_nearer

COMPUTE = {each.key: each.compute for each in PREDICTIONS}
CLOSE = {each.key: each.close for each in MAIN}
FIELD = {"process": "top_up_to", "hops": "amount", "fermentables": "amount"}


def with_value(recipe, means, value, kitchen):
    """The recipe with another amount, put there without any search."""
    changed = {FIELD[means.lines]: kitchen.q(value)}
    if means.lines == "process":
        return replace(recipe, process=replace(recipe.process, **changed))
    lines = tuple(
        replace(line, **changed) if line.line_id == means.line_id else line
        for line in getattr(recipe, means.lines)
    )
    return replace(recipe, **{means.lines: lines})


def forecast(recipe, key, means, value, kitchen):
    return float(COMPUTE[key](brew(with_value(recipe, means, value, kitchen))))


def amount_in(edit):
    """What an edit sets, whether a field of the process or of a line."""
    return edit.value if hasattr(edit, "part") else dict(edit.changes)["amount"]


def line_means(recipe, lines, place):
    line = getattr(recipe, lines)[place]
    return Means(lines, line.line_id, line.name)


@pytest.mark.parametrize(
    ("key", "water"),
    [("original_gravity", True), ("abv_percent", True), ("final_gravity", False),
     ("colour_srm", False)],
)  # fmt: skip
def test_water_is_offered_where_it_is_strength_that_is_wanted(key, water, harbour_porter):
    names = [each.name for each in means_for(key, harbour_porter)]
    lines = [line.name for line in harbour_porter.fermentables]
    assert names == [*lines, "Top-up mark"] if water else lines
    assert ("Top-up mark" in names) is water


def test_what_is_locked_is_not_offered_but_water_is(harbour_porter):
    locked = tuple(replace(line, locked=True) for line in harbour_porter.fermentables)
    kit = replace(harbour_porter, fermentables=locked)
    assert means_for("original_gravity", kit) == (TOP_UP,)
    assert means_for("colour_srm", kit) == ()
    first_only = replace(harbour_porter, fermentables=(locked[0], *kit.fermentables[1:]))
    assert means_for("final_gravity", first_only) == ()


@pytest.mark.parametrize(
    ("key", "wanted", "lines", "place"),
    [
        ("original_gravity", 1.048, "process", 0),
        ("original_gravity", 1.060, "fermentables", 1),
        ("final_gravity", 1.0145, "fermentables", 1),
        ("abv_percent", 5.2, "fermentables", 0),
        ("colour_srm", 14.0, "fermentables", 2),
        ("bitterness_ibu", 31.0, "hops", 0),
        ("bitterness_ibu", 29.0, "hops", 1),
    ],
)
def test_no_amount_that_a_kitchen_can_measure_comes_nearer(
    key, wanted, lines, place, harbour_porter, kitchen
):
    means = TOP_UP if lines == "process" else line_means(harbour_porter, lines, place)
    aim = make_it(harbour_porter, key, wanted, means)
    found = amount_in(aim.edit).value
    assert aim.reached == forecast(harbour_porter, key, means, found, kitchen)
    step = step_for(found, STEPS[lines])
    for other in (found - step, found + step):
        there = forecast(harbour_porter, key, means, other, kitchen)
        assert abs(there - wanted) >= abs(aim.reached - wanted) - 2 * CLOSE[key]
    assert found / step == pytest.approx(round(found / step), abs=1e-6)


def test_the_search_stops_no_further_off_than_a_brewer_could_read():
    """A hydrometer is read to 0.001, beer is labelled to 0.1 %; common practice, no source."""
    assert set(CLOSE) == {each.key for each in MAIN}
    assert all(each.means and each.close > 0.0 for each in MAIN)
    assert max(CLOSE["original_gravity"], CLOSE["final_gravity"]) <= 0.0001
    assert CLOSE["abv_percent"] <= 0.01
    assert CLOSE["bitterness_ibu"] <= 0.1
    assert CLOSE["colour_srm"] <= 0.1


@pytest.mark.parametrize(
    ("key", "lines", "place"),
    [("bitterness_ibu", "hops", 0), ("colour_srm", "fermentables", 2),
     ("original_gravity", "process", 0)],
)  # fmt: skip
def test_a_value_at_the_very_end_is_still_reached(key, lines, place, harbour_porter):
    """Nothing of a hop at all, or twenty times as much, are answers as good as others."""
    means = TOP_UP if lines == "process" else line_means(harbour_porter, lines, place)
    ends = make_it(harbour_porter, key, 1e6, means)
    assert ends.edit is None
    first = make_it(harbour_porter, key, ends.low, means)
    last = make_it(harbour_porter, key, ends.high, means)
    assert first.reached == pytest.approx(ends.low, rel=1e-3)
    assert last.reached == pytest.approx(ends.high, rel=1e-3)
    assert amount_in(last.edit).value > 10 * amount_in(first.edit).value
    assert (first.low, first.high) == (last.low, last.high) == (ends.low, ends.high)
    if lines != "process":
        assert amount_in(first.edit).value == 0.0
        assert amount_in(first.edit).text == "0 g"


def test_beyond_its_ends_the_nearer_end_is_told(harbour_porter):
    hop = line_means(harbour_porter, "hops", 1)
    below, above = (make_it(harbour_porter, "bitterness_ibu", ibu, hop) for ibu in (1.0, 500.0))
    assert (below.edit, above.edit) == (None, None)
    assert below.reached == below.low < above.high == above.reached
    # water goes the other way: the least of it makes the strongest beer
    strong = make_it(harbour_porter, "original_gravity", 1.9, TOP_UP)
    weak = make_it(harbour_porter, "original_gravity", 1.0001, TOP_UP)
    assert strong.reached == strong.low > weak.high == weak.reached


# (list, place, amount now in kg, the most it may become)
LIMITS = [
    ("hops", 0, 0.02, 0.4),  # twenty times as much
    ("hops", 1, 0.005, 0.2),  # at least 200 g of a hop
    ("fermentables", 2, 0.25, 5.0),  # at least 5 kg of malt
    ("fermentables", 0, 0.5, 10.0),
    ("fermentables", 0, 4.0, LARGEST_AMOUNT_KG),
]


@pytest.mark.parametrize(("lines", "place", "now", "most"), LIMITS)
def test_an_amount_may_grow_twentyfold_and_no_further(
    lines, place, now, most, harbour_porter, kitchen
):
    """A sack of malt is 25 kg, and nobody needs two of them here; common practice, no source."""
    means = line_means(harbour_porter, lines, place)
    recipe = with_value(harbour_porter, means, now, kitchen)
    key = "bitterness_ibu" if lines == "hops" else "original_gravity"
    aim = make_it(recipe, key, 1e6, means)
    assert aim.low == pytest.approx(forecast(recipe, key, means, 0.0, kitchen), rel=1e-12)
    assert aim.high == pytest.approx(forecast(recipe, key, means, most, kitchen), rel=1e-12)
    assert LARGEST_AMOUNT_KG == 50.0


def test_a_hop_that_is_not_weighed_yet_gets_its_weight(harbour_porter, kitchen):
    first, second = harbour_porter.hops
    unknown = replace(harbour_porter, hops=(replace(first, amount=None), second))
    means = line_means(unknown, "hops", 0)
    aim = make_it(unknown, "bitterness_ibu", 30.0, means)
    assert_no_half_gram_comes_nearer(aim.edit.apply(unknown), 30.0)
    assert aim.high == pytest.approx(forecast(unknown, "bitterness_ibu", means, 0.2, kitchen))


def test_water_goes_from_what_the_pot_gives_to_twenty_batches(harbour_porter, kitchen):
    day = brew(harbour_porter)
    aim = make_it(harbour_porter, "original_gravity", 1.9, TOP_UP)
    as_it_comes, drowned = (
        forecast(harbour_porter, "original_gravity", TOP_UP, litres, kitchen)
        for litres in (day.fermenter.from_pot_l, 20 * day.fermenter.batch_l)
    )
    assert aim.low == pytest.approx(as_it_comes, rel=1e-12)
    assert aim.high == pytest.approx(drowned, rel=1e-12)


def test_a_kit_that_is_never_boiled_is_diluted_in_the_fermenter(kitchen):
    """All of it in the fermenter, nothing from a pot: the tin's extract in 23.3 L is 1.045."""
    recipe = kitchen.recipe(
        process=kitchen.quiet_process(start_water=kitchen.q(0), top_up_to=kitchen.q(20)),
        fermentables=(
            Fermentable("Kit", "hopped kit extract", kitchen.q(3.4),
                        When(Stage.FERMENTER, "fermenter")),
        ),
    )  # fmt: skip
    day = brew(recipe)
    assert day.fermenter.from_pot_l == pytest.approx(0.0, abs=1e-5)  # the pot is never quite dry
    aim = make_it(recipe, "original_gravity", 1.045, TOP_UP)
    points = 1000 * (day.beer.original_gravity - 1) * day.fermenter.batch_l
    assert amount_in(aim.edit).value == pytest.approx(points / 45.0, abs=0.1)
    assert aim.reached == pytest.approx(1.045, abs=1e-4)
    syrup = forecast(recipe, "original_gravity", TOP_UP, 0.0, kitchen)
    assert aim.low == pytest.approx(syrup, rel=1e-12)


def test_where_nothing_is_there_yet_a_little_water_may_go_in(kitchen):
    """No water, no extract: the search still has two ends and answers that it cannot."""
    aim = make_it(kitchen.recipe(), "original_gravity", 1.050, TOP_UP)
    assert aim.edit is None
    assert aim.low == pytest.approx(1.0, abs=1e-4)
    assert aim.high == pytest.approx(1.0, abs=1e-4)


def test_no_more_water_is_asked_for_than_may_be_typed(harbour_porter, kitchen):
    most = facts_of(harbour_porter.process, "top_up_to").high
    vast = with_value(harbour_porter, TOP_UP, most / 2, kitchen)
    aim = make_it(vast, "original_gravity", 1.0, TOP_UP)
    assert aim.edit is None
    full = forecast(vast, "original_gravity", TOP_UP, most, kitchen)
    assert aim.high == pytest.approx(full, rel=1e-12)
    last = make_it(vast, "original_gravity", aim.high, TOP_UP).edit
    assert amount_in(last).value <= most
    assert amount_in(last).text == f"{amount_in(last).value:.4g} L"


@pytest.mark.parametrize(
    ("kg", "text"),
    [(1.0, "1 kg"), (1.25, "1.25 kg"), (0.995, "995 g"), (0.35, "350 g"), (1.995, "1.995 kg")],
)
def test_the_weight_is_written_in_grams_below_a_kilogram(kg, text, harbour_porter, kitchen):
    means = line_means(harbour_porter, "fermentables", 0)
    wanted = forecast(harbour_porter, "original_gravity", means, kg, kitchen)
    amount = amount_in(make_it(harbour_porter, "original_gravity", wanted, means).edit)
    assert amount.text == text
    assert amount.value == pytest.approx(kg, abs=1e-9)


@pytest.mark.parametrize(
    ("key", "wanted", "lines", "place", "text"),
    [
        ("original_gravity", 1.0504, "process", 0, "make it 1.050 by top-up mark"),
        ("final_gravity", 1.014, "fermentables", 1, "make it 1.014 by Light dry malt extract"),
        ("abv_percent", 5.25, "fermentables", 1, "make it 5.25 % by Light dry malt extract"),
        ("colour_srm", 14.0, "fermentables", 2, "make it 14 SRM by Medium crystal malt"),
        ("bitterness_ibu", 31.0, "hops", 1, "make it 31 IBU by East Kent Golding"),
    ],
)
def test_the_undo_menu_says_what_was_wanted_and_by_what(
    key, wanted, lines, place, text, harbour_porter
):
    means = TOP_UP if lines == "process" else line_means(harbour_porter, lines, place)
    assert make_it(harbour_porter, key, wanted, means).edit.text.text == text


def test_only_the_line_that_is_meant_changes(harbour_porter):
    means = line_means(harbour_porter, "hops", 1)
    after = make_it(harbour_porter, "bitterness_ibu", 30.0, means).edit.apply(harbour_porter)
    assert after.hops[0] == harbour_porter.hops[0]
    assert replace(after.hops[1], amount=None) == replace(harbour_porter.hops[1], amount=None)
    assert replace(after, hops=()) == replace(harbour_porter, hops=())


def test_more_of_a_hopped_kit_brings_more_of_what_its_label_says(kitchen):
    """The label is for one tin; an amount that is sought keeps that tin beside it."""
    tin = Fermentable(
        "Kit", "hopped kit extract", kitchen.q(1.7), When(Stage.FERMENTER, "fermenter"),
        label_bitterness=kitchen.q(25), label_volume=kitchen.q(23),
    )  # fmt: skip
    recipe = kitchen.recipe(
        process=kitchen.quiet_process(start_water=kitchen.q(0), top_up_to=kitchen.q(20)),
        fermentables=(tin,),
    )
    wanted = 2 * float(brew(recipe).beer.original_gravity) - 1
    aim = make_it(recipe, "original_gravity", wanted, line_means(recipe, "fermentables", 0))
    (line,) = aim.edit.apply(recipe).fermentables
    assert line.label_amount == tin.amount
    tins = line.amount.value / tin.amount.value
    assert tins == pytest.approx(2.0, rel=0.02)
    ibu = float(brew(aim.edit.apply(recipe)).beer.bitterness_ibu)
    assert ibu == pytest.approx(tins * float(brew(recipe).beer.bitterness_ibu), rel=0.02)


@pytest.mark.parametrize("wanted", [1.031, 1.055, 1.2])
def test_a_handful_of_days_is_enough_to_find_it(wanted, harbour_porter, monkeypatch):
    """The Illinois step triples the correct figures in about three days (Dowell, Jarratt 1971)."""
    days = []
    monkeypatch.setattr(aiming, "brew", lambda recipe: days.append(recipe) or brew(recipe))
    means = line_means(harbour_porter, "fermentables", 0)
    assert make_it(harbour_porter, "original_gravity", wanted, means).edit is not None
    assert len(days) <= 15


def test_an_unknown_forecast_is_refused(harbour_porter):
    with pytest.raises(KeyError, match="loveliness"):
        make_it(harbour_porter, "loveliness", 1.0, TOP_UP)


@pytest.mark.parametrize(("kg", "text"), [(0.9837, "985 g"), (0.0567, "57 g"), (1.2412, "1.24 kg")])
def test_an_amount_is_one_that_a_kitchen_scale_shows_and_the_beer_is_that_of_it(
    kg, text, harbour_porter, kitchen
):
    means = line_means(harbour_porter, "fermentables", 0)
    wanted = forecast(harbour_porter, "original_gravity", means, kg, kitchen)
    aim = make_it(harbour_porter, "original_gravity", wanted, means)
    amount = amount_in(aim.edit)
    assert amount.text == text
    assert aim.reached == forecast(harbour_porter, "original_gravity", means, amount.value, kitchen)


def test_pounds_and_ounces_stay_what_they_were_typed_in(porter):
    hop = replace(porter.hops[0], amount=Quantity(0.63 * 0.028349523125, "0.63 oz"))
    recipe = replace(porter, hops=(hop, *porter.hops[1:]))
    wanted = brew(recipe).beer.bitterness_ibu + 5.0
    found = make_it(recipe, "bitterness_ibu", wanted, Means("hops", hop.line_id, hop.name))
    after = found.edit.apply(recipe).hops[0].amount
    assert after.text.endswith(" oz")
    assert after.value == pytest.approx(float(after.text.split()[0]) * 0.028349523125)
    per_oz = found.reached / float(after.text.split()[0])
    assert found.reached == pytest.approx(wanted, abs=0.01 * per_oz), "a hundredth of an ounce"
