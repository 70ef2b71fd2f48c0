"""What a log says of the kitchen's figures: by the day, and outright."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.explaining.asked import (
    Answer,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.learning.figures import Figure
from designer.brewday.measured.readings import By, Measured, Reading
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.units import ShownUnits
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.brew.sample_values import values_of_answer, values_of_sample
from designer.workbench.learning.observations import observations_of
from designer.wort.density import plato_from_gravity
from tests.taught_kitchen import FIRST, log, porter

BEGAN = Entry("a", Instant(FIRST), What.BEGAN, {"start_min": 540, "shown": "metric"})


def said(entries, recipe=None):
    """What a log says, by figure."""
    recipe = porter() if recipe is None else recipe
    first = brewing_of(recipe, (), entries)
    steps = reckoned(first, ShownUnits.METRIC, ranges=False).steps
    return {each.figure: each for each in observations_of("b", brewing_of(recipe, steps, entries))}


def read(number, what, value, by=By.SCALE, at=FIRST + 3600.0):
    reading = values_of(Reading(what, value, by))
    return Entry(f"r{number}", Instant(at), What.READING, {"reading": reading, "typed": f"{value}"})


def sample(number, at=FIRST + 5000.0, **told):
    values = {"sample": values_of_sample(GravitySample(**told)), "typed": ""}
    return Entry(f"s{number}", Instant(at), What.SAMPLE, values)


def known(**fields):
    recipe = porter()
    return replace(recipe, process=replace(recipe.process, **fields))


def test_two_volumes_of_a_boil_say_what_the_day_would_have_shown_with_that_evaporation():
    """The day run with 1.2 L/h is read without error: that is what the readings then say."""
    really = brew(known(evaporation=typed(Kind.EVAPORATION, 1.2)))
    hot = 1.0 / 0.9584  # kg/L of water at 100 °C: CRC handbook, from memory; wort is like it
    start, end = float(really.pot.boil_start_l) * hot, float(really.pot.boil_end_l) * hot
    found = said([BEGAN, read(1, Measured.BOIL_START_VOLUME, start, By.MARK),
                  read(2, Measured.BOIL_END_VOLUME, end, By.MARK)])[Figure.EVAPORATION]  # fmt: skip
    assert found.subject == "Kitchen pot"
    assert found.value == pytest.approx(1.2, abs=0.08)
    assert 0.05 < found.spread < 0.4


def test_what_is_believed_does_not_count_again_with_each_brew():
    """A brew says the same whatever was believed, but for where the day bends."""
    entries = log(0, start=6.9, end=5.8)
    usual = said(entries)[Figure.EVAPORATION]
    sure = said(entries, known(evaporation=replace(typed(Kind.EVAPORATION, 0.6), spread=0.02)))
    assert sure[Figure.EVAPORATION].value == pytest.approx(usual.value, rel=0.05)


def test_what_was_weighed_in_the_pot_and_out_of_it_says_what_is_left():
    readings = (read(1, Measured.BOIL_END_VOLUME, 5.9), read(2, Measured.INTO_FERMENTER, 5.0))
    less = (read(1, Measured.BOIL_END_VOLUME, 5.9), read(2, Measured.INTO_FERMENTER, 4.8))
    first = said([BEGAN, *readings])[Figure.LEFT_IN_POT]
    second = said([BEGAN, *less])[Figure.LEFT_IN_POT]
    assert second.value - first.value == pytest.approx(0.2, abs=0.03)
    assert first.spread < 0.25


def test_a_beer_that_stays_where_it_is_says_how_far_its_yeast_ferments():
    done = said(log(0, og=1.046, fg=1.0130))[Figure.ATTENUATION]
    dry = said(log(0, og=1.046, fg=1.0100))[Figure.ATTENUATION]
    assert done.subject == "Dry English ale yeast"
    apparent = 1.0 - 0.0030 / 0.046
    assert dry.value - done.value == pytest.approx(1.0 - apparent, rel=0.2)


def test_a_beer_that_still_ferments_says_nothing_of_its_yeast():
    day = 86_400.0
    falling = [BEGAN, Entry("c", Instant(FIRST + 9000.0), What.FINISHED)]
    falling += [
        sample(n, FIRST + days * day, shown=gravity, sample_c=20.0, taken=Taken.FERMENTING)
        for n, (days, gravity) in enumerate(((6.0, 1.020), (8.0, 1.016)))
    ]
    early = [BEGAN, Entry("c", Instant(FIRST + 9000.0), What.FINISHED)]
    early += [
        sample(n, FIRST + days * day, shown=1.030, sample_c=20.0, taken=Taken.FERMENTING)
        for n, days in enumerate((1.0, 2.1))
    ]
    assert Figure.ATTENUATION not in said(falling)
    assert Figure.ATTENUATION not in said(early)


def test_the_time_from_the_end_of_the_boil_to_cool_wort_says_how_fast_the_pot_cools():
    recipe = known(cooling_constant=typed(Kind.RATE, 0.045), cool_to=typed(Kind.TEMPERATURE, 40.0))
    minutes = float(brew(recipe).fermenter.cooling_min)
    asked = known(cool_to=typed(Kind.TEMPERATURE, 40.0))
    off = [BEGAN, Entry("e", Instant(FIRST + 4000.0), What.DONE, {"step": "boil 1/flame-out"})]
    cooled = read(1, Measured.COOLED, 40.0, By.THERMOMETER, FIRST + 4000.0 + 60.0 * minutes)
    found = said([*off, cooled], asked)[Figure.COOLING]
    assert found.value == pytest.approx(0.045, rel=0.06)
    assert Figure.COOLING not in said([*off, replace(cooled, by_guess=True)], asked)
    coil = replace(asked, process=replace(asked.process, cooling="coil"))
    assert Figure.COOLING not in said([*off, cooled], coil)


def test_a_hydrometer_that_was_floated_in_water_says_its_offset():
    checked = Answer(TestCode.WATER_CHECK, value=1.002)
    entry = Entry("w", Instant(FIRST + 1.0), What.ANSWERED, values_of_answer(checked))
    found = said([BEGAN, entry])[Figure.HYDROMETER]
    assert (found.value, found.subject) == (1.002, "")
    assert found.spread == pytest.approx(0.0003, rel=0.05)


def test_a_pair_of_readings_of_one_wort_says_the_refractometer_s_factor():
    """°Bx over °P, as the factor is defined: see `wort/refractometer`."""
    brix = {"shown": 12.0, "scale": Scale.BRIX, "by": By.REFRACTOMETER}
    pair = [BEGAN, sample(1, shown=1.0463, sample_c=20.0), sample(2, **brix)]
    found = said(pair)[Figure.WORT_CORRECTION]
    assert found.value == pytest.approx(12.0 / float(plato_from_gravity(1.0463)))
    later = [BEGAN, sample(1, shown=1.0463, sample_c=20.0), sample(2, FIRST + 90_000.0, **brix)]
    assert Figure.WORT_CORRECTION not in said(later)


def test_a_mixed_sample_stands_for_the_original_gravity_where_none_was_read():
    mixed = sample(1, shown=1.046, sample_c=20.0, stirred=Stirred.HARD)
    layered = sample(1, shown=1.046, sample_c=20.0, stirred=Stirred.NO)
    assert "hydrometer" in dict(said([BEGAN, mixed])[Figure.LEFT_IN_POT].shared)
    assert said([BEGAN, layered]) == {}


def test_the_brewer_s_word_on_a_figure_goes_with_it():
    left = Entry("k", Instant(FIRST + 9e6), What.COUNTS, {"figure": "evaporation", "counts": False})
    found = said([*log(0, start=6.9, end=5.8, moved=5.2), left])
    assert found[Figure.EVAPORATION].counts is False
    assert found[Figure.LEFT_IN_POT].counts is None


def test_what_puts_brews_off_alike_is_told_by_its_name():
    found = said(log(0, start=6.9, end=5.8, moved=5.2, og=1.046))
    names = dict(found[Figure.EXTRACT_BIAS].shared)
    assert "hydrometer" in names
    assert any(name.startswith("fermenter mark") for name in names)
    assert not any(name.startswith("solids") for name in names), "it stands for them"


def test_a_day_that_never_began_and_one_without_readings_say_nothing():
    assert said([BEGAN]) == {}
    assert observations_of("b", brewing_of(porter(), (), ())) == ()


def test_a_pot_from_which_nothing_boils_away_is_no_fault():
    dry = known(evaporation=typed(Kind.EVAPORATION, 0.0))
    assert said(log(0, start=6.9, end=5.8), dry)[Figure.EVAPORATION].value > 0.5
