"""No cure harms: nothing is added while it is not settled, overfills, or goes where no pressure is.

Each is the same change as an edit, as plain values of a log, and as words of `--set`.
"""

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.explaining.beliefs import beliefs_of
from designer.brewday.explaining.cures import cures
from designer.brewday.explaining.explained import CauseCode, Verdict
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.explaining.posterior import Posterior, Weighed
from designer.brewday.outlook import look_ahead
from designer.brewday.plan_days import days_of
from designer.library.places import set_field
from designer.library.recipe_file import document_of, load
from designer.recipe.choices import Bottle, Package
from designer.recipe.kinds import typed
from designer.recipe.plan import fermenters_of
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.workbench.brew.accepted_changes import with_changes
from tests.workbench.planned_red import two_boils

REAL = CauseCode.VOLUME, CauseCode.MISSING_EXTRACT, CauseCode.MISWEIGHED
SETTLED = GravitySample(1.040, sample_c=20.0, stirred=Stirred.HARD)


@cache
def brewed(name):
    if name == "plan":
        return two_boils()
    return load(resource_path(f"examples/{name}.hobwort"))


@cache
def believed(recipe):
    return beliefs_of(look_ahead(recipe))


def posterior(beliefs, causes, factor, line, share, points):
    """What is thought where one explanation is all but certain."""
    part = Weighed(causes, 0.99, points, volume_factor=factor, line=line, line_share=share)
    return Posterior((part,), points, 0.0, beliefs.planned_points)


def cured(recipe, sample=SETTLED, causes=(CauseCode.VOLUME,), factor=1.1, line=0, share=-0.5, **of):
    beliefs = believed(recipe)
    points = beliefs.planned_points
    if CauseCode.VOLUME in causes:
        points /= factor
    else:
        factor = 1.0
    if set(causes) & {CauseCode.MISSING_EXTRACT, CauseCode.MISWEIGHED}:
        line %= len(beliefs.lines)
        points += share * beliefs.lines[line].points
    else:
        line, share = None, 0.0
    found = posterior(beliefs, causes, factor, line, share, points)
    return cures(found, Asked((sample,), **of), beliefs, recipe)


def adds(cure):
    return cure.code.startswith(("add_", "put_in"))


def with_fermenter(recipe, litres, **process):
    vessel = replace(
        recipe.fermenter, volume=None if litres is None else typed(Kind.VOLUME, litres)
    )
    return replace(recipe, fermenter=vessel, process=replace(recipe.process, **process))


def filled(recipe, number=1):
    return days_of(recipe, look_ahead(recipe, ranges=False)).fermenters[number - 1]


def room_of(day):
    return day.brim_l * (
        1.0 - (0.15 if day.vessel.headspace is None else day.vessel.headspace.value)
    )


recipes = some.sampled_from(
    ["harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red", "plan"]
)
answers = some.lists(
    some.builds(
        Answer,
        some.sampled_from([TestCode.STIR, TestCode.TOP_AND_BOTTOM, TestCode.COOL]),
        some.booleans(),
    ),
    max_size=2,
    unique_by=lambda each: each.test,
).map(tuple)
samples = some.builds(
    GravitySample,
    some.just(1.040),
    some.just(Scale.SG),
    sample_c=some.sampled_from([None, 5.0, 24.0, 40.0, 41.0, 70.0]),
    taken=some.sampled_from(Taken),
    stirred=some.sampled_from(Stirred),
)
causes = some.sampled_from([(each,) for each in REAL] + [REAL[:2], (CauseCode.NOT_MIXED, REAL[0])])


@settings(max_examples=60, deadline=None)
@given(
    recipes, samples, causes, some.floats(0.75, 1.35), some.integers(0, 5),
    some.sampled_from([-1.0, -0.5, -0.2, 0.22, 1.0]), answers,
    some.sampled_from([None, 0.0, 10.0, 12.0, 25.0, 40.0]), some.sampled_from(Bottle),
)  # fmt: skip
def test_no_cure_ever_harms(name, sample, causes, factor, line, share, answered, litres, bottle):
    recipe = brewed(name)
    if name != "plan":
        recipe = with_fermenter(recipe, litres, bottle=bottle, package=Package.BOTTLES)
    found = cured(recipe, sample, causes, factor, line, share, answers=answered)
    assert len({each.code for each in found}) == len(found)
    told = {each.test: each.changed for each in answered}
    mixed = sample.stirred in (Stirred.HARD, Stirred.POURED) or False in (
        told.get(TestCode.STIR), told.get(TestCode.TOP_AND_BOTTOM)
    )  # fmt: skip
    warm = sample.sample_c is None or sample.sample_c > 40.0
    for each in found:
        made = recipe if each.edit is None else each.edit.apply(recipe)
        assert document_of(made) == document_of(with_changes(recipe, each.changes))
        if adds(each):
            assert sample.taken is not Taken.FERMENTING
            if warm or (sample.taken is Taken.TOPPED_UP and not mixed):
                assert each.off is not None
            if made.process.bottle == Bottle.NOT_FOR_PRESSURE and name != "plan":
                assert each.off is not None
            day = filled(made)
            if day.brim_l is not None and sample.taken is Taken.TOPPED_UP:
                assert day.total_l <= room_of(day) + 0.02
        if each.edit is not None and (each.settings or not adds(each)):
            assert document_of(made) == document_of(set_by_words(recipe, each.settings))


def set_by_words(recipe, words):
    for place, text in words.items():
        recipe = set_field(recipe, place, text)
    return recipe


@pytest.mark.parametrize("name", ["harbour_lamp_porter", "slipway_bitter", "breakwater_red"])
@pytest.mark.parametrize(
    ("causes", "factor", "share"),
    [((CauseCode.VOLUME,), 1.12, 0.0), ((CauseCode.VOLUME,), 0.88, 0.0),
     ((CauseCode.MISSING_EXTRACT,), 1.0, -1.0), ((CauseCode.MISWEIGHED,), 1.0, -0.5),
     ((CauseCode.MISSING_EXTRACT,), 1.0, 1.0)],
)  # fmt: skip
def test_what_is_added_brings_the_beer_back_and_the_day_says_so(name, causes, factor, share):
    recipe = with_fermenter(brewed(name), 60.0)
    meant = look_ahead(recipe, ranges=False).forecasts
    adding, left = cured(recipe, causes=causes, factor=factor, share=share)
    assert adding.off is None
    made = look_ahead(adding.edit.apply(recipe) if adding.edit else recipe, ranges=False).forecasts
    for key, told in adding.after.items():
        assert told.value == pytest.approx(made[key].value, rel=1e-9)
    assert made["original_gravity"].value == pytest.approx(
        meant["original_gravity"].value, abs=0.0015
    )
    assert made["abv_percent"].value == pytest.approx(meant["abv_percent"].value, abs=0.2)
    stays = left.after["original_gravity"].value - meant["original_gravity"].value
    assert stays * (factor - 1.0 if share == 0.0 else -share) < 0.0


def test_where_it_is_one_wort_whatever_it_was_it_is_cured():
    recipe = brewed("harbour_lamp_porter")
    beliefs = believed(recipe)
    points = beliefs.planned_points - 6.0
    parts = [
        Weighed((cause,), share, points, line=0, line_share=-0.13)
        for cause, share in ((CauseCode.MISSING_EXTRACT, 0.5), (CauseCode.MISWEIGHED, 0.4))
    ]
    asked = Asked((SETTLED,))
    both = Posterior(tuple(parts), points, 0.0, beliefs.planned_points)
    found = cures(both, asked, beliefs, recipe, Verdict.CANNOT_TELL)
    assert [each.off for each in found] == [None] * len(found)
    assert "Put in" in str(found[0].title)
    other = replace(parts[1], points=points + 4.0)
    apart = Posterior((parts[0], other), points, 0.0, beliefs.planned_points)
    assert cures(apart, asked, beliefs, recipe, Verdict.CANNOT_TELL) == ()


def test_nothing_goes_into_a_fermenter_of_nothing_or_one_that_is_full():
    for litres in (0.0, 11.0):
        recipe = with_fermenter(brewed("harbour_lamp_porter"), litres)
        found = cured(recipe, factor=1.15)
        assert not any(adds(each) for each in found)
        assert any(each.code == "leave:volume" for each in found)


def test_water_is_poured_in_as_far_as_there_is_room_for_krausen():
    recipe = brewed("slipway_bitter")  # 10 L in 12 L, of which 10.2 L are for beer
    twice = cured(recipe, causes=(CauseCode.MISSING_EXTRACT,), factor=1.0, share=1.0)
    (water,) = [each for each in twice if adds(each)]
    assert water.title.text.endswith("Add 0.2 L of boiled water")
    assert filled(water.edit.apply(recipe)).total_l <= 10.2 + 1e-9


def test_a_whole_packet_is_taken_where_it_lands_as_near():
    recipe = with_fermenter(brewed("breakwater_red"), 60.0)
    titles = [
        each.title.text
        for factor in (1.2, 1.24, 1.28)
        for each in cured(recipe, factor=factor)
        if adds(each)
    ]
    assert any("Add 500 g" in each for each in titles)


def test_pounds_are_weighed_in_pounds_and_ounces():
    recipe = brewed("harbour_lamp_porter")
    line = replace(recipe.fermentables[0], amount=typed(Kind.MASS, 1.0, ".4g", "kg"))
    pounds = replace(line, amount=replace(line.amount, text="2.2 lb"))
    recipe = replace(recipe, fermentables=(pounds, *recipe.fermentables[1:]))
    recipe = with_fermenter(recipe, 60.0)
    (adding,) = [each for each in cured(recipe, factor=1.06) if adds(each)]
    assert " oz Light dry" in adding.title.text


def test_what_was_left_in_a_hopped_tin_brings_its_bitterness_back():
    recipe = with_fermenter(brewed("breakwater_red"), 60.0)
    hopped = next(
        at for at, each in enumerate(believed(recipe).lines) if each.kind == "hopped kit extract"
    )
    meant = look_ahead(recipe, ranges=False).forecasts["bitterness_ibu"].value
    adding, left = cured(
        recipe, causes=(CauseCode.MISSING_EXTRACT,), factor=1.0, line=hopped, share=-0.5
    )
    assert left.after["bitterness_ibu"].value < 0.95 * meant
    assert adding.after["bitterness_ibu"].value == pytest.approx(meant, rel=0.01)


def test_a_hydrometer_that_is_off_is_written_down_once_it_was_tried_in_water():
    recipe = brewed("harbour_lamp_porter")
    beliefs = believed(recipe)
    part = Weighed((CauseCode.HYDROMETER,), 0.9, beliefs.planned_points, hydrometer=-3.2)
    found = Posterior((part,), beliefs.planned_points - 3.0, 0.0, beliefs.planned_points)
    before, _ = cures(found, Asked((SETTLED,)), beliefs, recipe)
    assert before.off.text == "First float it in plain water."
    tried = Answer(TestCode.WATER_CHECK, value=0.997)
    after, pitch = cures(found, Asked((SETTLED,), answers=(tried,)), beliefs, recipe)
    assert after.off is None
    assert after.settings == {"process.hydrometer_in_water": "0.997"}
    assert after.edit.apply(recipe).process.hydrometer_in_water.value == 0.997
    assert pitch.code == "pitch"


def test_a_caller_is_told_amounts_by_mass_balance_and_nothing_is_changed():
    kit = beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 9.0, (ExtractStated(3.0),)))
    points = kit.planned_points / 1.2
    found = cures(
        posterior(kit, (CauseCode.VOLUME,), 1.2, None, 0.0, points), Asked((SETTLED,)), kit
    )
    adding = next(each for each in found if adds(each))
    assert adding.title.text.endswith("Add 500 g Light dry malt extract")
    assert adding.after["original_gravity"].value == pytest.approx(1.046, abs=1e-3)
    assert "bitterness_ibu" not in adding.after
    assert all((each.edit, each.settings, each.changes) == (None, {}, ()) for each in found)


def test_fermenters_of_a_plan_are_cured_by_themselves():
    recipe = brewed("plan")
    sample = replace(SETTLED, fermenter=2)
    found = cured(recipe, sample, factor=0.9)
    (leave,) = [each for each in found if each.code == "leave:volume"]
    assert leave.settings == {"fermenters.2.top_up_to": "9 L"}
    made = leave.edit.apply(recipe)
    assert fermenters_of(made)[0] == fermenters_of(recipe)[0]
    assert filled(made, 2).total_l == pytest.approx(9.0, abs=0.01)


@pytest.mark.parametrize(
    ("of_sample", "of_process", "why"),
    [
        ({"sample_c": None}, {}, "First say how warm the sample is."),
        ({"sample_c": 41.0}, {}, "First cool the sample to 20 °C and read again."),
        ({"stirred": Stirred.LITTLE}, {}, "First stir hard and read again."),
        ({"stirred": Stirred.UNKNOWN}, {}, "First stir hard and read again."),
        ({}, {"bottle": Bottle.NOT_FOR_PRESSURE},
         "Not for these bottles: they bear no pressure. Choose others first."),
    ],
)  # fmt: skip
def test_what_adds_anything_is_shown_but_off_and_says_what_comes_first(of_sample, of_process, why):
    recipe = with_fermenter(
        brewed("harbour_lamp_porter"), 60.0, package=Package.BOTTLES, **of_process
    )
    sample = replace(SETTLED, **of_sample)
    for causes, factor, share in (
        ((CauseCode.VOLUME,), 1.1, 0.0), ((CauseCode.VOLUME,), 0.9, 0.0),
        ((CauseCode.MISSING_EXTRACT,), 1.0, -1.0), ((CauseCode.MISWEIGHED,), 1.0, -0.5),
    ):  # fmt: skip
        adding, left = cured(recipe, sample, causes, factor, share=share)
        assert adding.off.text == why
        assert left.off is None


def test_wort_that_read_otherwise_once_it_was_stirred_has_to_be_read_again():
    recipe = with_fermenter(brewed("harbour_lamp_porter"), 60.0)
    sample = replace(SETTLED, stirred=Stirred.LITTLE)
    for test in (TestCode.STIR, TestCode.TOP_AND_BOTTOM):
        for found, is_off in ((True, True), (False, False)):
            adding, _ = cured(recipe, sample, answers=(Answer(test, changed=found),))
            assert (adding.off is not None) is is_off
