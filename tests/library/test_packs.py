"""Sizes of a shop: the two sets, and files of one's own."""

import pytest

from designer.errors import DesignerError, RefusedInputError
from designer.library.packs import PACK_KINDS, PACK_SETS, packs, read_packs

POUND_KG = 0.45359237


@pytest.mark.parametrize("pack_set", PACK_SETS)
def test_every_set_has_packs_of_what_a_recipe_is_made_of_and_names_its_source(pack_set):
    found = packs(pack_set)
    kinds = {each.kind for each in found}
    assert kinds >= {"liquid extract", "dry extract", "hops", "yeast", "steeping grain"}
    assert kinds <= set(PACK_KINDS)
    assert all(each.mass_kg > 0.0 and each.label and each.source for each in found)


def test_the_us_set_is_in_pounds_and_ounces():
    sizes = [each.mass_kg for each in packs("us") if each.kind == "liquid extract"]
    assert sizes[0] == pytest.approx(3.3 * POUND_KG)
    assert all(each.amount.text.endswith(("lb", "oz", "g")) for each in packs("us"))


def test_an_unknown_set_is_a_mistake_of_the_caller():
    with pytest.raises(KeyError):
        packs("imperial")


def test_a_file_of_ones_own_is_read(tmp_path):
    own = tmp_path / "shop.csv"
    own.write_text('kind,amount,label\nhops,"30 g",bag\nliquid extract,3 1/3 lb,jar\n', "utf-8")
    first, second = read_packs(own)
    assert (first.mass_kg, first.label) == (0.03, "bag")
    assert second.mass_kg == pytest.approx(10 / 3 * POUND_KG)


def test_every_fault_of_a_file_is_told_with_its_line(tmp_path):
    own = tmp_path / "shop.csv"
    own.write_text("kind,amount,label\nmalt,1 kg,bag\nhops,3 L,bag\nhops,0 g,bag\n", "utf-8")
    with pytest.raises(RefusedInputError) as refused:
        read_packs(own)
    assert [f"line {n}" in each for n, each in enumerate(refused.value.problems, 2)] == [True] * 3


def test_what_is_no_list_of_packs_is_refused(tmp_path):
    with pytest.raises(DesignerError, match="cannot be read"):
        read_packs(tmp_path / "nowhere.csv")
    (tmp_path / "empty.csv").write_text("", "utf-8")
    with pytest.raises(RefusedInputError, match="first line"):
        read_packs(tmp_path / "empty.csv")
    (tmp_path / "odd.csv").write_bytes(b"kind,amount\nhops,\xff g\n")
    with pytest.raises(RefusedInputError, match="UTF-8"):
        read_packs(tmp_path / "odd.csv")
