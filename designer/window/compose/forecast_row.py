"""One forecast in words and figures, as a button: pressed, it tells what stands behind it.

The figures are the largest type of the page. What is drawn beside them is in `forecast_rulers`;
where a row stands and how much of the picture it covers, its question says.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QRegion
from PySide6.QtWidgets import QAbstractButton, QWidget

from designer.brewday.predictions import Prediction
from designer.brewday.results import Range
from designer.translation import message, tr
from designer.window.compose.forecast_type import PAD, Face, Type, type_for
from designer.window.compose.style_words import Stands, Verdict, judged
from designer.window.parts.curve import draw_curve
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.hint import set_hint
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.shown_scale import on_other_scale
from designer.workbench import keys

if TYPE_CHECKING:
    from designer.window.parts.deeds import Deeds

LEANS = {"higher": message("more likely higher"), "lower": message("more likely lower")}
LEFT, BETWEEN = 12.0, 14.0


class Role(Enum):
    """Where a row stands: before a ruler of its own, before a ruler of others, or on that one."""

    WHOLE = "whole"
    LEAD = "lead"
    RULED = "ruled"


class Texts(NamedTuple):
    """What is written in a row: each line in the forms that it may take, the longest first."""

    value: str = ""
    span: tuple[str, ...] = ()
    last: tuple[str, ...] = ()
    words: str = ""
    verdict: tuple[str, ...] = ()


class _Places(NamedTuple):
    """Where the lines of a row stand."""

    caption: QRectF
    value: QRectF
    span: QRectF
    last: QRectF
    foot: QRectF


class ForecastRow(QAbstractButton):
    """One forecast, painted: name, value, range, and what the style says of it."""

    changed = Signal()
    copy_wanted = Signal()

    def __init__(
        self,
        facts: Prediction,
        role: Role,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._facts, self._role, self._display = facts, role, display
        self._name = tr(facts.title)
        named = self._name, tr(facts.heading)
        self._captions = (
            (tr(facts.question),) if role is not Role.RULED and facts.question else named
        )
        self._range = Range(0.0, 0.0, 0.0)
        self._asked: tuple[float, float] | None = None
        self._verdict: Verdict | None = None
        self._texts = Texts()
        self._laid: tuple[QRect, float, _Places, Type] | None = None
        self._across = 0.0
        self.setCheckable(True)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        set_hint(self, tr("Press for its largest uncertainties and how it is calculated"))
        keep_direction(self)

    @property
    def key(self) -> str:
        """The key of the forecast."""
        return self._facts.key

    def deeds(self) -> Deeds:
        """Return what can be done to the forecast while a row of it has the keyboard."""
        return {keys.COPY: self.copy_wanted.emit}

    @property
    def found(self) -> Range:
        """The forecast that is shown."""
        return self._range

    @property
    def asked(self) -> tuple[float, float] | None:
        """The range of the style, if one is chosen."""
        return self._asked

    def show_range(
        self,
        found: Range,
        asked: tuple[float, float] | None = None,
        style: str = "",
        words: str = "",
    ) -> None:
        """Show another forecast beside what a style asks for; `words` say what the figure means."""
        drawn_before, before = (self._drawn(), self._asked), self._texts
        self._range, self._asked = found, asked
        self._verdict = None
        if asked is not None:
            self._verdict = judged(self.key, found, asked, style, self._display)
        self._texts = self._put(words)
        spoken = self.sentence()
        if spoken != self.accessibleName():
            self.setAccessibleName(spoken)
        self._repaint_since(before)
        if drawn_before != (self._drawn(), asked):
            self.changed.emit()

    def _drawn(self) -> tuple[float | None, ...]:
        return self._range.low, self._range.middle, self._range.value, self._range.high

    def _put(self, words: str) -> Texts:
        """Return what is written of the forecast."""
        leans = tr(LEANS[self._range.leans]) if self._range.leans else ""
        said = self._verdict.forms if self._verdict is not None else ()
        value, span = self._text(self._range.value), self._span()
        if self._role is Role.WHOLE:
            return Texts(value, span, (leans,) if leans else (), words, said)
        if not leans:
            return Texts(value, span, said)
        joined = tuple(tr("{one} · {other}", one=each, other=leans) for each in said)
        return Texts(value, span, (*joined, *said) if said else (leans,))

    def _span(self) -> tuple[str, ...]:
        """Return the likely range, with the value on another scale where there is one."""
        low, high = self._range.low, self._range.high
        span = ""
        if high > low:
            ends = [figure(self.key, each, self._display, unit=False) for each in (low, high)]
            span = tr("{low} to {high}", low=ends[0], high=ends[1])
        other = on_other_scale(self.key, self._range.value, self._display)
        if other and span:
            return tr("{one} · {other}", one=span, other=other), span
        return (span or other,)

    def _text(self, value: float) -> str:
        return figure(self.key, value, self._display)

    def sentence(self) -> str:
        """Return the forecast in words, for a screen reader."""
        text = f"{self._name} {self._texts.value}"
        if self._range.high > self._range.low:
            low, high = self._text(self._range.low), self._text(self._range.high)
            text = tr("{forecast}, likely {low} to {high}", forecast=text, low=low, high=high)
            leans = LEANS.get(self._range.leans)
            if leans is not None:
                text = tr("{forecast}, {leans}", forecast=text, leans=tr(leans))
        if self._texts.words:
            text = tr("{forecast}; {words}", forecast=text, words=self._texts.words)
        if self._asked is not None and self._verdict is not None:
            low, high = (self._text(each) for each in self._asked)
            text = tr(
                "{forecast}; the style asks for {low} to {high}: {verdict}",
                forecast=text,
                low=low,
                high=high,
                verdict=self._verdict.forms[0],
            )
        return text

    def stand(self, place: QRect, across: float) -> None:
        """Take a place in a forecast so many pixels `across`."""
        if across != self._across:
            self._across, self._laid = across, None
        self.setGeometry(place)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        self._laid = None  # in another font the lines are as high as its figures

    def _places(self) -> _Places:
        """Return where the lines of the row stand; found once for a size."""
        return self._layout()[0]

    def _layout(self) -> tuple[_Places, Type]:
        rect = self.rect()
        if self._laid is None or self._laid[:2] != (rect, self._across):
            faces = type_for(self.font(), self._across)
            self._laid = (rect, self._across, self._lay_out(faces), faces)
        return self._laid[2:]

    def _lay_out(self, faces: Type) -> _Places:
        ruled, whole = self._role is Role.RULED, self._role is Role.WHOLE
        left = 2.0 if ruled else LEFT
        width = (faces.lead if whole else self.width() - 4.0) - left
        height = faces.ruled_line if ruled else faces.figure_line
        caption = QRectF(left, PAD, width, faces.caption_line)
        value = QRectF(left, caption.bottom(), width, height)
        span = QRectF(left, value.bottom(), width, faces.caption_line)
        last = QRectF(left, span.bottom(), width, faces.caption_line)
        foot = QRectF()
        if ruled:
            last.moveBottom(self.height() - PAD)
        elif whole:
            beside = faces.lead + 8.0
            foot = QRectF(beside, 0.0, self.width() - beside - LEFT, faces.caption_line)
            foot.moveBottom(self.height() - PAD - 3.0)
        return _Places(caption, value, span, last, foot)

    def _repaint_since(self, before: Texts) -> None:
        """Paint the lines anew that read otherwise than before."""
        places, now = self._places(), self._texts
        if now.value != before.value:
            self.update(places.value.toAlignedRect())
        if now.span != before.span:
            self.update(places.span.toAlignedRect())
        if now.last != before.last:
            self.update(places.last.toAlignedRect())
        if (now.words, now.verdict) != (before.words, before.verdict):
            self.update(places.foot.toAlignedRect())

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            self._paint(painter, event.region())

    def _paint(self, painter: QPainter, part: QRegion) -> None:
        """Paint what of the row lies in a part of it: a key changes little of it at a time."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inks, (places, faces) = inks_for(self.palette()), self._layout()
        if self.hasFocus():
            painter.setPen(QPen(QColor(inks.green), 2))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        if part.intersects(places.caption.toAlignedRect()):
            self._draw_caption(painter, places.caption, faces, inks)
        if part.intersects(places.value.toAlignedRect()):
            face = faces.ruled if self._role is Role.RULED else faces.figure
            value = self._texts.value
            painter.setPen(QColor(inks.ink))
            _write(painter, places.value, face.narrowed(value, places.value.width()), (value,))
        if part.intersects(places.span.toAlignedRect()):
            painter.setPen(QColor(inks.ink_soft))
            span, width = self._texts.span, places.span.width()
            _write(painter, places.span, faces.caption.narrowed(span[-1], width), span)
        if self._texts.last and part.intersects(places.last.toAlignedRect()):
            self._draw_last(painter, places.last, faces, inks)
        if part.intersects(places.foot.toAlignedRect()):
            self._draw_foot(painter, places.foot, faces, inks)

    def _draw_caption(self, painter: QPainter, rect: QRectF, faces: Type, inks: Inks) -> None:
        """What is asked or named, and a sign that more stands behind it."""
        painter.setPen(QColor(inks.ink_soft))
        room = rect.adjusted(0.0, 0.0, -14.0, 0.0)
        wide = _write(painter, room, faces.caption, self._captions)
        if not self.isEnabled():  # on a picture nothing can be pressed
            return
        middle = QPointF(rect.left() + wide + 9.0, rect.center().y() + 0.5)
        is_near = self.isChecked() or self.underMouse() or self.hasFocus()
        painter.setPen(QPen(QColor(inks.green if is_near else inks.line_strong), 1.6))
        down = -2.0 if self.isChecked() else 2.0
        draw_curve(
            painter,
            (
                middle + QPointF(-3.5, -down),
                middle + QPointF(0.0, down),
                middle + QPointF(3.5, -down),
            ),
        )

    def _draw_last(self, painter: QPainter, rect: QRectF, faces: Type, inks: Inks) -> None:
        if self._role is Role.WHOLE or self._verdict is None:
            painter.setPen(QColor(inks.ink_soft))
            _write(painter, rect, faces.caption, self._texts.last)
            return
        painter.setPen(QColor(_ink_of(self._verdict, inks)))
        _write(painter, rect, faces.bold, self._texts.last)

    def _draw_foot(self, painter: QPainter, rect: QRectF, faces: Type, inks: Inks) -> None:
        """Below the ruler what the figure means, and at the right what the style says of it."""
        said, words = self._texts.verdict, self._texts.words
        needed = faces.bold.width(said[-1]) + BETWEEN if said else 0.0
        painter.setPen(QColor(inks.ink))
        room, wide = rect.adjusted(0.0, 0.0, -needed, 0.0), 0.0
        if words and faces.caption.width(words) <= room.width():
            wide = _write(painter, room, faces.caption, (words,)) + BETWEEN
        if self._verdict is not None:
            painter.setPen(QColor(_ink_of(self._verdict, inks)))
            _write(painter, rect.adjusted(wide, 0.0, 0.0, 0.0), faces.bold, said, right=True)


def _ink_of(verdict: Verdict, inks: Inks) -> str:
    return inks.green if verdict.stands is Stands.INSIDE else inks.brass


def _write(
    painter: QPainter, rect: QRectF, face: Face, forms: Sequence[str], *, right: bool = False
) -> float:
    """Write the longest form that has room, or the last cut short; return its width."""
    width = rect.width()
    text = next((each for each in forms if face.width(each) <= width), "")
    if not text and forms:
        text = face.metrics.elidedText(forms[-1], Qt.TextElideMode.ElideRight, width)
    side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
    painter.setFont(face.font)
    painter.drawText(rect, Qt.AlignmentFlag.AlignVCenter | side, text)
    return face.width(text)
