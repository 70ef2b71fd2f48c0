"""Type and ink of the printed sheet: fonts, and text laid out to a width.

All lengths on paper are in tenths of a point (1/720 inch), so that fonts of any size have a whole
pixel size and no hinting for some screen shifts a letter. A painter is scaled to its device once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace
from functools import cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontDatabase,
    QPainter,
    QTextCharFormat,
    QTextLayout,
    QTextOption,
)

from designer.errors import DesignerError
from designer.paper.typeface import own_families
from designer.sheet.blocks import Strong, Words
from designer.translation import tr

UNITS_PER_INCH = 720
LEADING = 0.925
"""The height of a line, as a share of what its font asks for."""
OTHERS = ("Noto Sans", "DejaVu Sans", "Liberation Sans", "Arial", "Helvetica")
"""For letters that the program's own typeface has not, and in its place where it is missing."""

INKS = {
    "ink": "#1d2a2b",
    "accent": "#1f4a43",
    "soft": "#4f5c5b",
    "faint": "#b9c1be",
    "ground": "#eef1ef",
    "care": "#7b2018",
    "water": "#cfdfe6",
    "wort": "#e6d0ae",
    "foam": "#f3ecdf",
}
"""Soft on white reaches 6 to 1; all of them differ in grey as they do in colour."""


def pt(points: float) -> float:
    """Return a length in points as one of the sheet's units."""
    return 10.0 * points


def ink(name: str) -> QColor:
    """Return the colour of an ink, or the colour itself where it is given as "#rrggbb"."""
    return QColor(INKS.get(name, name))


def demand_fonts() -> None:
    """Raise DesignerError where no font is installed: every letter would be an empty box."""
    if not own_families() and not QFontDatabase.families():
        raise DesignerError(
            tr(
                "No font is installed, so no page can be laid out. Install one, such as DejaVu "
                "Sans (package fonts-dejavu-core)."
            )
        )


@cache
def font(size_pt: float, bold: bool = False) -> QFont:
    """Return the sheet's font at a size."""
    made = QFont([*own_families(), *OTHERS])
    made.setPixelSize(round(pt(size_pt)))
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    made.setBold(bold)
    # A ligature is one sign to whoever searches or copies the page: "finings" must be found.
    made.setFeature(QFont.Tag("liga"), 0)
    return made


Tell = Callable[[str, QRectF], object]
_told: ContextVar[Tell | None] = ContextVar("told", default=None)


@contextmanager
def told_to(tell: Tell) -> Iterator[None]:
    """Let `tell` hear of each text that is drawn meanwhile, and of its place on the page."""
    before = _told.set(tell)
    try:
        yield
    finally:
        _told.reset(before)


@dataclass(frozen=True, slots=True)
class Run:
    """Text in one size, weight and ink.

    In a PDF one that `leads_to` a place can be clicked on, and leads to the run that has it as its
    `place`.
    """

    text: str
    size: float
    bold: bool = False
    tone: str = "ink"
    leads_to: str = ""
    place: str = ""


def runs(words: Words, size: float, tone: str = "ink") -> list[Run]:
    """Return words as runs, strong ones bold."""
    return [
        Run(word.text, size, True, tone) if isinstance(word, Strong) else Run(word, size, tone=tone)
        for word in words
    ]


class Text:
    """A paragraph laid out to a width; `height` and `natural_width` in the sheet's units."""

    def __init__(
        self,
        parts: Sequence[Run],
        width: float,
        *,
        align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
        leading: float = LEADING,
    ) -> None:
        parts = [_unbroken(part) for part in parts]
        written = "".join(part.text for part in parts)
        first = parts[0] if parts else Run("", 10.0)
        self._layout = QTextLayout(written, font(first.size, first.bold))
        self._layout.setFormats(_formats(parts))
        option = QTextOption(align)
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        option.setUseDesignMetrics(True)
        self._layout.setTextOption(option)
        self.height, self.natural_width = self._break(max(width, 1.0), leading)

    def _break(self, width: float, leading: float) -> tuple[float, float]:
        self._layout.beginLayout()
        y = widest = 0.0
        while True:
            line = self._layout.createLine()
            if not line.isValid():
                break
            line.setLineWidth(width)
            line.setPosition(QPointF(0.0, y))
            y += leading * line.height()
            widest = max(widest, line.naturalTextWidth())
        self._layout.endLayout()
        return y, widest

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Draw the paragraph with its top left corner at `x`, `y`."""
        self._layout.draw(painter, QPointF(x, y))
        tell = _told.get()
        if tell is not None:
            place = QRectF(x, y, self.natural_width, self.height)
            tell(self._layout.text(), painter.worldTransform().mapRect(place))


_FIGURE = re.compile(
    r"(?<=\d) (?=°C|°F|°P|(?:kg|g|L|mL|lb|oz|gal|qt|min|bar|psi|SRM|EBC|IBU)\b)"
    r"|(?<=\blb) (?=\d)"
)


def _unbroken(part: Run) -> Run:
    """Keep a figure and its unit on one line; a line feed breaks the line, not the paragraph."""
    text = _FIGURE.sub("\u00a0", part.text).replace("\n", "\u2028")
    return part if text == part.text else replace(part, text=text)


def _formats(parts: Sequence[Run]) -> list[QTextLayout.FormatRange]:
    found, start = [], 0
    for part in parts:
        each = QTextLayout.FormatRange()
        # Qt counts UTF-16 units.
        each.start, each.length = start, len(part.text.encode("utf-16-le")) // 2
        each.format = _format(part.size, part.bold, part.tone, part.leads_to, part.place)
        start += each.length
        found.append(each)
    return found


@cache
def _format(size: float, bold: bool, tone: str, leads_to: str, place: str) -> QTextCharFormat:
    made = QTextCharFormat()
    made.setFont(font(size, bold))
    made.setForeground(QBrush(ink(tone)))
    if leads_to or place:
        made.setAnchor(True)
    if leads_to:
        made.setAnchorHref(f"#{leads_to}")
    if place:
        made.setAnchorNames([place])
    return made
