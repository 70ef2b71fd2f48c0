"""The head of the first page: name, glass, forecast, blanks."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPen

from designer.paper.drawings import paint_drawing
from designer.paper.pagination import Row
from designer.paper.typography import Run, Text, ink, pt
from designer.sheet.blocks import Figure, Sheet

SUBTITLE, VALUE, LABEL, CREDIT = 11.0, 17.0, 8.5, 6.0
ABREAST, LARGE_ABREAST = 5, 3
"""So many forecasts stand beside each other."""
_BLANK_SHARES = (0.46, 0.30, 0.24)


def head_row(sheet: Sheet, width: float, title_size: float) -> Row:
    """Return the head as one row, its title in `title_size` points; a shop's name above it."""
    head = sheet.head
    glass_width = pt(0.0 if head.glass is None else head.glass.width)
    beside = width - glass_width - (pt(14.0) if head.glass is not None else 0.0)
    shop = Text([Run(head.shop, SUBTITLE, True, "soft")], beside) if head.shop else None
    title = Text([Run(head.title, title_size, True, "accent")], beside, leading=0.98)
    about = " · ".join(each for each in (head.subtitle, head.vessels) if each)
    subtitle = Text([Run(about, SUBTITLE)], beside)
    credit = Text([Run(head.credit, CREDIT, tone="soft")], beside) if head.credit else None
    blanks = _Blanks(head.blanks, beside)
    title_at = 0.0 if shop is None else shop.height + pt(2.0)
    named = title_at + title.height + subtitle.height + (0.0 if credit is None else credit.height)
    upper = named + pt(7.0) + blanks.height
    upper = max(upper, pt(0.0 if head.glass is None else head.glass.height))
    strip = _Strip(head.figures, width, LARGE_ABREAST if sheet.form.large else ABREAST)

    def paint(painter: QPainter, x: float, y: float, given: float) -> None:
        if shop is not None:
            shop.paint(painter, x, y)
        title.paint(painter, x, y + title_at)
        subtitle.paint(painter, x, y + title_at + title.height + pt(1.0))
        if credit is not None:
            credit.paint(painter, x, y + named - credit.height + pt(2.0))
        blanks.paint(painter, x, y + upper - blanks.height)
        if head.glass is not None:
            paint_drawing(painter, head.glass, x + width - glass_width, y, 1.0)
        strip.paint(painter, x, y + upper + pt(8.0))

    return Row(upper + (pt(8.0) + strip.height if head.figures else 0.0), paint, gap=pt(9.0))


class _Strip:
    """The forecasts on their ground, so many abreast."""

    def __init__(self, figures: tuple[Figure, ...], width: float, abreast: int) -> None:
        self.width, self.share = width, width / abreast
        texts = [_FigureText(each, self.share) for each in figures]
        self.lines = [texts[at : at + abreast] for at in range(0, len(texts), abreast)]
        self.heights = [max(each.height for each in line) + pt(9.0) for line in self.lines]
        self.height = sum(self.heights)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Draw them line by line."""
        if self.lines:
            painter.fillRect(QRectF(x, y, self.width, self.height), ink("ground"))
        for line, height in zip(self.lines, self.heights, strict=True):
            for place, each in enumerate(line):
                each.paint(painter, x + place * self.share, y + pt(4.5), place > 0)
            y += height


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
        for (start, end), (label, known), is_known in zip(
            self.places(), self.texts, self.known, strict=True
        ):
            label.paint(painter, x + start, base - label.height + pt(2.0))
            at = x + start + label.natural_width + pt(5.0)
            if is_known:
                known.paint(painter, at, base - known.height + pt(2.2))
            else:
                painter.setPen(QPen(ink("ink"), pt(0.7)))
                painter.drawLine(QPointF(at, base), QPointF(max(x + end, at), base))

    def places(self) -> list[tuple[float, float]]:
        """Return where each begins and ends: at its share, or after what is known before it."""
        found: list[tuple[float, float]] = []
        start = free = 0.0
        for share, (label, known), is_known in zip(
            _BLANK_SHARES, self.texts, self.known, strict=False
        ):
            begin, start = max(start, free), start + share * self.width
            end = start - pt(10.0)
            if is_known:
                end = begin + label.natural_width + pt(5.0) + known.natural_width
            found.append((begin, end))
            free = end + pt(10.0)
        return found


class _FigureText:
    """A forecast: label, value, likely range, meaning."""

    def __init__(self, figure: Figure, width: float) -> None:
        inner = width - pt(14.0)
        self.parts = [
            Text([Run(figure.label, LABEL, True, "soft")], inner),
            Text([Run(figure.value, VALUE, True)], inner, leading=1.0),
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
