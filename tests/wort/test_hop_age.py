"""What hops lose while they are kept, against the published formulas and what was measured."""

import pytest

from designer.wort.hop_age import (
    BARRIER,
    OPEN,
    SEALED,
    ageing_per_day,
    alpha_kept,
    bitterness_kept,
)

MONTH_DAYS = 365.25 / 12


@pytest.mark.parametrize(
    ("temp_c", "packing", "months", "lost_percent"),
    [
        (20.0, OPEN, 6, (15, 30, 50)),
        (20.0, SEALED, 3, (6, 13, 23)),
        (5.0, BARRIER, 12, (8, 17, 30)),
        (-18.0, BARRIER, 12, (3, 6, 11)),
    ],
)
def test_hops_lose_by_warmth_packing_and_variety(temp_c, packing, months, lost_percent):
    """Computed from Garetz, BrewingTechniques 2(1), 1994, for varieties that lose 15, 30 and 50 %
    in half a year at 20 °C in the open."""
    for half_a_year, lost in zip((0.15, 0.30, 0.50), lost_percent, strict=True):
        rate = ageing_per_day(temp_c, packing, half_a_year)
        kept = alpha_kept(rate * months * MONTH_DAYS)
        assert 100.0 * (1.0 - kept) == pytest.approx(lost, abs=1.2)


def test_fifteen_degrees_warmer_ages_twice_as_fast():
    """Source: Garetz, as above."""
    assert ageing_per_day(35.0, OPEN) == pytest.approx(2.0 * ageing_per_day(20.0, OPEN))


def test_fresh_hops_have_all_their_alpha_acid_and_old_ones_some_bitterness():
    """Six tenths of the loss are lost to bitterness; judgement."""
    assert alpha_kept(0.0) == bitterness_kept(1.0) == 1.0
    assert bitterness_kept(0.5) == pytest.approx(0.7)
    assert bitterness_kept(0.0) == pytest.approx(0.4)
