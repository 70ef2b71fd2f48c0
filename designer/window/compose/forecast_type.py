"""The sizes of type in the forecast, which grow with the room that it has."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from PySide6.QtGui import QFont, QFontInfo, QFontMetricsF

from designer.translation import tr

USUAL_WIDTH, MOST_GROWN = 540.0, 1.4
PAD = 6.0
FIGURE, RULED_FIGURE, CAPTION, MARK = 1.8, 1.4, 0.92, 0.85
"""Sizes as shares of the window's: of a figure, one on a ruler, what stands by them, marks."""


MOST_MEASURED = 500


class Face:
    """A font, and how wide texts are in it; what was measured is kept, most comes again."""

    def __init__(self, font: QFont) -> None:
        self.font, self.metrics = font, QFontMetricsF(font)
        self._widths: dict[str, float] = {}

    def width(self, text: str) -> float:
        """Return how wide a text is."""
        found = self._widths.get(text)
        if found is None:
            if len(self._widths) >= MOST_MEASURED:
                self._widths.clear()
            found = self._widths[text] = self.metrics.horizontalAdvance(text)
        return found

    def narrowed(self, text: str, width: float) -> Face:
        """Return the same, smaller where a text would be cut in a width."""
        wanted = self.width(text)
        if wanted <= width or width <= 0.0:
            return self
        made = QFont(self.font)
        made.setPixelSize(max(int(self.font.pixelSize() * width / wanted), 1))
        return Face(made)


class Type(NamedTuple):
    """Faces, and how high lines of them are."""

    figure: Face
    ruled: Face
    caption: Face
    bold: Face
    mark: Face
    figure_line: float
    ruled_line: float
    caption_line: float
    mark_line: float
    lead: float
    """How wide the column of the large figures is."""


def type_for(font: QFont, width: float) -> Type:
    """Return the type for a forecast so wide, in the window's font."""
    grown = min(max(width / USUAL_WIDTH, 1.0), MOST_GROWN)
    return _made(font.toString(), QFontInfo(font).pixelSize(), round(grown, 2))


@lru_cache(maxsize=16)
def _made(described: str, pixels: int, grown: float) -> Type:
    font = QFont()
    font.fromString(described)

    def sized(share: float, *, bold: bool = False) -> Face:
        made = QFont(font)
        made.setPixelSize(max(round(share * grown * pixels), 1))
        made.setBold(bold)
        return Face(made)

    figure, ruled = sized(FIGURE, bold=True), sized(RULED_FIGURE, bold=True)
    caption, bold, mark = sized(CAPTION), sized(CAPTION, bold=True), sized(MARK)
    return Type(
        figure,
        ruled,
        caption,
        bold,
        mark,
        round(0.95 * figure.metrics.height()),
        round(ruled.metrics.height()),
        round(caption.metrics.height()),
        round(mark.metrics.height()),
        round(bold.width(tr("may be {more} above", more="0.0")) + 18.0),
    )
