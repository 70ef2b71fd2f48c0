"""The sheet of a plan, read back from its text: what is weighed out adds up to what the way takes.

A row with two boxes is weighed out twice. Weights as the sheet rounds them: ten grams from a
kilogram, a gram from 100 g, else a tenth; what kitchen scales show, common practice, no source.
"""

import re
from collections import Counter, defaultdict

import pytest

from designer.brewday.outlook import look_ahead
from designer.recipe.quantity import Kind
from designer.sheet.content import brew_sheet
from designer.sheet.plain import sheet_text
from designer.units import ShownUnits, read
from designer.workbench.fit_text import fit_document
from tests.fit_proof.adding_up import fermenters_of, kilograms, shown_to_kg
from tests.fit_proof.balance import every_way
from tests.fit_proof.kitchens import Home, Pair

ROW = re.compile(r"^\s*((?:\[ \])+) (?:\w+: )?([\d.]+ k?g) (.+)$")
WATER = re.compile(r"\[ \] ([\d.]+ L) cold water for the pot")
PAIRS = (
    Pair("Breakwater Red", Home(9.0, (12.0, 12.0))),
    Pair("Breakwater Red", Home(6.0, (12.0, 12.0), second_pot_l=5.0)),
    Pair("Harbour Lamp Porter", Home(6.0, (10.0, 10.0))),
    Pair("Slipway Bitter", Home(6.0, (10.0, 10.0), second_pot_l=5.0)),
    Pair("Quay Pale", Home(12.0, (12.0, 12.0))),
    Pair("Customs Bitter", Home(15.0, (12.0, 15.0))),
)


def sheet_of(pair, way):
    recipe = way.edit.apply(pair.recipe)
    outlook = look_ahead(recipe, ranges=False)
    sheet = brew_sheet(
        recipe, outlook, shown=ShownUnits.METRIC, start=None, brew_date=None
    )  # fmt: skip
    return sheet_text(sheet)


def part_of(text, first, last):
    """Return the lines from the one that begins with some words to the next of others."""
    lines = text.splitlines()
    begin = next(place for place, line in enumerate(lines) if line.startswith(first))
    end = next(place for place, line in enumerate(lines) if line.startswith(last))
    return lines[begin + 1 : end]


def told(lines, names):
    """Return the kilograms of each name that the rows tell, and how far rounding may put it off."""
    found, off = Counter(), defaultdict(float)
    for line in lines:
        row = ROW.match(line)
        name = row and next((each for each in names if row[3].startswith(each)), None)
        if name:
            boxes, kg = row[1].count("["), kilograms(row[2])
            found[name] += boxes * kg
            off[name] += boxes * (0.005 if kg >= 1.0 else shown_to_kg(kg))
    return found, off


def taken(way):
    found, off = Counter(), defaultdict(float)
    for boil in way.boils:
        for line in (*boil.recipe.fermentables, *boil.recipe.hops):
            if line.amount is not None and line.amount.value > 0.0:
                found[line.name] += line.amount.value
                off[line.name] += shown_to_kg(line.amount.value)
    return found, off


@pytest.mark.parametrize("pair", PAIRS, ids=str)
def test_what_is_weighed_out_is_what_the_way_takes(pair):
    ways = pair.answer().every_way
    assert any(len(way.boils) > 1 or len(way.boils[0].fillings) > 1 for way in ways)
    for way in ways:
        wanted, off = taken(way)
        names = sorted(wanted, key=len, reverse=True)
        found, rounding = told(part_of(sheet_of(pair, way), "Weigh", "Water"), names)
        for name, kg in wanted.items():
            assert abs(found[name] - kg) <= off[name] + rounding[name] + 1e-9, (way.key, name)


@pytest.mark.parametrize("pair", PAIRS, ids=str)
def test_what_is_bought_is_what_is_weighed_out_or_the_kit_with_what_is_left_of_it(pair):
    """A kit is bought whole: what is left over of it is what the way says."""
    for way in pair.answer().every_way:
        wanted, off = taken(way)
        left = Counter()
        for each in way.left_over:
            left[each.name] += each.amount.value if each.lines != "extras" else 0.0
        names = sorted(wanted, key=len, reverse=True)
        found, rounding = told(part_of(sheet_of(pair, way), "Buy", "Clean"), names)
        for name, kg in wanted.items():
            over = min(abs(found[name] - kg), abs(found[name] - kg - left[name]))
            assert over <= off[name] + rounding[name] + 1e-9, (way.key, name)


@pytest.mark.parametrize("pair", PAIRS, ids=str)
def test_there_is_a_packet_of_yeast_for_each_fermenter(pair):
    for way, said in zip(
        pair.answer().every_way, every_way(fit_document(pair.answer())), strict=True
    ):
        text = " ".join(part_of(sheet_of(pair, way), "Buy", "Clean"))
        [count] = re.findall(r"\((\d) packets?\)", text)
        assert int(count) >= fermenters_of(said), way.key


@pytest.mark.parametrize("pair", PAIRS, ids=str)
def test_the_water_for_the_pots_is_that_of_all_boils(pair):
    for way in pair.answer().every_way:
        told = sum(read(Kind.VOLUME, each).value for each in WATER.findall(sheet_of(pair, way)))
        wanted = sum(boil.start_water_l for boil in way.boils)
        assert abs(told - wanted) <= 0.051 * len(way.boils), way.key


def test_a_row_with_two_boxes_counts_twice_and_one_without_a_letter_too():
    lines = ["  [ ][ ] A: 125 g Medium crystal malt (steep)", "  [ ] 85 g Golden syrup", "Weigh"]
    found, off = told(lines, ["Medium crystal malt", "Golden syrup"])
    assert found == {"Medium crystal malt": 0.25, "Golden syrup": 0.085}
    assert off["Medium crystal malt"] == pytest.approx(0.001)
