"""What lies in the cupboard, as amounts and prices."""

import pytest

from designer.brewday.stock import needs
from designer.errors import RefusedInputError
from designer.library.store.kitchen import CupboardRecord
from designer.workbench.cupboard import read_price, stock_of


@pytest.mark.parametrize(
    ("text", "money", "per"),
    [("9.50 / kg", 9.5, "1 kg"), ("4.20", 4.2, ""), ("€3 / 500 g", 3.0, "500 g")],
)
def test_prices_are_read_with_what_they_are_for(text, money, per):
    assert read_price(text) == (money, per)


@pytest.mark.parametrize("text", ["", "dear", "9.50 /", "9.50 / ?"])
def test_what_is_no_price_is_refused(text):
    with pytest.raises(RefusedInputError):
        read_price(text)


@pytest.mark.parametrize(
    ("amount", "price", "each"),
    [
        ("500 g", "9 / kg", 9.0),
        ("500 g", "4.50", 9.0),
        ("500 g", "3 / 250 g", 12.0),
        ("2 lb", "1 / lb", 1 / 0.45359237),
        ("3 packets", "6", 2.0),
        ("3 packets", "2.50 / packet", None),
        ("3 packets", "6 / 2 packets", 3.0),
        ("500 g", "", None),
        ("", "4.50", None),
        ("", "9 / kg", 9.0),
        ("500 g", "2 / packet", None),
    ],
)
def test_a_price_for_any_amount_is_one_for_a_kilogram_or_a_piece(amount, price, each):
    (stock,) = stock_of([CupboardRecord("Light malt extract", amount=amount, price=price)])
    assert stock.price_each == (None if each is None else pytest.approx(each))


def test_a_cell_that_cannot_be_read_any_more_counts_as_empty():
    (stock,) = stock_of([CupboardRecord("Magnum", amount="some", price="dear", alpha="high")])
    assert (stock.amount, stock.price_each, stock.alpha) == (0.0, None, None)


def test_what_the_recipe_needs_is_counted_against_the_cupboard(porter):
    held = stock_of(
        [
            CupboardRecord("Light dry malt extract", amount="300 g", price="9 / kg"),
            CupboardRecord("Light dry malt extract", amount="1 lb"),
        ]
    )
    need = next(each for each in needs(porter, held) if each.name == "Light dry malt extract")
    assert need.on_hand == pytest.approx(0.3 + 0.45359237)
    assert need.cost == pytest.approx(9.0 * need.needed)
