"""Texts of an SVG drawing, each as wide in another typeface as in the window's.

Where a drawing is looked at, the program's own typeface is not installed: wider letters would run
into one another and over the edge. So every text says how wide it is; viewers that do not heed it
(`textLength`, SVG 1.1, 10.5) show it in the next best face.
"""

from __future__ import annotations

import html
import re

from PySide6.QtGui import QFont, QFontMetricsF

OTHER_FACES = "Noto Sans, DejaVu Sans, Segoe UI, Helvetica, sans-serif"
_TEXT = re.compile(
    r'<text (?P<before>[^>]*?)font-family="(?P<family>[^",]*)[^"]*" font-size="(?P<size>[\d.]+)" '
    r'font-weight="(?P<weight>\d+)"(?P<after>[^>]*)>(?P<text>[^<]*)</text>'
)


def with_widths(drawing: str) -> str:
    """Return a drawing as Qt writes it, its texts held to their widths."""
    return _TEXT.sub(_held, drawing)


def _held(found: re.Match[str]) -> str:
    """Return a text of a drawing that is as wide in another typeface as in the window's."""
    font = QFont(found["family"])
    font.setPixelSize(max(round(float(found["size"])), 1))
    font.setWeight(QFont.Weight(int(found["weight"])))
    wide = QFontMetricsF(font).horizontalAdvance(html.unescape(found["text"]))
    return (
        f'<text {found["before"]}font-family="{found["family"]}, {OTHER_FACES}" '
        f'font-size="{found["size"]}" font-weight="{found["weight"]}" textLength="{wide:.1f}" '
        f'lengthAdjust="spacingAndGlyphs"{found["after"]}>{found["text"]}</text>'
    )
