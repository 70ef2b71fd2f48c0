"""Any plan that a recipe can have is saved and opened as the same plan; what is none is refused."""

import json
from dataclasses import fields, replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.brewday.outlook import look_ahead
from designer.errors import RefusedInputError
from designer.library.bill import bill_csv
from designer.library.catalogue import find_hop, new_hop
from designer.library.recipe_file import document_text, load, read_document, save
from designer.library.round_trip import as_held, unmarked
from designer.recipe.document import (
    Fermentable,
    Hop,
    PlannedBoil,
    PlannedFermenter,
    Pot,
    WortShare,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.limits import (
    LARGEST_DOCUMENT_BYTES,
    LONGEST_WORDS,
    MOST_BOILS,
    MOST_FERMENTERS,
    MOST_LINES,
    MOST_OWN_LINES,
)
from designer.recipe.plan import as_written, plan_faults, wort_share
from designer.recipe.quantity import Kind, Quantity
from tests.library.test_same_recipe import field_values, parts, recipes
from tests.workbench.planned_red import WRITTEN, bucket, two_boils, with_own_hops, with_own_yeast

many = settings(max_examples=80, suppress_health_check=[HealthCheck.too_slow])
few_times = settings(max_examples=30, suppress_health_check=[HealthCheck.too_slow])


def opened_again(recipe):
    return read_document(document_text(recipe), "brew")


def few(of):
    return st.lists(parts(of), max_size=2).map(tuple)


boils = st.builds(
    PlannedBoil,
    pot=parts(Pot),
    fermentables=st.one_of(st.none(), few(Fermentable)),
    hops=st.one_of(st.none(), few(Hop)),
    **{
        each.name: field_values(each)
        for each in fields(PlannedBoil)
        if each.name not in ("pot", "fermentables", "hops", "extras")
    },
)
vessels = st.builds(
    PlannedFermenter,
    fermenter=parts(type(WRITTEN.fermenter)),
    yeast=st.one_of(st.none(), parts(Yeast)),
    **{
        each.name: field_values(each)
        for each in fields(PlannedFermenter)
        if each.name in ("top_up_to", "frozen_top_up")
    },
)


@st.composite
def plans(draw):
    """Boils and fermenters, each boil shared evenly between some of these."""
    in_boils = draw(st.lists(boils, max_size=3))
    into = draw(st.lists(vessels, max_size=3))
    if not into:
        return tuple(in_boils), ()
    wort = [[] for _ in into]
    for boil in range(1, max(len(in_boils), 1) + 1):
        chosen = draw(st.sets(st.integers(0, len(into) - 1), min_size=1))
        for each in chosen:
            wort[each].append(wort_share(boil, 1.0 / len(chosen)))
    filled = [replace(each, wort_from=tuple(of)) for each, of in zip(into, wort, strict=True) if of]
    return tuple(in_boils), tuple(filled)


@many
@given(recipes, plans())
def test_any_plan_saved_and_opened_is_the_same_plan(recipe, plan):
    planned = with_line_ids(replace(recipe, boils=plan[0], fermenters=plan[1]))
    assert list(plan_faults(planned)) == []
    held = as_held(recipe, planned)
    assert opened_again(held) == held


@few_times
@given(plans())
def test_any_plan_of_a_real_recipe_can_be_looked_ahead(plan):
    planned = with_line_ids(replace(WRITTEN, boils=plan[0], fermenters=plan[1]))
    outlook = look_ahead(planned, ranges=False)
    assert outlook.forecasts["original_gravity"].value >= 0.9


def made(boils=(), fermenters=()):
    return replace(WRITTEN, boils=tuple(boils), fermenters=tuple(fermenters))


def refusal(after, before=WRITTEN):
    with pytest.raises(RefusedInputError) as told:
        as_held(before, after)
    return str(told.value)


BOIL = two_boils().boils[0]


def test_a_plan_as_large_as_may_be_is_opened_again_and_one_line_more_is_refused():
    lines = (Hop("Fuggle", amount=Quantity(0.02, "20 g")),) * MOST_LINES
    grain = (Fermentable("Crystal malt 120 °L", amount=Quantity(0.2, "200 g")),) * MOST_LINES
    written = with_line_ids(replace(WRITTEN, hops=lines, fermentables=grain))
    each = replace(BOIL, hops=lines)
    assert MOST_OWN_LINES == MOST_LINES * MOST_BOILS
    full = as_held(written, replace(written, boils=(each,) * MOST_BOILS))
    assert opened_again(full) == with_line_ids(full)
    assert len(document_text(full).encode()) < LARGEST_DOCUMENT_BYTES
    more = replace(each, fermentables=grain[:1])
    told = refusal(replace(full, boils=(*full.boils[:-1], more)), before=full)
    assert told == (
        "The boils of a recipe list up to 3,000 lines of their own in all; with these it would "
        "be 3,001. Let some boils take their share of the recipe, or take lines out."
    )


def test_more_boils_and_fermenters_than_may_be_are_refused_with_a_way_out():
    assert refusal(made([BOIL] * (MOST_BOILS + 1))).startswith(
        "A recipe is brewed in up to 6 boils; this would be 7. Take a larger pot"
    )
    share = 1.0 / (MOST_FERMENTERS + 1)
    told = refusal(made((), [bucket(1.0, wort_share(1, share))] * (MOST_FERMENTERS + 1)))
    assert told.startswith("A recipe goes into up to 12 fermenters; this would be 13.")


def test_words_and_figures_of_a_plan_are_refused_with_the_boil_or_the_vessel_they_are_of():
    long = replace(BOIL, pot=replace(BOIL.pot, name="p" * (LONGEST_WORDS + 1)))
    assert refusal(made([BOIL, long])).startswith("Boil 2: Pot: up to 20,000 characters are held")
    hops = (Hop("Fuggle", amount=Quantity(20_000.0, "20000 kg")),)
    assert refusal(made([replace(BOIL, hops=hops)])).startswith(
        "Boil 1: Amount of “Fuggle”: “20000 kg” is outside"
    )
    deep = replace(bucket(10.0), top_up_to=Quantity(2e5, "200000 L"))
    assert refusal(made((), [deep])).startswith("Fermenter 1: Top-up mark: “200000 L” is outside")


def test_all_words_of_a_plan_count_as_those_of_the_recipe_do():
    wide = replace(BOIL, hops=tuple(Hop("h" * LONGEST_WORDS) for _ in range(26)))
    assert refusal(made([wide])).startswith("A recipe holds up to 500,000 characters in all")


@pytest.mark.parametrize(
    ("boils", "fermenters", "told"),
    [
        ((BOIL,), [bucket(10.0, WortShare(2))], "there is no boil 2; there are 1"),
        ((BOIL, BOIL), [bucket(10.0, WortShare(1))], "none takes wort of boil 2; let one take it"),
        (
            (BOIL, BOIL),
            [bucket(10.0, WortShare(1), WortShare(2, typed(Kind.FRACTION, 0.0)))],
            "none takes wort of boil 2",
        ),
        ((), [bucket(10.0, wort_share(1, 0.6))] * 2, "they take 120 % of the wort of boil 1"),
        ((), [bucket(10.0, WortShare(1)), bucket(10.0)], "they take 150 % of the wort of boil 1"),
        ((), [bucket(10.0, WortShare(1, typed(Kind.FRACTION, 0.0)))], "it gets no wort"),
    ],
)
def test_a_plan_that_nothing_can_be_brewed_by_is_neither_made_nor_opened(boils, fermenters, told):
    plan = made(boils, fermenters)
    assert told in refusal(plan)
    with pytest.raises(RefusedInputError, match="brew: ") as refused:
        opened_again(plan)
    assert told in str(refused.value)


def test_a_faulty_plan_that_was_there_stands_in_nobodys_way():
    faulty = made((BOIL, BOIL), [bucket(10.0, WortShare(1))])
    changed = replace(faulty, boils=(BOIL, replace(BOIL, start_water=Quantity(6.0, "6 L"))))
    assert as_held(faulty, changed) == changed


def test_marks_that_turn_words_round_are_taken_out_of_a_plan_too():
    marked = "Lamp\u202e pot"
    plan = made(
        [replace(BOIL, pot=replace(BOIL.pot, name=marked), hops=(Hop(marked),))],
        [replace(bucket(10.0), yeast=Yeast(marked))],
    )
    clean = unmarked(plan)
    names = (clean.boils[0].pot.name, clean.boils[0].hops[0].name, clean.fermenters[0].yeast.name)
    assert names == ("Lamp pot",) * 3
    assert unmarked(clean) is clean


def test_figures_that_a_plan_leaves_out_come_from_the_catalogue_and_emptied_ones_do_not():
    document = json.loads(document_text(two_boils()))
    document["boils"][0]["hops"] = [{"name": "Fuggle", "amount": "10 g"}]
    document["fermenters"][1]["yeast"] = {"name": "Dry English ale yeast", "form": "dry"}
    opened = read_document(json.dumps(document), "brew")
    assert opened.boils[0].hops[0].alpha is not None
    yeast = opened.fermenters[1].yeast
    assert yeast.attenuation is not None
    emptied = replace(opened.fermenters[1], yeast=replace(yeast, attenuation=None))
    again = replace(opened, fermenters=(opened.fermenters[0], emptied))
    assert opened_again(again) == again


def test_a_name_that_the_catalogue_has_changed_keeps_its_figures_in_a_boil_too():
    document = json.loads(document_text(two_boils()))
    document["boils"][0]["hops"] = [{"name": "Columbus", "amount": "10 g"}]
    opened = read_document(json.dumps(document), "brew")
    assert opened.boils[0].hops[0].alpha == new_hop(find_hop("CTZ")).alpha


@pytest.mark.parametrize("plan", [two_boils(), with_own_hops(), with_own_yeast()])
def test_a_plan_is_on_disk_as_it_was_made_and_the_written_recipe_beside_it(plan, tmp_path):
    path = tmp_path / "plan.hobwort"
    save(plan, path)
    assert load(path) == plan
    assert as_written(load(path)) == WRITTEN


def test_the_bill_is_that_of_the_recipe_as_it_is_written():
    assert bill_csv(with_own_hops()) == bill_csv(WRITTEN)


def test_a_recipe_without_a_plan_says_nothing_of_one_in_its_file():
    document = json.loads(document_text(WRITTEN))
    assert not {"boils", "fermenters"} & document.keys()
