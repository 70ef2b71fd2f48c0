"""Cures of a kit on the phone, by explanations as given: amounts by mass balance, gates in words.

Points of sucrose 385.6 L/kg (46.2 points of a pound in a US gallon) and 0.63 L that a kilogram of
extract takes up in solution (both common practice) give the amounts within some hundredths.
"""

from dataclasses import replace

import pytest

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.explaining.cure_wort import balanced, wort_of
from designer.brewday.explaining.cures import cures, is_mixed, remaining, unsettled
from designer.brewday.explaining.explained import CauseCode, Verdict
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.explaining.posterior import Posterior, Weighed
from designer.brewday.measured.readings import By

C, T = CauseCode, TestCode
POINTS_A_KG = 385.6 * 0.965 - 0.63 * 46.0
"""What a kilogram of dry extract makes up in wort of 1.046, the litres that it brings included."""
SETTLED = {"sample_c": 20.0, "stirred": Stirred.HARD}


@pytest.fixture(scope="module")
def kit():
    extract = ExtractStated(1.7), ExtractStated(1.0, "dry extract")
    return beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 9.0, extract, bitterness_ibu=30.0))


def part(probability, *causes, points=46.0, **more):
    return Weighed(causes, probability, points, **more)


def asked(*answers, **sample):
    return Asked((GravitySample(1.040, **{**SETTLED, **sample}),), answers=answers)


def cured(kit, *parts, question=None, verdict="", **more):
    found = Posterior(tuple(parts), 40.0, 0.0, 46.0, **more)
    return {each.code: each for each in cures(found, question or asked(), kit, None, verdict)}


def grams(cure):
    figure, unit = cure.title.text.split()[1:3]
    return float(figure) * {"g": 1.0, "kg": 1000.0}[unit]


THIN = part(0.99, C.VOLUME, points=40.0, volume_factor=46.0 / 40.0)
THICK = part(0.99, C.VOLUME, points=52.0, volume_factor=46.0 / 52.0)


def test_a_thin_wort_gets_dry_extract_that_brings_its_points_back(kit):
    found = cured(kit, THIN)
    assert list(found) == ["add_extract:volume", "leave:volume"]
    add, leave = found.values()
    assert grams(add) == pytest.approx(1000.0 * 23.0 * 6.0 / POINTS_A_KG, rel=0.02)
    assert "dry" in add.title.text
    assert add.after["original_gravity"].value == pytest.approx(1.046, abs=2e-4)
    assert "Boil it 5 minutes in 1 L of the wort" in add.words.text
    assert "Never add sugar or extract on one reading." in add.words.text
    assert leave.words.text == "A weaker beer; nothing to do or to buy."
    assert leave.after["original_gravity"].value == pytest.approx(1.040)
    assert leave.after["bitterness_ibu"].value == pytest.approx(30.0 * 40.0 / 46.0)
    assert add.edit is None
    assert add.off is None


def test_a_whole_packet_is_taken_that_lands_within_a_point(kit):
    little = part(0.99, C.VOLUME, points=36.2, volume_factor=46.0 / 36.2)
    add = cured(kit, little)["add_extract:volume"]
    wanted = 20.0 * 46.0 / 36.2 * 9.8 / POINTS_A_KG  # 0.73 kg: a packet is 5 points away
    assert grams(add) == pytest.approx(1000.0 * wanted, rel=0.02)
    near = part(0.99, C.VOLUME, points=39.0, volume_factor=46.0 / 39.0)
    assert pytest.approx(0.48, abs=0.01) == 20.0 * 46.0 / 39.0 * 7.0 / POINTS_A_KG
    assert grams(cured(kit, near)["add_extract:volume"]) == 500.0


def test_a_thick_wort_gets_water_by_points_times_litres(kit):
    found = cured(kit, THICK)
    water = found["add_water:volume"]
    litres = 20.0 * 46.0 / 52.0
    more_l = litres * (52.0 / 46.0 - 1.0)
    assert float(water.title.text.split()[1]) == pytest.approx(more_l, abs=0.15)
    assert "Never add water on one reading." in water.words.text
    assert water.after["original_gravity"].value == pytest.approx(1.046, abs=3e-4)
    assert water.after["bitterness_ibu"].value == pytest.approx(30.0, rel=0.02)
    assert found["leave:volume"].words.text == "A stronger beer; nothing to do."
    in_pot = cured(kit, part(0.99, C.MISWEIGHED, points=52.0, line=0, line_share=0.3),
                   question=asked(taken=Taken.POT))  # fmt: skip
    assert not any(each.startswith("add_water") for each in in_pot)


@pytest.mark.parametrize("points", [44.7, 47.3])
def test_a_point_and_a_half_off_is_left_as_it_is(kit, points):
    assert list(cured(kit, replace(THIN, points=points))) == ["leave:volume"]
    further = 46.0 + 1.3 * (points - 46.0)
    assert len(cured(kit, replace(THIN, points=further))) == 2


def test_what_never_went_in_is_put_in_now(kit):
    forgotten = part(0.99, C.MISSING_EXTRACT, points=30.0, line=1, line_share=-1.0)
    found = cured(kit, forgotten)
    put_in = found["put_in:missing_extract"]
    assert put_in.title.text == "Put in the 1 kg of dry extract that is left"
    half = cured(kit, replace(forgotten, line_share=-0.5))["put_in:missing_extract"]
    assert half.title.text.split()[3:5] in (["0.5", "kg"], ["500", "g"])
    twice = part(0.99, C.MISSING_EXTRACT, points=62.0, line=1, line_share=1.0)
    assert "put_in:missing_extract" not in cured(kit, twice)
    misweighed = part(0.99, C.MISWEIGHED, points=40.0, line=1, line_share=-0.4)
    assert "add_extract:misweighed" in cured(kit, misweighed)
    in_pot = cured(kit, forgotten, question=asked(taken=Taken.POT))["put_in:missing_extract"]
    assert in_pot.words.text.startswith("Stir it into the pot and boil it 5 minutes.")


@pytest.mark.parametrize(
    ("question", "why"),
    [
        (asked(), None),
        (asked(stirred=Stirred.POURED), None),
        (asked(sample_c=None), "First say how warm the sample is."),
        (asked(sample_c=40.5), "First cool the sample to 20 °C and read again."),
        (asked(sample_c=40.0), None),
        (asked(stirred=Stirred.LITTLE), "First stir hard and read again."),
        (asked(taken=Taken.POT, stirred=Stirred.NO), None),
        (asked(Answer(T.STIR, False), stirred=Stirred.NO), None),
        (asked(Answer(T.STIR, True), stirred=Stirred.NO), "First stir hard and read again."),
        (asked(Answer(T.TOP_AND_BOTTOM, value=0.5), stirred=Stirred.NO), None),
        (
            asked(Answer(T.TOP_AND_BOTTOM, value=5.0), stirred=Stirred.NO),
            "First stir hard and read",
        ),
    ],
)
def test_nothing_is_added_before_mixing_and_warmth_are_settled(kit, question, why):
    wort = wort_of(THIN, question, kit, None)
    off = unsettled(question, wort)
    assert off is None if why is None else off.text.startswith(why)
    assert is_mixed(question) is (question.samples[-1].taken is Taken.TOPPED_UP and (
        why is None or "warm" in why or "cool" in why))  # fmt: skip
    assert unsettled(asked(), replace(wort, bears_no_pressure=True)).text.startswith(
        "Not for these"
    )


def test_of_alike_causes_one_cure_and_of_unlikely_ones_none(kit):
    missing = part(0.2, C.MISSING_EXTRACT, points=40.0, line=1, line_share=-0.3)
    alike = part(0.15, C.MISWEIGHED, points=40.0, line=1, line_share=-0.3)
    volume = part(0.5, C.VOLUME, points=40.0, volume_factor=1.15)
    rest = part(0.05, C.HYDROMETER), part(0.1)
    found = remaining(Posterior((volume, missing, alike, *rest), 40.0, 0.0, 46.0))
    assert found == [volume, missing]
    less = replace(volume, probability=0.3)
    bubbles = part(0.04, C.VOLUME, C.BUBBLES, points=41.0)
    both = remaining(Posterior((missing, alike, less, bubbles), 40.0, 0.0, 46.0))
    assert both == [missing, less]  # together 0.35 and 0.34
    nothing = part(0.6)
    assert remaining(Posterior((nothing, volume), 40.0, 0.0, 46.0)) == [nothing, volume]
    other = part(0.9, C.OTHER)
    assert remaining(Posterior((other, volume), 40.0, 0.0, 46.0)) == [volume]


def test_where_several_may_be_at_work_a_cure_says_for_which(kit):
    two = replace(THIN, probability=0.5), part(0.4, C.BUBBLES, points=46.0)
    found = cured(kit, *two)
    assert found["leave:volume"].title.text == "More water than the mark: Leave it as it is"
    assert found["pitch"].title.text == "Pitch the yeast"
    assert cured(kit, THIN)["leave:volume"].title.text == "Leave it as it is"


def test_no_cure_is_offered_where_nobody_can_tell(kit):
    assert cured(kit, THIN, verdict=Verdict.BEYOND) == {}
    assert cured(kit, THIN, too_hot=True) == {}
    even = replace(THIN, probability=0.5), part(0.45, C.HYDROMETER)
    assert cured(kit, *even, verdict=Verdict.CANNOT_TELL) == {}
    missing = part(0.5, C.MISSING_EXTRACT, points=40.0, line=1, line_share=-0.3)
    alike = part(0.45, C.MISWEIGHED, points=40.0, line=1, line_share=-0.3)
    assert cured(kit, missing, alike, verdict=Verdict.CANNOT_TELL)
    fine = cured(kit, part(0.9), verdict=Verdict.FINE)
    assert list(fine) == ["pitch"]


def test_what_is_done_where_the_beer_is_as_meant(kit):
    def first(*causes, **sample):
        return next(iter(cured(kit, part(0.9, *causes), question=asked(**sample))))

    assert first() == "pitch"
    assert first(C.BUBBLES) == "pitch"
    assert first(C.NOT_MIXED) == "stir_and_pitch"
    assert first(C.FERMENTING) == "leave_to_ferment"
    assert first(taken=Taken.FERMENTING) == "leave_to_ferment"
    assert first(C.VOLUME, taken=Taken.FERMENTING) == "leave_to_ferment"
    assert first(taken=Taken.POT) == "go_on"
    assert first(C.VOLUME, taken=Taken.POT) == "go_on"  # it is topped up to the mark anyhow


def test_what_the_hydrometer_shows_in_water_is_written_down_once_it_was_tried(kit):
    off = part(0.9, C.HYDROMETER, hydrometer=-2.6)
    guess = cured(kit, off)["type_hydrometer"]
    assert guess.title.text == "Write down that it shows 0.997 in water"
    assert guess.off.text == "First float it in plain water."
    tried = asked(Answer(T.WATER_CHECK, value=0.996))
    known = cured(kit, off, question=tried)["type_hydrometer"]
    assert (known.title.text, known.off) == ("Write down that it shows 0.996 in water", None)
    by_drop = asked(scale=Scale.BRIX, by=By.REFRACTOMETER)
    assert "type_hydrometer" not in cured(kit, off, question=by_drop)


def test_a_wort_of_other_points_ends_in_step(kit):
    found = balanced(kit, 0.5 * kit.planned_points)
    assert found["final_gravity"] - 1.0 == pytest.approx(0.5 * (kit.final_gravity - 1.0))
    assert found["original_gravity"] == pytest.approx(1.023)
    assert found["abv_percent"] == pytest.approx(0.5 * kit.abv_percent, rel=0.03)
