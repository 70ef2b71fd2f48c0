"""The sheets of several recipes one after another, on a printer or in one PDF.

Each is laid out when its turn comes, so that whoever prints many can do something else meanwhile.
"""

from __future__ import annotations

from collections.abc import Generator, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QIODevice, QRectF, QSizeF
from PySide6.QtGui import QPagedPaintDevice, QPageLayout, QPainter

from designer.errors import DesignerError
from designer.paper.pages import lay_out, pdf_writer
from designer.sheet.blocks import Sheet
from designer.translation import tr

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter


def printed(sheets: Sequence[Sheet], printer: QPrinter) -> Generator[int]:
    """Print sheets; yields after each the number of pages so far.

    Raises DesignerError where the printer takes nothing, or no more.
    """
    printer.setFullPage(True)
    paper = printer.pageLayout().fullRect(QPageLayout.Unit.Point).size()
    printer.setDocName(tr("Brew sheets"))
    yield from _painted(sheets, printer, paper)


def in_one_pdf(sheets: Sequence[Sheet], paper: str, into: QBuffer) -> Generator[int]:
    """Write sheets as one PDF for "a4" or "letter"; yields after each the number of pages so far.

    What `into` holds is whole when all has been yielded. Raises DesignerError.
    """
    into.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = pdf_writer(into, paper, tr("Brew sheets"))
    yield from _painted(sheets, writer, paper)
    del writer
    into.close()


def _painted(
    sheets: Sequence[Sheet], device: QPagedPaintDevice, paper: str | QSizeF
) -> Generator[int]:
    painter = QPainter()
    if not painter.begin(device):
        raise DesignerError(tr("The printer or file cannot be written to."))
    count = 0
    try:
        for sheet in sheets:
            pages = lay_out(sheet, paper)
            for number in range(len(pages)):
                if count and not device.newPage():
                    raise DesignerError(tr("The printer took no further page."))
                pages.paint_into(painter, number, QRectF(painter.viewport()))
                count += 1
            yield count
    finally:
        painter.end()  # before the device goes: the other order crashes
