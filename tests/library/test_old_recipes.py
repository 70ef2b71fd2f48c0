"""Files of every released format open, and mean what they meant."""

import json
from dataclasses import fields
from pathlib import Path

import pytest

from designer.errors import RefusedInputError
from designer.library import upgrades
from designer.library.document_reading import FORMAT
from designer.library.recipe_file import document_of, load, read_document
from designer.recipe.document import FERMENTABLE_KINDS, LINE_TYPES, PART_TYPES, PLAN_TYPES, Recipe
from designer.recipe.fields import key_of
from designer.recipe.quantity import Stage, When

SAMPLES = Path(__file__).parents[1] / "old_recipes"
US_GALLON_L, POUND_KG = 3.785411784, 0.45359237


def test_there_is_a_sample_of_every_format_and_a_step_from_every_old_one():
    numbers = sorted(int(path.stem.removeprefix("format_")) for path in SAMPLES.glob("format_*"))
    assert numbers == list(range(1, FORMAT + 1))
    assert sorted(upgrades.STEPS) == list(range(1, FORMAT))


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*.hobwort")), ids=lambda path: path.stem)
def test_every_sample_opens_and_is_saved_in_the_present_format(path):
    recipe = load(path)
    document = document_of(recipe)
    assert document["hobwort"] == FORMAT
    assert read_document(json.dumps(document), "again") == recipe


def test_the_sample_of_the_present_format_has_every_key_and_every_kind_of_line():
    sample = json.loads((SAMPLES / f"format_{FORMAT}.hobwort").read_text(encoding="utf-8"))
    assert sample.keys() - {"hobwort"} == {each.name for each in fields(Recipe)}
    for name, of in PART_TYPES.items():
        assert sample[name].keys() == {each.name for each in fields(of)}, name
    for name, of in LINE_TYPES.items():
        used = {key for line in sample[name] for key in line}
        assert used == {each.name for each in fields(of)} - {"line_id"}, name
    for name, of in PLAN_TYPES.items():
        used = {key for part in sample[name] for key in part}
        assert used == {key_of(each) for each in fields(of)}, name
    assert [line["kind"] for line in sample["fermentables"]] == list(FERMENTABLE_KINDS)
    recipe = load(SAMPLES / f"format_{FORMAT}.hobwort")
    whens = {line.when.stage for name in LINE_TYPES for line in getattr(recipe, name)}
    assert whens == set(Stage)


def test_the_plan_in_the_sample_of_format_2_means_what_it_says():
    recipe = load(SAMPLES / "format_2.hobwort")
    large, small = recipe.boils
    assert (large.share.value, large.turn) == (0.6, "after the one before")
    assert large.start_water.value == pytest.approx(2 * US_GALLON_L)
    assert (large.fermentables, large.hops, large.extras) == (None, None, None)
    assert (small.pot.volume.value, small.turn) == (9.0, "at the same time")
    assert (small.boil_time.value, small.evaporation.spread) == (60.0, pytest.approx(0.3))
    assert [line.amount.value for line in small.fermentables] == [
        pytest.approx(1.3 * POUND_KG),
        0.04,
    ]
    assert [line.line_id for line in small.fermentables] == [
        recipe.fermentables[0].line_id,
        recipe.fermentables[-1].line_id,
    ]
    assert small.extras == ()
    first, second = recipe.fermenters
    assert [(each.boil, each.share) for each in first.wort_from] == [
        (1, None),
        (2, first.wort_from[1].share),
    ]
    assert first.wort_from[1].share.value == 0.25
    assert (first.top_up_to.value, first.frozen_top_up.value, first.yeast) == (15.0, 1.0, None)
    assert (second.yeast.form, second.yeast.amount.value) == ("dry", 11.5)
    assert second.top_up_to.value == pytest.approx(7 * US_GALLON_L / 4)


def test_the_sample_of_format_1_means_what_it_meant_when_it_was_written():
    recipe = load(SAMPLES / "format_1.hobwort")
    assert recipe.name == "Every Key Ale ½ – Ünïcode"
    assert recipe.notes.endswith("\nIt is opened by a test, for ever.")
    assert recipe.pot.volume.value == pytest.approx(4 * US_GALLON_L)
    assert recipe.pot.power.value == 2200.0
    assert recipe.pot.power.spread == pytest.approx(330.0)
    assert (recipe.pot.stove, recipe.fermenter.kind) == ("gas", "glass carboy")
    assert recipe.fermenter.volume.value == pytest.approx(5 * 4.54609)
    process = recipe.process
    assert process.start_water.value == pytest.approx(2.5 * US_GALLON_L)
    assert process.steep_temperature.value == pytest.approx((155 - 32) / 1.8)
    assert process.boil_time.value == 75.0
    assert process.frozen_top_up.value == pytest.approx(3.75 * POUND_KG)
    assert (process.frozen_temperature.value, process.frozen_temperature.spread) == (-18.0, 2.0)
    assert process.cooling_constant.value == pytest.approx(0.06)
    assert process.ferment_time.value == 14 * 1440.0
    assert process.altitude.value == 1609.0
    assert (process.cooling, process.package, process.start_time) == ("coil", "keg", "18:30")
    methods = recipe.methods
    assert (methods.bitterness, methods.colour, methods.alcohol) == ("Garetz", "Mosher", "Cutaia")
    assert methods.utilisation_constant.value == 4.05
    extract, dry, kit, syrup, grain, oats = recipe.fermentables
    assert extract.amount.value == pytest.approx(3.3 * POUND_KG)
    assert extract.locked is True
    assert dry.locked is False
    assert dry.amount.value == pytest.approx(1.5 * POUND_KG)
    assert kit.label_bitterness.value == 24.0
    assert kit.label_volume.value == 20.0
    assert kit.label_amount.value == 1.7
    assert syrup.amount.value == pytest.approx(2.25 * POUND_KG)
    assert (grain.amount.value, grain.amount.spread) == pytest.approx((0.25, 0.01))
    assert (grain.colour.value, grain.colour.spread) == (60.0, 5.0)
    assert oats.when.stage is Stage.STEEP
    first, boiled, stand, dry_hop = recipe.hops
    assert first.when.stage is Stage.FIRST_WORT
    assert first.amount.value == pytest.approx(1.5 * POUND_KG / 16)
    assert boiled.alpha.value == pytest.approx(0.075)
    assert boiled.alpha.spread == pytest.approx(0.01)
    assert (stand.when.minutes, stand.when.temperature) == pytest.approx((15.0, 143 / 1.8))
    assert dry_hop.when.days == 4.0
    assert (recipe.yeast.amount.value, recipe.yeast.amount.unit) == (2.0, "packets")
    assert (recipe.extras[0].amount.value, recipe.extras[0].amount.unit) == (0.5, "tablet")
    assert recipe.extras[0].purpose == "clear wort"
    assert recipe.extras[1].when == When(Stage.FERMENTER, "fermenter 3 days", days=3.0)


def test_the_sample_of_format_2_says_when_finings_go_in():
    """A clarity enzyme goes in with the yeast, whatever its purpose is called; from memory."""
    _, gelatin, enzyme = load(SAMPLES / "format_2.hobwort").extras
    assert gelatin.when == When(Stage.FERMENTER, "fermenter 3 days", days=3.0)
    assert enzyme.when == When(Stage.FERMENTER, "fermenter")


@pytest.mark.parametrize(
    ("extra", "when"),
    [
        ({"name": "isinglass  Solution", "when": "fermenter"}, "fermenter 3 days"),
        (
            {"name": "x", "purpose": "clear after fermentation", "when": "Fermenter."},
            "fermenter 3 days",
        ),
        ({"name": "x", "purpose": "no chill haze", "when": "fermenter"}, "fermenter 3 days"),
        ({"name": "x", "purpose": "food for yeast", "when": "fermenter"}, "fermenter"),
        ({"name": "Carrageenan finings", "when": "fermenter"}, "fermenter"),
        ({"name": "Gelatin", "when": "dry hop 5 days"}, "dry hop 5 days"),
        ({"name": "Gelatin", "when": "boil 15 min"}, "boil 15 min"),
        ({"name": "Gelatin"}, "boil 15 min"),
    ],
)
def test_finings_of_format_1_stay_where_their_purpose_put_them(extra, when):
    old = {"hobwort": 1, "extras": [extra]}
    assert read_document(json.dumps(old), "old").extras[0].when.text == when


@pytest.mark.parametrize("extras", [3, [3], [{"when": 3}], [{"when": "noon"}]])
def test_extras_of_format_1_that_are_none_are_refused_in_words(extras):
    with pytest.raises(RefusedInputError, match="extras"):
        read_document(json.dumps({"hobwort": 1, "extras": extras}), "old")


@pytest.fixture
def two_formats_on(monkeypatch):
    """A program whose present format is two steps on: first a key was renamed, then one dropped."""

    def rename(document):
        changed = dict(document)
        changed["name"] = changed.pop("title")
        return changed

    def drop(document):
        return {key: value for key, value in document.items() if key != "brewer"}

    monkeypatch.setattr(upgrades, "FORMAT", 3)
    monkeypatch.setattr(upgrades, "STEPS", {1: rename, 2: drop})


@pytest.mark.usefixtures("two_formats_on")
def test_an_old_document_is_brought_up_step_by_step_and_left_as_it_was_itself():
    old = {"hobwort": 1, "title": "Porter", "brewer": "Ada"}
    assert upgrades.upgraded(old) == {"hobwort": 3, "name": "Porter"}
    assert old == {"hobwort": 1, "title": "Porter", "brewer": "Ada"}
    middle = {"hobwort": 2, "name": "Porter", "brewer": "Ada"}
    assert upgrades.upgraded(middle) == {"hobwort": 3, "name": "Porter"}


@pytest.mark.usefixtures("two_formats_on")
def test_a_document_of_the_present_format_is_left_alone_and_a_newer_one_refused():
    present = {"hobwort": 3, "name": "Porter", "brewer": "unknown keys are the reader's matter"}
    assert upgrades.upgraded(present) is present
    with pytest.raises(RefusedInputError, match="format 4 is of a newer Hobwort"):
        upgrades.upgraded({"hobwort": 4})
