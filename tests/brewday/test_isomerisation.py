"""The clock of isomerisation: backwards for each hop, forwards for the pot, the same bitterness."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.brewday.isomerisation import IsoClock, SampledClock
from designer.brewday.pot import Contents
from designer.wort.bitterness import tinseth_utilisation

stretches = st.lists(st.tuples(st.floats(0, 500), st.floats(0.3, 1.65)), min_size=1, max_size=12)


@given(stretches, st.lists(st.floats(0, 5000), min_size=12, max_size=12))
def test_hop_by_hop_and_pot_as_a_whole_agree(passed, alphas):
    clock = IsoClock(4.15)
    positions = []
    for (minutes, bigness), alpha in zip(passed, alphas, strict=False):
        positions.append((clock.add_hops(alpha), alpha))
        clock.run(minutes, bigness)
    utilisations = clock.utilisations()
    each = sum(alpha * utilisations[position] for position, alpha in positions)
    assert each == pytest.approx(clock.iso_mg, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("cuts", [[60.0], [20.0, 40.0], [5.0] * 12])
def test_cutting_an_hour_changes_nothing(cuts):
    """Source: Tinseth; one hour at 1.050 gives 0.2306 of the alpha acid."""
    clock = IsoClock(4.15)
    clock.add_hops(1.0)
    for minutes in cuts:
        clock.run(minutes, 1.65 * 0.000125**0.050)
    assert clock.iso_mg == pytest.approx(float(tinseth_utilisation(1.050, 60.0)), rel=1e-12)


def test_a_late_hop_in_a_day_long_boil_keeps_its_figures():
    clock = IsoClock(4.15)
    clock.run(1440.0, 1.0)
    late = clock.add_hops(1.0)
    clock.run(5.0, 1.0)
    exact = -__import__("math").expm1(-0.2) / 4.15
    assert clock.utilisations()[late] == pytest.approx(exact, rel=1e-12)


def test_the_clock_of_samples_tells_what_that_of_each_sample_tells():
    """Stretches of two kinds, hops and bitterness in between, and a part poured off at the end."""

    def boiling(wort, state):
        (minutes,) = state
        return minutes, 1.0 - 0.1 * wort.extract_kg

    def standing(wort, state):
        minutes, rate = state
        return minutes * rate, 1.0 - wort.extract_kg / wort.water_kg

    samples = np.array([0.5, 1.0, 1.5])

    def passed(clock, of):
        positions = []
        for number in range(6):
            pot = Contents(of * (1.0 + 0.1 * number), 9.0 - number)
            positions.append(clock.add_hops(of * 1000.0))
            if number % 3:
                clock.let_pass(boiling, pot, (10.0 * of,))
            else:
                clock.let_pass(standing, pot, (5.0 * of, 0.4))
            assert clock.position == number + 1
        clock.add_iso(70.0)
        return clock, positions

    together, positions = passed(SampledClock(4.15), samples)
    alone = [passed(IsoClock(4.15), float(of))[0] for of in samples]
    for position in positions:
        wanted = [clock.utilisations()[position] for clock in alone]
        assert together.utilisations()[position] == pytest.approx(wanted, rel=1e-12)
        minutes = [clock.minutes_since(position) for clock in alone]
        assert together.minutes_since(position) == pytest.approx(minutes, rel=1e-12)
    for share in (0.0, 0.25):
        for clock in (together, *alone):
            clock.pour_off(share)
        wanted = [clock.bitterness_mg() for clock in alone]
        assert together.bitterness_mg() == pytest.approx(wanted, rel=1e-12)
    together.let_pass(boiling, Contents(1.0, 9.0), (20.0 * samples,))
    assert len(together.utilisations()) == 8
