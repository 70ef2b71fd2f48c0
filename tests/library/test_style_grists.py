"""What goes into the beers of every style, and in which shares, is said in data that can be used.

Shares: Daniels, Designing Great Beers, 1996, from memory; what goes in: common practice, no source.
"""

import pytest

from designer.library import catalogue
from designer.library.flavours import flavour_entries, plain_words
from designer.library.style_grists import grist_of, style_families, style_grists


def test_every_style_has_a_row_and_every_row_a_style():
    assert sorted(each.name for each in style_grists()) == sorted(
        each.name for each in catalogue.styles()
    )
    assert {each.family for each in style_grists()} == set(style_families())


@pytest.mark.parametrize("grist", style_grists(), ids=lambda each: each.name)
def test_all_that_may_go_in_is_in_the_catalogue_and_can_be_steeped_or_dissolved(grist):
    names = [*grist.base, *(each.name for each in (*grist.beside, *grist.sugar) if each)]
    names += [each for each in grist.crystal if each]
    names += [name for each in grist.roast if each for name in each]
    for name in names:
        found = catalogue.find_fermentable(name)
        assert found is not None, name
        assert found.kind != "mash grain", name
    assert all(catalogue.find_hop(name) is not None for name in (*grist.bittering, *grist.late))
    for name, form in grist.yeast:
        assert catalogue.find_yeast(name, form).form == form
    sugars = [each for each in grist.sugar if each]
    for each in sugars:
        ferments = catalogue.find_fermentable(each.name).fermentability
        family = grist.family
        most = family.dextrin_most if each.name == "Maltodextrin powder" else family.sugar_most
        assert each.share[1] <= most + 1e-9, (each.name, ferments)


def test_shares_are_as_handbooks_have_them():
    """Crystal malt 5 to 15 % in bitters and browns, roast up to 10 % in porters, more in stouts."""
    bitter, porter, stout = (
        grist_of(name).family for name in ("Best Bitter", "English Porter", "Irish Stout")
    )
    assert bitter.crystal == (0.04, 0.15)
    assert porter.roast == (0.03, 0.10)
    assert stout.roast == (0.05, 0.15)
    assert all(each.crystal[1] <= 0.15 and each.roast[1] <= 0.15 for each in style_families())
    assert all(each.sugar_most <= 0.20 for each in style_families())


def test_every_flavour_is_brought_by_something_that_there_is():
    for each in flavour_entries():
        found = [*map(catalogue.find_fermentable, (*each.extract, *each.grain, *each.sugar))]
        found += map(catalogue.find_hop, each.hops)
        assert found
        assert all(row is not None for row in found), each.key


def test_plain_words_are_told_once_and_lead_somewhere():
    words = [each.words for each in plain_words() if each.means != "style"]
    assert len(words) == len(set(words))
    keys = {each.key for each in flavour_entries()}
    for each in plain_words():
        if each.means == "style":
            assert catalogue.find_style(each.value) is not None
        elif each.means == "flavour":
            assert each.value in keys
        elif each.means not in ("negation", "nothing"):
            assert each.means in ("sweetness", "strength", "bitterness", "colour", "hops")
            assert -1.0 <= each.step <= 1.0
