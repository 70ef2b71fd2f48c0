"""Hops of the cupboard and typed ones, for the ways to fit."""

import pytest

from designer.errors import RefusedInputError
from designer.library.new_lines import new_line
from designer.library.store.kitchen import CupboardRecord
from designer.recipe.quantity import Kind
from designer.units import read
from designer.workbench.hops_in_hand import (
    LONGEST_NAME,
    MOST_HOPS,
    HopRow,
    checked_alpha,
    checked_amount,
    checked_name,
    checked_rows,
    hops_of,
    usual_alpha,
)


def hop(name="Magnum", alpha="12 %", amount="30 g"):
    return HopRow(name, read(Kind.FRACTION, alpha), read(Kind.MASS, amount))


def test_the_cupboard_gives_hops_by_their_alpha_acid_or_their_name():
    found, without = hops_of(
        (
            CupboardRecord("Magnum", amount="40 g", alpha="13,1 %"),
            CupboardRecord("Fuggle", amount="2 oz"),
            CupboardRecord("Challenger", alpha="7 %"),
            CupboardRecord("Light dry malt extract", amount="1 kg"),
            CupboardRecord("Dried ginger", amount="20 g"),
        )
    )
    assert [each.name for each in found] == ["Magnum", "Fuggle"]
    assert all(each.from_cupboard for each in found)
    assert found[0].in_hand.alpha.value == pytest.approx(0.131)
    assert found[0].in_hand.alpha.ends is None
    assert found[1].in_hand.alpha == usual_alpha("fuggle")
    assert found[1].in_hand.mass_kg == pytest.approx(0.0567, abs=1e-5)
    assert without == ("Challenger",)


def test_no_more_are_taken_over_than_a_list_holds():
    many = [CupboardRecord(f"Lot {n}", amount="40 g", alpha="5 %") for n in range(MOST_HOPS + 5)]
    found, _ = hops_of(many)
    assert checked_rows(found) == found
    with pytest.raises(RefusedInputError, match="are the most"):
        checked_rows((*found, hop()))


def test_a_name_is_known_however_it_is_spaced_and_others_have_no_usual_alpha_acid():
    assert usual_alpha(" east  kent GOLDING ") == usual_alpha("East Kent Golding") is not None
    assert usual_alpha("Fuggle") == new_line("hops", "Fuggle").alpha
    low, high = usual_alpha("Fuggle").ends
    assert low < usual_alpha("Fuggle").value < high
    assert usual_alpha("Harbour wall hop") is None


@pytest.mark.parametrize("alpha", ["0 %", "0.05 %", "31 %"])
def test_an_alpha_acid_that_no_hop_has_is_refused_with_its_limits(alpha):
    with pytest.raises(RefusedInputError, match=f"“{alpha}” is not the alpha acid .*0.1 % to 30 %"):
        checked_alpha(read(Kind.FRACTION, alpha), alpha)


@pytest.mark.parametrize("amount", ["0 g", "11 kg"])
def test_an_amount_that_no_freezer_holds_is_refused(amount):
    with pytest.raises(RefusedInputError, match="up to 10 kg"):
        checked_amount(read(Kind.MASS, amount), amount)


def test_sound_figures_stay_as_they_were_typed():
    row = hop("Fuggle", "4.5 %", "2 oz")
    assert checked_alpha(row.alpha, "") is row.alpha
    assert checked_amount(row.amount, "") is row.amount


def test_names_are_tidied_and_those_without_letters_or_too_long_refused():
    assert checked_name("  East   Kent Golding ") == "East Kent Golding"
    assert checked_name("a" * LONGEST_NAME)
    for text in ("  ", "a" * (LONGEST_NAME + 1)):
        with pytest.raises(RefusedInputError):
            checked_name(text)
