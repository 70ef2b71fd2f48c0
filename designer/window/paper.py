"""The brew sheet on paper: laid out once, painted alike on PDF, printer and screen.

What is shown is what prints: pages are laid out for a size of paper alone, in tenths of a point,
and scaled to whatever device paints them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QRectF, QSizeF, Qt
from PySide6.QtGui import (
    QGuiApplication,
    QImage,
    QPagedPaintDevice,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
)

from designer import __version__
from designer.errors import DesignerError
from designer.library.recipe_file import write_whole
from designer.sheet.blocks import Sheet
from designer.window.paper_filler import Placed, fill
from designer.window.paper_rows import SETTINGS, Setter
from designer.window.paper_type import UNITS_PER_INCH, Run, Text, demand_fonts, pt

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

PAPERS = {
    "a4": QPageSize(QPageSize.PageSizeId.A4),
    "letter": QPageSize(QPageSize.PageSizeId.Letter),
}
MARGIN = pt(31.0)
TOP = pt(27.0)
FOOT = pt(14.0)
PDF_RESOLUTION = 1200
_started: list[QGuiApplication] = []
"""The application that was started here, kept alive until the interpreter ends."""


@dataclass(frozen=True, slots=True)
class Pages:
    """A sheet laid out for a paper: `width` and `height` of the page in 1/720 inch."""

    sheet: Sheet
    width: float
    height: float
    rows: tuple[tuple[Placed, ...], ...]

    def __len__(self) -> int:
        return len(self.rows)

    def paint(self, painter: QPainter, number: int) -> None:
        """Draw page `number`, counted from 0, in 1/720 inch from the corner of the paper."""
        for placed in self.rows[number]:
            placed.row.paint(painter, MARGIN, TOP + placed.top, placed.height)
        self._paint_foot(painter, number)

    def paint_into(self, painter: QPainter, number: int, target: QRectF) -> None:
        """Draw page `number` scaled into a rectangle of the painter's own measure."""
        painter.save()
        painter.translate(target.topLeft())
        painter.scale(target.width() / self.width, target.height() / self.height)
        self.paint(painter, number)
        painter.restore()

    def _paint_foot(self, painter: QPainter, number: int) -> None:
        y, width = self.height - TOP - FOOT + pt(4.5), self.width - 2.0 * MARGIN
        name = f"{shortened(self.sheet.head.title)} · page {number + 1} of {len(self)}"
        left = Text([Run(self.sheet.foot, 7.5, tone="soft")], width)
        right = Text([Run(name, 8.5, True)], width, align=Qt.AlignmentFlag.AlignRight)
        left.paint(painter, MARGIN, y + pt(1.0))
        right.paint(painter, MARGIN, y)


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
    setters = [Setter(sheet, width - 2.0 * MARGIN, each) for each in SETTINGS[sheet.variant]]
    filled = fill([setter.rows for setter in setters], height - 2.0 * TOP - FOOT)
    return Pages(sheet, width, height, tuple(tuple(page) for page in filled))


def application() -> QGuiApplication:
    """Return the running application, or start one that needs no display."""
    running = QGuiApplication.instance()
    if isinstance(running, QGuiApplication):
        return running
    _started.append(QGuiApplication(["hobwort", "-platform", "offscreen"]))
    return _started[-1]


def paint_pages(pages: Pages, device: QPagedPaintDevice, wanted: range | None = None) -> int:
    """Paint the pages (all, or those `wanted`) on a device whose margins are off.

    Returns how many were painted; raises DesignerError if the device takes no painter.
    """
    painter = QPainter()
    if not painter.begin(device):
        raise DesignerError("The printer or file cannot be painted on.")
    try:
        numbers = range(len(pages)) if wanted is None else wanted
        for count, number in enumerate(numbers):
            if count and not device.newPage():
                raise DesignerError("The printer took no further page.")
            target = QRectF(painter.viewport())
            pages.paint_into(painter, number, target)
    finally:
        painter.end()  # before the device goes: the other order crashes
    return len(numbers)


def pdf_bytes(sheet: Sheet, paper: str) -> tuple[bytes, int]:
    """Return the sheet as PDF, and its number of pages."""
    pages = lay_out(sheet, paper)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(PDF_RESOLUTION)
    writer.setTitle(sheet.head.title)
    writer.setCreator(f"Hobwort {__version__}")
    layout = QPageLayout(PAPERS[paper], QPageLayout.Orientation.Portrait, QMarginsF())
    layout.setMode(QPageLayout.Mode.FullPageMode)
    writer.setPageLayout(layout)
    count = paint_pages(pages, writer)
    del writer
    buffer.close()
    return bytes(buffer.data().data()), count


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
    first = max(printer.fromPage(), 1)
    last = min(printer.toPage() or len(pages), len(pages))
    return paint_pages(pages, printer, range(first - 1, max(last, first - 1)))


def page_images(sheet: Sheet, paper: str, dots_per_inch: float = 96.0) -> Iterator[QImage]:
    """Yield each page as a picture on white."""
    pages = lay_out(sheet, paper)
    scale = dots_per_inch / UNITS_PER_INCH
    for number in range(len(pages)):
        image = QImage(
            round(pages.width * scale), round(pages.height * scale), QImage.Format.Format_RGB32
        )
        image.fill(Qt.GlobalColor.white)
        painter = QPainter(image)
        painter.setRenderHints(
            QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing
        )
        pages.paint_into(painter, number, QRectF(image.rect()))
        painter.end()
        yield image
