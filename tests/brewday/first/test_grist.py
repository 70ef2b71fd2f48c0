"""What counts against a grist: a beer that is not as wanted, unusual shares, lines to buy.

What counts how much is judgement, no source.
"""

from dataclasses import replace

import pytest

from designer.brewday.first.grist import _lines, _missed, _unusual, best_grist
from designer.brewday.first.larder import Role
from designer.library.catalogue import find_yeast, new_yeast
from tests.brewday.first.larders import BASE, CRYSTAL, ENGLISH, FAR, LARDER, ROAST, SUGAR, aim

WANTED = aim(og=1.045, fg=1.011, srm=10.0)
SHARES = ((BASE, 0.82), (CRYSTAL, 0.1), (SUGAR, 0.08))


def missed(of=WANTED, **figures):
    of_near = {key: value for key, value in of.near.items() if key != "bitterness_ibu"}
    return _missed({**of_near, **figures}, of)


def test_a_beer_as_wanted_counts_nothing():
    assert missed() == 0.0


@pytest.mark.parametrize(
    ("key", "value", "counts"),
    [
        ("original_gravity", 1.048, 1.0),
        ("original_gravity", 1.0435, 0.5),
        ("final_gravity", 1.013, 6.0),
        ("abv_percent", WANTED.near["abv_percent"] - 0.6, 2.0),
        ("colour_srm", 11.7, 1.2),
        ("colour_srm", 8.3, 1.2),
    ],
)
def test_what_a_brewer_would_notice_counts_once_what_is_asked_for_three_times(key, value, counts):
    """Of colour 0.5 SRM and 12 % of what is wanted."""
    assert missed(**{key: value}) == pytest.approx(counts)
    asked = replace(WANTED, asked=frozenset({key}))
    assert missed(asked, **{key: value}) == pytest.approx(3.0 * counts)


@pytest.mark.parametrize(
    ("value", "counts"),
    [
        (1.045, 0.0),
        (1.0418, 0.0),
        (1.0492, 3.0),
        (1.0404, 3.0),
        (1.0500, 6.0),
        (1.0530, 46.0),
        (1.0370, 46.0),
        (1.0400, 6.0),
    ],
)
def test_beyond_a_range_counts_most_and_next_to_its_end_a_little(value, counts):
    """From 1.040 to 1.050: eight hundredths of the width inwards is next to the end."""
    of = replace(WANTED, bands={"original_gravity": (1.040, 1.050)})
    plain = abs(value - 1.045) / 0.003
    if value == 1.0492:  # four hundredths of eight from the end: half of it is next to nothing
        value = 1.0496
        plain = 0.0046 / 0.003
    assert missed(of, original_gravity=value) - plain == pytest.approx(counts)


def test_every_line_counts_and_sugar_three_times_where_few_are_wanted():
    assert _lines(SHARES, WANTED) == pytest.approx(1.2)
    assert _lines(SHARES, replace(WANTED, is_simple=True)) == pytest.approx(2.4 * 5)


def test_crystal_malt_counts_by_how_far_it_is_from_what_was_to_go_in():
    """From 5 to 15 % is usual; in the middle it counts nothing."""

    def unusual(crystal, at=0.5):
        shares = ((BASE, 1.0 - crystal), (CRYSTAL, crystal))
        return _unusual(shares, LARDER, replace(WANTED, crystal_at=at))

    assert unusual(0.10) == pytest.approx(0.0)
    assert [unusual(0.15), unusual(0.05)] == pytest.approx([1.5, 1.5])
    assert unusual(0.05, at=1.0) == pytest.approx(3.0)
    assert unusual(0.40) == pytest.approx(3.0)
    assert unusual(0.05, at=0.0) == pytest.approx(0.0)


def test_without_crystal_malt_in_the_house_only_the_base_is_looked_at():
    """Less than a quarter of base is no beer of malt extract."""
    none = replace(LARDER, crystals=(None,))
    assert _unusual(((BASE, 0.25), (ROAST, 0.75)), none, WANTED) == 0.0
    assert _unusual(((BASE, 0.20), (ROAST, 0.80)), none, WANTED) == pytest.approx(5.0)
    both = ((BASE, 0.20), (CRYSTAL, 0.10), (ROAST, 0.70))
    assert _unusual(both, LARDER, WANTED) == pytest.approx(5.0)
    least = replace(LARDER, usual={**LARDER.usual, Role.CRYSTAL: (0.1, 0.1)})
    assert _unusual(((BASE, 0.9), (CRYSTAL, 0.1)), least, WANTED) == pytest.approx(0.0)


def test_what_is_in_hand_is_taken_before_what_is_to_be_bought():
    like = new_yeast(find_yeast("Dry English ale yeast", "dry"))
    other = replace(like, name="The same of another shop")
    for in_hand in (like, other):
        dear = tuple((each, 0.0 if each is in_hand else 1.0) for each in (like, other))
        found = best_grist(replace(LARDER, yeasts=dear), aim())
        assert found.yeast is in_hand
    cheap = replace(CRYSTAL, dearness=-50.0)
    dry = best_grist(replace(LARDER, crystals=((CRYSTAL,), None)), aim(srm=5.0))
    wanted = best_grist(replace(LARDER, crystals=((cheap,), None)), aim(srm=5.0))
    assert dry.share_of(Role.CRYSTAL) == 0.0 < wanted.share_of(Role.CRYSTAL)


def test_a_grist_tells_the_beer_that_it_makes():
    """Alcohol about 131 times the fall (from memory); colour by Morey."""
    found = best_grist(replace(LARDER, yeasts=((FAR, 0.0),)), aim(og=1.050))
    assert found.original_gravity == 1.050
    fall = found.original_gravity - found.final_gravity
    assert found.abv_percent == pytest.approx(131.25 * fall, rel=0.03)
    assert fall / 0.050 == pytest.approx(0.785, abs=0.08)
    extract = sum(share * part.line.extract.value for part, share in found.shares)
    lovibond = sum(share * part.line.colour.value for part, share in found.shares)
    mcu = 8.345 * 50.0 / (386.0 * extract) * lovibond
    assert found.colour_srm == pytest.approx(1.4922 * mcu**0.6859, rel=0.01)
    assert best_grist(replace(LARDER, yeasts=((ENGLISH, 0.0),)), aim()).yeast is ENGLISH
