"""The pack sizes of one's own shop: kept, read back, and the usual ones again."""

import pytest

from designer import translation
from designer.errors import RefusedInputError
from designer.library.packs import MOST_SIZES, PackSize, checked_set, pack_size, packs
from designer.library.store import Store
from designer.library.store.shop import keep_shop_packs, shop_packs, shop_packs_on_disk
from designer.recipe.quantity import Kind
from designer.spoken_language import catalogue_of
from designer.units import read


def size(kind, text, label="bag"):
    return pack_size(kind, read(Kind.MASS, text), label)


@pytest.fixture
def box(tmp_path):
    with Store.open(tmp_path) as store:
        yield store


def test_the_usual_sizes_are_taken_until_others_are_kept(box):
    for name in ("metric", "us"):
        assert shop_packs(box, name) == packs(name)


def test_sizes_of_one_s_own_come_back_as_typed_and_leave_the_other_set_alone(box):
    own = (size("hops", "30 g"), size("liquid extract", "1,4 kg", "tin"))
    keep_shop_packs(box, "metric", own)
    found = shop_packs(box, "metric")
    assert [(each.kind, each.amount.text, each.label) for each in found] == [
        ("hops", "30 g", "bag"), ("liquid extract", "1,4 kg", "tin"),
    ]  # fmt: skip
    assert [each.mass_kg for each in found] == pytest.approx([0.03, 1.4])
    assert shop_packs(box, "us") == packs("us")


def test_the_usual_sizes_are_kept_by_forgetting_one_s_own(box):
    keep_shop_packs(box, "us", (size("hops", "30 g"),))
    keep_shop_packs(box, "us", packs("us"))
    assert shop_packs(box, "us") == packs("us")
    assert box.preferences.get("packs us") is None


def test_a_shop_may_sell_nothing(box):
    keep_shop_packs(box, "us", ())
    assert shop_packs(box, "us") == ()


@pytest.mark.parametrize(
    "kept",
    ["hops", [["hops", "30 g"]], [["malt", "1 kg", "bag"]], [["hops", "3 L", "bag"]], [7],
     [["hops", "1 t", "bag"]], [["hops", "30 g", "bag"], ["hops", "0,03 kg", "box"]]],
)  # fmt: skip
def test_what_cannot_be_read_any_more_counts_as_not_kept(box, kept):
    box.preferences.put("packs metric", kept)
    assert shop_packs(box, "metric") == packs("metric")


def test_a_program_without_a_store_reads_the_sizes_and_makes_none(tmp_path):
    nowhere = tmp_path / "none"
    assert shop_packs_on_disk("metric", nowhere) == packs("metric")
    assert not nowhere.exists()
    with Store.open(tmp_path) as store:
        keep_shop_packs(store, "metric", (size("hops", "30 g"),))
    assert [each.said for each in shop_packs_on_disk("metric", tmp_path)] == ["30 g bag"]


@pytest.mark.parametrize(("code", "said"), [("de", "Dose mit 1,5 kg"), ("fr", "boîte de 1,5 kg")])
def test_a_pack_is_called_as_the_language_orders_its_words(code, said):
    with translation.speaking(catalogue_of(f"program_{code}"), code):
        assert size("liquid extract", "1.5 kg", "tin").said == said


@pytest.mark.parametrize(
    ("kind", "text", "told"),
    [
        ("hops", "4 g", "5 g to 10 kg"),
        ("hops", "11 kg", "5 g to 10 kg"),
        ("yeast", "0.5 g", "1 g to 1 kg"),
        ("dry extract", "5 g", "50 g to 50 kg"),
        ("liquid extract", "60 kg", "50 g to 50 kg"),
    ],
)
def test_a_size_that_no_shop_has_is_refused_with_the_limits(kind, text, told):
    with pytest.raises(RefusedInputError, match=told):
        size(kind, text)


def test_sizes_at_the_limits_are_taken():
    for kind, text in (("hops", "5 g"), ("hops", "10 kg"), ("yeast", "1 kg"), ("sugar", "50 g")):
        assert size(kind, text).amount.text == text


def test_the_same_size_twice_and_too_many_sizes_are_refused():
    with pytest.raises(RefusedInputError, match="in the list already"):
        checked_set((size("hops", "100 g"), size("hops", "0.1 kg", "box")))
    checked_set((size("hops", "100 g"), size("sugar", "100 g")))
    many = tuple(size("hops", f"{10 + n} g") for n in range(MOST_SIZES))
    assert checked_set(many) == many
    with pytest.raises(RefusedInputError, match="take one out"):
        checked_set((*many, size("hops", "500 g")))


def test_nothing_is_kept_of_a_set_that_is_refused(box):
    twice = (size("hops", "30 g"), size("hops", "30 g"))
    with pytest.raises(RefusedInputError):
        keep_shop_packs(box, "metric", twice)
    assert shop_packs(box, "metric") == packs("metric")


def test_a_pack_without_a_name_is_a_pack():
    assert size("hops", "30 g", "  ").label == "pack"
    assert isinstance(size("hops", "30 g"), PackSize)
    with pytest.raises(RefusedInputError, match="letters"):
        size("hops", "30 g", "x" * 41)
