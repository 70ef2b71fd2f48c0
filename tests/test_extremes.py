"""Every field at the ends of what it takes, alone and two at a time: no fault, no lost figure.

Forecast, fit, sheet and JSON are made of each recipe as the command line makes them. Fields and
limits are those declared, so a new field is swept too. Drawn pairs are the same on each run.
"""

import json
import random
import re
from dataclasses import replace

import pytest

from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import FitWish, HopInHand, sized_pot, wish_for
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.recipe.document import LINE_TYPES, PART_TYPES
from designer.recipe.fields import quantity_fields
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.resource_files import resources_folder
from designer.sheet.content import brew_sheet
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.units import ShownUnits, show
from designer.workbench.figures import Figures
from designer.workbench.fit_text import fit_document, fit_lines
from designer.workbench.forecast_document import forecast_document
from designer.workbench.forecast_text import forecast_lines

RECIPES = [load(path) for path in sorted((resources_folder() / "examples").glob("*.hobwort"))]
PORTER = next(each for each in RECIPES if each.name == "Harbour Lamp Porter")
PLACES = [
    (part, name.name, facts)
    for part, of in {**PART_TYPES, **LINE_TYPES}.items()
    for name, facts in quantity_fields(of)
]
LARGE_L = 10_000.0
PAIRS = 60
NO_FIGURE = re.compile(r"(?<![^\W\d_])(?:nan|inf|infinity)(?![^\W\d_])", re.IGNORECASE)


def place_named(name):
    return next(each for each in PLACES if f"{each[0]}.{each[1]}" == name)


HEADSPACE = place_named("fermenter.headspace")


def extremes(facts):
    """The ends of a field, nothing, and ten thousand litres."""
    ends = {facts.low, facts.high, max(0.0, facts.low)}
    if facts.kind is Kind.VOLUME:
        ends |= {LARGE_L, 0.001}
    return sorted(each for each in ends if facts.low <= each <= facts.high)


def with_value(recipe, place, value):
    part, name, facts = place
    unit = "g" if facts.kind is Kind.DOSE else ""
    text = f"{value:g} g" if unit else show(facts.kind, value)
    typed = {name: Quantity(value, text, unit=unit)}
    if part in PART_TYPES:
        return replace(recipe, **{part: replace(getattr(recipe, part), **typed)})
    lines = getattr(recipe, part) or (LINE_TYPES[part]("Irish moss"),)
    return replace(recipe, **{part: (replace(lines[0], **typed), *lines[1:])})


def all_texts(recipe, wishes):
    """What the program says of a recipe, wherever it says it."""
    outlook = look_ahead(recipe)
    yield from forecast_lines(recipe, outlook)
    yield json.dumps(forecast_document(recipe, outlook), allow_nan=False)
    for finding in outlook.findings:
        yield finding.message.text
        if finding.fix is not None:
            assert look_ahead(finding.fix.apply(recipe), ranges=False).findings is not None
    for variant in ("full", "bench"):
        sheet = brew_sheet(
            recipe, outlook, shown=ShownUnits.BOTH, start="09:00", brew_date=None, variant=variant
        )
        yield sheet_text(sheet)
        yield sheet_html(sheet)
    for wish in wishes:
        answer = ways(recipe, wish)
        yield from fit_lines(recipe, answer, Figures(ShownUnits.BOTH))
        yield json.dumps(fit_document(answer), allow_nan=False)


def assert_all_is_said_in_figures(recipe, *wishes):
    for text in all_texts(recipe, wishes):
        found = NO_FIGURE.search(text)
        assert found is None, text[max(found.start() - 80, 0) : found.end() + 40]


def named(place):
    return f"{place[0]}.{place[1]}"


@pytest.mark.parametrize("place", PLACES, ids=named)
def test_a_field_at_its_ends_leaves_forecast_sheet_and_fit_whole(place):
    for number, value in enumerate(extremes(place[2])):
        recipe = with_value(RECIPES[(PLACES.index(place) + number) % len(RECIPES)], place, value)
        assert_all_is_said_in_figures(recipe, wish_for(recipe, 9.0, (12.0,)), wish_for(recipe))


@pytest.mark.parametrize("seed", range(6))
def test_two_fields_at_their_ends_leave_forecast_sheet_and_fit_whole(seed):
    drawn = random.Random(seed)
    for number in range(PAIRS // 6):
        recipe = RECIPES[number % len(RECIPES)]
        for place in drawn.sample(PLACES, 2):
            recipe = with_value(recipe, place, drawn.choice(extremes(place[2])))
        assert_all_is_said_in_figures(recipe, wish_for(recipe))


@pytest.mark.parametrize("pot_l", [0.5, 9.0, LARGE_L])
@pytest.mark.parametrize("fermenter_l", [0.5, LARGE_L])
@pytest.mark.parametrize("headspace", [0.0, 0.9, 1.0])
def test_kitchens_at_their_ends_are_answered(pot_l, fermenter_l, headspace):
    recipe = with_value(RECIPES[1], HEADSPACE, headspace)
    wish = wish_for(recipe, pot_l, (fermenter_l, fermenter_l))
    rich = replace(
        wish,
        second_pot=sized_pot(recipe.pot, pot_l),
        late_fraction=0.0,
        most_frozen_kg=0.0,
        whole_packs=True,
        hops_in_hand=(
            HopInHand("Fuggle", typed(Kind.FRACTION, 0.001), 0.0),
            HopInHand("Challenger", typed(Kind.FRACTION, 1.0), 1000.0),
        ),
    )
    assert_all_is_said_in_figures(recipe, wish, rich)


def test_a_fermenter_all_of_foam_is_told_with_its_figure_and_what_is_usual():
    recipe = with_value(PORTER, HEADSPACE, 1.0)
    answer = ways(recipe, FitWish(recipe.pot, (recipe.fermenter,)))
    said = " ".join(fit_lines(recipe, answer))
    assert "100 % of room for krausen leaves none for beer in any fermenter; 15 % is usual" in said


@pytest.mark.parametrize(
    ("place", "value", "said"),
    [
        ("process.left_in_pot", 100.0, "100 L are to be left in the pot, and it holds"),
        ("hops.amount", 100.0, "of hops in the pot soak up all of its"),
        ("process.top_up_to", LARGE_L, "in 10000 L make a wort of 1.000: next to nothing"),
        ("fermentables.amount", 0.0, "There is nothing to ferment yet. Add malt extract"),
    ],
)
def test_fit_and_findings_name_the_same_cause_why_nothing_ferments(place, value, said):
    recipe = replace(PORTER, fermentables=PORTER.fermentables[:1])
    recipe = with_value(recipe, place_named(place), value)
    stops = [each.message.text for each in look_ahead(recipe).findings if each.severity == "stop"]
    assert [text for text in stops if said in text]
    assert said in ways(recipe, wish_for(recipe)).sentence.text
