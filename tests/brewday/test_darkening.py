"""Beers of malt extract come out darker than computed, pale ones by most."""

from dataclasses import replace

import numpy as np
import pytest

from designer.brewday import malt_doubts
from designer.brewday.day import brew, run_day
from designer.brewday.outlook import look_ahead
from designer.brewday.tolerances import Nominal
from designer.recipe.document import Fermentable
from designer.wort.colour import shown_darkening


class Darkened(Nominal):
    """A day as typed, but for extract that has darkened by so much."""

    def __init__(self, by_srm):
        self.by_srm = by_srm

    def doubt(self, doubt, name=""):
        return self.by_srm if doubt is malt_doubts.DARKENING else doubt.published


def colour(recipe, by_srm=0.0):
    return float(run_day(recipe, Darkened(by_srm), noting=False)[0].beer.colour_srm)


def beer(kitchen, *, water=5.0, left=60, **figures):
    malt = Fermentable("Malt", "dry extract", kitchen.q(1.2), kitchen.boil(left),
                       colour=kitchen.q(4), **figures)  # fmt: skip
    process = kitchen.quiet_process(start_water=kitchen.q(water), top_up_to=kitchen.q(10),
                                    boil_time=kitchen.q(60))  # fmt: skip
    return kitchen.recipe(process=process, fermentables=(malt,))


def test_extract_darkens_by_nothing_to_three_srm():
    """Source: wort darkens by half in a boil (J. Inst. Brew., abstract), 2 to 4 EBC in practice;
    extract beers 1 to 4 SRM darker: common practice.
    """
    doubt = malt_doubts.DARKENING
    assert (doubt.published, doubt.low, doubt.middle, doubt.high) == (0.0, 0.0, 1.0, 3.0)
    assert doubt.least == 0.0


def test_the_value_is_the_published_curve_and_the_band_lies_above_it(kitchen):
    recipe = beer(kitchen, left=15)
    plain = float(brew(recipe).beer.colour_srm)
    assert colour(recipe) == plain == pytest.approx(1.4922 * (8.3454 * 4.8 / 10) ** 0.6859)
    assert colour(recipe, 2.0) == pytest.approx(plain + 2.0)
    found = look_ahead(recipe).forecasts["colour_srm"]
    assert found.leans == "higher"
    assert "extract that has darkened" in {cause.key for cause in found.causes}


def test_all_of_it_boiled_in_a_small_pot_darkens_by_half_an_srm_more(kitchen):
    """0.5 SRM, under 8 L; judgement."""
    late = colour(beer(kitchen, left=15), 2.0)
    assert colour(beer(kitchen), 2.0) == pytest.approx(late + 0.5, abs=1e-6)
    assert colour(beer(kitchen, water=7.0), 2.0) == pytest.approx(late + 0.25, abs=1e-3)
    assert colour(beer(kitchen, water=8.0), 2.0) == pytest.approx(late, abs=0.01)
    assert colour(beer(kitchen), 0.0) == pytest.approx(colour(beer(kitchen, left=15)))


@pytest.mark.parametrize(("srm", "share"), [(4, 1.0), (10, 1.0), (15, 0.5), (20, 0.0), (40, 0.0)])
def test_dark_beer_hides_it(srm, share):
    """Below 15 SRM; judgement. The edge is drawn out, so that it is none."""
    assert shown_darkening(srm, 0.12) == pytest.approx(share)
    assert shown_darkening(srm, 0.05) == pytest.approx(0.5 * share)


def test_only_malt_extract_has_been_boiled_before(kitchen):
    sugar = Fermentable("Syrup", "sugar", kitchen.q(1), colour=kitchen.q(8))
    recipe = replace(beer(kitchen), fermentables=(sugar,))
    assert colour(recipe, 3.0) == colour(recipe)
    assert "extract that has darkened" not in {
        cause.key for cause in look_ahead(recipe).forecasts["colour_srm"].causes
    }


@pytest.mark.parametrize("by_srm", [0.0, 1.0, 3.0, 5.0])
def test_more_of_any_malt_never_makes_a_paler_beer(by_srm, kitchen):
    base = beer(kitchen)

    def with_grain(kg, lovibond, kind="steeping grain", extract=0.39):
        grain = Fermentable("Grain", kind, kitchen.q(kg), colour=kitchen.q(lovibond),
                            extract=kitchen.q(extract))  # fmt: skip
        return replace(base, fermentables=(*base.fermentables, grain))

    for lovibond in (1.5, 60, 500):
        shown = [colour(with_grain(kg, lovibond), by_srm) for kg in np.linspace(0.0, 1.5, 31)]
        assert np.all(np.diff(shown) > 0.0)
    for lovibond in (2, 10, 60):
        shown = [
            colour(with_grain(kg, lovibond, "liquid extract", 0.8), by_srm)
            for kg in np.linspace(0.0, 3.0, 31)
        ]
        assert np.all(np.diff(shown) > 0.0)
