"""What the columns of a table are: by a row of headings, else by what stands in them."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from designer.library.pasted.cells import (
    COLOUR,
    YIELD,
    is_amount,
    is_kind,
    is_number,
    is_when,
    share_of,
)
from designer.library.pasted.columns import (
    LIST_OF,
    OUT,
    Heading,
    Means,
    Use,
    heading_of,
)
from designer.library.pasted.parting import Cells
from designer.library.pasted.plain_lines import section_of
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.units.quick_words import FACTORS

FIRST_ROWS = 5
_TAKEN_FOR = {
    "min": message("{column} is taken for minutes of boil left"),
    "%": message("{column} is taken for per cent"),
}
_WITH_UNITS = (Means.AMOUNT, Means.WHEN, Means.ALPHA, Means.COLOUR, Means.YIELD)
ENOUGH = 0.6
"""The share of a column's cells that have to be of one sort for the column to be taken for it."""


class Guess(NamedTuple):
    """The use of each column; which rows are headings; what is not certain about it."""

    uses: tuple[Use, ...]
    headings: frozenset[int] = frozenset()
    doubts: tuple[str, ...] = ()


def is_heading_row(row: tuple[str, ...]) -> bool:
    """Whether a row names columns: at least half of its cells are headings beyond doubt."""
    told = [heading_of(cell) for cell in row if cell]
    if len(told) < 2 or any(sign.isdigit() for cell in row for sign in cell):
        is_name = len(told) == 1 == len(row) and _says(told[0], Means.NAME)
        return is_name and section_of(row[0]) is None
    return sum(1 for each in told if each is not None and each.certain) * 2 >= len(told)


def _says(heading: Heading | None, means: Means) -> bool:
    return heading is not None and heading.certain and heading.use.means is means


def guessed(cells: Cells, lines: str) -> Guess:
    """Return what the columns of a table hold; `lines` is the list that it is for."""
    headings = frozenset(at for at, row in enumerate(cells) if is_heading_row(row))
    first = min(headings, default=-1)
    titles = cells[first] if 0 <= first < FIRST_ROWS else ("",) * (len(cells[0]) if cells else 0)
    uses, doubts = _by_headings(titles)
    body = [row for at, row in enumerate(cells) if at not in headings]
    for at, title in enumerate(titles):
        column = [row[at] for row in body if row[at]]
        if column:
            uses[at] = _looked_at(uses[at], title, column, lines, {each.means for each in uses})
    _beside_unit(uses, body)
    _with_name(uses, titles)
    for at, use in enumerate(uses):
        column = [row[at] for row in body if row[at]]
        if column and use.means is Means.OUT:
            doubts.append(
                tr("it is not clear what {column} is", column=_called(titles[at], column))
            )
        elif column and _needs_unit(use, column, uses):
            uses[at], doubt = _with_unit(use, _called(titles[at], column))
            doubts.append(doubt)
    return Guess(tuple(uses), headings, tuple(doubts))


def _looked_at(use: Use, title: str, column: list[str], lines: str, taken: set[Means]) -> Use:
    """The use of a column by its heading, or by its content where that says more."""
    if use.means is Means.OUT:
        return use if title else _by_content(column, lines, taken)
    test = {Means.KIND: is_kind, Means.LIST: _is_list}.get(use.means)
    if test is None or (use.means is Means.KIND and lines == "extras"):
        return use
    return use if _most(test, column) else OUT


def _beside_unit(uses: list[Use], body: list[tuple[str, ...]]) -> None:
    """Take the numbers to the left of a column of units for amounts."""
    means = [use.means for use in uses]
    if Means.UNIT in means and Means.AMOUNT not in means:
        at = means.index(Means.UNIT) - 1
        column = [row[at] for row in body if row[at]]
        if at >= 0 and means[at] is Means.OUT and _most(is_number, column):
            uses[at] = Use(Means.AMOUNT)


def _with_name(uses: list[Use], titles: tuple[str, ...]) -> None:
    """Take kinds for names where there are no others: `500 g`, `sugar`."""
    means = [use.means for use in uses]
    if Means.KIND in means and Means.NAME not in means and not titles[means.index(Means.KIND)]:
        uses[means.index(Means.KIND)] = Use(Means.NAME)


def _is_list(cell: str) -> bool:
    return cell.lower() in LIST_OF


def _most(test: Callable[[str], bool], column: list[str]) -> bool:
    return sum(map(test, column)) >= ENOUGH * len(column)


def _by_headings(row: tuple[str, ...]) -> tuple[list[Use], list[str]]:
    uses: list[Use] = []
    doubts = []
    for cell in row:
        heading = heading_of(cell) if cell else None
        use = heading.use if heading is not None else OUT
        if use.means in {each.means for each in uses if each.means is not Means.OUT}:
            doubts.append(tr("two columns say {value}", value=tr(use.means)))
            use = OUT
        elif heading is not None and not heading.certain:
            doubts.append(tr("“{cell}” may be {value}", cell=cell, value=tr(use.means)))
        uses.append(use)
    return uses, doubts


def _by_content(column: list[str], lines: str, taken: set[Means]) -> Use:
    """What most cells of a column without a heading are; each sort of column is there once."""
    tests: dict[Means, Callable[[str], bool]] = {
        Means.AMOUNT: lambda cell: is_amount(cell, lines),
        Means.UNIT: lambda cell: cell.lower() in FACTORS[Kind.MASS],
        Means.WHEN: is_when,
        Means.ALPHA: lambda cell: share_of(cell).endswith("%") and lines == "hops",
        Means.COLOUR: lambda cell: COLOUR.fullmatch(cell) is not None,
        Means.YIELD: lambda cell: YIELD.fullmatch(cell) is not None,
        Means.KIND: is_kind,
        Means.LIST: _is_list,
        Means.NAME: lambda cell: any(sign.isalpha() for sign in cell),
    }
    for means, test in tests.items():
        if means not in taken and _most(test, column):
            return Use(means)
    return OUT


def _needs_unit(use: Use, column: list[str], uses: list[Use]) -> bool:
    if use.unit or use.means not in _WITH_UNITS:
        return False
    if use.means is Means.AMOUNT and any(each.means is Means.UNIT for each in uses):
        return False
    return any(is_number(cell) for cell in column)


def _called(title: str, column: list[str]) -> str:
    """A column by its heading, or by what stands in it first."""
    if title:
        return tr("the column “{title}”", title=title[:30])
    return tr("the column with “{cell}”", cell=column[0][:30])


def _with_unit(use: Use, column: str) -> tuple[Use, str]:
    """The usual unit of a column that gives none; of an amount there is no usual one."""
    usual = {Means.WHEN: "min", Means.ALPHA: "%"}.get(use.means, "")
    if usual:
        return use._replace(unit=usual), tr(_TAKEN_FOR[usual], column=column)
    return use, tr("{column} has numbers without a unit", column=column)
