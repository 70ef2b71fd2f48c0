"""What differs between the plans of two recipes."""

from dataclasses import replace

import pytest

from designer.recipe.choices import Turn
from designer.recipe.comparing import differences
from designer.recipe.document import PlannedFermenter, Pot, Yeast
from designer.recipe.kinds import typed
from designer.recipe.plan import recipe_of_boil, wort_share
from designer.recipe.quantity import Kind, Quantity
from tests.workbench.planned_red import BUCKET, WRITTEN, litres, two_boils, two_buckets

SAID = "in 2 boils in the Kitchen pot of 9 L, into 2 × Small bucket of 12 L"


def told(before, after):
    return [(each.what, each.before, each.after) for each in differences(before, after)]


def with_boil(number, **changes):
    plan = two_boils()
    boils = list(plan.boils)
    boils[number - 1] = replace(boils[number - 1], **changes)
    return replace(plan, boils=tuple(boils))


def with_fermenter(number, **changes):
    plan = two_boils()
    fermenters = list(plan.fermenters)
    fermenters[number - 1] = replace(fermenters[number - 1], **changes)
    return replace(plan, fermenters=tuple(fermenters))


def test_a_plan_that_comes_or_goes_is_one_sentence():
    assert told(WRITTEN, two_boils()) == [("Brewed", "as written", SAID)]
    assert told(two_boils(), WRITTEN) == [("Brewed", SAID, "as written")]
    assert told(two_boils(), two_boils()) == []


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        (
            {"start_water": Quantity(6.4, "6.4 L")},
            ("Boil 1, water to start", "6.3 L", "6.4 L"),
        ),
        (
            {"evaporation": Quantity(1.0, "1 L/h")},
            ("Boil 1, evaporation", "as the recipe says", "1 L/h"),
        ),
        ({"share": None}, ("Boil 1, share of the recipe", "50 %", "an equal share")),
        (
            {"pot": replace(WRITTEN.pot, diameter=Quantity(0.24, "24 cm"))},
            ("Boil 1, pot diameter", "", "24 cm"),
        ),
    ],
)
def test_a_field_of_a_boil_is_told_with_the_boil(changes, expected):
    assert told(two_boils(), with_boil(1, **changes)) == [expected]


def test_another_pot_is_told_in_the_sentence_too():
    pot = Pot("Old pot", litres(7.0))
    assert told(two_boils(), with_boil(2, pot=pot)) == [
        (
            "Brewed",
            SAID,
            "in 2 boils (Kitchen pot of 9 L and Old pot of 7 L), into 2 × Small bucket of 12 L",
        ),
        ("Boil 2, pot", "Kitchen pot", "Old pot"),
        ("Boil 2, pot volume", "9 L", "7 L"),
    ]


def test_when_a_boil_begins_is_told():
    assert told(two_boils(), two_boils(Turn.ANOTHER_DAY))[1:] == [
        ("Boil 2, begins", "after the one before", "another day")
    ]


def test_lines_of_its_own_are_told_where_they_differ_from_its_share():
    own = recipe_of_boil(two_boils(), 2).hops
    assert told(two_boils(), with_boil(2, hops=own)) == []
    more = (replace(own[0], amount=typed(Kind.MASS, 0.013)),)
    assert told(two_boils(), with_boil(2, hops=more)) == [
        ("Boil 2, Fuggle", "10 g, pellets, 4.5 %, flame-out, locked",
         "13 g, pellets, 4.5 %, flame-out, locked")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"top_up_to": Quantity(9.5, "9.5 L")}, ("top-up mark", "10 L", "9.5 L")),
        (
            {"wort_from": (wort_share(1, 0.5), wort_share(2, 1.0))},
            ("wort from", "boil 2", "50 % of boil 1, boil 2"),
        ),
        ({"wort_from": ()}, ("wort from", "boil 2", "an equal share of every boil")),
        (
            {"fermenter": replace(BUCKET, kind="glass carboy")},
            ("kind of fermenter", "plastic bucket", "glass carboy"),
        ),
        (
            {"yeast": Yeast("Lager", form="dry", amount=Quantity(11.0, "11 g", unit="g"))},
            ("yeast of this fermenter", "as the recipe says", "Lager, dry, 11 g"),
        ),
        ({"frozen_top_up": Quantity(1.0, "1 kg")}, ("frozen top-up water", "none", "1 kg")),
    ],
)
def test_a_field_of_a_fermenter_is_told_with_the_fermenter(changes, expected):
    what, before, after = expected
    assert told(two_boils(), with_fermenter(2, **changes)) == [
        (f"Fermenter 2, {what}", before, after)
    ]


def test_two_yeasts_are_told_by_what_differs_between_them():
    ale = Yeast("Ale", amount=Quantity(5.0, "5 g", unit="g"))
    more = replace(ale, amount=Quantity(6.0, "6 g", unit="g"))
    assert [
        what for what, _, _ in told(with_fermenter(1, yeast=ale), with_fermenter(1, yeast=more))
    ] == ["Fermenter 1, yeast, amount"]


def test_a_boil_and_a_fermenter_more_are_told_whole():
    plan = two_boils()
    third = replace(plan.boils[0], share=typed(Kind.FRACTION, 0.3))
    more = replace(
        plan,
        boils=(*plan.boils, third),
        fermenters=(*plan.fermenters, PlannedFermenter(BUCKET, (wort_share(3, 1.0),), litres(6.0))),
    )
    assert told(plan, more)[1:] == [
        ("Boil 3", "", "Kitchen pot of 9 L, 30 %, 6.3 L"),
        ("Fermenter 3", "", "Small bucket of 12 L, boil 3, 6 L"),
    ]
    assert told(more, plan)[1:] == [
        ("Boil 3", "Kitchen pot of 9 L, 30 %, 6.3 L", ""),
        ("Fermenter 3", "Small bucket of 12 L, boil 3, 6 L", ""),
    ]


def test_marks_of_two_buckets_are_told_bucket_by_bucket():
    assert told(two_buckets(10.0, 10.0), two_buckets(9.0, 11.0)) == [
        ("Fermenter 1, top-up mark", "10 L", "9 L"),
        ("Fermenter 2, top-up mark", "10 L", "11 L"),
    ]
