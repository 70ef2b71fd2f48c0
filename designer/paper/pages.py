"""The brew sheet on paper: laid out once, painted alike on PDF, printer and screen.

What is shown is what prints: pages are laid out for a size of paper alone, in tenths of a point,
and scaled to whatever device paints them.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QRectF, QSizeF, Qt
from PySide6.QtGui import (
    QGuiApplication,
    QPagedPaintDevice,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
)

from designer import __version__
from designer.errors import DesignerError
from designer.library.recipe_file import write_whole
from designer.paper.pagination import Page, paginated
from designer.paper.typesetter import typesetters_for
from designer.paper.typography import Run, Text, demand_fonts, pt
from designer.sheet.blocks import Sheet
from designer.sheet.language import language
from designer.translation import tr

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

PAPERS = {
    "a4": QPageSize(QPageSize.PageSizeId.A4),
    "letter": QPageSize(QPageSize.PageSizeId.Letter),
}
MARGIN = pt(30.0)
TOP = pt(24.5)
FOOT = pt(14.0)
LARGE_PRINT = 1.4
"""How much larger all type is in large print: 14 points and more for what is to be done."""
PDF_RESOLUTION = 1200
_started: list[QGuiApplication] = []
"""The application that was started here, kept alive until the interpreter ends."""


@dataclass(frozen=True, slots=True)
class Pages:
    """A sheet laid out for a paper: `width` and `height` of the page in 1/720 inch.

    Rows are set for a page `zoom` times smaller, and enlarged with all that is in them.
    """

    sheet: Sheet
    width: float
    height: float
    rows: tuple[Page, ...]
    zoom: float = 1.0

    def __len__(self) -> int:
        return len(self.rows)

    def paint(self, painter: QPainter, number: int) -> None:
        """Draw page `number`, counted from 0, in 1/720 inch from the corner of the paper."""
        painter.save()
        painter.scale(self.zoom, self.zoom)
        left, top = MARGIN / self.zoom, TOP / self.zoom
        for placed in self.rows[number]:
            placed.row.paint(painter, left, top + placed.top, placed.height)
        self._paint_foot(painter, number, left)
        painter.restore()

    def paint_into(self, painter: QPainter, number: int, target: QRectF) -> None:
        """Draw page `number` scaled into a rectangle of the painter's own measure."""
        painter.save()
        painter.translate(target.topLeft())
        painter.scale(target.width() / self.width, target.height() / self.height)
        self.paint(painter, number)
        painter.restore()

    def _paint_foot(self, painter: QPainter, number: int, left: float) -> None:
        width = self.width / self.zoom - 2.0 * left
        y = (self.height - TOP - self.foot) / self.zoom + pt(4.5)
        told = language(self.sheet.language).say(
            "page {number} of {count}", number=str(number + 1), count=str(len(self))
        )
        name = Text(
            [Run(f"{shortened(self.sheet.head.title)} · {told}", 8.5, True)],
            width,
            align=Qt.AlignmentFlag.AlignRight,
        )
        trust = Text([Run(self.sheet.foot, 7.5, tone="soft")], width)
        below = trust.natural_width + name.natural_width + pt(10.0) > width
        trust.paint(painter, left, y + (pt(10.5) if below else pt(1.0)))
        name.paint(painter, left, y)

    @property
    def foot(self) -> float:
        """The height of the foot: large print needs two lines for it."""
        return foot_height(self.zoom)


def foot_height(zoom: float) -> float:
    """Return the height kept for the foot of a page that is enlarged so much."""
    return FOOT if zoom == 1.0 else 2.0 * FOOT * zoom


def shortened(title: str, longest: int = 40) -> str:
    """Return a title that leaves room on its line."""
    return title if len(title) <= longest else title[: longest - 1].rstrip() + "…"


def lay_out(sheet: Sheet, paper: str | QSizeF) -> Pages:
    """Return the pages for "a4", "letter", or a paper of that size in points.

    Raises DesignerError where no font is installed.
    """
    application()
    demand_fonts()
    size = PAPERS[paper].size(QPageSize.Unit.Point) if isinstance(paper, str) else paper
    width, height = pt(size.width()), pt(size.height())
    zoom = LARGE_PRINT if sheet.form.large else 1.0
    typesetters = typesetters_for(sheet, (width - 2.0 * MARGIN) / zoom)
    room = (height - 2.0 * TOP - foot_height(zoom)) / zoom
    rows = paginated([each.rows for each in typesetters], room, sheet.form.pages)
    return Pages(sheet, width, height, tuple(rows), zoom)


def application() -> QGuiApplication:
    """Return the running application, or start one that needs no display."""
    running = QGuiApplication.instance()
    if isinstance(running, QGuiApplication):
        return running
    _started.append(QGuiApplication(["hobwort", "-platform", "offscreen"]))
    return _started[-1]


class Paintable(Protocol):
    """Pages that can be painted, each into a rectangle."""

    def __len__(self) -> int:
        """How many there are."""

    def paint_into(self, painter: QPainter, number: int, target: QRectF) -> None:
        """Draw page `number`, counted from 0, scaled into a rectangle of the painter's measure."""


def paint_pages(pages: Paintable, device: QPagedPaintDevice, wanted: range | None = None) -> int:
    """Paint the pages (all, or those `wanted`) on a device whose margins are off.

    Returns how many were painted; raises DesignerError if the device takes no painter.
    """
    painter = QPainter()
    if not painter.begin(device):
        raise DesignerError(tr("The printer or file cannot be written to."))
    try:
        numbers = range(len(pages)) if wanted is None else wanted
        for count, number in enumerate(numbers):
            if count and not device.newPage():
                raise DesignerError(tr("The printer took no further page."))
            target = QRectF(painter.viewport())
            pages.paint_into(painter, number, target)
    finally:
        painter.end()  # before the device goes: the other order crashes
    return len(numbers)


def pdf_bytes(sheet: Sheet, paper: str) -> tuple[bytes, int]:
    """Return the sheet as PDF, and its number of pages."""
    return pdf_of(lay_out(sheet, paper), paper, sheet.head.title)


def pdf_of(pages: Paintable, paper: str, title: str) -> tuple[bytes, int]:
    """Return pages for "a4" or "letter" as PDF, and their number."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = pdf_writer(buffer, paper, title)
    count = paint_pages(pages, writer)
    del writer
    buffer.close()
    return bytes(buffer.data().data()), count


def pdf_writer(into: QIODevice, paper: str, title: str) -> QPdfWriter:
    """Return what writes full pages of "a4" or "letter" as PDF into an open device."""
    writer = QPdfWriter(into)
    writer.setResolution(PDF_RESOLUTION)
    writer.setTitle(title)
    writer.setCreator(f"Hobwort {__version__}")
    layout = QPageLayout(PAPERS[paper], QPageLayout.Orientation.Portrait, QMarginsF())
    layout.setMode(QPageLayout.Mode.FullPageMode)
    writer.setPageLayout(layout)
    return writer


def write_pdf(sheet: Sheet, path: Path, paper: str) -> int:
    """Write the sheet as PDF for "a4" or "letter" and return its number of pages.

    The file is replaced in one move; a failure leaves the old one as it was. Needs no display.
    Raises DesignerError, in words for the brewer, if it cannot be written.
    """
    content, count = pdf_bytes(sheet, paper)
    write_whole(path, content)
    return count


def print_sheet(sheet: Sheet, printer: QPrinter) -> int:
    """Print the pages that the print dialog asked for, for the paper it asked for."""
    printer.setFullPage(True)
    pages = lay_out(sheet, printer.pageLayout().fullRect(QPageLayout.Unit.Point).size())
    printer.setDocName(sheet.head.title)
    return paint_pages(pages, printer, wanted_pages(printer, len(pages)))


def wanted_pages(printer: QPrinter, count: int) -> range:
    """Return which of so many pages the print dialog asked for, counted from 0."""
    first = max(printer.fromPage(), 1)
    last = min(printer.toPage() or count, count)
    return range(first - 1, max(last, first - 1))
