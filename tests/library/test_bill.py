"""The bill of ingredients as a table."""

import csv
import io
from dataclasses import replace

import pytest

from designer.errors import RefusedInputError
from designer.library.bill import COLUMNS, bill_csv, bill_rows, bill_text, read_bill
from designer.library.recipe_file import load
from designer.resource_files import resource_path

EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")


def example(name):
    return load(resource_path(f"examples/{name}.hobwort"))


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_bill_comes_back_as_the_same_table(name):
    recipe = example(name)
    back = read_bill(bill_csv(recipe))
    lines = {key: tuple(line for where, line in back if where == key) for key in
             ("fermentables", "hops", "extras")}  # fmt: skip
    assert bill_rows(replace(recipe, **lines)) == bill_rows(recipe)


def test_a_bill_is_csv_that_the_standard_library_reads():
    """RFC 4180 by way of Python's csv module."""
    rows = list(csv.reader(io.StringIO(bill_csv(example("harbour_lamp_porter")))))
    assert tuple(rows[0]) == COLUMNS
    assert rows[1][:3] == ["fermentables", "1.5 kg", "Light liquid malt extract"]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_spreadsheets_of_other_countries_are_read_too(delimiter):
    text = bill_csv(example("slipway_bitter")).replace(",", delimiter)
    assert len(read_bill("\ufeff" + text)) == len(bill_rows(example("slipway_bitter")))


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("nuts,1 kg,Almond,,,", "line 2: “nuts” is not one of"),
        ("hops,1 L,Fuggle,pellets,flame-out,", "line 2"),
        ("hops,10 g,Fuggle,powder,flame-out,", "line 2: “powder” is not one of: pellets, whole"),
        ("hops,10 g,Fuggle", "line 2: 3 cells"),
        ("hops,10 g,Fuggle,pellets,some day,", "line 2"),
    ],
)
def test_what_cannot_be_a_line_is_refused_with_its_place(row, told):
    with pytest.raises(RefusedInputError) as refused:
        read_bill(",".join(COLUMNS) + "\n" + row + "\n")
    assert str(refused.value).startswith(told)


def test_a_table_without_headings_is_refused():
    with pytest.raises(RefusedInputError, match="headings"):
        read_bill("1 kg;extract\n")


def test_the_bill_as_text_names_everything():
    recipe = example("harbour_lamp_porter")
    text = bill_text(recipe)
    for line in (*recipe.fermentables, *recipe.hops, *recipe.extras, recipe.yeast):
        assert line.name in text
