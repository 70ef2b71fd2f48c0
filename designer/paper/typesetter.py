"""The blocks of a sheet as rows of the page.

Steps stand along a rail: clock and countdown to its left, the box to tick upon it, what to do to
its right, and beside that, in the margin, why, what if, and what can hurt.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from PySide6.QtGui import QPainter

from designer.paper.block_rows import (
    drawing_rows,
    paragraph_rows,
    rows_beside,
    ruled_row,
    section_head,
    table_row,
)
from designer.paper.head import head_row
from designer.paper.pagination import Row
from designer.paper.pieces import (
    ACTION,
    BOX,
    BOX_APART,
    BOXES_ABREAST,
    RAIL,
    AsidePiece,
    DoPiece,
    ItemPiece,
    Piece,
    PortionPiece,
    ReadingPiece,
    TitlePiece,
    clock_text,
    listed_rows,
    paint_box,
    paint_rail,
    paint_stack,
    paint_turns,
    paired_rows,
    stacked,
    width_of_amounts,
)
from designer.paper.type_sizes import TypeSizes, type_sizes
from designer.paper.typography import pt
from designer.sheet.blocks import (
    Aside,
    Block,
    ItemList,
    Lines,
    Paragraph,
    Portion,
    Section,
    Sheet,
    SideBySide,
    Step,
    Steps,
    Table,
)
from designer.sheet.language import language

PORTIONS_A_ROW = 18
LARGE_PORTIONS_A_ROW = 6
"""A step that takes more than so many lines goes on in further rows, or no page could hold it."""


class Columns(NamedTuple):
    """The room that a part with boxes beside each other takes: more for times, more for boxes."""

    times: float
    boxes: float


PLAIN = Columns(0.0, 0.0)
SECOND_TIME = pt(25.0)
"""The room for a second clock time beside the first."""


def _columns_of(section: Section) -> Columns:
    """The columns of the boxes and the times of a part, those of all its steps."""
    boxes = max((b.columns for b in section.blocks if isinstance(b, Steps)), default=1)
    several = any(sum(":" in when for when in step.whens) > 1 for step in section.steps)
    return Columns(SECOND_TIME if several else 0.0, (min(boxes, BOXES_ABREAST) - 1) * BOX_APART)


def typesetters_for(sheet: Sheet, width: float) -> list[Typesetter]:
    """Return the ways to set a sheet for a column of text so wide, the roomiest first."""
    return [Typesetter(sheet, width, sizes) for sizes in type_sizes(sheet)]


class Typesetter:
    """Turns a sheet into rows for a column of text so wide."""

    def __init__(self, sheet: Sheet, width: float, sizes: TypeSizes) -> None:
        self.sheet = sheet
        self.width = width
        self.sizes = sizes
        self.body, self.note = sizes.body, sizes.note
        self.large = sheet.form.large
        self.language = language(sheet.language)
        self.aside_width = sizes.aside * width

    def rows(self) -> list[Row]:
        """Return all rows of the sheet in order."""
        made = [head_row(self.sheet, self.width, self.sizes.title)]
        for section in self.sheet.sections:
            made += self._section(section)
        return made

    def _section(self, section: Section) -> list[Row]:
        rows: list[Row] = []
        columns = _columns_of(section)
        for block in section.blocks:
            if isinstance(block, Table) and rows:
                rows[-1] = replace(rows[-1], keep=True)  # the reading with its correction
            rows += self._block(block, columns)
        if not rows:
            return []
        if section.key == "watch":
            return rows_beside(section.title, rows)
        again = section_head(
            self.language.say("{title}, continued", title=section.title), "", self.width
        )
        rows = [replace(row, again=again) for row in rows]
        rows[-1] = replace(rows[-1], gap=rows[-1].gap + pt(5.0))
        head = section_head(section.title, section.lead, self.width)
        return [head, *rows]

    def _block(self, block: Block, columns: Columns) -> list[Row]:
        if isinstance(block, Steps):
            return [row for step in block.steps for row in self._step(step, columns)]
        if isinstance(block, SideBySide):
            return self._lists(block)
        if isinstance(block, Paragraph):
            size = self.note + 0.7 if block.kind == "plain" else self.body
            return paragraph_rows(block, self.width, size)
        if isinstance(block, Table):
            moved = columns.times
            return [table_row(block, self.width, self.note, large=self.large, moved=moved)]
        if isinstance(block, Lines):
            return [ruled_row(block, self.width)]
        return drawing_rows(block, self.width, self.sizes.drawing, large=self.large)

    # Steps

    def _step(self, step: Step, columns: Columns = PLAIN) -> list[Row]:
        """A step is one row, unless so much goes in at once that no page would hold it."""
        most = LARGE_PORTIONS_A_ROW if self.large else PORTIONS_A_ROW
        first, rest = step.listed[:most], step.listed[most:]
        rows = [self._step_row(step, first, columns)]
        while rest:
            more = Step("", "", step.minutes, ())
            rows.append(self._step_row(more, rest[:most], columns))
            rest = rest[most:]
        return rows

    def _step_row(self, step: Step, listed: tuple[Portion, ...], columns: Columns) -> Row:
        rail = RAIL + columns.times
        clock = clock_text(step, self.body, rail)
        beside = not self.large
        margin = self.width - self.aside_width if beside else self.width
        action = ACTION + columns.times + columns.boxes
        column = margin - action - pt(9.0 if beside else 0.0)
        parts = self._do(step, listed, column)
        asides, below = self._asides(step, parts, self.width - action, beside=beside)
        rows = max((turn.number - 1) // BOXES_ABREAST for turn in step.turns) if step.turns else 0
        height = max(clock.height, stacked(parts), stacked(asides), BOX + rows * BOX_APART)
        above, height = height, height + stacked(below)
        boxed = bool(step.do)

        def paint(painter: QPainter, x: float, y: float, given: float) -> None:
            paint_rail(painter, x + rail, y - pt(4.0), height + pt(8.0))
            clock.paint(painter, x, y)
            if step.turns:
                paint_turns(painter, step.turns, x + rail - 0.5 * BOX, y + pt(1.6))
            elif boxed:
                paint_box(painter, x + rail - 0.5 * BOX, y + pt(1.6))
            paint_stack(painter, parts, x + action, y)
            paint_stack(painter, asides, x + margin, y + pt(0.8))
            paint_stack(painter, below, x + action, y + above)

        return Row(height, paint, gap=pt(6.0))

    def _asides(
        self, step: Step, parts: Sequence[Piece], whole: float, *, beside: bool
    ) -> tuple[list[Piece], list[Piece]]:
        """What stands in the margin beside the step, and below it over the whole width.

        Warnings that would make the margin longer than the step are read sooner below it.
        """
        if not beside:
            return [], self._told(step.asides, whole)
        margin = self._told(step.asides, self.aside_width)
        warnings = [each for each in step.asides if each.kind in ("care", "stop")]
        rest = self._told([each for each in step.asides if each not in warnings], self.aside_width)
        below = self._told(warnings, whole)
        if max(stacked(parts), stacked(rest)) + stacked(below) < stacked(margin):
            return rest, below
        return margin, []

    def _told(self, asides: Sequence[Aside], width: float) -> list[Piece]:
        return [AsidePiece(each, width, self.note, self.body) for each in asides]

    def _do(self, step: Step, listed: tuple[Portion, ...], column: float) -> list[Piece]:
        """What to do, what goes in, what to read."""
        parts: list[Piece] = [DoPiece(step, column, self.body)] if step.do else []
        amounts = width_of_amounts([each.amount for each in listed], self.body, pt(200.0))
        parts += [PortionPiece(portion, column, self.body, amounts) for portion in listed]
        size = self.note + 0.7
        parts += [ReadingPiece(each, column, size, self.language) for each in step.readings]
        return parts

    # Lists

    def _lists(self, block: SideBySide) -> list[Row]:
        if self.large:
            whole = [
                piece
                for each in (*block.left, *block.right)
                for piece in self._list(each, self.width)
            ]
            return listed_rows(whole)
        half = 0.5 * (self.width - pt(16.0))
        left, right = (
            [piece for each in lists for piece in self._list(each, half)]
            for lists in (block.left, block.right)
        )
        return paired_rows(left, right, half + pt(16.0))

    def _list(self, whole: ItemList, width: float) -> list[Piece]:
        if not whole.items:
            return []
        marked = any(item.mark for item in whole.items)
        size = self.sizes.items
        amounts = width_of_amounts([item.amount for item in whole.items], size, 0.34 * width)
        items: list[Piece] = [ItemPiece(item, width, size, marked, amounts) for item in whole.items]
        return [TitlePiece(whole.title, width), *items] if whole.title else items
