"""From an odd reading in the log to the cured beer: day, steps and forecasts follow the cure."""

from dataclasses import replace

import pytest

from designer.brewday.explaining.asked import Asked, GravitySample, Stirred
from designer.brewday.explaining.beliefs import beliefs_of, outlook_to_explain
from designer.brewday.explaining.explain import explained
from designer.brewday.measured.readings import By, Measured, Reading
from designer.library.recipe_file import load
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.units import ShownUnits
from designer.workbench.brew.as_brewed import as_brewed, readings_as_brewed
from designer.workbench.brew.entries import What
from designer.workbench.brew.log_lines import words_of
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.brew.sample_values import values_of_sample
from tests.workbench.brew.brew_days import BrewDay

LEVEL_L = 11.8


@pytest.fixture
def day():
    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    vessel = replace(porter.fermenter, volume=typed(Kind.VOLUME, 15.0))
    return BrewDay(replace(porter, fermenter=vessel))


def told(day, sample):
    """What the program says of a sample as the brew stands."""
    brewing = day.now
    recipe, readings = as_brewed(brewing.recipe, brewing), readings_as_brewed(brewing)
    beliefs = beliefs_of(outlook_to_explain(recipe, readings))
    return explained(Asked((sample,), mark_l=LEVEL_L), beliefs, recipe)


def forecasts(day):
    return reckoned(day.now, ShownUnits.METRIC, advice=False).outlook.forecasts


def cure(day, found):
    return day.write(
        What.CURED,
        cure=found.code,
        changes=[dict(each) for each in found.changes],
        said=found.title.text,
    )


def test_a_cure_taken_at_the_stove_is_the_beer_that_was_promised(day):
    day.do_until("fermenter 1/top-up after boil 1")
    planned = forecasts(day)
    sample = GravitySample(1.038, sample_c=20.0, stirred=Stirred.HARD)
    day.write(What.SAMPLE, sample=values_of_sample(sample), typed="1.038 at 20 °C")
    read = forecasts(day)  # a sample of mixed wort is the original gravity
    assert read["original_gravity"].value == pytest.approx(1.039, abs=2e-3)
    answer = told(day, sample)
    assert answer.verdict == "volume"
    adding, left = (each for each in answer.cures if each.code.endswith(":volume"))
    taken = cure(day, adding)
    cured = forecasts(day)
    for key, promised in adding.after.items():
        assert cured[key].value == pytest.approx(promised.value, rel=1e-6), key
    assert cured["original_gravity"].value == pytest.approx(
        planned["original_gravity"].value, abs=1e-3
    )
    found = reckoned(day.now, ShownUnits.METRIC, advice=False)
    assert any("Light dry malt extract" in each.title and each.key.startswith("fermenter 1/")
               for each in found.steps)  # fmt: skip
    assert words_of(day.now, taken).text.startswith("Done about it: Add ")
    day.write(What.TAKES_BACK, entry=taken)
    assert forecasts(day) == read
    cure(day, left)
    as_it_is = forecasts(day)["original_gravity"].value
    assert as_it_is == pytest.approx(left.after["original_gravity"].value, abs=1e-6)
    assert as_it_is < planned["original_gravity"].value - 5e-3


def test_a_level_read_before_a_cure_is_that_of_the_wort_before_it(day):
    day.do_until("fermenter 1/top-up after boil 1")
    answer = told(day, GravitySample(1.038, sample_c=20.0, stirred=Stirred.HARD))
    day.read(Reading(Measured.TOPPED_UP, LEVEL_L, By.MARK), "11.8 L")
    day.read(Reading(Measured.ORIGINAL_GRAVITY, 1.038, By.HYDROMETER), "1.038")
    before = forecasts(day)["original_gravity"].value
    assert before < 1.040
    cure(day, next(each for each in answer.cures if each.code.startswith("add_extract")))
    (level,) = readings_as_brewed(day.now)  # the gravity is that of another wort now
    mark = as_brewed(day.recipe, day.now).process.top_up_to.value
    assert level.value == pytest.approx(mark, abs=0.005)
    assert level.value > LEVEL_L + 0.05
    assert forecasts(day)["original_gravity"].value == pytest.approx(before + 0.007, abs=1.5e-3)
