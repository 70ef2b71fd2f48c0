"""One meaning of "the same name": catalogue, cupboard and hops in hand ask the same question."""

from dataclasses import replace

import pytest

from designer.brewday.stock import Stock, needs
from designer.library.catalogue import find_fermentable, find_hop
from designer.recipe.choices import FermentableKind, HopForm, is_grain
from designer.recipe.document import FERMENTABLE_KINDS, HOP_FORMS, Fermentable
from designer.recipe.quantity import Quantity
from designer.recipe.same_name import is_same_name

SAME = [
    ("Crystal malt 60 L", "Crystal malt 60 °L"),
    ("  crystal   MALT 60 L ", "Crystal malt 60 °L"),
    ("Crystal malt 60°L", "crystal malt 60L"),
]


@pytest.mark.parametrize(("one", "other"), SAME)
def test_case_spaces_and_the_sign_of_degrees_do_not_tell_names_apart(one, other):
    assert is_same_name(one, other)
    assert is_same_name(other, one)


def test_other_words_and_other_figures_do():
    assert not is_same_name("Crystal malt 60 L", "Crystal malt 40 L")
    assert not is_same_name("Challenger", "Challenger hops")


def test_a_grain_is_found_in_the_cupboard_as_in_the_catalogue(porter):
    entry = next(each for each in ("Crystal malt 60 L", "Crystal malt 60 °L")
                 if find_fermentable(each))  # fmt: skip
    known = find_fermentable(entry)
    assert find_fermentable("crystal malt 60 L") is known
    assert find_fermentable("Crystal  malt 60 °L") is known
    line = Fermentable("Crystal malt 60 L", amount=Quantity(0.5, "500 g"))
    recipe = replace(porter, fermentables=(line,), hops=(), extras=())
    (need,) = (each for each in needs(recipe, (Stock("Crystal malt 60 °L", 0.3, "kg"),))
               if each.name == "Crystal malt 60 L")  # fmt: skip
    assert need.missing == pytest.approx(0.2)


def test_a_hop_is_found_whatever_its_case_and_spaces():
    assert find_hop("east  kent golding") is find_hop("East Kent Golding")
    assert find_hop("East Kent Golding") is not None


def test_what_can_be_chosen_is_kept_as_its_plain_words():
    assert tuple(FermentableKind) == FERMENTABLE_KINDS
    assert tuple(HopForm) == HOP_FORMS
    assert all(type(each) is str for each in (*FERMENTABLE_KINDS, *HOP_FORMS))


def test_grain_is_asked_of_the_kind_as_a_member_or_as_words():
    assert [kind for kind in FERMENTABLE_KINDS if is_grain(kind)] == [
        "steeping grain",
        "mash grain",
    ]
    assert is_grain(FermentableKind.MASH_GRAIN)
    assert not is_grain(FermentableKind.SUGAR)
