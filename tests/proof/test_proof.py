"""Every row of the proof holds, says what it is, and the command that prints them says so."""

import re
from collections import Counter
from dataclasses import replace

import pytest

from tests.proof import __main__ as command
from tests.proof import table
from tests.proof.row import Kind, Row

ROWS = list(table.all_rows())
NAMELESS = re.compile("blog|digest of|web page after|a public library|stored cop|second-hand")
"""What stood for sources once and names none."""


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.source}: {row.what}")
def test_a_figure_from_elsewhere_is_ours(row):
    assert row.holds, f"{row.reference} by {row.kind}, {row.ours} ours"


def test_each_row_says_its_kind_and_names_its_source_and_no_two_are_alike():
    assert all(isinstance(row.kind, Kind) for row in ROWS)
    assert all(row.source and row.what for row in ROWS)
    assert not [row.source for row in ROWS if NAMELESS.search(row.source)]
    assert len({(row.source, row.what) for row in ROWS}) == len(ROWS)
    assert all(row.why for row in ROWS if row.of_the_day)


def test_a_source_is_of_one_kind_only_where_it_says_so_for_each_row():
    kinds = {source: {row.kind for row in ROWS if row.source == source} for source in
             {row.source for row in ROWS}}  # fmt: skip
    both = [source for source, found in kinds.items() if len(found) > 1]
    assert all(
        "table 9" in source for source in both
    )  # 18 points printed, 18 / 46.21 a sum of ours


@pytest.mark.parametrize("kind", [Kind.PRINTED, Kind.QUOTED, Kind.MEMORY])
def test_no_sum_of_our_own_stands_under_what_others_printed(kind):
    """A print has few digits; a quotient of ours has all that a float holds."""
    figures = [row.reference for row in ROWS if row.kind is kind]
    assert figures
    assert all(figure == float(f"{figure:.6g}") for figure in figures)


def test_the_assumption_of_a_handbook_really_costs_something():
    small_pot = [row for row in ROWS if "original gravity taken" in row.what]
    assert small_pot[0].difference < -5.0


def test_the_table_is_printed_with_every_row_and_source_below_its_kind(capsys):
    assert command.main() == 0
    printed = capsys.readouterr().out
    for kind in Kind:
        below = printed.split(kind.upper(), 1)[1] if kind.upper() in printed else ""
        of_kind = [row for row in ROWS if row.kind is kind]
        assert all(row.what in below and row.source in below for row in of_kind)
    assert f"{len(ROWS)} of {len(ROWS)} rows hold." in printed


def test_the_counts_that_are_printed_are_those_of_the_table(capsys):
    command.main()
    ending = capsys.readouterr().out.splitlines()[-len(Kind) - 1 : -1]
    printed = {line.split(maxsplit=1)[1]: int(line.split()[0]) for line in ending}
    assert printed == {kind.value: Counter(row.kind for row in ROWS)[kind] for kind in Kind}
    assert sum(printed.values()) == len(ROWS)


def test_a_row_that_does_not_hold_fails_the_command(monkeypatch, capsys):
    wrong = replace(ROWS[0], ours=ROWS[0].reference + 10 * ROWS[0].tolerance)
    monkeypatch.setattr(table, "all_rows", lambda: iter([wrong]))
    assert command.main() == 1
    assert "NOT WITHIN" in capsys.readouterr().out


def test_a_difference_is_ours_less_the_reference():
    row = Row(Kind.PRINTED, "a book", "a figure", 2.0, 2.5, 0.4)
    assert row.difference == 0.5
    assert not row.holds
    assert replace(row, tolerance=0.5).holds
