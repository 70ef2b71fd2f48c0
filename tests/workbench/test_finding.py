"""Finding by words: which things have them, and which comes first."""

from typing import NamedTuple

import pytest

from designer.workbench.finding import Findables


class Named(NamedTuple):
    title: str
    words: str = ""


THINGS = [
    Named("Kölsch", "style"),
    Named("East Kent Golding", "hop, earthy"),
    Named("Golding"),
    Named("Golden syrup"),
    Named("Karamellmalz"),
    Named("Crystal malt 60 °L", "steeping grain"),
    Named("Top-up mark", "Vessels and water"),
]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("golding", ["Golding", "East Kent Golding"]),
        ("kent gold", ["East Kent Golding"]),
        ("GOLD", ["Golding", "Golden syrup", "East Kent Golding"]),
        ("kolsch", ["Kölsch"]),
        ("koel", ["Kölsch"]),
        ("mark top", ["Top-up mark"]),
        ("60 l", ["Crystal malt 60 °L"]),
        ("grain crystal", ["Crystal malt 60 °L"]),
        ("malz", ["Karamellmalz"]),
        ("malt steep zebra", []),
        ("  ", []),
    ],
)
def test_words_in_any_order_find_what_has_them_the_best_first(typed, found):
    assert [each.title for each in Findables(THINGS).found(typed, 9)] == found


def test_no_more_is_found_than_was_wanted():
    assert len(Findables(THINGS).found("g", 2)) == 2
