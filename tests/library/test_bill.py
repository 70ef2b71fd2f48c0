"""The ingredient list as a table."""

import csv
import io
from dataclasses import replace

import pytest
from hypothesis import example as with_example
from hypothesis import given
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.library.bill import (
    COLUMNS,
    bill_csv,
    bill_or_table,
    bill_rows,
    bill_text,
    read_bill,
)
from designer.library.formula_guard import guarded, unguarded
from designer.library.pasted import PastedTable
from designer.library.recipe_file import load
from designer.recipe.document import Extra, Hop, Recipe
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
    assert rows[1][:3] == ["fermentables", "1 kg", "Light liquid malt extract"]


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
        read_bill(",".join(COLUMNS[:6]) + "\n" + row + "\n")
    assert str(refused.value).startswith(told)


def test_a_table_without_headings_is_refused():
    with pytest.raises(RefusedInputError, match="headings"):
        read_bill("1 kg;extract\n")


def test_the_bill_as_text_names_everything():
    recipe = example("harbour_lamp_porter")
    text = bill_text(recipe)
    for line in (*recipe.fermentables, *recipe.hops, *recipe.extras, recipe.yeast):
        assert line.name in text


NAMES = st.text(st.one_of(st.sampled_from("=+-@'\"\t\r\n ,;%5"), st.characters(codec="utf-8")))


@given(NAMES, NAMES)
@with_example('=HYPERLINK("http://harbour.example")', "-5")
@with_example("'=1+1", "''-5")
@with_example("a\x00b\rc\r\nd", "\ufeff")
@with_example("x" * 140_000, "\n" * 3000)
def test_any_name_comes_back_the_same_from_a_bill(name, purpose):
    recipe = Recipe(hops=(Hop(name=name),), extras=(Extra(name="Finings", purpose=purpose),))
    (_, hop), (_, extra) = read_bill(bill_csv(recipe))
    assert hop.name == name
    assert extra.purpose == purpose


@pytest.mark.parametrize("name", ["=1+1", "+1+cmd", "-1+cmd", "@sum", " =1", "\uff1d1", "'=1"])
def test_no_name_is_a_formula_in_a_spreadsheet(name):
    """The characters are those of OWASP, "CSV Injection"."""
    recipe = Recipe(name=name, hops=(Hop(name=name),))
    cells = next(csv.reader(io.StringIO(bill_csv(recipe).split("\n", 1)[1])))
    assert cells[2] == f"'{name}"
    assert all(
        line.strip()[:1] not in ("=", "+", "-", "@") for line in bill_text(recipe).split("\n")
    )


@pytest.mark.parametrize("number", ["-5", "+5", "-0.5", "-1,5", "-5 %"])
def test_a_number_with_its_sign_stays_a_number(number):
    assert guarded(number) == unguarded(number) == number


def test_a_name_never_begins_a_cell_or_line_of_its_own_in_the_text():
    text = bill_text(Recipe(name="Porter", hops=(Hop(name="Fuggle\t=1+1\n=2"),)))
    assert "Fuggle =1+1 =2" in text


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_a_bill_is_read_whatever_ends_its_lines(line_end):
    recipe = example("slipway_bitter")
    text = bill_csv(recipe).replace("\r\n", line_end)
    assert len(read_bill(text)) == len(bill_rows(recipe))
    mixed = bill_csv(recipe).replace("\r\n", "\r", 2)
    assert len(read_bill(mixed)) == len(bill_rows(recipe))


def test_many_faults_are_summed_up():
    rows = "nuts,1 kg,Almond,,,\n" * 100
    with pytest.raises(RefusedInputError) as refused:
        read_bill(",".join(COLUMNS) + "\n" + rows)
    assert len(refused.value.problems) == 21
    assert refused.value.problems[-1] == "and 80 lines more"


@pytest.mark.parametrize(
    ("raw", "told"),
    [
        (b"nonsense", "headings"),
        (b"\x81\x8d", "UTF-8"),
        (b"", "nothing"),
        (b"," * 4_000_000, "cells"),
    ],
)
def test_a_file_without_ingredients_is_refused_with_its_name(tmp_path, raw, told):
    file = tmp_path / "table.csv"
    file.write_bytes(raw)
    with pytest.raises(RefusedInputError, match=told) as refused:
        bill_or_table(file)
    assert str(refused.value).startswith(str(file))


@pytest.mark.parametrize("coding", ["utf-8-sig", "utf-16", "cp1252"])
def test_a_bill_is_read_from_a_file_in_any_coding(tmp_path, coding):
    file = tmp_path / "table.csv"
    recipe = example("slipway_bitter")
    file.write_bytes(bill_csv(recipe).encode(coding))
    assert len(bill_or_table(file)) == len(bill_rows(recipe))


def test_a_certain_table_of_others_is_taken_as_it_is(tmp_path):
    file = tmp_path / "table.csv"
    file.write_text("Hop,Menge g,min\nFuggle,20,60\nChallenger,12,15\n", encoding="utf-8")
    assert [lines for lines, _ in bill_or_table(file)] == ["hops", "hops"]


def test_a_table_that_is_not_certain_is_handed_back(tmp_path):
    file = tmp_path / "table.csv"
    file.write_text("Hop,Menge,min\nFuggle,20,60\n", encoding="utf-8")
    assert isinstance(bill_or_table(file), PastedTable)
