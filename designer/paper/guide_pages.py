"""The guide on paper and as PDF: contents with page numbers first, each page of it on a new one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPageSize, QPainter

from designer import __version__
from designer.guide.blocks import Page as GuidePage
from designer.guide.pages import Guide
from designer.paper.guide_rows import BODY, CLOSE, GAP, SMALL, GuideRows
from designer.paper.pages import PAPERS, application, pdf_of
from designer.paper.pagination import Page, Row, filled
from designer.paper.typography import Run, Text, demand_fonts, pt
from designer.translation import tr

MARGIN, TOP, FOOT = pt(58.0), pt(52.0), pt(24.0)
GAPS = (1.0, 0.85, 0.7)
"""Gaps between rows, as shares of what is wanted."""


@dataclass(frozen=True, slots=True)
class GuidePages:
    """The guide laid out: the rows of each page of paper, what stands at its foot."""

    width: float
    height: float
    rows: tuple[Page, ...]
    feet: tuple[str, ...]

    def __len__(self) -> int:
        return len(self.rows)

    def paint_into(self, painter: QPainter, number: int, target: QRectF) -> None:
        """Draw page `number`, counted from 0, scaled into a rectangle."""
        painter.save()
        painter.translate(target.topLeft())
        painter.scale(target.width() / self.width, target.height() / self.height)
        for placed in self.rows[number]:
            placed.row.paint(painter, MARGIN, TOP + placed.top, placed.height)
        column, foot = self.width - 2.0 * MARGIN, self.height - TOP + pt(4.0)
        Text([Run(self.feet[number], SMALL, tone="soft")], column).paint(painter, MARGIN, foot)
        right = Qt.AlignmentFlag.AlignRight
        count = Text([Run(str(number + 1), SMALL, tone="soft")], column, align=right)
        count.paint(painter, MARGIN, foot)
        painter.restore()


def lay_out_guide(guide: Guide, paper: str) -> GuidePages:
    """Return the guide, in the language that is spoken, for "a4" or "letter".

    Raises DesignerError where no font is installed.
    """
    application()
    demand_fonts()
    size = PAPERS[paper].size(QPageSize.Unit.Point)
    width, height = pt(size.width()), pt(size.height())
    made = GuideRows(guide, width - 2.0 * MARGIN)
    room = height - 2.0 * TOP - FOOT
    pages = [(each, _filled(made.of_page(each), room)) for each in guide.pages()]
    title = tr("Hobwort {version}: guide", version=__version__)
    numbers: dict[str, int] = {}
    contents = filled(_contents(guide, numbers, title, made.width), room)
    number = len(contents) + 1
    for each, rows in pages:
        numbers[each.name] = number
        number += len(rows)
    contents = filled(_contents(guide, numbers, title, made.width), room)
    feet = [title] * len(contents)
    for each, rows in pages:
        feet += [each.title] * len(rows)
    return GuidePages(
        width, height, (*contents, *(page for _, of in pages for page in of)), tuple(feet)
    )


def guide_pdf(guide: Guide, paper: str) -> bytes:
    """Return the guide, in the language that is spoken, as PDF. Raises DesignerError."""
    title = tr("Hobwort {version}: guide", version=__version__)
    return pdf_of(lay_out_guide(guide, paper), paper, title)[0]


def _filled(rows: Sequence[Row], room: float) -> list[Page]:
    """As roomy as can be without a further page for a few lines."""
    return min((filled(rows, room, gaps) for gaps in GAPS), key=len)


def _contents(guide: Guide, numbers: dict[str, int], title: str, width: float) -> list[Row]:
    rows = [_line(Text([Run(title, 22.0, True, "accent")], width), gap=pt(14.0))]
    for part in guide.parts:
        rows.append(_line(Text([Run(part.title, 12.0, True)], width), gap=CLOSE, keep=True))
        rows += [_numbered(page, numbers.get(page.name, 0), width) for page in part.pages]
        rows.append(Row(0.0, lambda *_: None, gap=GAP))
    return rows


def _line(text: Text, gap: float, *, keep: bool = False) -> Row:
    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        text.paint(painter, x, y)

    return Row(text.height, paint, gap=gap, keep=keep)


def _numbered(page: GuidePage, number: int, width: float) -> Row:
    """The title of a page and its number; both lead to it."""
    title = Text([Run(page.title, BODY, leads_to=page.name)], width - pt(40.0))
    right = Qt.AlignmentFlag.AlignRight
    count = Text([Run(str(number), BODY, leads_to=page.name)], width, align=right)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        title.paint(painter, x, y)
        count.paint(painter, x, y)

    return Row(title.height, paint, gap=CLOSE)
