"""Files that name what the catalogue once called otherwise keep their figures."""

import csv
import json
from pathlib import Path

import pytest

from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import MAIN
from designer.library import catalogue
from designer.library.recipe_file import read_document
from designer.recipe.same_name import name_key
from designer.resource_files import resource_path

FIRST = json.loads((Path(__file__).parent / "first_catalogue.json").read_text(encoding="utf-8"))
"""Names and figures of the first catalogue, as recipes of that time have them."""

CHANGED = {
    "Crystal": ("4.3 %", "4 %"),
    "Ultra": ("3 %", "4 %"),
    "Brewer's Gold": ("7 %", "9 %"),
    "Fuggle": ("4.5 %", "5 %"),
    "Target": ("11 %", "12 %"),
    "Northern Brewer": ("8.5 %", "9.5 %"),
    "Perle": ("7.5 %", "7 %"),
    "Herkules": ("15 %", "16 %"),
    "Merkur": ("12.5 %", "13.5 %"),
    "Polaris": ("20 %", "19.3 %"),
    "Saaz": ("3.5 %", "3.2 %"),
    "Premiant": ("8.5 %", "8 %"),
    "Agnus": ("11.5 %", "11 %"),
    "Kazbek": ("5.5 %", "6 %"),
    "Strisselspalt": ("2.5 %", "3 %"),
    "Pride of Ringwood": ("9 %", "9.5 %"),
    "Light brown sugar": ("97 %", "98 %"),
    "Dark brown sugar": ("95 %", "97 %"),
    "Honey": ("76 %", "82 %"),
    "Maple syrup": ("65 %", "67 %"),
    "Lactose": ("89 %", "95 %"),
    "Mild malt": ("4 °L", "3.5 °L"),
    "Amber malt": ("35 °L", "32 °L"),
    "Kveik (Norwegian farmhouse)": ("38 °C", "40 °C"),
}
"""The figures that better sources changed, before and after. Sources: the rows of the catalogue."""

DROPPED = {"Sorachi Ace"}
"""A beer is sold under this name; a recipe keeps what was typed."""


def opened(**parts):
    return read_document(json.dumps({"hobwort": 1, **parts}), "an old file")


def as_changed(name, *texts):
    """The figures with the one that was changed, the first that is as it was before."""
    before, after = CHANGED.get(name, ("", ""))
    changed = texts.index(before) if before in texts else None
    return [after if place == changed else text for place, text in enumerate(texts)]


@pytest.mark.parametrize("row", FIRST["fermentables"], ids=lambda row: row[0])
def test_a_fermentable_of_an_old_file_has_its_figures(row):
    name, kind, *figures = row
    line = opened(fermentables=[{"name": name, "kind": kind}]).fermentables[0]
    assert (line.name, line.kind) == (name, kind)
    found = [line.colour.text, line.extract.text, line.fermentability.text]
    assert found == as_changed(name, *figures)


@pytest.mark.parametrize(("name", "alpha"), FIRST["hops"], ids=lambda cell: cell)
def test_a_hop_of_an_old_file_has_its_alpha_acid(name, alpha):
    hop = opened(hops=[{"name": name}]).hops[0]
    assert hop.name == name
    if name in DROPPED:
        assert hop.alpha is None
    else:
        assert hop.alpha.ends is not None  # it is the variety's, not a packet's
        assert [hop.alpha.text.partition(" (")[0]] == as_changed(name, alpha)


@pytest.mark.parametrize("row", FIRST["yeasts"], ids=lambda row: f"{row[0]}, {row[1]}")
def test_a_yeast_of_an_old_file_has_its_figures_and_its_form(row):
    name, form, *figures = row
    yeast = opened(yeast={"name": name, "form": form}).yeast
    assert (yeast.name, yeast.form) == (name, form)
    figure, _, spread = yeast.attenuation.text.partition(" ± ")
    found = [figure, yeast.lowest.text, yeast.highest.text]
    assert found == as_changed(name, *figures)
    assert float(spread.removesuffix(" %")) >= 4.0


@pytest.mark.parametrize(("name", "purpose"), FIRST["extras"], ids=lambda cell: cell)
def test_an_aid_of_an_old_file_has_its_purpose(name, purpose):
    assert opened(extras=[{"name": name}]).extras[0].purpose == purpose


def test_every_change_is_one_of_a_figure_that_was_and_is():
    for name, (before, after) in CHANGED.items():
        rows = [row for rows in FIRST.values() for row in rows if row[0] == name]
        assert any(before in row for row in rows), name
        assert before != after


def renamed_rows():
    with resource_path("renamed.csv").open(encoding="utf-8", newline="") as lines:
        return [tuple(row.values()) for row in csv.DictReader(lines)]


ENTRIES = {
    "fermentables.csv": catalogue.fermentables,
    "hops.csv": catalogue.hops,
    "yeasts.csv": catalogue.yeasts,
    "kettle_aids.csv": catalogue.aids,
    "styles.csv": catalogue.styles,
}


@pytest.mark.parametrize(("file", "old", "form", "new"), renamed_rows())
def test_every_new_name_is_a_row_and_the_old_one_of_that_form_is_none(file, old, form, new):
    forms = [(each.name, getattr(each, "form", "")) for each in ENTRIES[file]()]
    assert any(name == new and form in ("", of) for name, of in forms)
    assert (old, form) not in forms


@pytest.mark.parametrize(("file", "old", "form", "new"), renamed_rows())
def test_a_file_with_the_old_name_forecasts_what_one_with_the_new_name_does(file, old, form, new):
    """Of each row that was renamed; the figures are left to the catalogue."""

    def forecast(name):
        grain, hop, aid = "Crystal malt 40 °L", "Challenger", "Carrageenan finings"
        named = {"fermentables.csv": grain, "hops.csv": hop, "kettle_aids.csv": aid}
        named |= {"yeasts.csv": "Irish ale", "styles.csv": "Irish Red Ale", file: name}
        malt = {"name": "Light dry malt extract", "kind": "dry extract", "amount": "1 kg"}
        steeped = {"name": named["fermentables.csv"], "kind": "steeping grain", "amount": "300 g"}
        recipe = opened(
            style=named["styles.csv"],
            fermentables=[malt, {**steeped, "when": "steep"}],
            hops=[{"name": named["hops.csv"], "amount": "20 g", "when": "boil 60 min"}],
            yeast={"name": named["yeasts.csv"], "form": form or "liquid"},
            extras=[{"name": named["kettle_aids.csv"], "amount": "1", "when": "boil 5 min"}],
        )
        ahead = look_ahead(recipe)
        return [each.compute(ahead.day) for each in MAIN], catalogue.find_style(recipe.style)

    assert forecast(old) == forecast(new)


def test_a_yeast_is_looked_up_by_its_old_name_before_one_of_another_form_is_taken():
    """The dry yeast was a double of another; the liquid one of the same name is still there."""
    name = "English ale, flocculent"
    assert catalogue.find_yeast(name, "dry").name == "Dry English ale yeast"
    assert catalogue.find_yeast(name, "liquid").name == name
    assert catalogue.find_yeast(name).name == name


@pytest.mark.parametrize("typed", ["Kolsch", "Kölsch", "KÖLSCH", "Koelsch", "Ko\u0308lsch"])
def test_accents_and_umlauts_are_found_however_they_are_typed(typed):
    assert catalogue.find_style(typed).code == "5B"
    assert catalogue.find_yeast(f"{typed} and alt type ale").attenuation_low == 0.75


def test_an_accent_typed_where_the_catalogue_has_none_is_found_too():
    assert catalogue.find_hop("Sládek") is catalogue.find_hop("Sladek") is not None
    mittelfrueh = catalogue.find_hop("Hallertauer Mittelfrueher")
    assert mittelfrueh is not None
    assert catalogue.find_hop("Hallertauer Mittelfrüher") is mittelfrueh


@pytest.mark.parametrize("file", ENTRIES)
def test_no_two_names_become_one_by_their_accents(file):
    keys = [(name_key(each.name), getattr(each, "form", "")) for each in ENTRIES[file]()]
    assert len(set(keys)) == len(keys)
