"""The cupboard against the recipe."""

import pytest

from designer.brewday.day import brew
from designer.brewday.stock import Stock, needs, other_alphas, take_bag, take_bags
from designer.library.recipe_file import load
from designer.resource_files import resource_path


@pytest.fixture(scope="module")
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


def test_an_empty_cupboard_lacks_everything(porter):
    found = needs(porter, ())
    assert [each.name for each in found][:2] == [
        "Light liquid malt extract",
        "Light dry malt extract",
    ]
    assert all(each.missing == each.needed for each in found)
    assert all(each.cost is None for each in found)


def test_what_is_there_is_taken_off_and_priced(porter):
    stock = (
        Stock("light  Dry malt extract", 0.3, price_each=9.0),
        Stock("Dry English ale yeast", 0.011, price_each=300.0),
    )
    found = {each.name: each for each in needs(porter, stock)}
    assert found["Light dry malt extract"].missing == pytest.approx(0.2)
    assert found["Light dry malt extract"].cost == pytest.approx(4.5)
    assert found["Dry English ale yeast"].missing == pytest.approx(0.0)
    assert found["Dry English ale yeast"].cost == pytest.approx(3.3)


def test_a_weaker_bag_takes_more_weight_and_holds_the_bitterness(porter):
    stock = (Stock("Challenger", 0.1, alpha=0.06),)
    (other,) = other_alphas(porter, stock)
    after = take_bag(porter, other).apply(porter)
    assert after.hops[0].alpha.value == 0.06
    assert after.hops[0].amount.value > porter.hops[0].amount.value
    assert brew(after).beer.bitterness_ibu == pytest.approx(
        brew(porter).beer.bitterness_ibu, abs=0.1
    )


def test_a_bag_as_the_recipe_says_needs_nothing(porter):
    assert other_alphas(porter, (Stock("Challenger", 0.1, alpha=0.072),)) == ()
    assert other_alphas(porter, (Stock("Fuggle", 0.1, alpha=0.05),)) == ()


def test_all_bags_are_taken_in_one_step_and_the_bitterness_is_held(porter):
    stock = (Stock("Challenger", 0.1, alpha=0.06), Stock("East Kent Golding", 0.1, alpha=0.04))
    edit = take_bags(porter, stock)
    after = edit.apply(porter)
    assert [hop.alpha.value for hop in after.hops] == [0.06, 0.04]
    assert brew(after).beer.bitterness_ibu == pytest.approx(
        brew(porter).beer.bitterness_ibu, abs=0.2
    )
    assert take_bags(after, stock) is None
