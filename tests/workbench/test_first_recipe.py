"""Answers become first recipes: three that differ, with reasons, and within what a style asks.

The ranges of the styles are those of the BJCP Style Guidelines 2021.
"""

from functools import cache

import pytest

from designer.brewday.predictions import BY_KEY
from designer.brewday.stock import Stock
from designer.errors import RefusedInputError
from designer.library import catalogue
from designer.library.recipe_file import document_text, read_document
from designer.recipe.document import Pot, Process, Recipe
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Stage
from designer.recipe.severity import Severity
from designer.units import ShownUnits, read
from designer.workbench.first_recipe import (
    Answers,
    first_recipes,
    flavours,
    read_words,
    study_recipe,
    wished,
)

POT, FERMENTER = typed(Kind.VOLUME, 9.0), typed(Kind.VOLUME, 12.0)


def answers(words="best bitter", **others):
    return Answers(**{"words": words, "pot": POT, "fermenter": FERMENTER, **others})


@cache
def drafts(words="best bitter", **others):
    return first_recipes(answers(words, **others))


def value(draft, key):
    return draft.outlook.forecasts[key].value


def shares(recipe):
    total = sum(line.amount.value for line in recipe.fermentables)
    found = {}
    for line in recipe.fermentables:
        found[line.name] = found.get(line.name, 0.0) + line.amount.value / total
    return found


def hops_kg(recipe, *stages):
    return sum(
        hop.amount.value
        for hop in recipe.hops
        if hop.when.stage in stages or (Stage.BOIL in stages and hop.when.minutes <= 15.0)
    )


def test_answers_make_three_recipes_and_a_study_with_a_reason_for_every_line():
    every = (*drafts(), study_recipe(answers()))
    assert [each.key for each in every] == ["drier", "rounder", "hoppier", "study"]
    for draft in every:
        recipe = draft.recipe
        assert (recipe.style, recipe.name) == ("Best Bitter", "My Best Bitter")
        told = {(each.lines, each.line_id): each.why.text for each in draft.reasons}
        wanted = {("fermentables", line.line_id) for line in recipe.fermentables}
        wanted |= {("hops", hop.line_id) for hop in recipe.hops} | {("yeast", 0)}
        assert set(told) == wanted
        assert all(told.values())


@pytest.mark.parametrize("words", ["Best Bitter", "English Porter", "American Pale Ale"])
def test_the_three_differ_as_their_names_say_and_stay_in_the_style(words):
    drier, rounder, hoppier = drafts(words)
    style = catalogue.find_style(words)
    for draft in (drier, rounder, hoppier):
        assert not draft.gave_way
        for key in ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu",
                    "colour_srm"):  # fmt: skip
            low, high = getattr(style, key)
            assert low <= value(draft, key) <= high
    assert value(rounder, "final_gravity") > value(drier, "final_gravity") + 0.001
    late = [
        hops_kg(each.recipe, Stage.BOIL, Stage.DRY_HOP, Stage.FLAME_OUT)
        for each in (drier, rounder, hoppier)
    ]
    assert late[2] > 1.5 * max(late[:2])


def test_a_study_is_one_malt_and_one_hop():
    recipe = study_recipe(answers("American Pale Ale")).recipe
    assert len({line.name for line in recipe.fermentables}) == 1
    assert len({hop.name for hop in recipe.hops}) == 1


def test_what_is_typed_holds_in_all_three():
    for draft in drafts(abv_percent=4.2, bitterness_ibu=30.0, colour_srm=9.0):
        assert value(draft, "abv_percent") == pytest.approx(4.2, abs=0.1)
        assert value(draft, "bitterness_ibu") == pytest.approx(30.0, abs=1.5)
        assert value(draft, "colour_srm") == pytest.approx(9.0, abs=1.0)
    for draft in drafts(original_gravity=1.046):
        assert value(draft, "original_gravity") == pytest.approx(1.046, abs=0.001)


def test_flavours_bring_what_tastes_of_them():
    assert [each.label for each in flavours()] == [
        "toffee", "flowers", "bread crust", "dried fruit", "nuts", "roast", "orange peel", "pine",
    ]  # fmt: skip
    for draft in drafts(flavours=("toffee", "flowers")):
        names = {line.name for line in draft.recipe.fermentables}
        assert names & {"Crystal malt 40 °L", "Crystal malt 60 °L", "Crystal malt 80 °L"}
        assert "East Kent Golding" in {hop.name for hop in draft.recipe.hops}
        assert "flowers" in {each.why.text for each in draft.reasons}


def test_a_flavour_that_does_not_belong_into_a_style_is_said():
    (said,) = drafts("Munich Helles", flavours=("roast",))[0].gave_way
    assert said.text.startswith("No roast:")


@pytest.mark.parametrize(
    ("words", "style", "said"),
    [
        ("best bitter, not too sweet", "Best Bitter", "read as: Best Bitter, drier than usual"),
        ("Kölsch", "Kölsch", "read as: Kölsch"),
        ("a strong brown ale", "British Brown Ale", "British Brown Ale, stronger than usual"),
        ("13c", "English Porter", "read as: English Porter"),
        ("not too bitter stout", "Irish Stout", "Irish Stout, softer than usual"),
        ("Best Bitter, nicht zu süß", "Best Bitter", "read as: Best Bitter, drier than usual"),
        ("dunkles Bier mit Kaffee", None, "read as: dark brown, tasting of roast"),
        ("something dark with coffee", None, "read as: dark brown, tasting of roast"),
        ("bitter stout", "Irish Stout", "Irish Stout, more bitter than usual"),
        ("less bitter best bitter", "Best Bitter", "Best Bitter, softer than usual"),
        ("brown, with nuts and toffee", None, "read as: brown, tasting of nuts and toffee"),
        ("4,5 % porter, 25 IBU", "English Porter", "English Porter, 4.5 %, 25 IBU"),
        ("hoppy IPA", "American IPA", "American IPA, with much scent of hops"),
        ("stout of about 6 per cent alcohol", "Irish Extra Stout", "Irish Extra Stout, 6 %"),
        ("Stout mit ungefähr 9 Prozent", "Imperial Stout", "read as: Imperial Stout, 9 %"),
        ("stout, 4.2 %", "Irish Stout", "read as: Irish Stout, 4.2 %"),
        ("dry stout around 6 %", "Irish Stout", "read as: Irish Stout, 6 %"),
        ("bitter of 1.035", "Ordinary Bitter", "read as: Ordinary Bitter, 1.035"),
        ("porter, low bitterness please", "English Porter", "English Porter, softer than usual"),
    ],
)
def test_plain_words_are_read(words, style, said):
    found = read_words(words)
    assert (found.style.name if found.style else None) == style
    assert said in found.said.text
    assert found.unread == ""


def test_figures_among_the_words_hold_unless_their_field_says_otherwise():
    assert wished(answers("porter of 4.5 %, 30 IBU")).abv_percent == 4.5
    assert wished(answers("porter, 1.048, 50 EBC")).original_gravity == 1.048
    assert wished(answers("porter, 50 EBC")).colour_srm == pytest.approx(50 / 1.97)
    typed = wished(answers("porter, 1.048, 30 IBU", abv_percent=5.0, bitterness_ibu=22.0))
    assert (typed.abv_percent, typed.bitterness_ibu) == (5.0, 22.0)
    with pytest.raises(RefusedInputError):
        wished(answers("porter of 80 %"))


def test_words_that_say_nothing_are_told():
    assert read_words("best bitter of the Zanzibar quay").unread == "Zanzibar quay"


def test_not_too_sweet_is_drier_and_dark_is_darker():
    plain = drafts()
    dry = drafts("best bitter, not too sweet")
    assert value(dry[1], "final_gravity") < value(plain[1], "final_gravity")
    dark = drafts("dark best bitter")
    assert value(dark[0], "colour_srm") > value(plain[0], "colour_srm") + 1.0


@pytest.mark.parametrize(
    ("given", "place"),
    [
        ({"pot": typed(Kind.VOLUME, 0.0)}, "Pot"),
        ({"fermenter": typed(Kind.VOLUME, 0.2)}, "Fermenter"),
        ({"original_gravity": 1.4}, "Original gravity"),
        ({"abv_percent": 60.0}, "Alcohol"),
        ({"bitterness_ibu": 5000.0}, "Bitterness"),
    ],
)
def test_nonsense_is_refused_with_its_place_and_limits(given, place):
    for ask in (first_recipes, study_recipe, wished):
        with pytest.raises(RefusedInputError) as refused:
            ask(answers(**given))
        (problem,) = refused.value.problems
        assert problem.startswith(f"{place}: ")
        assert " is outside " in problem


def test_a_kitchen_that_brings_nothing_to_the_boil_is_refused_with_a_way_out():
    weak = Recipe(pot=Pot(power=typed(Kind.POWER, 300.0)))
    with pytest.raises(RefusedInputError, match="300 W stove cannot bring this pot to the boil"):
        first_recipes(answers(kitchen=weak))
    dry = Recipe(process=Process(evaporation=typed(Kind.EVAPORATION, 6.0)))
    with pytest.raises(RefusedInputError, match="type a larger pot, or less evaporation"):
        first_recipes(answers(kitchen=dry, pot=typed(Kind.VOLUME, 4.0)))


def test_a_batch_that_the_fermenter_does_not_take_is_the_nearest_that_it_does():
    draft = drafts(batch=typed(Kind.VOLUME, 20.0))[0]
    assert draft.recipe.process.top_up_to.text == "10.2 L"
    assert "10.2 L of beer instead of 20 L" in draft.gave_way[0].text


@pytest.mark.parametrize("pot", [3.0, 5.0, 30.0])
@pytest.mark.parametrize("words", ["Imperial Stout", "American IPA", "Munich Helles", ""])
def test_nothing_grave_is_found_whatever_the_pot(words, pot):
    for draft in drafts(words, pot=typed(Kind.VOLUME, pot)):
        grave = [each for each in draft.outlook.findings if each.severity is Severity.STOP]
        assert not grave


@pytest.mark.parametrize("units", [ShownUnits.METRIC, ShownUnits.US])
def test_amounts_are_what_a_kitchen_weighs_and_are_read_back_as_they_are(units):
    """25 g of extract, 5 g of grain, half a gram of hops; or whole ounces and parts of them."""
    steps = (0.025, 0.005, 0.0005)
    if units is ShownUnits.US:
        steps = tuple(0.0283495231 * part for part in (1.0, 0.25, 0.01))
    for draft in drafts("English Porter", units=units):
        recipe = draft.recipe
        assert read_document(document_text(recipe), "here") == recipe
        for line in (*recipe.fermentables, *recipe.hops):
            if line in recipe.hops:
                step = steps[2]
            else:
                step = steps[1] if line.when.stage is Stage.STEEP else steps[0]
            assert line.amount.value / step == pytest.approx(
                round(line.amount.value / step), abs=1e-4
            )
            assert read(Kind.MASS, line.amount.text).value == pytest.approx(
                line.amount.value, rel=1e-9
            )


def test_whole_packs_are_used_whole_and_the_batch_follows():
    for draft in drafts("English Porter", whole_packs=True):
        extract = [line for line in draft.recipe.fermentables if "extract" in line.kind]
        kg = sum(line.amount.value for line in extract)
        assert kg / 0.5 == pytest.approx(round(kg / 0.5), abs=1e-6)
        assert 1.040 <= value(draft, "original_gravity") <= 1.052


def test_what_is_in_hand_is_taken_first_and_told():
    in_hand = (
        Stock("Light liquid malt extract", 0.5),
        Stock("Fuggle", 0.04, alpha=0.061),
        Stock("Dry English ale yeast", 11.0, "g"),
    )
    for draft in drafts(in_hand=in_hand):
        names = {line.name for line in draft.recipe.fermentables}
        assert "Light liquid malt extract" in names
        (fuggle, *_) = [hop for hop in draft.recipe.hops if hop.name == "Fuggle"]
        assert fuggle.alpha.value == 0.061
        told = [each.in_hand.text for each in draft.reasons if each.in_hand is not None]
        assert "500 g in hand" in told
        assert "in hand" in told
        assert draft.to_buy < len(names) + 3


def test_what_one_line_has_taken_from_the_cupboard_is_not_in_hand_for_the_next():
    (first, *others) = [
        each.in_hand
        for each in drafts(in_hand=(Stock("Light dry malt extract", 0.5),))[0].reasons
        if each.lines == "fermentables" and each.in_hand is not None
    ]
    assert first.text == "500 g in hand"
    assert others == []


def test_a_wish_beyond_its_style_is_met_and_the_three_still_differ():
    """A strong, bitter, dark beer that is called a best bitter: what was asked for holds."""
    three = drafts(original_gravity=1.080, bitterness_ibu=60.0)
    for draft in three:
        assert value(draft, "original_gravity") == pytest.approx(1.080, abs=0.0012)
        assert value(draft, "bitterness_ibu") == pytest.approx(60.0, abs=2.0)
        said = " ".join(each.text for each in draft.gave_way)
        assert "Original gravity 1.0" in said
        assert "where Best Bitter has 1.040 to 1.048: it was asked for." in said
    drier, rounder, _ = (value(each, "final_gravity") for each in three)
    assert rounder > drier + 0.002


def test_as_simple_as_will_do_has_one_hop_and_fewer_lines():
    for simple, other in zip(drafts(is_simple=True), drafts(), strict=True):
        assert len({hop.name for hop in simple.recipe.hops}) == 1
        assert len(simple.recipe.fermentables) <= len(other.recipe.fermentables)


def test_what_was_left_out_is_filled_in_beside_the_fields():
    found = wished(answers(abv_percent=4.2, bitterness_ibu=25.0))
    assert found.strength.text == "OG near 1.042"
    assert found.bitterness.text == "balanced, 25 IBU"
    assert found.ibu_ends == (25.0, 40.0)
    assert wished(answers(original_gravity=1.044)).strength.text == "near 4.5 %"
    assert BY_KEY["abv_percent"].unit == "%"
