"""A pasted text as a table: what it is taken for at first, and as the brewer says instead."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property

from designer.library.pasted.cells import AMOUNT, Signs, decimal_sign
from designer.library.pasted.columns import LIST_OF, LIST_WORDS, OUT, Means, Use
from designer.library.pasted.guessing import guessed, is_heading_row
from designer.library.pasted.parting import (
    Cells,
    Parting,
    cells_of,
    is_doubtful,
    most_usual_width,
    possible_partings,
)
from designer.library.pasted.plain_lines import USES, as_name, section_of, taken_apart
from designer.library.pasted.row_reading import (
    NO_AMOUNT,
    Place,
    Row,
    list_named,
    place_of,
    read_row,
)
from designer.recipe.message import refused
from designer.recipe.named import Line
from designer.translation import message, tr

COMMAS = message("commas may separate cells or be decimal commas")
FEWEST_CELLS = 3
"""A row of a table with an amount whose comma was taken for a parting has so many cells."""
TRIED_ROWS = 200
"""So many rows are read to see which way of parting the cells makes most sense."""


@dataclass(frozen=True)
class PastedTable:
    """A text parted into cells, with what is chosen about it; every change is a new table.

    `lines` is the list it was pasted on, or the one that rows go to where nothing says which;
    `asked_for` tells those apart. `doubts` are about the text as a whole, `told` holds doubt and
    fault of lines that were taken apart, `raw` those lines as they were.
    """

    text: str
    lines: str
    asked_for: bool
    parting: Parting
    signs: Signs
    cells: Cells
    uses: tuple[Use, ...]
    headings: frozenset[int] = frozenset()
    doubts: tuple[str, ...] = ()
    chosen_lists: dict[int, str] = field(default_factory=dict)
    told: dict[int, tuple[str, str]] = field(default_factory=dict)
    raw: Cells = ()

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """What each row is read as."""
        return tuple(self._read())

    @property
    def certain(self) -> bool:
        """Whether every row is read, and none of it could have been meant otherwise."""
        read = [row for at, row in enumerate(self.rows) if not self._is_left(at)]
        return bool(read) and not self.doubts and not any(row.fault or row.doubt for row in read)

    @property
    def found(self) -> list[tuple[str, Line]]:
        """The lines that can be added, each with its list."""
        return [(row.lines, row.line) for row in self.rows if row.line is not None]

    def _is_left(self, at: int) -> bool:
        """Whether a row is a heading, of columns or of the rows below it."""
        return at in self.headings or self._section(at) is not None

    def _section(self, at: int) -> str | None:
        filled = [cell for cell in self.cells[at] if cell]
        return section_of(filled[0]) if len(filled) == 1 and len(self.cells) > 1 else None

    def _read(self) -> Iterator[Row]:
        section, others = self._headed_list(), False
        first = min(self.headings, default=-1)
        for at, row in enumerate(self.cells):
            head = self._section(at)
            if at in self.headings:
                others = others or row != self.cells[first]
                yield Row(self.lines, None, tr("these are headings"), likely=False)
            elif head is not None:
                section = head
                yield Row(
                    self.lines,
                    None,
                    tr("this heads {lines}", lines=tr(LIST_WORDS[head])),
                    likely=False,
                )
            elif others:
                fault = tr("it stands under other headings: paste that part by itself")
                yield Row(self.lines, None, fault, likely=False)
            else:
                yield self._row(at, row, section)

    def _headed_list(self) -> str:
        """The list that the heading of the names speaks of, such as `Hop`; "" for none."""
        names = [at for at, use in enumerate(self.uses) if use.means is Means.NAME]
        if not self.headings or not names:
            return ""
        heading = self.cells[min(self.headings)][names[0]].lower().split()
        lists = {LIST_OF[word] for word in heading if word in LIST_OF}
        return lists.pop() if len(lists) == 1 else ""

    def _row(self, at: int, row: tuple[str, ...], section: str) -> Row:
        columns = [(use, cell) for use, cell in zip(self.uses, row, strict=True) if cell]
        held: dict[Means, str] = {
            use.means: cell for use, cell in columns if use.means is not Means.OUT
        }
        uses: dict[Means, Use] = {use.means: use for use, _ in columns}
        named = list_named(held[Means.LIST]) if Means.LIST in held else None
        chosen = self.chosen_lists.get(at, "")
        told = named or section
        place = place_of(told, held.get(Means.NAME, ""), self.lines, asked_for=self.asked_for)
        if chosen:
            place = Place(chosen, chosen=True)
        elif Means.LIST in held and named is None:
            place = Place(place.lines, _no_list(held[Means.LIST]))
        read = read_row(held, uses, place, self.signs)
        if read.line is not None and read.line.amount is None and len(row) > 1:
            left_out = len(columns) > len(held)  # it may be in there
            read = read._replace(doubt=tr(NO_AMOUNT), likely=read.likely and not left_out)
        doubt, fault = self.told.get(at, ("", ""))
        if fault:
            return Row(read.lines, None, fault, likely=AMOUNT.search(" ".join(row)) is not None)
        if doubt:
            return read._replace(doubt=doubt, likely=False)
        return read

    # what the brewer says instead

    def parted(self, parting: Parting) -> PastedTable:
        """Return the table with its cells parted another way, and looked at anew."""
        return _table(self.text, self.lines, self.asked_for, parting, self.signs)

    def with_comma(self, comma: bool) -> PastedTable:
        """Return the table with that decimal sign."""
        return replace(self, signs=self.signs._replace(comma=comma))

    def with_use(self, column: int, use: Use) -> PastedTable:
        """Return the table with a column used so; another column of that sort is left out."""
        uses = [
            OUT if each.means is use.means and use.means is not Means.OUT else each
            for each in self.uses
        ]
        uses[column] = use
        return replace(self, uses=tuple(uses))

    def with_list(self, row: int, lines: str) -> PastedTable:
        """Return the table with a row that goes to a list."""
        return replace(self, chosen_lists={**self.chosen_lists, row: lines})

    def with_default(self, lines: str) -> PastedTable:
        """Return the table with another list for rows of which nothing says which."""
        return replace(self, lines=lines)

    def with_cell(self, row: int, column: int, text: str) -> PastedTable:
        """Return the table with a cell mended; a line not understood is taken apart anew."""
        if row in self.told and self.told[row][1]:
            lines = [*self.raw]
            lines[row] = (" ".join(text.split()),)
            anew = _of_lines(self.text, self.lines, self.asked_for, tuple(lines), self.signs)
            return replace(anew, chosen_lists=self.chosen_lists, signs=self.signs)
        changed = list(self.cells[row])
        changed[column] = " ".join(text.split())
        cells = (*self.cells[:row], tuple(changed), *self.cells[row + 1 :])
        told = {at: each for at, each in self.told.items() if at != row}
        return replace(self, cells=cells, told=told)


def pasted_table(
    text: str, lines: str | None, *, comma: bool = False, us: bool = False
) -> PastedTable:
    """Return a text as a table of ingredients, as it is most likely meant.

    `lines` is the list it is pasted on, None for whichever; `comma` and `us` say how figures are
    usually written here. Raises RefusedInputError for more text than a recipe could take, and for
    a text without anything in it.
    """
    signs, at = Signs(comma, us), lines or "fermentables"
    asked_for = lines is not None
    tables = [_table(text, at, asked_for, parting, signs) for parting in possible_partings(text)]
    best = max(tables, key=_sense)
    if not best.cells:
        raise refused("nothing-like-a-line", "there is nothing in it that could be a line")
    return (
        replace(best, doubts=(*best.doubts, tr(COMMAS))) if _may_be_parted(best, tables) else best
    )


def _no_list(named: str) -> str:
    return tr("“{named}” is not a list of a recipe", named=named[:40])


def _may_be_parted(best: PastedTable, tables: list[PastedTable]) -> bool:
    """Whether lines with decimal commas may as well be a table, such as one with numbered rows."""
    commas = next((each for each in tables if each.parting is Parting.COMMAS), None)
    if best.parting is not Parting.LINES or commas is None or commas.headings:
        return False
    if not is_doubtful(commas.text, Parting.COMMAS):
        return False
    return all(sum(map(bool, row)) >= FEWEST_CELLS for row in commas.cells)


def _sense(table: PastedTable) -> tuple[bool, int, bool, int]:
    """How much sense a parting makes: headings, rows without doubt, no doubts, rows with a line."""
    tried = replace(table, cells=table.cells[:TRIED_ROWS]).rows
    sure = sum(1 for row in tried if row.line is not None and not row.doubt)
    has_headings = bool(table.headings) and len(table.uses) > 1
    return has_headings, sure, not table.doubts, sum(1 for row in tried if row.line is not None)


def _table(text: str, lines: str, asked_for: bool, parting: Parting, signs: Signs) -> PastedTable:
    cells = cells_of(text, parting)
    if parting is Parting.LINES:
        return _of_lines(text, lines, asked_for, cells, signs)
    guess = guessed(cells, lines)
    signs, doubts = _signs(cells, signs)
    doubts += guess.doubts
    if is_doubtful(text, parting) and not guess.headings:
        doubts.append(tr(COMMAS))
    if most_usual_width(cells) < 2 and len(cells[0] if cells else ()) > 1:
        doubts.append(tr("most rows have one cell only"))
    return PastedTable(
        text, lines, asked_for, parting, signs, cells, guess.uses, guess.headings, tuple(doubts)
    )


def _of_lines(text: str, lines: str, asked_for: bool, cells: Cells, signs: Signs) -> PastedTable:
    headings = {at for at, (line,) in enumerate(cells) if is_heading_row((line,))}
    apart = [taken_apart(line) for (line,) in cells]
    told = {
        at: (each.doubt, each.fault) for at, each in enumerate(apart) if each.doubt or each.fault
    }
    parts = [each.cells for each in apart]
    for at, (line,) in enumerate(cells):
        if section_of(line) is not None or at in headings:
            parts[at] = as_name(line)
    kept = [at for at in range(len(USES)) if any(row[at] for row in parts)]
    split = tuple(tuple(row[at] for at in kept) for row in parts)
    signs, doubts = _signs(split, signs)
    uses = tuple(USES[at] for at in kept)
    table = PastedTable(text, lines, asked_for, Parting.LINES, signs, split, uses)
    return replace(table, headings=frozenset(headings), doubts=tuple(doubts), told=told, raw=cells)


def _signs(cells: Cells, usual: Signs) -> tuple[Signs, list[str]]:
    """The decimal sign that the figures show, else the usual one."""
    sign = decimal_sign(cell for row in cells for cell in row if len(cell) < TRIED_ROWS)
    if sign is None:
        return usual, [tr("the decimal sign is not certain")]
    return usual._replace(comma=sign == ",") if sign else usual, []
