"""Every row of the proof holds, and the command that prints them says so."""

from dataclasses import replace

import pytest

from tests.published import __main__ as table
from tests.published.row import Row

ROWS = list(table.all_rows())


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.source}: {row.what}")
def test_a_published_figure_is_ours(row):
    assert row.holds, f"{row.published} published, {row.ours} ours"


def test_each_row_names_its_source_and_no_two_are_alike():
    assert all(row.source and row.what for row in ROWS)
    assert len({(row.source, row.what) for row in ROWS}) == len(ROWS)
    assert all(row.why for row in ROWS if row.of_the_day)


def test_the_assumption_of_a_handbook_really_costs_something():
    small_pot = [row for row in ROWS if "original gravity taken" in row.what]
    assert small_pot[0].difference < -5.0


def test_the_table_is_printed_with_every_row(capsys):
    assert table.main() == 0
    printed = capsys.readouterr().out
    assert all(row.what in printed for row in ROWS)
    assert f"{len(ROWS)} of {len(ROWS)} rows hold." in printed


def test_a_row_that_does_not_hold_fails_the_command(monkeypatch, capsys):
    wrong = replace(ROWS[0], ours=ROWS[0].published + 10 * ROWS[0].tolerance)
    monkeypatch.setattr(table, "all_rows", lambda: iter([wrong]))
    assert table.main() == 1
    assert "NOT WITHIN" in capsys.readouterr().out


def test_a_difference_is_ours_less_the_print():
    row = Row("a book", "a figure", 2.0, 2.5, 0.4)
    assert row.difference == 0.5
    assert not row.holds
    assert replace(row, tolerance=0.5).holds
