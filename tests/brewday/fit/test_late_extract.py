"""Extract that waits: which lines, how much of them, when, and where none may."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import boil_left, line_kg, with_process
from designer.brewday.fit.draft_way import Kitchen
from designer.brewday.fit.late_extract import early_lines, held_late, late_min_for
from designer.brewday.fit.late_extract import put_off as put_off_at
from designer.brewday.fit.one_boil import late_extract, one_boil
from designer.brewday.fit.original import original_of
from designer.brewday.fit.pot_limits import filled
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Kind, Stage, When
from tests.brewday.quantities import q


def line(name, kind, kg, when=None, **changes):
    return Fermentable(name, kind, q(kg, "kg"), when or boil_left(60), **changes)


def bill(*lines):
    return with_line_ids(Recipe(fermentables=lines))


STEEP, FIRST = When(Stage.STEEP, "steep"), When(Stage.FIRST_WORT, "first wort")


def put_off(recipe, share, minutes):
    return put_off_at(recipe, share, boil_left(minutes), early_lines(recipe, minutes))


def names(lines):
    return [each.name for each in lines]


def test_syrup_waits_first_then_dry_extract_kits_and_sugar_the_largest_first():
    """Syrup darkens most in the boil: common practice, no source."""
    recipe = bill(
        line("sugar", "sugar", 3),
        line("kit", "hopped kit extract", 2),
        line("little dry", "dry extract", 0.5),
        line("dry", "dry extract", 1),
        line("syrup", "liquid extract", 0.3),
    )
    assert names(early_lines(recipe, 15.0)) == ["syrup", "dry", "little dry", "kit", "sugar"]


def test_grain_nothing_and_what_is_late_already_cannot_wait():
    recipe = bill(
        line("grain", "steeping grain", 1, STEEP),
        line("mash", "mash grain", 1, STEEP),
        line("empty", "dry extract", 0),
        Fermentable("untyped", "dry extract", None, boil_left(60)),
        line("at the mark", "dry extract", 1, boil_left(15)),
        line("out", "dry extract", 1, When(Stage.FLAME_OUT, "flame-out")),
        line("before", "dry extract", 1, boil_left(15.5)),
        line("first wort", "dry extract", 0.9, FIRST),
        line("steeped", "dry extract", 0.8, STEEP),
    )
    assert names(early_lines(recipe, 15.0)) == ["before", "first wort", "steeped"]


@pytest.mark.parametrize(("boil_min", "late_min"), [(60, 15.0), (30, 15.0), (29, 14.0), (10, 5.0)])
def test_late_extract_has_a_quarter_of_an_hour_or_half_of_a_short_boil(boil_min, late_min):
    """10 to 15 min kill what is in it: common practice, no source. A timer is set in minutes."""
    recipe = with_process(Recipe(), boil_time=q(boil_min, "min"))
    assert late_min_for(recipe) == late_min


def late_and_early(recipe):
    late = [each for each in recipe.fermentables if each.when.minutes == 15.0]
    return late, [each for each in recipe.fermentables if each not in late]


@pytest.mark.parametrize("twentieths", range(1, 21))
def test_the_share_that_waits_is_that_asked_for_and_nothing_goes_missing(twentieths):
    recipe = bill(line("syrup", "liquid extract", 3), line("dry", "dry extract", 1))
    share = twentieths / 20
    made = put_off(recipe, share, 15.0)
    late, early = late_and_early(made)
    assert sum(line_kg(each) for each in late) == pytest.approx(4.0 * share, abs=0.003)
    assert sum(line_kg(each) for each in (*late, *early)) == pytest.approx(4.0)
    assert all(line_kg(each) > 0.0 for each in made.fermentables)
    ids = [each.line_id for each in made.fermentables]
    assert len(set(ids)) == len(ids)
    assert {each.when.text for each in late} == {"boil 15 min"}
    assert {each.when.minutes for each in early} <= {60.0}


def test_the_syrup_waits_whole_before_any_of_the_dry_extract_does():
    recipe = bill(line("dry", "dry extract", 1), line("syrup", "liquid extract", 3))
    late, _ = late_and_early(put_off(recipe, 0.75, 15.0))
    assert [(each.name, line_kg(each)) for each in late] == [("syrup", 3.0)]
    made = put_off(recipe, 0.5, 15.0)
    assert [(each.name, line_kg(each)) for each in made.fermentables] == [
        ("dry", 1.0), ("syrup", 1.0), ("syrup", 2.0),
    ]  # fmt: skip
    assert made.fermentables[2].line_id == 3


def test_what_is_split_off_is_weighed_in_fives_of_grams():
    recipe = bill(line("syrup", "liquid extract", 1.7))
    late, early = late_and_early(put_off(recipe, 0.35, 15.0))
    assert [line_kg(each) for each in late] == [pytest.approx(0.595)]
    late, early = late_and_early(put_off(recipe, 0.451, 15.0))
    assert [line_kg(each) for each in late] == [pytest.approx(0.765)]
    assert [line_kg(each) for each in early] == [pytest.approx(0.935)]


def test_a_locked_line_waits_whole_or_not_at_all_and_the_next_takes_its_turn():
    kit = line("kit", "liquid extract", 1.7, locked=True)
    recipe = bill(kit, line("dry", "dry extract", 1))
    late, _ = late_and_early(put_off(recipe, 0.2, 15.0))
    assert [(each.name, line_kg(each)) for each in late] == [("dry", pytest.approx(0.54))]
    late, _ = late_and_early(put_off(recipe, 1.7 / 2.7, 15.0))
    assert [(each.name, each.amount) for each in late] == [("kit", kit.amount)]
    late, _ = late_and_early(put_off(recipe, 1.0, 15.0))
    assert names(late) == ["kit", "dry"]


def test_less_than_a_twentieth_of_a_line_is_not_worth_dividing_it():
    """A judgement, no source."""
    recipe = bill(line("syrup", "liquid extract", 1))
    assert put_off(recipe, 0.045, 15.0) == recipe
    late, _ = late_and_early(put_off(recipe, 0.055, 15.0))
    assert [line_kg(each) for each in late] == [pytest.approx(0.055)]
    sack = bill(line("syrup", "liquid extract", 4))
    assert put_off(sack, 0.045, 15.0) == sack
    assert put_off(sack, 0.055, 15.0) != sack


def test_a_line_of_nothing_stays_when_it_was():
    recipe = bill(line("syrup", "liquid extract", 1), line("none", "dry extract", 0))
    assert put_off(recipe, 1.0, 15.0).fermentables[1] == recipe.fermentables[1]


def test_two_lines_split_off_get_numbers_of_their_own():
    recipe = bill(
        line("syrup", "liquid extract", 1), line("syrup", "liquid extract", 1, locked=True),
        line("dry", "dry extract", 1),
    )  # fmt: skip
    made = put_off(recipe, 0.5, 15.0)
    assert [each.line_id for each in made.fermentables] == [1, 2, 3, 4]
    assert sum(line_kg(each) for each in late_and_early(made)[0]) == pytest.approx(1.5)


def test_half_a_kit_tin_keeps_half_the_bitterness_of_its_label():
    tin = line("kit", "hopped kit extract", 1.7, label_bitterness=q(24, "IBU"),
               label_volume=q(20, "L"))  # fmt: skip
    made = put_off(bill(tin), 0.5, 15.0)
    assert [each.label_amount.value for each in made.fermentables] == [1.7, 1.7]
    assert sum(line_kg(each) for each in made.fermentables) == pytest.approx(1.7)


@pytest.fixture(scope="module")
def pale(quay_pale):
    return with_process(quay_pale, frozen_top_up=None)


def kitchen(recipe, pot_l=12.0, **changes):
    return Kitchen(replace(wish_for(recipe, pot_l, (25.0,)), **changes), original_of(recipe))


def held(recipe, pot_l=12.0, **changes):
    here = kitchen(recipe, pot_l, **changes)
    [base] = one_boil(here).recipes
    return here, base, held_late(here, base)


@pytest.mark.parametrize(("pot_l", "most"), [(11.0, 1.0), (14.0, 1.0), (14.0, 0.5), (22.0, 1.0)])
def test_the_most_waits_that_is_not_more_bitter_than_the_recipe(pale, pot_l, most):
    """Against every twentieth; half an IBU counts as held."""
    here, base, found = held(pale, pot_l, late_fraction=most)
    passing = []
    for parts in range(1, round(20 * most) + 1):
        made = filled(put_off(base, parts / 20, 15.0), here.original, 19.0, hold_bitterness=False)
        if made is not None and float(brew(made).beer.bitterness_ibu) <= here.original.most_ibu:
            passing.append(made)
    if not passing or passing[-1].fermentables == base.fermentables:
        assert found is None
    else:
        assert found[0] == passing[-1]
        assert found[2] == 15.0


def test_what_waits_is_named_with_its_weight_where_it_is_part_of_a_line(pale):
    _, base, found = held(pale, late_fraction=0.5)
    recipe, waits, minutes = found
    assert [each.text for each in waits] == ["1.5 kg of Pale liquid malt extract"]
    assert minutes == 15.0
    assert len(recipe.fermentables) == len(base.fermentables) + 1
    whole = held(replace(pale, hops=()))[2]
    assert whole[1] == ("Pale liquid malt extract",)


def test_a_brewer_s_braces_in_a_name_stay_as_they_were_typed(pale):
    odd = replace(
        pale, fermentables=(replace(pale.fermentables[0], name="Malt {0}"), pale.fermentables[1])
    )
    assert held(odd, late_fraction=0.5)[2][1][0].text == "1.5 kg of Malt {0}"


def test_nothing_waits_where_the_brewer_allows_none_or_less_than_a_twentieth(pale):
    assert held(pale, late_fraction=0.0)[2] is None
    assert held(pale, late_fraction=0.04)[2] is None
    assert held(pale, late_fraction=0.1)[2] is not None


def test_nothing_waits_in_a_boil_without_time_for_it(pale):
    short = with_process(pale, boil_time=q(9, "min"))
    assert held(short)[2] is None
    ten = with_process(pale, boil_time=q(10, "min"))
    assert held(ten)[2][2] == 5.0


def test_nothing_waits_where_all_is_late_already(pale):
    late = replace(
        pale,
        fermentables=(replace(pale.fermentables[0], when=boil_left(15)), pale.fermentables[1]),
    )
    assert held(late)[2] is None


def test_late_extract_is_one_or_two_things_more_to_do_and_says_when(pale):
    here = kitchen(pale)
    base = one_boil(here)
    draft = late_extract(here, base)
    assert draft.key == "late extract"
    assert draft.effort == 2
    assert late_extract(here, replace(base, effort=4)).effort == 4
    [step] = draft.steps
    assert step.figures == ((Kind.TIME, 15.0),)
    assert step.text.startswith("Hold back ")
    day, before = brew(draft.recipes[0]), brew(base.recipes[0])
    assert day.beer.bitterness_ibu > before.beer.bitterness_ibu + 0.5
    gained = day.beer.bitterness_ibu - before.beer.bitterness_ibu
    assert "draws up to {0} more from the hops, or none" in draft.gist.template
    assert draft.gist.figures == ((Kind.BITTERNESS, pytest.approx(gained)),)
    assert float(day.beer.original_gravity) >= here.original.least_gravity
    unhopped = replace(pale, hops=())
    plain = kitchen(unhopped)
    assert "for less time" in late_extract(plain, one_boil(plain)).gist.text
    none = kitchen(pale, late_fraction=0.0)
    assert late_extract(none, one_boil(none)) is None


def test_a_gain_of_half_an_ibu_is_said_to_be_one(pale):
    for share in (0.05, 0.1, 0.15, 0.2, 0.4):
        here = kitchen(pale, 14.0, late_fraction=share)
        base = one_boil(here)
        draft = late_extract(here, base)
        gained = float(brew(draft.recipes[0]).beer.bitterness_ibu) - float(
            brew(base.recipes[0]).beer.bitterness_ibu
        )
        assert ("more from the hops" in draft.gist.text) == (gained > 0.5)
