"""What a kitchen can weigh and measure, and what its vessels are filled with.

A pot of 9 L is filled to four fifths with what may foam. Shares and times are judgement or common
practice, no source. A litre at 1.100 holds 0.261 kg of extract (23.8 °P).
"""

import pytest

from designer.brewday.first.kitchen import (
    Scale,
    batch_for,
    boil_minutes,
    gives_wort,
    step_for,
    whole_batch,
    wort_l,
)
from designer.recipe.document import Recipe
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from tests.brewday.first.larders import kitchen

STEPS = ((2.0, 0.1), (0.5, 0.05), (0.0, 0.01))
SCALE = Scale(STEPS, STEPS, STEPS, 0.5, str, str, str)


def pot(size_l=9.0, fermenter_l=30.0, evaporation=2.0, left_l=0.0):
    return kitchen(
        size_l,
        fermenter_l,
        evaporation=typed(Kind.EVAPORATION, evaporation),
        left_in_pot=typed(Kind.VOLUME, left_l),
    )


@pytest.mark.parametrize(
    ("kg", "step", "weighed"),
    [
        (3.26, 0.1, 3.3),
        (2.0, 0.1, 2.0),
        (1.97, 0.05, 1.95),
        (0.5, 0.05, 0.5),
        (0.487, 0.01, 0.49),
        (0.001, 0.01, 0.01),
    ],
)
def test_an_amount_is_weighed_in_the_steps_of_its_size_one_at_the_least(kg, step, weighed):
    assert step_for(kg, STEPS) == step
    assert SCALE.weighed(kg, STEPS) == pytest.approx(weighed)


@pytest.mark.parametrize(("litres", "measured"), [(5.9, 5.5), (6.0, 6.0), (0.7, 0.5), (0.1, 0.5)])
def test_water_is_measured_down_to_a_whole_step(litres, measured):
    assert SCALE.measured_down(litres) == pytest.approx(measured)
    assert SCALE.measured_down(3 * 0.5 - 1e-9) == pytest.approx(1.5)


@pytest.mark.parametrize(
    ("litres", "batch"),
    [(10.4, 10.0), (4.6, 4.5), (4.0, 4.0), (3.99, 3.9), (1.26, 1.2), (0.4, 1.0), (4.5, 4.5)],
)
def test_a_batch_is_half_litres_or_tenths_of_little_and_a_litre_at_least(litres, batch):
    assert whole_batch(litres) == pytest.approx(batch)


def test_no_more_than_a_third_of_the_water_is_boiled_away_in_whole_quarters():
    assert boil_minutes(pot(evaporation=2.0), 5.0) == 45.0  # 0.35 × 5 L at 2 L/h: 52 min
    assert boil_minutes(pot(evaporation=2.0), 4.2) == 30.0
    assert boil_minutes(pot(evaporation=2.0), 4.3) == 45.0
    assert boil_minutes(pot(evaporation=2.0), 1.0) == 30.0
    assert boil_minutes(pot(evaporation=0.0), 1.0) == 60.0


def test_a_pot_gives_what_is_below_its_foam_line_less_the_steam_of_half_an_hour():
    assert wort_l(pot(evaporation=2.0)) == pytest.approx(6.2)
    assert wort_l(pot(evaporation=3.0)) == pytest.approx(5.7)
    assert wort_l(pot(size_l=1.0, evaporation=2.0)) == pytest.approx(0.1)
    assert wort_l(Recipe()) == pytest.approx(0.1)


def test_a_strong_beer_is_as_much_as_the_pot_has_extract_for():
    """0.45 kg for a litre of 6.2: 2.79 kg, 10.7 L at 1.100."""
    assert batch_for(pot(), 1.100, None) == 10.5
    assert batch_for(pot(), 1.050, None) == pytest.approx(21.5, abs=0.5)
    assert batch_for(pot(), 1.100, 9.3) == 9.3
    assert batch_for(pot(), 1.100, 12.0) == 10.5


def test_what_stays_behind_beyond_the_usual_makes_no_beer():
    """Half of 6.2 L more than the usual 0.3 L leaves half of the extract."""
    assert batch_for(pot(left_l=0.3), 1.100, None) == 10.5
    assert batch_for(pot(left_l=3.4), 1.100, None) == 5.0
    assert batch_for(pot(left_l=6.4), 1.100, None) == 1.0


def test_a_pot_whose_wort_stays_in_it_gives_none():
    """A third of what is below the foam line, 0.7 L at the least, has to come out of it."""
    assert gives_wort(pot(left_l=4.0))
    assert not gives_wort(pot(left_l=4.1))
    small = {"size_l": 2.0, "evaporation": 0.2}
    assert gives_wort(pot(left_l=0.79, **small))
    assert not gives_wort(pot(left_l=0.81, **small))
    assert not gives_wort(Recipe())
