"""Bringing a forecast to a wanted value by one change."""

from dataclasses import replace

import pytest

from designer.brewday.aiming import TOP_UP, make_it, means_for
from designer.brewday.day import brew
from designer.brewday.predictions import PREDICTIONS
from designer.library.recipe_file import load
from designer.recipe.edits import with_amount
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path
from tests.brewday.quantities import ONE_GRAIN_PORTER

COMPUTE = {each.key: each.compute for each in PREDICTIONS}


@pytest.fixture(scope="module")
def porter():
    return load(ONE_GRAIN_PORTER)


@pytest.mark.parametrize(
    ("key", "wanted", "within"),
    [
        ("original_gravity", 1.050, 1e-4),
        ("original_gravity", 1.080, 1e-4),
        ("abv_percent", 5.0, 0.01),
        ("bitterness_ibu", 35.0, 0.2),
        ("bitterness_ibu", 15.0, 0.2),
        ("colour_srm", 15.0, 0.1),
    ],
)
def test_every_means_that_reaches_the_value_reaches_it(porter, key, wanted, within):
    """The check is the day itself, run with the change in it."""
    reached = 0
    for means in means_for(key, porter):
        aim = make_it(porter, key, wanted, means)
        if aim.edit is None:
            assert not min(aim.low, aim.high) <= wanted <= max(aim.low, aim.high)
            continue
        reached += 1
        found = float(COMPUTE[key](brew(aim.edit.apply(porter))))
        assert found == pytest.approx(aim.reached)
        if means is TOP_UP:  # read to 0.1 L: none of the marks beside it comes nearer
            after = aim.edit.apply(porter).process
            for off_l in (-0.1, 0.1):
                mark = replace(after.top_up_to, value=after.top_up_to.value + off_l)
                beside = replace(porter, process=replace(after, top_up_to=mark))
                other = float(COMPUTE[key](brew(beside)))
                assert abs(found - wanted) <= abs(other - wanted)
        else:
            rough = 10 if means.name == "East Kent Golding" else 1
            assert found == pytest.approx(wanted, abs=within * rough)
    assert reached


def test_the_volume_dilutes_to_a_gravity(porter):
    aim = make_it(porter, "original_gravity", 1.045, TOP_UP)
    batch = brew(aim.edit.apply(porter)).fermenter.batch_l
    day = brew(porter)
    # mass balance of the extract: points times litres stay, near enough for small changes
    points = 1000 * (day.beer.original_gravity - 1) * day.fermenter.batch_l
    assert points / batch == pytest.approx(45.0, abs=0.5)


def test_what_cannot_be_reached_says_how_far_it_goes(porter):
    grain = next(m for m in means_for("original_gravity", porter) if "crystal" in m.name)
    aim = make_it(porter, "original_gravity", 1.030, grain)
    assert aim.edit is None
    assert aim.reached == pytest.approx(min(aim.low, aim.high))


def test_locked_lines_and_dry_hops_are_not_offered(porter):
    locked = replace(porter, hops=tuple(replace(hop, locked=True) for hop in porter.hops))
    assert means_for("bitterness_ibu", locked) == ()
    assert [each.name for each in means_for("bitterness_ibu", porter)] == [
        "Challenger",
        "East Kent Golding",
    ]


def test_the_edit_says_what_it_is_for(porter):
    means = means_for("bitterness_ibu", porter)[0]
    assert (
        make_it(porter, "bitterness_ibu", 35.0, means).edit.text.text
        == "make it 35 IBU by Challenger"
    )


def test_half_a_tin_has_half_its_bitterness():
    """Mass balance of iso-alpha acids: IBU on the label x its litres, for the part that goes in."""
    red = load(resource_path("examples/breakwater_red.hobwort"))
    kit = red.fermentables[0]
    only_kit = replace(red, hops=(), fermentables=(kit,))
    changes = dict(with_amount(kit, Quantity(kit.amount.value / 2, "850 g")))
    assert changes["label_amount"] == kit.amount
    half = replace(only_kit, fermentables=(replace(kit, **changes),))
    whole_ibu, half_ibu = brew(only_kit).beer.bitterness_ibu, brew(half).beer.bitterness_ibu
    assert half_ibu == pytest.approx(whole_ibu / 2, rel=0.02)
    again = dict(with_amount(half.fermentables[0], kit.amount))
    assert "label_amount" not in again
    back = replace(only_kit, fermentables=(replace(half.fermentables[0], **again),))
    assert brew(back).beer.bitterness_ibu == pytest.approx(whole_ibu)
