"""The proof as lines of text: by kind and source, and how many there are of each kind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import chain
from textwrap import wrap

from tests.proof import (
    beer,
    days,
    hops_and_colour,
    measured_beer,
    measured_bitterness,
    measured_hops,
    measured_kitchen,
    water_and_wort,
)
from tests.proof.left_out import LEFT_OUT
from tests.proof.measurement import Measurement
from tests.proof.row import Kind, Row

SUBJECTS = (water_and_wort, hops_and_colour, beer, days)
MEASURED = (measured_bitterness, measured_hops, measured_kitchen, measured_beer)
HEADINGS = ("what", "reference", "ours", "difference", "")
MEASURED_HEADINGS = ("what", "measured", "ours", "5 % to 95 %", "")
LINE = 100
INTRODUCTION = (
    "Figures from elsewhere beside those of Hobwort, by what they are: only what was printed and "
    "seen in print is called so. What was measured of a real brew stands beside the forecast of "
    "that brew and the range in which nine brews of ten should land; what its source leaves open "
    "and had to be supposed is said, and what keeps a measurement outside."
)


def all_rows() -> Iterator[Row]:
    """Every row of every subject that is compared with one figure."""
    for subject in SUBJECTS:
        yield from subject.rows()


def measurements() -> Iterator[Measurement]:
    """Every measured brew beside its forecast."""
    for subject in MEASURED:
        yield from subject.rows()


def page(rows: Iterable[Row | Measurement]) -> str:
    """The whole proof: what it is, the table, what is left out, the counts."""
    rows = list(rows)
    parts = (_wrapped(INTRODUCTION, 0), lines(rows), left_out(), ("",), counts(rows))
    return "\n".join(chain.from_iterable(parts)) + "\n"


def _wrapped(text: str, indent: int) -> list[str]:
    space = " " * indent
    return wrap(text, LINE, initial_indent=space, subsequent_indent=space)


def lines(rows: Iterable[Row | Measurement]) -> Iterator[str]:
    """The table: each kind, below it each source, below that what it says and what we say."""
    rows = list(rows)
    for kind in Kind:
        of_kind = [row for row in rows if row.kind is kind]
        if of_kind:
            yield from ("", kind.upper())
        for source in dict.fromkeys(row.source for row in of_kind):
            yield from ("", *_wrapped(source, 0))
            yield from _of_source([row for row in of_kind if row.source == source])


def _of_source(rows: list[Row | Measurement]) -> Iterator[str]:
    width = max(len(row.what) for row in rows)
    form = f"  {{:<{width}}} {{:>11}} {{:>11}} {{:>17}} {{}}"
    measured = isinstance(rows[0], Measurement)
    yield form.format(*(MEASURED_HEADINGS if measured else HEADINGS)).rstrip()
    for row in rows:
        cells = _measured_cells(row) if isinstance(row, Measurement) else _cells(row)
        yield form.format(row.what, *cells).rstrip()
        for remark in _remarks(row):
            yield from _wrapped(remark, 6)


def _cells(row: Row) -> tuple[str, ...]:
    mark = "" if row.holds else "NOT WITHIN " + f"{row.tolerance:g}"
    return f"{row.reference:.6g}", f"{row.ours:.6g}", f"{round(row.difference, 9) + 0.0:+.2g}", mark


def _measured_cells(row: Measurement) -> tuple[str, ...]:
    value, low, high = (_like(each, row.measured) for each in row.band)
    return row.measured, value, f"{low} to {high}", "inside" if row.inside else "OUTSIDE"


def _like(value: float, told: str) -> str:
    """Write a value with one decimal more than what was told, but a gravity with as many."""
    decimals = 2 if "/" in told else len(told.partition(".")[2])
    return f"{value:.{decimals if decimals > 2 else decimals + 1}f}"


def _remarks(row: Row | Measurement) -> Iterator[str]:
    if isinstance(row, Row):
        if row.why:
            yield f"{'our day: ' if row.of_the_day else ''}{row.why}"
        return
    if row.supposed:
        yield f"supposed: {row.supposed}"
    if not row.inside:
        yield f"outside: {row.why}"


def left_out() -> Iterator[str]:
    """What is quoted as measured and stands in no row."""
    yield from ("", "MEASURED, BUT NO BEER TO FORECAST", "")
    for what, why in LEFT_OUT:
        yield from (*_wrapped(what, 2), *_wrapped(why, 6))


def counts(rows: Iterable[Row | Measurement]) -> Iterator[str]:
    """How many rows there are of each kind, how many hold, and how many brews lie in the band."""
    rows = list(rows)
    number = Counter(row.kind for row in rows)
    for kind in Kind:
        yield f"{number[kind]:>5} {kind}"
    compared = [row for row in rows if isinstance(row, Row)]
    yield f"{sum(row.holds for row in compared)} of {len(compared)} rows hold."
    measured = [row for row in rows if isinstance(row, Measurement)]
    inside = sum(row.inside for row in measured)
    if measured:
        share = 100.0 * inside / len(measured)
        yield f"{inside} of {len(measured)} measured lie in the band of 5 to 95 %, {share:.0f} %."
