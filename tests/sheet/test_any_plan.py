"""Any plan of any recipe has a sheet: in any language and units, each line and each fermenter."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.recipe.document import (
    FERMENTER_KINDS,
    LINE_TYPES,
    TURNS,
    Fermenter,
    PlannedBoil,
    PlannedFermenter,
    Pot,
    WortShare,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.plan import boils_of, plan_faults, recipe_of_fermenter, whole_recipe
from designer.recipe.quantity import Kind
from designer.sheet.blocks import plain_words
from designer.sheet.content import VARIANTS
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.spoken_language import LANGUAGES

from . import plans

many = settings(
    max_examples=12,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)


@st.composite
def planned_recipes(draw, recipes):
    """A recipe with any plan of up to three boils and five fermenters that can be meant."""
    recipe = draw(recipes)
    pots = st.sampled_from([recipe.pot, Pot("Other pot", typed(Kind.VOLUME, 6.0)), Pot()])
    count = draw(st.integers(0, 3))
    boils = tuple(
        PlannedBoil(
            draw(pots),
            draw(st.sampled_from([None, typed(Kind.FRACTION, 1.0 / count)])),
            draw(st.sampled_from(TURNS)),
        )
        for _ in range(count)
    )
    fermenters = tuple(draw(_fermenters(max(count, 1))))
    made = replace(recipe, boils=boils, fermenters=fermenters)
    return made if not list(plan_faults(made)) else replace(made, fermenters=())


@st.composite
def _fermenters(draw, boils):
    count = draw(st.integers(0, 5))
    into_all = draw(st.booleans())
    vessels = st.builds(
        Fermenter,
        st.sampled_from(["", "Bucket", "Jug"]),
        st.sampled_from([None, typed(Kind.VOLUME, 12.0)]),
        kind=st.sampled_from(FERMENTER_KINDS),
    )
    marks = st.sampled_from([None, typed(Kind.VOLUME, 5.0), typed(Kind.VOLUME, 10.0)])
    yeasts = st.sampled_from([None, Yeast("Own yeast", amount=typed(Kind.DOSE, 11.0, unit="g"))])
    ice = st.sampled_from([None, typed(Kind.MASS, 0.5)])
    made = []
    for number in range(count):
        if into_all:
            wort = () if draw(st.booleans()) else _even(range(1, boils + 1), count)
        else:
            own = number % boils + 1
            wort = _even([own], sum(each % boils + 1 == own for each in range(count)))
        made.append(PlannedFermenter(draw(vessels), wort, draw(marks), draw(ice), draw(yeasts)))
    return made


def _even(boils, count):
    share = typed(Kind.FRACTION, round(1.0 / count, 3))
    return tuple(WortShare(boil, share) for boil in boils)


@many
@given(data=st.data())
def test_any_plan_can_be_said_as_text_and_as_html(any_recipe, sheet_of, data):
    recipe = data.draw(planned_recipes(any_recipe(most=3)))
    units = data.draw(st.sampled_from(["metric", "us", "both"]))
    spoken = data.draw(st.sampled_from(list(LANGUAGES)))
    variant = data.draw(st.sampled_from(VARIANTS))
    sheet = sheet_of(recipe, units, ranges=False, language=spoken, variant=variant)
    text, page = sheet_text(sheet), sheet_html(sheet)
    assert re.search(r"\b(nan|inf)\b", text) is None
    for step in sheet.steps:
        assert plain_words(step.do) in text
    assert page.count('<li class="step">') == len(sheet.steps)


@many
@given(data=st.data())
def test_every_line_of_any_plan_goes_in_and_every_fermenter_gets_yeast(any_recipe, sheet_of, data):
    recipe = data.draw(planned_recipes(any_recipe(most=3)))
    sheet = sheet_of(recipe, ranges=False)
    put_in = {(part.lines, part.line_id) for step in sheet.steps for part in step.portions}
    lines, bought = (  # lines that are alike are one where the beer of several boils is told
        {(name, each.line_id) for name in LINE_TYPES for each in getattr(which, name)}
        for which in (recipe, whole_recipe(recipe))
    )
    assert bought <= put_in - {("yeast", 0)} <= lines
    count = max(len(recipe.fermenters), 1)
    pitched = [each for each in sheet.steps if each.portions and each.portions[0].lines == "yeast"]
    assert sum(max(len(each.turns), 1) for each in pitched) == count


@many
@given(data=st.data())
def test_every_boil_of_any_plan_is_boiled_once(any_recipe, sheet_of, data):
    recipe = data.draw(planned_recipes(any_recipe(most=3)))
    sheet = sheet_of(recipe, ranges=False)
    timed = Counter()
    for each in sheet.steps:
        if "set a timer" in plain_words(each.do):
            timed["boils"] += max(len(each.turns), 1)
    assert timed["boils"] == len(boils_of(recipe))


@many
@given(data=st.data())
def test_what_comes_into_all_fermenters_is_what_the_boils_take(any_recipe, data):
    """Masses add up: a law of physics; each share is rounded to a tenth of a gram."""
    recipe = data.draw(planned_recipes(any_recipe(most=3)))
    whole = whole_recipe(recipe)
    into = [recipe_of_fermenter(recipe, n) for n in range(1, max(len(recipe.fermenters), 1) + 1)]
    for name in ("fermentables", "hops"):
        wanted = sum(each.amount.value for each in getattr(whole, name) if each.amount)
        found = sum(e.amount.value for r in into for e in getattr(r, name) if e.amount)
        parts = len(into) * max(len(recipe.boils), 1) * len(getattr(whole, name))
        assert abs(found - wanted) <= 1e-4 * parts + 1e-3 * wanted


def test_lines_that_are_alike_go_into_a_fermenter_as_one(sheet_of):
    """Twice the same hop at the same time: both are weighed out, and none is lost."""
    recipe = plans.two_buckets()
    dry = replace(plans.three_ways().hops[-1], line_id=0)
    twice = with_line_ids(replace(recipe, hops=(*recipe.hops, dry, dry)))
    text = sheet_text(sheet_of(twice, ranges=False))
    assert "Put 40 g East Kent Golding, pellets into the fermenter" in text
    assert "80 g East Kent Golding, pellets" in text
