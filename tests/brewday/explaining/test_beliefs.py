"""What a day says there is to be read, of every fermenter."""

from dataclasses import replace

import pytest

from designer.brewday.explaining.asked import Asked, GravitySample, Scale, Stirred, Taken
from designer.brewday.explaining.beliefs import beliefs_of, outlook_to_explain
from designer.brewday.explaining.corrected import corrected_samples
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.explaining.weighed import weighed
from designer.brewday.measured.readings import By, Measured, Reading
from designer.recipe.document import PlannedFermenter
from designer.recipe.kinds import typed
from designer.recipe.plan import wort_share
from designer.recipe.quantity import Kind


def two_fermenters(recipe):
    def fermenter(share, mark):
        mark_l = typed(Kind.VOLUME, mark)
        return PlannedFermenter(recipe.fermenter, (wort_share(1, share),), top_up_to=mark_l)

    return replace(recipe, fermenters=(fermenter(0.5, 5), fermenter(0.5, 6.5)))


def test_the_samples_are_those_of_the_forecast(porter):
    outlook = outlook_to_explain(porter, ())
    found, told = beliefs_of(outlook), outlook.forecasts["original_gravity"]
    low, high = (1000.0 * (each - 1.0) for each in (told.low, told.high))
    inside = ((found.points >= low) & (found.points <= high)).mean()
    assert inside == pytest.approx(0.9, abs=0.04)  # the range is steadied, the samples are not
    assert found.expected == told
    assert found.bitterness_ibu == outlook.forecasts["bitterness_ibu"].value


def test_lines_bring_all_the_points_there_are(porter):
    found = beliefs_of(outlook_to_explain(porter, ()))
    assert sum(each.points for each in found.lines) == pytest.approx(found.planned_points)
    assert [each.name for each in found.lines] == [each.name for each in porter.fermentables]


def test_a_volume_that_was_read_counts_and_the_gravity_to_be_explained_does_not(porter):
    readings = (
        Reading(Measured.TOPPED_UP, 12.0, By.MARK),
        Reading(Measured.ORIGINAL_GRAVITY, 1.060, By.HYDROMETER),
    )
    plain = beliefs_of(outlook_to_explain(porter, ()))
    found = beliefs_of(outlook_to_explain(porter, readings))
    assert found.planned_l == pytest.approx(12.0)
    assert found.points.mean() == pytest.approx(plain.points.mean() * 10.0 / 12.0, abs=0.3)


def test_each_fermenter_of_a_plan_has_its_own(porter):
    recipe = two_fermenters(porter)
    outlook = outlook_to_explain(recipe, ())
    strong, weak = (beliefs_of(outlook, fermenter=number) for number in (1, 2))
    assert strong.points.mean() > weak.points.mean() + 5.0
    for number, found in ((1, strong), (2, weak)):
        told = outlook.plan.fermenters[number - 1]
        assert found.planned_l == pytest.approx(told.total_l)
        assert found.points.mean() == pytest.approx(
            1000.0 * (told.forecasts["original_gravity"].middle - 1.0), abs=0.5
        )


def test_only_the_gravity_of_the_fermenter_asked_about_is_left_out(porter):
    recipe = two_fermenters(porter)
    second = Reading(Measured.ORIGINAL_GRAVITY, 1.040, By.HYDROMETER, fermenter=2)
    plain = beliefs_of(outlook_to_explain(recipe, ()), fermenter=2)
    of_first = beliefs_of(outlook_to_explain(recipe, (second,), fermenter=1), fermenter=2)
    of_second = beliefs_of(outlook_to_explain(recipe, (second,), fermenter=2), fermenter=2)
    assert of_first.points.std() < 0.8 * plain.points.std()
    assert of_second.points.std() == pytest.approx(plain.points.std())


def test_alcohol_follows_the_wort_and_bitterness_its_volume(porter):
    found = beliefs_of(outlook_to_explain(porter, ()))
    assert found.abv_of(found.planned_points) == pytest.approx(found.abv_percent)
    assert found.abv_of(0.8 * found.planned_points) == pytest.approx(
        0.8 * found.abv_percent, rel=0.03
    )
    assert found.bitterness_of(1.25) == pytest.approx(found.bitterness_ibu / 1.25)
    assert found.bitterness_of(1.0, 0.4) == pytest.approx(0.6 * found.bitterness_ibu)


def test_without_its_sugar_a_beer_is_weaker_than_its_gravity_alone_says(porter):
    lines = (ExtractStated(1.7, "hopped kit extract"), ExtractStated(1.0, "sugar"))
    found = beliefs_of_kit(KitStated(20.0, pot_l=8.0, extract=lines))
    left = found.planned_points - found.lines[1].points
    assert found.abv_of(left, 1, -1.0) < 0.9 * found.abv_of(left)
    # The recipe without the line, brewed by the same simulation, says the same.
    recipe = replace(porter, fermentables=(*porter.fermentables[:1], *porter.fermentables[2:]))
    brewed = beliefs_of(outlook_to_explain(recipe, ()))
    meant = beliefs_of(outlook_to_explain(porter, ()))
    told = meant.abv_of(brewed.planned_points, 1, -1.0)
    assert told == pytest.approx(brewed.abv_percent, abs=0.06)


def test_wort_of_the_pot_is_held_against_the_pot(porter):
    found = beliefs_of(outlook_to_explain(porter, (), in_pot=True))
    in_pot = found.expected_in_pot.value
    assert in_pot > found.expected.value + 0.02
    asked = Asked((GravitySample(in_pot, sample_c=20.0, taken=Taken.POT),))
    assert weighed(asked, found).leading.code is CauseCode.NOTHING_WRONG
    assert weighed(asked, found).of(CauseCode.NOT_MIXED) == 0.0


def test_too_little_in_the_pot_is_put_right_by_topping_up(porter):
    found = beliefs_of(outlook_to_explain(porter, (), in_pot=True))
    strong = found.expected_in_pot.value + 0.02
    asked = Asked((GravitySample(strong, sample_c=20.0, taken=Taken.POT),), pot_l=4.7)
    leading = weighed(asked, found).leading
    assert leading.code is CauseCode.VOLUME
    assert leading.points == pytest.approx(found.points.mean(), abs=1.0)


def test_what_the_kitchen_taught_of_marks_and_refractometer_counts(porter):
    fermenter = replace(porter.fermenter, marks_hold=typed(Kind.NUMBER, 1.05))
    process = replace(porter.process, wort_correction=typed(Kind.NUMBER, 1.02))
    known = replace(porter, fermenter=fermenter, process=process)
    found = beliefs_of(outlook_to_explain(known, ()))
    assert found.planned_l == pytest.approx(10.5)
    # Filled to the mark of 10 L it stands there, whatever that holds.
    low = GravitySample(1.037, sample_c=20.0, stirred=Stirred.HARD)
    at_mark, not_there = (weighed(Asked((low,), mark_l=each), found) for each in (10.0, 10.6))
    assert at_mark.of(CauseCode.VOLUME) < not_there.of(CauseCode.VOLUME)
    (sample,) = corrected_samples(Asked((GravitySample(10.2, Scale.BRIX),)), found)
    assert sample.points == pytest.approx(40.0, abs=0.1)  # 10 °P
