"""The head of the first page: name, glass, forecast, blanks."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPen

from designer.sheet.blocks import Figure, Sheet
from designer.window.paper_drawing import paint_drawing
from designer.window.paper_filler import Row
from designer.window.paper_type import Run, Text, ink, pt

SUBTITLE, VALUE, LABEL = 11.0, 17.0, 8.5
LARGE_VALUE = 14.5
"""The same in large print, before it is enlarged: five must stand side by side."""
_BLANK_SHARES = (0.46, 0.30, 0.24)


def head_row(sheet: Sheet, width: float, title_size: float) -> Row:
    """Return the head as one row, its title in `title_size` points; a shop's name above it."""
    head = sheet.head
    glass_width = pt(0.0 if head.glass is None else head.glass.width)
    beside = width - glass_width - (pt(14.0) if head.glass is not None else 0.0)
    shop = Text([Run(head.shop, SUBTITLE, True, "soft")], beside) if head.shop else None
    title = Text([Run(head.title, title_size, True, "accent")], beside, leading=0.98)
    about = f"{head.subtitle} · {head.vessels}" if head.subtitle else head.vessels
    subtitle = Text([Run(about, SUBTITLE)], beside)
    blanks = _Blanks(head.blanks, beside)
    title_at = 0.0 if shop is None else shop.height + pt(2.0)
    upper = title_at + title.height + subtitle.height + pt(7.0) + blanks.height
    upper = max(upper, pt(0.0 if head.glass is None else head.glass.height))
    share = width / max(len(head.figures), 1)
    figures = [_FigureText(each, share, sheet.form.large) for each in head.figures]
    strip = max(each.height for each in figures) + pt(17.0) if figures else 0.0

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        if shop is not None:
            shop.paint(painter, x, y)
        title.paint(painter, x, y + title_at)
        subtitle.paint(painter, x, y + title_at + title.height + pt(1.0))
        blanks.paint(painter, x, y + upper - blanks.height)
        if head.glass is not None:
            paint_drawing(painter, head.glass, x + width - glass_width, y, 1.0)
        top = y + upper + pt(8.0)
        if figures:
            painter.fillRect(QRectF(x, top, width, strip - pt(8.0)), ink("ground"))
        for number, each in enumerate(figures):
            each.paint(painter, x + number * width / len(figures), top + pt(4.5), number > 0)

    return Row(upper + strip, paint, gap=pt(9.0))


class _Blanks:
    """Blanks to write on, beside each other: a label, and a rule or what is known."""

    def __init__(self, blanks: tuple[tuple[str, str], ...], width: float) -> None:
        self.width = width
        self.texts = [
            (Text([Run(label, 9.5, tone="soft")], pt(90.0)), Text([Run(known, 10.5, True)], width))
            for label, known in blanks
        ]
        self.known = [bool(known) for _, known in blanks]
        self.height = max((known.height for _, known in self.texts), default=0.0)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Draw them in one line."""
        base = y + self.height - pt(1.5)
        for share, (label, known), is_known in zip(
            _BLANK_SHARES, self.texts, self.known, strict=False
        ):
            label.paint(painter, x, base - label.height + pt(2.0))
            at = x + label.natural_width + pt(5.0)
            end = x + share * self.width - pt(10.0)
            if is_known:
                known.paint(painter, at, base - known.height + pt(2.2))
            else:
                painter.setPen(QPen(ink("ink"), pt(0.7)))
                painter.drawLine(QPointF(at, base), QPointF(end, base))
            x += share * self.width


class _FigureText:
    """A forecast: label, value, likely range, meaning."""

    def __init__(self, figure: Figure, width: float, large: bool) -> None:
        inner = width - pt(14.0)
        self.parts = [
            Text([Run(figure.label, LABEL, True, "soft")], inner),
            Text([Run(figure.value, LARGE_VALUE if large else VALUE, True)], inner, leading=1.0),
            Text([Run(figure.span, LABEL)], inner),
            Text([Run(figure.means, LABEL, tone="soft")], inner),
        ]
        self.height = sum(part.height for part in self.parts)

    def paint(self, painter: QPainter, x: float, y: float, ruled: bool) -> None:
        """Draw it, with a rule at its left but for the first."""
        if ruled:
            painter.fillRect(QRectF(x, y, pt(0.7), self.height), ink("faint"))
        for part in self.parts:
            part.paint(painter, x + pt(7.0), y)
            y += part.height
