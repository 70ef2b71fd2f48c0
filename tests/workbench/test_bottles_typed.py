"""Bottles and fizz as they are typed in a line."""

import pytest

from designer.brewday.packaging.packaged import BottleSize
from designer.errors import RefusedInputError
from designer.library.catalogue import styles
from designer.recipe.choices import Bottle
from designer.workbench.bottles_typed import read_bottles
from designer.workbench.fizz_words import read_fizz, style_volumes


@pytest.mark.parametrize(
    ("typed", "sizes"),
    [
        ("12 x 500 mL", [(0.5, 12, Bottle.UNKNOWN)]),
        ("12x0.5 L heavy", [(0.5, 12, Bottle.HEAVY)]),
        (
            "12 × 500 mL + 4 * 750 mL Swing-top",
            [(0.5, 12, Bottle.UNKNOWN), (0.75, 4, Bottle.HEAVY)],
        ),
        ("24 x 12 fl oz plastic", [(0.35488, 24, Bottle.PLASTIC)]),
        ("2 x 5 L jar", [(5.0, 2, Bottle.NOT_FOR_PRESSURE)]),
        ("500 mL", [(0.5, 19, Bottle.UNKNOWN)]),
        (
            "4 x 750 mL heavy + 500 mL + 330 mL",
            [(0.75, 4, Bottle.HEAVY), (0.5, 13, Bottle.UNKNOWN), (0.33, 0, Bottle.UNKNOWN)],
        ),
    ],
)
def test_bottles_are_read_and_those_without_a_count_are_counted(typed, sizes):
    found = read_bottles(typed, Bottle.UNKNOWN, 9.6)
    assert [(each.count, each.kind) for each in found] == [
        (count, kind) for _, count, kind in sizes
    ]
    assert [each.litres for each in found] == pytest.approx(
        [each for each, _, _ in sizes], abs=1e-4
    )


def test_bottles_of_no_kind_are_those_of_the_recipe():
    assert read_bottles("6 x 1 L", Bottle.PLASTIC, 9.6) == (BottleSize(1.0, 6, Bottle.PLASTIC),)


@pytest.mark.parametrize(
    "typed",
    ["", "+", "12", "a lot", "12 x", "3 x 99 L", "1 x 1 mL", "x" * 5000, "9" * 50 + " x 1 L"],
)
def test_what_is_no_bottle_is_refused_with_an_example(typed):
    with pytest.raises(RefusedInputError, match="12 x 500 mL"):
        read_bottles(typed, Bottle.UNKNOWN, 9.6)


@pytest.mark.parametrize(
    ("typed", "volumes"),
    [("2.3", 2.3), ("2.4 vol", 2.4), ("Lively", 2.6), ("English Porter", 2.15), ("10A", 3.1)],
)
def test_fizz_is_read_as_volumes_a_word_or_a_style(typed, volumes):
    """Volumes of words and families of styles: common practice, from memory."""
    assert read_fizz(typed) == volumes


@pytest.mark.parametrize("typed", ["", "7", "-1", "very", "2.3 bar"])
def test_what_is_no_fizz_is_refused(typed):
    with pytest.raises(RefusedInputError, match="soft, usual, lively, sparkling"):
        read_fizz(typed)


def test_every_style_of_the_catalogue_has_its_volumes():
    found = [style_volumes(each.name) for each in styles()]
    assert all(each is not None and 1.5 <= each[0] < each[1] <= 3.5 for each in found)
    assert style_volumes("no such style") is None
