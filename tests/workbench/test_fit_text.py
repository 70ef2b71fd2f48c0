"""The ways to fit as text: what fills the pot, when things go in, what does not work."""

from dataclasses import replace
from math import inf

import pytest

from designer import translation
from designer.brewday.fit.answer import Costs, LeftOver, ToBuy
from designer.brewday.fit.keeping import KEEPING
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.quantity import Quantity
from designer.spoken_language import catalogue_of
from designer.workbench.figures import Figures
from designer.workbench.fit_text import fit_document, fit_lines


@pytest.fixture
def answer(porter):
    """The porter in its own pot, whatever ways there are."""
    return ways(porter, wish_for(porter))


def told(porter, answer, **of_boil):
    """The text of the first way alone, its boil with other figures."""
    way = answer.ways[0]
    boil = replace(way.boils[0], **of_boil)
    alone = replace(answer, ways=(replace(way, boils=(boil,)),))
    return " ".join(" ".join(fit_lines(porter, alone)).split())


def test_the_room_below_the_foam_line_is_told_and_none_is_said_to_be_none(porter, answer):
    text = told(porter, answer, foam_limit_l=5.6, foam_room_l=0.4)
    assert "; foam line at 5.6 L, 0.4 L below it at the fullest of the boil;" in text
    text = told(porter, answer, foam_limit_l=5.6, foam_room_l=0.0)
    assert "; foam line at 5.6 L, just up to it at the fullest of the boil;" in text


def test_a_pot_of_unknown_size_has_no_foam_line(porter, answer):
    assert "foam line" not in told(porter, answer, foam_limit_l=inf)


def test_what_goes_into_the_boil_is_told_by_the_minutes_left_all_else_by_its_stage(porter, answer):
    goes_in = answer.ways[0].boils[0].goes_in
    boiled = next(each for each in goes_in if each.boil_left_min is not None)
    steeped = next(each for each in goes_in if each.stage == "steep")
    text = told(porter, answer)
    assert f"{boiled.name}, {boiled.boil_left_min:.0f} min before the end of the boil" in text
    assert f"{steeped.name}, steep" in text


def test_only_where_a_way_does_not_work_is_that_said(porter, answer):
    assert "Does not work here:" not in fit_lines(porter, replace(answer, no_ways=()))


def test_a_way_says_where_its_beer_more_likely_lies_than_its_value(porter, answer):
    way = answer.ways[0]
    colour = replace(way.forecasts["colour_srm"], leans="higher")
    leaning = replace(way, forecasts={**way.forecasts, "colour_srm": colour})
    alone = replace(answer, ways=(leaning,))
    line = next(each for each in fit_lines(porter, alone) if each.strip().startswith("Colour  "))
    assert f"{colour.low:.0f} to {colour.high:.0f} SRM, more likely higher  " in line
    (document,) = fit_document(alone)["ways"]
    assert document["forecasts"]["colour_srm"]["leans"] == "higher"


def with_costs(answer, used, to_buy, in_all, whole=30.0):
    costs = Costs(used, to_buy, in_all)
    way = replace(answer.ways[0], costs=costs, original_cost=whole, batch_l=10.0)
    return replace(answer, ways=(replace(way, original_batch_l=20.0),))


def test_what_a_way_costs_is_told_in_all_and_by_the_litre(porter, answer):
    found = with_costs(answer, 15.0, 2.0, 17.0)
    text = " ".join(fit_lines(porter, found))
    assert "Cost of what goes in: 17, 1.70 a litre. The whole recipe: 1.50 a litre." in text
    (document,) = fit_document(found)["ways"]
    assert [
        document[key]
        for key in (
            "cost", "cost_used", "cost_to_buy", "cost_per_litre", "original_cost_per_litre",
        )
    ] == pytest.approx([17.0, 15.0, 2.0, 1.7, 1.5])  # fmt: skip


def test_where_a_price_is_not_known_only_what_is_known_is_told(porter, answer):
    text = " ".join(fit_lines(porter, with_costs(answer, 15.0, None, None)))
    assert "Cost of the recipe's own ingredients used: 15." in text
    assert "a litre" not in text
    nothing = with_costs(answer, None, None, None, None)
    assert "Cost" not in " ".join(fit_lines(porter, nothing))
    assert fit_document(nothing)["ways"][0]["cost"] is None


@pytest.mark.parametrize(
    ("amount", "said"),
    [
        ("0.5 tablet", "0,5 comprimé"),
        ("0.25 tablet", "0,25 comprimé"),
        ("2 tablets", "2 comprimés"),
    ],
)
def test_what_is_counted_is_told_in_the_language_and_a_document_has_it_as_typed(
    porter, answer, amount, said
):
    (finings,) = (each for each in porter.extras if "tablet" in each.amount.text)
    dosed = replace(finings, amount=replace(finings.amount, text=amount))
    way = replace(answer.ways[0], boils=tuple(
        replace(each, recipe=replace(each.recipe, extras=(dosed,))) for each in answer.ways[0].boils
    ))  # fmt: skip
    alone = replace(answer, ways=(way,))
    with translation.speaking(catalogue_of("program_fr"), "fr"):
        text = " ".join(" ".join(fit_lines(porter, alone, Figures(decimal_comma=True))).split())
    assert f"{said} {finings.name}, 5 min avant la fin" in text
    (boil,) = fit_document(alone)["ways"][0]["boils"]
    assert amount in [each["amount"] for each in boil["goes_in"]]


def test_what_is_bought_stands_with_its_price_and_what_is_left_with_its_keeping(porter, answer):
    bags = ToBuy("Fuggle", Quantity(0.0055, "5.5 g"), "hops", ((1, "25 g bag"),), 0.0195, price=3.0)
    left = LeftOver("hops", 5, "Challenger", Quantity(0.01, "10 g"), KEEPING["hops"])
    sachet = LeftOver("yeast", 0, "Ale yeast", Quantity(11.0, "11 g", unit="g"), KEEPING["yeast"])
    way = replace(answer.ways[0], must_buy=(bags, ToBuy("a bucket")), left_over=(left, sachet))
    alone = replace(answer, ways=(way,))
    text = " ".join(" ".join(fit_lines(porter, alone)).split())
    assert (
        "Buy: Fuggle, 5.5 g: 1 × 25 g bag, 19.5 g of it left over (freezer, airtight: a year), "
        "for 3 Buy: a bucket Left over: 10 g of Challenger. Freeze it, airtight"
    ) in text
    assert "11 g of Ale yeast. Closed, in the cold, up to the date on the packet." in text
    (document,) = fit_document(alone)["ways"]
    assert document["must_buy"][0]["price"] == 3.0
    assert document["must_buy"][0]["keep"] == KEEPING["hops"].how.text
    assert (document["must_buy"][1]["price"], document["must_buy"][1]["keep"]) == (None, None)
    assert document["left_over"][0] == {
        "list": "hops", "name": "Challenger", "amount": "10 g", "keep": KEEPING["hops"].how.text,
        "keep_briefly": "freezer, airtight: a year", "keeps_days": 365,
        "keep_source": KEEPING["hops"].source,
    }  # fmt: skip
    assert document["left_over"][1]["amount"] == "11 g"


def test_what_is_bought_is_added_up_where_there_is_more_than_one_thing(porter, answer):
    two = (ToBuy("Fuggle", kind="hops", price=3.0), ToBuy("Yeast", kind="yeast", price=2.0))
    found = with_costs(answer, 15.0, 5.0, 20.0)
    way = replace(found.ways[0], must_buy=two)
    assert "To buy in all: 5." in " ".join(fit_lines(porter, replace(found, ways=(way,))))
    one = replace(way, must_buy=two[:1])
    assert "To buy in all" not in " ".join(fit_lines(porter, replace(found, ways=(one,))))
