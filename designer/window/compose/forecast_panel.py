"""The forecast: a row for each number, with its likely range on a strip and the style's bracket.

A row is a button: pressed, it tells what makes its number doubtful and by which method it is read.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontInfo, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.predictions import MAIN, Prediction
from designer.brewday.results import Range
from designer.library.catalogue import StyleEntry
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.window.parts.curve import draw_curve
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.inks import Inks, colour, inks_for
from designer.window.session.open_recipe import OpenRecipe
from designer.wort.swatch import swatch_hex

if TYPE_CHECKING:
    from designer.window.compose.forecast_details import BehindPanel


LEANS = {"higher": message("more likely higher"), "lower": message("more likely lower")}
BELOW = message("{forecast}; the style asks for {low} to {high}, below it")
INSIDE = message("{forecast}; the style asks for {low} to {high}, inside")
ABOVE = message("{forecast}; the style asks for {low} to {high}, above it")


class _Texts(NamedTuple):
    """What is written in a row: value, range ("" for none), and where the beer lies rather."""

    value: str
    span: str
    leans: str


class _Places(NamedTuple):
    """Where the parts of a row stand."""

    name: QRectF
    value: QRectF
    span: QRectF
    strip: QRectF
    glass: QRectF


class ForecastRow(QAbstractButton):
    """One forecast, painted: name, value, range, strip."""

    def __init__(
        self, facts: Prediction, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._facts, self._display = facts, display
        self._name = tr(facts.title)
        self._range = Range(0.0, 0.0, 0.0)
        self._bracket: tuple[float, float] | None = None
        self._glass = ""
        self._texts = _Texts("", "", "")
        self._laid: tuple[QRect, bool, _Places] | None = None
        self.setCheckable(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setToolTip(tr("Press for what makes this number doubtful, and how it is read"))

    @property
    def key(self) -> str:
        """The key of the forecast."""
        return self._facts.key

    @property
    def found(self) -> Range:
        """The forecast that is shown."""
        return self._range

    @property
    def is_colour(self) -> bool:
        """Whether it is drawn as a glass of beer too."""
        return self._facts.kind is Kind.BEER_COLOUR

    def show_range(self, found: Range, bracket: tuple[float, float] | None, glass: str) -> None:
        """Show another forecast; `glass` is the beer's colour, "#rrggbb" or nothing."""
        before = (self._range, self._bracket, self._glass, self._texts)
        self._range, self._bracket, self._glass = found, bracket, glass
        self._texts = _Texts(self._text(found.value), self._span_text(), found.leans)
        if before != (found, bracket, glass, self._texts):
            self.setAccessibleName(self.sentence())
            self._repaint_since(*before)

    def _repaint_since(
        self,
        found: Range,
        bracket: tuple[float, float] | None,
        glass: str,
        texts: _Texts,
    ) -> None:
        """Paint the parts anew that look otherwise than before."""
        places = self._places()
        if bool(glass) != bool(self._glass):
            self.update()
            return
        if texts.value != self._texts.value:
            self.update(places.value.toAlignedRect())
        if texts[1:] != self._texts[1:]:
            self.update(places.span.toAlignedRect())
        ends, stood = self._ends(), (found.low, found.middle, found.value, found.high)
        if ends != stood or bracket != self._bracket:
            self.update(places.strip.adjusted(-3, 0, 3, 0).toAlignedRect())
        if glass != self._glass:
            self.update(places.glass.adjusted(-1, -1, 1, 1).toAlignedRect())

    def _ends(self) -> tuple[float, float | None, float, float]:
        return self._range.low, self._range.middle, self._range.value, self._range.high

    def _places(self) -> _Places:
        """Return where the parts of the row stand; found once for a size."""
        rect, has_glass = self.rect(), bool(self._glass)
        if self._laid is None or self._laid[:2] != (rect, has_glass):
            self._laid = (rect, has_glass, self._lay_out())
        return self._laid[2]

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        self._laid = None  # in another font the parts are as wide as its figures

    def _lay_out(self) -> _Places:
        body = QRectF(self.rect())
        unit = QFontMetricsF(self.font()).horizontalAdvance("0")
        left = body.left() + 10
        name_width, value_width, range_width = 17.5 * unit, 9.5 * unit, 15.5 * unit
        if body.width() < 52 * unit:
            name_width, range_width = 16 * unit, 14 * unit
        value = QRectF(left + name_width, 0, value_width, body.height())
        strip_left, room = value.right() + range_width + 6, 30.0 if self._glass else 0.0
        return _Places(
            QRectF(left, 0, name_width, body.height()),
            value,
            QRectF(value.right(), 0, range_width, body.height()),
            QRectF(strip_left, 0, body.right() - strip_left - 12 - room, body.height()),
            QRectF(body.right() - 30, 4, 18, body.height() - 8),
        )

    def sentence(self) -> str:
        """Return the forecast in words, for a screen reader."""
        text = f"{self._name} {self._texts.value}"
        if self._range.high > self._range.low:
            low, high = self._text(self._range.low), self._text(self._range.high)
            text = tr("{forecast}, likely {low} to {high}", forecast=text, low=low, high=high)
            leans = LEANS.get(self._range.leans)
            if leans is not None:
                text = tr("{forecast}, {leans}", forecast=text, leans=tr(leans))
        if self._bracket is not None:
            low, high = (self._text(each) for each in self._bracket)
            text = tr(self._verdict(self._bracket), forecast=text, low=low, high=high)
        return text

    def _text(self, value: float) -> str:
        return figure(self.key, value, self._display)

    def _verdict(self, bracket: tuple[float, float]) -> str:
        value = float(f"{self._range.value:.4g}")
        if value < bracket[0]:
            return BELOW
        return ABOVE if value > bracket[1] else INSIDE

    def sizeHint(self) -> QSize:
        return QSize(440, self.fontMetrics().height() + 15)

    def minimumSizeHint(self) -> QSize:
        return QSize(300, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            self._paint(painter, QRectF(event.rect()))

    def _paint(self, painter: QPainter, part: QRectF) -> None:
        """Paint what of the row lies in a part of it: a key changes little of it at a time."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inks, places, body = inks_for(self.palette()), self._places(), QRectF(self.rect())
        if self.isChecked() or self.underMouse():
            painter.fillRect(body, QColor(inks.green_soft))
        if self.hasFocus():
            painter.setPen(QPen(QColor(inks.green), 2))
            painter.drawRect(body.adjusted(1, 1, -1, -1))
        if part.intersects(places.name):
            self._draw_text(painter, places.name, self._name, inks.ink)
        if part.intersects(places.value):
            self._draw_text(painter, places.value, self._texts.value, inks.ink, bold=True)
        if self._texts.span and part.intersects(places.span):
            self._draw_span(painter, places.span, inks)
        has_room = body.right() - places.strip.left() > 60
        if has_room and part.intersects(places.strip.adjusted(-3, 0, 3, 0)):
            self._draw_strip(painter, places.strip, inks)
        if self._glass:
            _draw_glass(painter, places.glass, self._glass, inks)

    def _span_text(self) -> str:
        ends = (self._range.low, self._range.high)
        if ends[1] <= ends[0]:
            return ""
        low, high = (figure(self.key, each, self._display, unit=False) for each in ends)
        return tr("{low} to {high}", low=low, high=high)

    def _draw_span(self, painter: QPainter, rect: QRectF, inks: Inks) -> None:
        """The likely range; below it, smaller, where the beer more likely lies than the value."""
        leans = LEANS.get(self._texts.leans)
        if leans is None:
            self._draw_text(painter, rect, self._texts.span, inks.ink_soft)
            return
        upper = QRectF(rect.left(), 1, rect.width(), 0.56 * rect.height())
        lower = QRectF(rect.left(), upper.bottom(), rect.width(), rect.height() - upper.bottom())
        self._draw_text(painter, upper, self._texts.span, inks.ink_soft)
        font = QFont(self.font())
        font.setPixelSize(max(round(0.82 * QFontInfo(font).pixelSize()), 1))
        painter.setFont(font)
        painter.drawText(lower, Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft, tr(leans))

    def _draw_text(
        self, painter: QPainter, rect: QRectF, text: str, ink: str, *, bold: bool = False
    ) -> None:
        font = self.font()
        if bold:
            font.setBold(True)  # it is a copy
        painter.setFont(font)
        painter.setPen(QColor(ink))
        painter.drawText(rect, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, text)

    def _draw_strip(self, painter: QPainter, rect: QRectF, inks: Inks) -> None:
        """A scale, the likely range as a bar on it, the value as a mark, the style as a bracket.

        A gap in the bar is the middle of the draws.
        """
        low, high = self._scale()
        middle = rect.center().y()

        def at(value: float) -> float:
            share = (value - low) / (high - low)
            return rect.left() + min(max(share, 0.0), 1.0) * rect.width()

        painter.setPen(QPen(QColor(inks.strip), 2))
        painter.drawLine(QPointF(rect.left(), middle), QPointF(rect.right(), middle))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(inks.span))
        first, last = at(self._range.low), at(self._range.high)
        painter.drawRoundedRect(QRectF(first, middle - 4, max(last - first, 2.0), 8), 3, 3)
        if self._range.middle is not None and last - first > 4:
            painter.setPen(QPen(QColor(inks.ground), 2))
            half_way = at(self._range.middle)
            painter.drawLine(QPointF(half_way, middle - 3), QPointF(half_way, middle + 3))
        if self._bracket is not None:
            painter.setPen(QPen(QColor(inks.ink_soft), 1.4))
            start, end = at(self._bracket[0]), at(self._bracket[1])
            foot = middle + 9
            draw_curve(
                painter,
                (
                    QPointF(start, foot - 5),
                    QPointF(start, foot),
                    QPointF(end, foot),
                    QPointF(end, foot - 5),
                ),
            )
        painter.setPen(QPen(QColor(inks.mark), 3))
        value = at(self._range.value)
        painter.drawLine(QPointF(value, middle - 7), QPointF(value, middle + 7))

    def _scale(self) -> tuple[float, float]:
        ends = [*self._facts.strip, self._range.low, self._range.high]
        ends += list(self._bracket or ())
        return min(ends), max(ends)


def _draw_glass(painter: QPainter, rect: QRectF, beer: str, inks: Inks) -> None:
    """A small tumbler of the beer, outlined so that it stands out from any ground."""
    wide, narrow = rect.width() / 2, rect.width() / 2 - 3
    middle = rect.center().x()
    glass = [
        QPointF(middle - wide, rect.top()),
        QPointF(middle + wide, rect.top()),
        QPointF(middle + narrow, rect.bottom()),
        QPointF(middle - narrow, rect.bottom()),
    ]
    painter.setPen(QPen(QColor(inks.line_strong), 1.2))
    painter.setBrush(QColor(beer))
    painter.drawPolygon(glass)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour("#fffaf0", 235))
    foam = QRectF(middle - wide + 1.2, rect.top() + 0.8, 2 * wide - 2.4, rect.height() * 0.16)
    painter.drawRect(foam)


class ForecastPanel(QFrame):
    """The rows, and below the pressed one what stands behind it."""

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._opened, self._display = opened, display
        self._forecasts: dict[str, Range] = {}
        self._style: StyleEntry | None = None
        self.rows = [ForecastRow(facts, display, self) for facts in MAIN]
        self.behind: BehindPanel | None = None
        self._layout = layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(0)
        for row in self.rows:
            layout.addWidget(row)
            row.toggled.connect(lambda _, pressed=row: self._press(pressed))
        self.beers: QLabel | None = None
        display.settings.changed.connect(self.refresh)

    def show_forecasts(self, forecasts: dict[str, Range], style: StyleEntry | None) -> None:
        """Show other forecasts, against the bracket of a style if one is chosen.

        What stands behind a number stays until `show_behind`.
        """
        self._forecasts, self._style = forecasts, style
        for row in self.rows:
            bracket = getattr(style, row.key, None)
            found = forecasts[row.key]
            glass = swatch_hex(found.value) if row.is_colour else ""
            row.show_range(found, bracket, glass)

    def show_beers(self, told: str) -> None:
        """Tell below the rows of other beers than that of the whole; "" for none."""
        if self.beers is None and told:
            self.beers = QLabel()
            self.beers.setTextFormat(Qt.TextFormat.PlainText)
            self.beers.setObjectName("soft")
            self.beers.setWordWrap(True)
            self.beers.setContentsMargins(10, 2, 10, 6)
            self._layout.insertWidget(len(self.rows), self.beers)
        if self.beers is not None and self.beers.text() != told:
            self.beers.setText(told)
            self.beers.setVisible(bool(told))

    def refresh(self) -> None:
        """Show the forecast in the units now preferred."""
        if self._forecasts:
            self.show_forecasts(self._forecasts, self._style)
            self.show_behind()

    def _press(self, pressed: ForecastRow) -> None:
        if pressed.isChecked():
            for row in self.rows:
                if row is not pressed:
                    row.setChecked(False)
        self.show_behind()

    def show_behind(self) -> None:
        """Show what stands behind the pressed row; the panel is made when first wanted."""
        pressed = next((row for row in self.rows if row.isChecked()), None)
        if pressed is not None and self._forecasts:
            if self.behind is None:
                # Opened by few, and it brings what seeks other figures.
                from designer.window.compose.forecast_details import BehindPanel

                self.behind = BehindPanel(self._opened, self._display, self)
                self._layout.addWidget(self.behind)
            self.behind.show_key(pressed.key, self._forecasts)
        if self.behind is not None:
            self.behind.setVisible(pressed is not None)
