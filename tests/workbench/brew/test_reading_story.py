"""Which readings of a gravity count as the original one, told by the log alone."""

import pytest

from designer.brewday.explaining.asked import Answer, GravitySample, Stirred, TestCode
from designer.brewday.measured.readings import Measured
from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.units import ShownUnits
from designer.workbench.brew.as_brewed import readings_as_brewed
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_story import asked_of, gravity_of, is_odd, story_of
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.brew.sample_values import values_of_answer, values_of_sample


def sample(shown, stirred=Stirred.UNKNOWN, **more):
    return GravitySample(shown, sample_c=more.pop("sample_c", 20.0), stirred=stirred, **more)


@pytest.fixture
def log():
    """Return where the porter stands after lines of a log, each what and its values."""
    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))

    def folded(*lines):
        entries = [
            Entry(f"{number:06d}-ab", Instant(1e9 + number), what, values)
            for number, (what, values) in enumerate(lines, 1)
        ]
        return brewing_of(porter, (), entries)

    return folded


def taken(each, **more):
    return What.SAMPLE, {"sample": values_of_sample(each), "typed": f"{each.shown}", **more}


AT_STOVE = (
    What.READING,
    {
        "reading": {"what": "original gravity", "value": 1.0377, "by": "hydrometer"},
        "typed": "1.037 at 24 °C",
    },
)


def gravities(brewing):
    read = readings_as_brewed(brewing)
    return [round(e.value, 4) for e in read if e.what is Measured.ORIGINAL_GRAVITY]


def test_a_reading_at_the_stove_counts_until_a_sample_stands_for_it(log):
    assert gravities(log(AT_STOVE)) == [1.0377]
    (first,) = story_of(log(AT_STOVE)).samples
    assert (first.sample.shown, first.sample.sample_c) == (1.037, 24.0)
    assert gravity_of(first.sample) == pytest.approx(1.0378, abs=2e-4)
    not_mixed = taken(sample(1.037, Stirred.NO, sample_c=24.0), of="000001-ab")
    assert gravities(log(AT_STOVE, not_mixed)) == []
    assert len(story_of(log(AT_STOVE, not_mixed)).samples) == 1
    mixed = taken(sample(1.046, Stirred.HARD))
    assert gravities(log(AT_STOVE, not_mixed, mixed)) == [1.046]
    assert gravities(log(AT_STOVE, mixed, taken(sample(1.030, Stirred.NO)))) == [1.046]


def test_a_sample_that_nobody_stirred_counts_where_the_day_has_it(log):
    fits, off = log(taken(sample(1.045))), log(taken(sample(1.035)))
    known = [
        reckoned(each, ShownUnits.METRIC).outlook.forecasts["original_gravity"]
        for each in (log(), fits, off)
    ]
    planned, counted, not_counted = (each.high - each.low for each in known)
    assert counted < 0.8 * planned
    assert not_counted == pytest.approx(planned)


def test_the_newest_gravity_is_odd_where_no_day_has_it(log):
    planned = reckoned(log(), ShownUnits.METRIC).planned
    assert is_odd(log(AT_STOVE), [planned])
    assert not is_odd(log(AT_STOVE, taken(sample(1.046, Stirred.HARD))), [planned])
    assert not is_odd(log(), [planned]), "nothing was read"
    assert is_odd(log(taken(sample(1.035))), [planned, planned])


def test_what_was_read_before_something_was_added_tells_nothing_of_the_wort_after_it(log):
    mixed = taken(sample(1.038, Stirred.HARD))
    adds = {"cure": "add_extract", "changes": [{"of_fermenter": 1, "raises": 0.008}], "said": "x"}
    cured = log(mixed, (What.CURED, adds))
    assert gravities(cured) == []
    assert story_of(cured).samples == ()
    leaves = {**adds, "cure": "leave", "changes": [{"fermenter": 0, "more_l": 1.0}]}
    left = log(mixed, (What.CURED, leaves))
    assert gravities(left) == [], "what is left as it is says itself what it is"
    assert len(story_of(left).samples) == 1


def test_a_level_read_off_a_mark_is_asked_as_such_and_water_sets_the_hydrometer_right(log):
    level = values_of_answer(Answer(TestCode.WEIGH, value=10.0))
    water = values_of_answer(Answer(TestCode.WATER_CHECK, value=1.002))
    mixed = sample(1.046, Stirred.HARD)
    brewing = log(
        taken(mixed), (What.ANSWERED, {**level, "by": "mark"}), (What.ANSWERED, dict(water))
    )
    asked = asked_of(brewing, mixed, "000001-ab")
    assert asked.mark_l == 10.0
    assert asked.samples == (mixed,)
    assert [each.value for each in asked.answers] == [None, 1.002]
    assert gravities(brewing) == [1.044]
