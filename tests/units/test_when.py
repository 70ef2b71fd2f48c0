"""When something goes in, as a brewer types it."""

from dataclasses import replace

import pytest

from designer.errors import RefusedInputError
from designer.recipe.quantity import Stage, When
from designer.units import ShownUnits, read_when
from designer.units.writing import lasting_when


@pytest.mark.parametrize(
    ("text", "stage"),
    [
        ("steep", Stage.STEEP),
        ("Steep", Stage.STEEP),
        ("first wort", Stage.FIRST_WORT),
        ("flame-out", Stage.FLAME_OUT),
        ("Flame out", Stage.FLAME_OUT),
        ("flameout.", Stage.FLAME_OUT),
        ("fermenter", Stage.FERMENTER),
    ],
)
def test_the_moments_of_the_day_are_known_by_name(text, stage):
    assert read_when(text) == When(stage, text)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("boil 60 min", 60.0),
        ("BOIL  60  MIN.", 60.0),
        ("boil 1 h 15 min", 75.0),
        ("boil 1½ h", 90.0),
        ("boil 7,5 min", 7.5),
        ("60 min", 60.0),
        ("60", 60.0),
        ("boil 0 min", 0.0),
    ],
)
def test_an_addition_to_the_boil_is_told_by_the_minutes_left(text, minutes):
    assert read_when(text) == When(Stage.BOIL, text, minutes)


@pytest.mark.parametrize(
    ("text", "minutes", "celsius"),
    [
        ("stand 20 min at 80 °C", 20.0, 80.0),
        ("stand 15 min at 176 F", 15.0, 80.0),
        ("hop stand 1 h at 75 C", 60.0, 75.0),
        ("stand 20 min at 77", 20.0, 77.0),
        ("whirlpool 20 min at 80 °C", 20.0, 80.0),
        ("Whirlpool 10 min", 10.0, 80.0),
    ],
)
def test_a_hop_stand_has_a_time_and_a_temperature(text, minutes, celsius):
    found = read_when(text)
    assert (found.stage, found.minutes, found.text) == (Stage.STAND, minutes, text)
    assert found.temperature == pytest.approx(celsius)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("dry hop 4 days", 4.0),
        ("dry hop 4 d", 4.0),
        ("dry hop 4", 4.0),
        ("dry-hop 1 week", 7.0),
        ("dry hop 36 h", 1.5),
    ],
)
def test_a_dry_hop_is_told_by_its_days(text, days):
    found = read_when(text)
    assert (found.stage, found.text) == (Stage.DRY_HOP, text)
    assert found.days == pytest.approx(days)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("fermenter 3 days", 3.0),
        ("Fermenter 3 d", 3.0),
        ("fermenter 2", 2.0),
        ("fermenter 1 week", 7),
    ],
)
def test_finings_go_into_the_fermenter_so_many_days_before_packaging(text, days):
    found = read_when(text)
    assert found == When(Stage.FERMENTER, text, days=days)
    assert lasting_when(found) == found
    assert lasting_when(replace(found, text="?")).text == f"fermenter {days:g} days"


def test_nothing_goes_into_the_fermenter_at_packaging():
    with pytest.raises(RefusedInputError, match="fermenter 3 days"):
        read_when("fermenter 0 days")


@pytest.mark.parametrize("text", ["stand 20 min at 176", "stand 20 min at 176 F", "stand 20 min"])
def test_a_stand_typed_under_fahrenheit_means_the_same_to_whoever_opens_the_file(text):
    typed = read_when(text, shown=ShownUnits.US)
    assert typed.temperature == pytest.approx(80.0)
    assert read_when(typed.text) == typed
