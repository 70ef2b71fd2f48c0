"""A first bill holds the wish, fits the pot, and lies inside a style that asks for the like.

Line by line: what goes in when, how much of it, and what a kitchen can weigh. The shares and doses
(two fifths of the extract from the start, 20 g of crystal malt and 1 g of late hops for each litre,
60 and 10 minutes, a fermenter filled to six sevenths, a pot to two thirds) are common practice, no
source.
"""

from dataclasses import replace
from functools import cache

import pytest

from designer.brewday.aiming import Means, make_it
from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.brewday.first_bill import Larder, Wish, first_bill
from designer.library.catalogue import (
    find_fermentable,
    find_hop,
    find_style,
    find_yeast,
    new_fermentable,
    new_hop,
    new_yeast,
)
from designer.library.recipe_file import document_text, read_document
from designer.recipe.document import Fermentable, Hop, Yeast
from designer.recipe.quantity import Quantity, Stage, When


@pytest.fixture(scope="module")
def larder():
    def malt(name):
        return new_fermentable(find_fermentable(name))

    return Larder(
        malt("Light liquid malt extract"),
        malt("Light dry malt extract"),
        malt("Crystal malt 60 °L"),
        malt("Chocolate malt"),
        new_hop(find_hop("Challenger")),
        new_hop(find_hop("East Kent Golding")),
        new_yeast(find_yeast("Dry English ale yeast")),
    )


@pytest.mark.parametrize(
    ("og", "ibu", "srm"),
    [(1.040, 25.0, 8.0), (1.050, 35.0, 12.0), (1.055, 30.0, 28.0), (1.045, 18.0, 4.8)],
)
@pytest.mark.parametrize(("pot", "fermenter"), [(9.0, 12.0), (15.0, 25.0), (5.0, 5.0)])
def test_the_bill_holds_the_wish(larder, og, ibu, srm, pot, fermenter):
    recipe = first_bill(Wish(og, ibu, srm, pot, fermenter), larder)
    day = brew(recipe)
    assert day.beer.original_gravity == pytest.approx(og, abs=0.001)
    assert day.beer.bitterness_ibu == pytest.approx(ibu, abs=0.06 * ibu)
    if srm >= 5.0:
        assert day.beer.colour_srm == pytest.approx(srm, rel=0.06)
    codes = {each.code for each in findings(recipe, day)}
    assert not codes & {"pot-overflows", "foam-room", "fermenter-overflows", "krausen-room"}


def test_a_wish_from_a_style_lies_inside_the_style(larder):
    """BJCP Style Guidelines 2021, 13C English Porter: the bracket of the guidelines."""
    style = find_style("English Porter")
    middle = {
        key: sum(getattr(style, key)) / 2
        for key in ("original_gravity", "bitterness_ibu", "colour_srm")
    }
    recipe = first_bill(Wish(*middle.values(), 9.0, 12.0), larder)
    day = brew(recipe)
    for key in (*middle, "final_gravity", "abv_percent"):
        low, high = getattr(style, key)
        assert low - 0.002 <= getattr(day.beer, key) <= high + 0.002


@pytest.mark.parametrize("pot", [0.0, 0.2, 10_000.0])
def test_any_pot_gives_some_bill(larder, pot):
    assert first_bill(Wish(1.050, 30.0, 10.0, pot, 12.0), larder).fermentables


FERMENTER = When(Stage.FERMENTER, "fermenter")
LARDER = Larder(
    extract=Fermentable("Liquid extract", "liquid extract", when=FERMENTER),
    late_extract=Fermentable("Dry extract", "dry extract", when=FERMENTER),
    crystal=Fermentable("Crystal", "steeping grain", colour=Quantity(60.0, "60 °L")),
    roast=Fermentable("Roast", "steeping grain", colour=Quantity(400.0, "400 °L")),
    bittering=Hop("Challenger", alpha=Quantity(0.072, "7.2 %"), when=FERMENTER),
    aroma=Hop("East Kent Golding", alpha=Quantity(0.05, "5 %"), when=FERMENTER),
    yeast=Yeast("Dry English ale yeast"),
)
WISH = Wish(1.050, 30.0, 25.0, pot_l=9.0, fermenter_l=12.0)


@cache
def bill(wish=WISH, larder=LARDER):
    return first_bill(wish, larder)


def named(recipe, name):
    return next(each for each in (*recipe.fermentables, *recipe.hops) if each.name == name)


def kg(recipe, name):
    return named(recipe, name).amount.value


def test_the_bill_has_its_own_name_and_the_vessels_and_yeast_of_the_wish():
    recipe = bill(replace(WISH, pot_l=9.1234, fermenter_l=12.5))
    assert recipe.name == "First bill"
    assert recipe.pot.volume == Quantity(9.123, "9.123 L")
    assert recipe.fermenter.volume == Quantity(12.5, "12.5 L")
    assert recipe.yeast == LARDER.yeast


def test_every_line_goes_in_at_its_time_whatever_the_larder_says():
    recipe = bill()
    assert [(each.name, each.when.text) for each in (*recipe.fermentables, *recipe.hops)] == [
        ("Liquid extract", "boil 60 min"),
        ("Dry extract", "boil 15 min"),
        ("Crystal", "steep"),
        ("Roast", "steep"),
        ("Challenger", "boil 60 min"),
        ("East Kent Golding", "boil 10 min"),
    ]
    ids = [each.line_id for each in (*recipe.fermentables, *recipe.hops)]
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize("wish", [WISH, replace(WISH, pot_l=9.1234, fermenter_l=45.0)])
def test_every_text_says_what_its_number_is(wish):
    """Amounts, litres and minutes are read back from a file as they were."""

    def figures(recipe):
        lines = (*recipe.fermentables, *recipe.hops)
        return [
            *(line.amount.value for line in lines),
            *(line.when.minutes for line in lines),
            recipe.pot.volume.value,
            recipe.fermenter.volume.value,
            recipe.process.start_water.value,
            recipe.process.top_up_to.value,
        ], [line.when.stage for line in lines]

    numbers, stages = figures(bill(wish))
    again, same_stages = figures(read_document(document_text(bill(wish)), "here"))
    assert again == pytest.approx(numbers, rel=1e-12)
    assert same_stages == stages


@pytest.mark.parametrize(
    ("srm", "grain"),
    [
        (4.99, []),
        (5.0, ["Crystal"]),
        (19.99, ["Crystal"]),
        (20.0, ["Crystal", "Roast"]),
        (35.0, ["Crystal", "Roast"]),
    ],
)
def test_pale_beer_has_no_grain_and_dark_beer_has_roast(srm, grain):
    recipe = bill(replace(WISH, colour_srm=srm))
    assert [each.name for each in recipe.fermentables][2:] == grain
    if grain:
        assert brew(recipe).beer.colour_srm == pytest.approx(srm, rel=0.06)


def test_in_dark_beer_the_roast_makes_the_colour_and_the_crystal_stays():
    for srm in (20.0, 35.0):
        recipe = bill(replace(WISH, colour_srm=srm))
        assert kg(recipe, "Crystal") == pytest.approx(0.020 * 10.0)
    assert kg(bill(replace(WISH, colour_srm=35.0)), "Roast") > kg(
        bill(replace(WISH, colour_srm=20.0)), "Roast"
    )
    assert kg(bill(replace(WISH, colour_srm=16.0)), "Crystal") > kg(
        bill(replace(WISH, colour_srm=9.0)), "Crystal"
    )


@pytest.mark.parametrize("og", [1.040, 1.050, 1.070])
def test_about_two_fifths_of_the_extract_boil_from_the_start(og):
    recipe = bill(replace(WISH, original_gravity=og, colour_srm=4.0))
    early, late = kg(recipe, "Liquid extract"), kg(recipe, "Dry extract")
    assert early / (early + late) == pytest.approx(0.45, abs=0.05)
    # 10 L of so many points, at 300 points x L from a kilogram of liquid extract
    assert early == pytest.approx(0.4 * 10.0 * 1000 * (og - 1.0) / 300.0, abs=0.0026)


def test_there_is_a_gram_of_late_hops_for_each_litre():
    assert kg(bill(), "East Kent Golding") == pytest.approx(0.010)
    large = bill(replace(WISH, pot_l=30.0, fermenter_l=25.0))
    assert kg(large, "East Kent Golding") == pytest.approx(0.021)


@pytest.mark.parametrize(
    ("pot_l", "fermenter_l", "start", "batch"),
    [
        (9.0, 12.0, 6.1, 10.0),  # two thirds of the pot, the fermenter to six sevenths
        (30.0, 12.0, 10.0, 10.0),  # no more in the pot than the batch is
        (5.0, 10.0, 3.4, 8.5),
        (9.0, 3.0, 2.5, 2.5),
        (0.0, 12.0, 0.1, 10.0),  # whatever was typed, there is a drop to start from
        (9.0, 0.3, 0.5, 0.5),
    ],
)
def test_water_goes_by_tenths_into_the_pot_and_by_halves_into_the_fermenter(
    pot_l, fermenter_l, start, batch
):
    process = bill(replace(WISH, pot_l=pot_l, fermenter_l=fermenter_l)).process
    assert process.start_water.value == pytest.approx(start)
    assert process.top_up_to.value == pytest.approx(batch)


@pytest.mark.parametrize(("og", "pot_l", "fermenter_l"), [(1.045, 15.0, 60.0), (1.100, 12.0, 30.0)])
def test_a_pot_that_would_boil_over_starts_with_less(og, pot_l, fermenter_l):
    """Much extract, for a large fermenter, fills the pot in which water had left room."""
    recipe = bill(
        replace(WISH, original_gravity=og, colour_srm=12.0, pot_l=pot_l, fermenter_l=fermenter_l)
    )
    assert recipe.process.start_water.value < 0.68 * pot_l - 0.2
    codes = {each.code for each in findings(recipe, brew(recipe))}
    assert not codes & {"pot-overflows", "foam-room"}


@pytest.mark.parametrize("fermenter_l", [3.0, 12.0, 18.0, 25.0])
def test_amounts_are_what_a_kitchen_scale_shows(fermenter_l):
    """Extract and grain by 5 g, hops by half a gram."""
    recipe = bill(replace(WISH, fermenter_l=fermenter_l))
    for lines, step in ((recipe.fermentables, 0.005), (recipe.hops, 0.0005)):
        for line in lines:
            assert line.amount.value / step == pytest.approx(
                round(line.amount.value / step), abs=1e-6
            )
            heavy = line.amount.value >= 1.0  # just a kilogram, too: of 15 L at 1.050, for 18 L
            assert line.amount.text.endswith(" kg" if heavy else " g")
    off = abs(brew(recipe).beer.original_gravity - WISH.original_gravity)
    # 5 g of extract in 2.5 L is 0.0007
    assert off < 0.002 / fermenter_l


def test_the_amounts_of_the_larder_are_not_looked_at():
    def heaped(line):
        return replace(line, amount=Quantity(0.7, "700 g"))

    full = replace(
        LARDER,
        extract=heaped(LARDER.extract),
        late_extract=heaped(LARDER.late_extract),
        crystal=heaped(LARDER.crystal),
        roast=heaped(LARDER.roast),
        bittering=heaped(LARDER.bittering),
        aroma=heaped(LARDER.aroma),
    )
    for srm in (12.0, 25.0):
        wish = replace(WISH, colour_srm=srm)
        assert bill(wish, full) == bill(wish)


@pytest.mark.parametrize(("pot_l", "fermenter_l"), [(9.0, 3.0), (30.0, 3.0), (5.0, 5.0)])
def test_a_small_batch_is_as_bitter_as_was_wished(pot_l, fermenter_l):
    """Two hundred grams of hops would drink up all its wort: still, five are found."""
    recipe = bill(replace(WISH, pot_l=pot_l, fermenter_l=fermenter_l))
    assert brew(recipe).beer.bitterness_ibu == pytest.approx(30.0, abs=2.0)
    assert kg(recipe, "Challenger") < 0.015


def test_hops_may_go_in_until_more_of_them_bring_less():
    recipe = bill(replace(WISH, pot_l=9.0, fermenter_l=3.0))
    hop = named(recipe, "Challenger")
    means = Means("hops", hop.line_id, hop.name)
    aim = make_it(recipe, "bitterness_ibu", 1e6, means)

    def ibu(kilograms):
        hops = tuple(
            replace(each, amount=Quantity(kilograms, "")) if each is hop else each
            for each in recipe.hops
        )
        return float(brew(replace(recipe, hops=hops)).beer.bitterness_ibu)

    doubled = [ibu(0.2 / 2**times) for times in range(8)]
    assert doubled[0] < max(doubled)
    assert aim.high == pytest.approx(max(doubled), rel=1e-9)
    assert make_it(recipe, "bitterness_ibu", 0.9 * aim.high, means).edit is not None


def test_what_no_hop_can_reach_leaves_the_hop_as_it_was():
    """A pot of a litre cannot make ten litres bitter."""
    recipe = bill(replace(WISH, pot_l=1.0))
    assert kg(recipe, "Challenger") == pytest.approx(0.010)
