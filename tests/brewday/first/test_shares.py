"""Shares of what is weighed in: what goes in together, how much of it, and what of it ferments.

Colour by Morey's fit: 1.4922 × MCU^0.6859, MCU 8.345 × kg/L × °L.
"""

from dataclasses import replace

import pytest

from designer.brewday.first.larder import Part, Role
from designer.brewday.first.shares import (
    at,
    candidates,
    coloured,
    fermenting,
    sweetened,
)
from designer.recipe.quantity import Quantity
from tests.brewday.first.larders import BASE, CRYSTAL, ENGLISH, FAR, LARDER, ROAST, SUGAR, aim, malt

WHEAT = Part(malt("Wheat dry malt extract"), Role.BESIDE, (0.2, 0.6))
BODY = Part(malt("Maltodextrin"), Role.BODY, (0.01, 0.03))


def sum_of(shares, role):
    return sum(share for part, share in shares if part.role is role)


def colour_of(shares, gravity):
    extract = sum(share * part.line.extract.value for part, share in shares)
    lovibond = sum(share * part.line.colour.value for part, share in shares)
    points = 1000.0 * (gravity - 1.0)
    return 1.4922 * (8.345 * points / (386.0 * extract) * lovibond) ** 0.6859


def test_a_level_lies_so_far_up_a_band():
    assert [at((0.2, 0.6), level) for level in (0.0, 0.25, 1.0)] == pytest.approx([0.2, 0.3, 0.6])


def test_everything_goes_in_with_everything_once():
    found = list(candidates(LARDER, aim()))
    assert len(found) == 8  # crystal or none, roast or none, sugar or none
    for shares in found:
        assert shares[0][0] is BASE
        assert sum(share for _, share in shares) == pytest.approx(1.0)
    kinds = {frozenset(part.role for part, _ in shares) for shares in found}
    assert len(kinds) == 8


def test_what_goes_in_beside_the_base_does_so_at_three_levels_and_not_beside_itself():
    larder = replace(
        LARDER,
        bases=(BASE, replace(WHEAT, role=Role.BASE)),
        beside=(None, WHEAT),
        crystals=(None,),
        roasts=(None,),
        sugars=(None,),
    )
    found = list(candidates(larder, aim()))
    assert [(each[0][0].line.name, round(sum_of(each, Role.BESIDE), 3)) for each in found] == [
        (BASE.line.name, 0.0),
        (BASE.line.name, 0.2),
        (BASE.line.name, 0.4),
        (BASE.line.name, 0.6),
        (WHEAT.line.name, 0.0),
    ]


def test_sugar_goes_in_where_the_beer_is_to_be_dry_and_what_gives_body_where_round():
    larder = replace(LARDER, sugars=(SUGAR, BODY), crystals=(None,), roasts=(None,))
    dry = list(candidates(larder, aim(sugar_at=1.0)))
    assert [sum_of(dry[0], Role.SUGAR), sum_of(dry[1], Role.BODY)] == pytest.approx([0.10, 0.01])
    most = list(candidates(larder, aim(sugar_at=0.2)))
    assert [sum_of(most[0], Role.SUGAR), sum_of(most[1], Role.BODY)] == pytest.approx([0.06, 0.026])


def test_several_of_a_role_share_it_evenly():
    dark = Part(malt("Crystal malt 80 °L"), Role.CRYSTAL)
    larder = replace(LARDER, crystals=((CRYSTAL, dark),), roasts=(None,), sugars=(None,))
    (found,) = candidates(larder, aim(srm=9.0))
    first, second = (share for part, share in found if part.role is Role.CRYSTAL)
    assert first == pytest.approx(second)
    assert colour_of(found, 1.045) == pytest.approx(9.0, rel=0.02)


def test_sugar_is_taken_with_less_and_with_more_the_base_makes_up_for_it():
    shares = ((BASE, 0.8), (CRYSTAL, 0.12), (SUGAR, 0.08))
    found = list(sweetened(shares))
    assert [sum_of(each, Role.SUGAR) for each in found] == pytest.approx([0.05, 0.075, 0.10])
    assert [each[0][1] for each in found] == pytest.approx([0.83, 0.805, 0.78])
    assert all(sum_of(each, Role.CRYSTAL) == 0.12 for each in found)
    plain = ((BASE, 0.9), (CRYSTAL, 0.1))
    assert list(sweetened(plain)) == [plain]
    body = list(sweetened(((BASE, 0.9), (BODY, 0.1))))
    assert [sum_of(each, Role.BODY) for each in body] == pytest.approx([0.01, 0.02, 0.03])


@pytest.mark.parametrize(("srm", "og"), [(7.5, 1.040), (9.5, 1.055)])
def test_crystal_malt_makes_the_colour_that_is_wanted(srm, og):
    shares = ((BASE, 0.85), (CRYSTAL, 0.1), (SUGAR, 0.05))
    found = coloured(shares, LARDER, aim(srm=srm), og)
    assert colour_of(found, og) == pytest.approx(srm, rel=0.02)
    assert sum(share for _, share in found) == pytest.approx(1.0)
    assert sum_of(found, Role.SUGAR) == 0.05


def test_roast_makes_the_colour_first_and_crystal_malt_what_is_left_of_it():
    shares = ((BASE, 0.85), (CRYSTAL, 0.1), (ROAST, 0.05))
    found = coloured(shares, LARDER, aim(srm=20.0), 1.045)
    assert colour_of(found, 1.045) == pytest.approx(20.0, rel=0.02)
    assert sum_of(found, Role.CRYSTAL) == pytest.approx(0.1)


@pytest.mark.parametrize(("srm", "crystal", "roast"), [(60.0, 0.144, 0.096), (2.0, 0.052, 0.0208)])
def test_no_more_goes_in_than_is_usual_less_what_weighing_rounds(srm, crystal, roast):
    """5 to 15 % and 2 to 10 %, a twenty-fifth of each end inwards."""
    shares = ((BASE, 0.85), (CRYSTAL, 0.1), (ROAST, 0.05))
    found = coloured(shares, LARDER, aim(srm=srm), 1.045)
    assert sum_of(found, Role.CRYSTAL) == pytest.approx(crystal)
    assert sum_of(found, Role.ROAST) == pytest.approx(roast)


def test_a_grain_that_colours_like_the_base_keeps_its_share():
    like = Part(replace(BASE.line, name="like"), Role.CRYSTAL)
    found = coloured(((BASE, 0.9), (like, 0.1)), LARDER, aim(srm=12.0), 1.045)
    assert found[1][1] == pytest.approx(0.1)


def fermentability(part, value):
    return replace(part, line=replace(part.line, fermentability=Quantity(value, f"{value}")))


def test_extract_ferments_as_its_yeast_does_and_simple_sugar_as_it_is():
    """A yeast of 78.5 % takes 0.785 / 0.75 of what one of 75 % does."""
    shares = ((BASE, 0.9), (SUGAR, 0.1))
    extract, ferments = fermenting(shares, ENGLISH)
    assert extract == pytest.approx(0.9 * 0.95 + 0.1)
    assert ferments == pytest.approx((0.9 * 0.95 * 0.61 + 0.1) / extract)
    _, further = fermenting(shares, FAR)
    assert further == pytest.approx((0.9 * 0.95 * 0.61 * 0.785 / 0.75 + 0.1) / extract)


def test_a_sugar_of_nine_tenths_is_simple_and_one_of_less_is_not_and_none_ferments_twice():
    simple = fermenting(((fermentability(SUGAR, 0.90), 1.0),), FAR)
    assert simple == (1.0, pytest.approx(0.90))
    less = fermenting(((fermentability(SUGAR, 0.89), 1.0),), FAR)
    assert less[1] == pytest.approx(0.89 * 0.785 / 0.75)
    assert fermenting(((fermentability(BASE, 0.99), 1.0),), FAR)[1] == 1.0
    assert fermenting(((fermentability(BASE, 0.92), 1.0),), ENGLISH)[1] == pytest.approx(0.92)
