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


class Type(NamedTuple):
    """Fonts, and how high lines of them are."""

    figure: QFont
    ruled: QFont
    caption: QFont
    bold: QFont
    mark: QFont
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

    def sized(share: float, *, bold: bool = False) -> QFont:
        made = QFont(font)
        made.setPixelSize(max(round(share * grown * pixels), 1))
        made.setBold(bold)
        return made

    figure, ruled = sized(FIGURE, bold=True), sized(RULED_FIGURE, bold=True)
    caption, bold, mark = sized(CAPTION), sized(CAPTION, bold=True), sized(MARK)
    small = QFontMetricsF(caption)
    return Type(
        figure,
        ruled,
        caption,
        bold,
        mark,
        round(0.95 * QFontMetricsF(figure).height()),
        round(QFontMetricsF(ruled).height()),
        round(small.height()),
        round(QFontMetricsF(mark).height()),
        round(QFontMetricsF(bold).horizontalAdvance(tr("may be {more} above", more="0.0")) + 18.0),
    )
