"""A first bill holds the wish, fits the pot, and lies inside a style that asks for the like."""

import pytest

from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.brewday.first_bill import Larder, Wish, first_bill
from designer.library.catalogue import (
    find_fermentable,
    find_hop,
    find_style,
    find_yeast,
    new_fermentable,
    new_hop,
    new_yeast,
)


@pytest.fixture(scope="module")
def larder():
    def malt(name):
        return new_fermentable(find_fermentable(name))

    return Larder(
        malt("Light liquid malt extract"),
        malt("Light dry malt extract"),
        malt("Crystal malt 60 °L"),
        malt("Chocolate malt"),
        new_hop(find_hop("Challenger")),
        new_hop(find_hop("East Kent Golding")),
        new_yeast(find_yeast("Dry English ale yeast")),
    )


@pytest.mark.parametrize(
    ("og", "ibu", "srm"),
    [(1.040, 25.0, 8.0), (1.050, 35.0, 12.0), (1.055, 30.0, 28.0), (1.045, 18.0, 4.8)],
)
@pytest.mark.parametrize(("pot", "fermenter"), [(9.0, 12.0), (15.0, 25.0), (5.0, 5.0)])
def test_the_bill_holds_the_wish(larder, og, ibu, srm, pot, fermenter):
    recipe = first_bill(Wish(og, ibu, srm, pot, fermenter), larder)
    day = brew(recipe)
    assert day.beer.original_gravity == pytest.approx(og, abs=0.001)
    assert day.beer.bitterness_ibu == pytest.approx(ibu, abs=0.06 * ibu)
    if srm >= 5.0:
        assert day.beer.colour_srm == pytest.approx(srm, rel=0.06)
    codes = {each.code for each in findings(recipe, day)}
    assert not codes & {"pot-overflows", "foam-room", "fermenter-overflows", "krausen-room"}


def test_a_wish_from_a_style_lies_inside_the_style(larder):
    """BJCP Style Guidelines 2021, 13C English Porter: the bracket of the guidelines."""
    style = find_style("English Porter")
    middle = {
        key: sum(getattr(style, key)) / 2
        for key in ("original_gravity", "bitterness_ibu", "colour_srm")
    }
    recipe = first_bill(Wish(*middle.values(), 9.0, 12.0), larder)
    day = brew(recipe)
    for key in (*middle, "final_gravity", "abv_percent"):
        low, high = getattr(style, key)
        assert low - 0.002 <= getattr(day.beer, key) <= high + 0.002


@pytest.mark.parametrize("pot", [0.0, 0.2, 10_000.0])
def test_any_pot_gives_some_bill(larder, pot):
    assert first_bill(Wish(1.050, 30.0, 10.0, pot, 12.0), larder).fermentables
