"""The proof as lines of text: by kind and source, and how many there are of each kind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from tests.proof import beer, days, hops_and_colour, water_and_wort
from tests.proof.row import Kind, Row

SUBJECTS = (water_and_wort, hops_and_colour, beer, days)
HEADINGS = ("what", "reference", "ours", "difference", "")


def all_rows() -> Iterator[Row]:
    """Every row of every subject."""
    for subject in SUBJECTS:
        yield from subject.rows()


def lines(rows: Iterable[Row]) -> Iterator[str]:
    """The table: each kind, below it each source, below that what it says and what we say."""
    rows = list(rows)
    for kind in Kind:
        of_kind = [row for row in rows if row.kind is kind]
        if of_kind:
            yield from ("", kind.upper())
        for source in dict.fromkeys(row.source for row in of_kind):
            yield from _of_source(source, [row for row in of_kind if row.source == source])


def _of_source(source: str, rows: list[Row]) -> Iterator[str]:
    width = max(len(row.what) for row in rows)
    form = f"  {{:<{width}}} {{:>11}} {{:>11}} {{:>11}} {{}}"
    yield from ("", source, form.format(*HEADINGS).rstrip())
    for row in rows:
        yield from _row_lines(row, form)


def _row_lines(row: Row, form: str) -> Iterator[str]:
    figures = (f"{value:.6g}" for value in (row.reference, row.ours))
    mark = "" if row.holds else "NOT WITHIN " + f"{row.tolerance:g}"
    yield form.format(row.what, *figures, f"{row.difference:+.2g}", mark).rstrip()
    if row.why:
        yield f"      {'our day: ' if row.of_the_day else ''}{row.why}"


def counts(rows: Iterable[Row]) -> Iterator[str]:
    """How many rows there are of each kind, and how many hold."""
    rows = list(rows)
    number = Counter(row.kind for row in rows)
    for kind in Kind:
        yield f"{number[kind]:>5} {kind}"
    yield f"{sum(row.holds for row in rows)} of {len(rows)} rows hold."
