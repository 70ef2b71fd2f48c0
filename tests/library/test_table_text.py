"""Bytes and text of tables, from every system and of any size."""

from contextlib import suppress

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.library.bill import read_bill
from designer.library.table_text import MOST_CELLS, MOST_ROWS, decoded, lines_of, rows_of

TEXT = "name,amount\nKölsch malt,500 g\n"


@pytest.mark.parametrize(
    "coding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"]
)
def test_a_table_is_read_in_the_codings_that_spreadsheets_write(coding):
    assert rows_of(decoded(TEXT.encode(coding)), ",")[1] == ["Kölsch malt", "500 g"]


@pytest.mark.parametrize("raw", [b"\xff\xfea", b"\x81\x8d", b"\xef\xbb\xbf\xff"])
def test_what_is_no_text_is_refused_in_words(raw):
    with pytest.raises(RefusedInputError, match="UTF-8"):
        decoded(raw)


@pytest.mark.parametrize("text", ["a,b\rc,d", "a,b\nc,d", "a,b\r\nc,d", "\ufeffa,b\rc,d\r"])
def test_rows_end_in_any_way(text):
    assert rows_of(text, ",") == [["a", "b"], ["c", "d"]]
    assert [line for line in lines_of(text) if line] == ["a,b", "c,d"]


def test_quotation_marks_that_do_not_pair_up_are_signs_like_others():
    assert rows_of('5" stick,1\n"Old" malt,2', ",") == [['5" stick', "1"], ['"Old" malt', "2"]]


def test_a_cell_may_be_as_long_as_the_text():
    assert rows_of('"' + "x" * 200_000 + '",1', ",") == [["x" * 200_000, "1"]]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("x" * 5_000_001, "5,000,001 characters"),
        ("a,b\n" * (MOST_ROWS + 1), f"{MOST_ROWS + 1:,} lines"),
        ('"\na,b\n' * (MOST_ROWS + 1), "lines"),
        ("," * 5_000_000, f"more than the {MOST_CELLS}"),
    ],
)
def test_what_is_too_much_is_said(text, told):
    with pytest.raises(RefusedInputError, match=told):
        rows_of(text, ",")


def test_empty_lines_do_not_count():
    assert rows_of("\r" * 4_999_990 + "a,b", ",")[-1] == ["a", "b"]


WILD = st.text(st.one_of(st.sampled_from("\x00\r\n\t,;\"'=\ufeff 5g%"), st.characters()))


@given(WILD)
@example("list,amount,name,kind,goes in,figure\rhops,1 oz,\x00,pellets,boil,\r")
def test_no_text_breaks_the_reading_of_a_bill(text):
    for bill in (text, "list,amount,name,kind,goes in,figure\n" + text):
        with suppress(RefusedInputError):
            read_bill(bill)


@given(st.binary())
def test_no_file_breaks_the_reading_of_a_bill(raw):
    with suppress(RefusedInputError):
        read_bill(decoded(raw))
