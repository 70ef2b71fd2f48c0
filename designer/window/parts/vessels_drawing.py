"""Pots and fermenters to one scale, with their fullest moments, foam line and top-up mark."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.brewday.foam import foam_line_l
from designer.brewday.results import Day, PlanDays
from designer.brewday.time_line import at_stage
from designer.recipe.document import Recipe
from designer.recipe.fields import number, number_or_none
from designer.recipe.quantity import Kind
from designer.translation import named, parted, tr
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.in_strips import in_strips
from designer.window.parts.inks import Inks, colour, inks_for
from designer.window.parts.plain_text import unbroken
from designer.wort.swatch import swatch_hex

PROPORTION = 0.95
"""Height of a vessel over its width where no diameter is known; kitchen pots are near it."""

TALLEST, USUAL, LEAST, HIGHER = 190, 112, 106, 4
"""Heights of a row of vessels, and by how much it grows for names that need more room."""
ABOVE, BELOW = 4.0, 8.0
"""How far the names of levels stay from the ends of a row, the line below the vessel left out."""
PALE = 120
"""How opaque what is in them is painted, of 255: figures and findings are what should be seen."""
ACROSS = 2
"""So many vessels beside each other, unless there is room for more; others stand below them."""
LEAST_SHARE = 0.25
"""How much of its place a vessel has beside long words at least."""
SEEN_THROUGH_CM = 5.0
"""A sample of it in a small glass: a potful would look black."""
MOST_ROWS = 500
_WRAPPED = int(Qt.AlignmentFlag.AlignLeft) | int(Qt.TextFlag.TextWordWrap)


@dataclass(frozen=True, slots=True)
class Level:
    """A mark on a vessel: where, what it is called, and whether it is over what should be."""

    volume_l: float
    text: str
    brief: str
    ink: str


@dataclass(frozen=True, slots=True)
class Vessel:
    """One vessel to be drawn: size (None: not known), what is in it, its marks."""

    name: str
    size_l: float | None
    filled_l: float
    fill: str
    levels: tuple[Level, ...]

    @property
    def shown_l(self) -> float:
        """The volume of the vessel as it is drawn."""
        return self.size_l if self.size_l else self.tall_l

    @property
    def tall_l(self) -> float:
        """The volume that the drawing must show."""
        return max(self.size_l or 0.0, 1.02 * self.filled_l, 0.1)


def vessels(recipe: Recipe, day: Day, display: DisplayFormat, inks: Inks) -> tuple[Vessel, Vessel]:
    """Return pot and fermenter as they are to be drawn."""
    return _pot(recipe, day, display, inks), _fermenter(recipe, day, display, inks)


def vessels_of_plan(plan: PlanDays, display: DisplayFormat, inks: Inks) -> tuple[Vessel, ...]:
    """Return the pots of all boils and all fermenters; a pot that is filled so again is one."""
    boils = plan.boils[:1] if plan.boils_alike and not _at_once(plan) else plan.boils
    pots = [_pot(each.recipe, each.day, display, inks) for each in boils]
    if len(pots) > 1:
        pots = [
            replace(pot, name=tr("Boil {number}: {pot}", number=boil.number, pot=pot.name))
            for pot, boil in zip(pots, boils, strict=True)
        ]
    filled = [
        _fermenter(replace(plan.boils[0].recipe, fermenter=each.vessel), each.day, display, inks)
        for each in plan.fermenters
    ]
    if len(filled) > 1:
        filled = [
            replace(vessel, name=tr("{number}: {vessel}", number=number, vessel=vessel.name))
            for number, vessel in enumerate(filled, 1)
        ]
    return (*pots, *filled)


def _at_once(plan: PlanDays) -> bool:
    """Whether two boils begin at the same time, so that there are two pots."""
    begins = [(each.on_day, each.starts_min) for each in plan.boils]
    return len(set(begins)) < len(begins)


def _beer(day: Day) -> str:
    return swatch_hex(float(day.beer.colour_srm), SEEN_THROUGH_CM)


def _pot(recipe: Recipe, day: Day, display: DisplayFormat, inks: Inks) -> Vessel:
    rim = number_or_none(recipe.pot, "volume")
    fullest = float(day.pot.fullest_l)
    over = rim is not None and fullest > rim
    boil_end = day.boil_end_hot_l
    when = at_stage(day.pot.fullest_at)
    most, end = display.short(Kind.VOLUME, fullest), display.short(Kind.VOLUME, boil_end)
    ink = inks.stop if over else inks.ink
    levels = [
        Level(
            fullest,
            tr("fullest {volume}, {when}", volume=most, when=when),
            tr("{volume} fullest", volume=most),
            ink,
        ),
        Level(
            boil_end,
            tr("boil ends {volume}", volume=end),
            tr("{volume} at the end", volume=end),
            inks.ink_soft,
        ),
    ]
    foam = foam_line_l(recipe.pot)
    if foam is not None:
        text = display.short(Kind.VOLUME, foam)
        levels.append(
            Level(
                foam,
                tr("foam line {volume}, keep below", volume=text),
                tr("foam line {volume}", volume=text),
                inks.foam,
            )
        )
    return Vessel(named(recipe.pot.name), rim, fullest, _beer(day), tuple(levels))


def _fermenter(recipe: Recipe, day: Day, display: DisplayFormat, inks: Inks) -> Vessel:
    brim = number_or_none(recipe.fermenter, "volume")
    batch, from_pot = float(day.fermenter.batch_l), float(day.fermenter.from_pot_l)
    over = brim is not None and batch > brim
    whole, part = display.short(Kind.VOLUME, batch), display.short(Kind.VOLUME, from_pot)
    ink = inks.stop if over else inks.ink
    whole = tr("{volume} in all", volume=whole)
    levels = [
        Level(batch, whole, whole, ink),
        Level(
            from_pot,
            tr("{volume} from the pot", volume=part),
            tr("{volume} wort", volume=part),
            inks.ink_soft,
        ),
    ]
    if brim is not None:
        room = brim * (1.0 - number(recipe.fermenter, "headspace"))
        text = display.short(Kind.VOLUME, room)
        levels.append(
            Level(
                room,
                tr("krausen line {volume}, keep below", volume=text),
                tr("krausen line {volume}", volume=text),
                inks.foam,
            )
        )
    return Vessel(named(recipe.fermenter.name), brim, batch, _beer(day), tuple(levels))


class VesselsDrawing(QWidget):
    """The drawing; its numbers are its accessible description."""

    def __init__(
        self,
        display: DisplayFormat,
        parent: QWidget | None = None,
        *,
        brief: bool = False,
        across: int = ACROSS,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._display, self._brief, self._most = display, brief, across
        self._seen: tuple[object, object] = (None, None)
        self._made: Callable[[Inks], tuple[Vessel, ...]] | None = None
        self._inks = inks_for(self.palette())
        self._pair: tuple[Vessel, ...] = ()
        self._rows: dict[tuple[str, float], tuple[str, float]] = {}
        self._least, self._longest = LEAST, 0.0
        self.setAccessibleName(tr("Pot and fermenter, to scale"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMaximumHeight(TALLEST)
        display.settings.changed.connect(self._describe)
        keep_direction(self)

    def show_day(self, recipe: Recipe, day: Day) -> None:
        """Draw another day."""
        if self._seen[0] is not recipe or self._seen[1] is not day:
            self._seen = recipe, day
            self.show_vessels(lambda inks: vessels(recipe, day, self._display, inks))

    def show_plan(self, plan: PlanDays) -> None:
        """Draw the vessels of another plan."""
        if self._seen[0] is not plan:
            self._seen = plan, None
            self.show_vessels(lambda inks: vessels_of_plan(plan, self._display, inks))

    def show_vessels(self, made: Callable[[Inks], tuple[Vessel, ...]]) -> None:
        """Draw the vessels that `made` gives, in the inks of the moment, if they are others."""
        self._made, self._inks = made, inks_for(self.palette())
        pair = made(self._inks)
        # What follows the values of a plan makes a plan of its own, with the same in its vessels.
        if pair != self._pair:
            self._put(pair)

    def _describe(self) -> None:
        """Draw and tell the same in other units or inks."""
        if self._made is not None:
            self._inks = inks_for(self.palette())
            self._put(self._made(self._inks))

    def _put(self, pair: tuple[Vessel, ...]) -> None:
        told = []
        rows, self._pair = self._count_rows(), pair
        if rows != self._count_rows():
            self.setMaximumHeight(TALLEST * self._count_rows())
            self.updateGeometry()
        self._make_room()
        for vessel in self._pair:
            size = self._size_text(vessel)
            marks = parted(each.text for each in vessel.levels)
            told.append(tr("{vessel}, {size}: {marks}", vessel=vessel.name, size=size, marks=marks))
        self.setAccessibleDescription(". ".join(told))
        self.update()

    def _size_text(self, vessel: Vessel) -> str:
        if vessel.size_l is None:
            return tr("size not given")
        return self._display.value(Kind.VOLUME, vessel.size_l)

    def sizeHint(self) -> QSize:
        return QSize(440, USUAL * self._count_rows())

    def minimumSizeHint(self) -> QSize:
        return QSize(300, self._least * self._count_rows())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """Ask for rows so high that no name of a level stands over another, or beyond the edge."""
        metrics = QFontMetricsF(self.font())
        parts = [_parts(unbroken(level.brief)) for each in self._pair for level in each.levels]
        self._longest = max(
            (metrics.horizontalAdvance(part) for each in parts for part in each), default=0.0
        )
        least, before = self._lowest(), self._least
        self._least = least
        if least != before:
            self.updateGeometry()

    def _lowest(self) -> int:
        if not self._pair:
            return LEAST
        metrics, half = QFontMetricsF(self.font()), self._half(self._area())
        for high in range(LEAST, TALLEST, HIGHER):
            scale = self._scale(high, half)
            if all(self._is_room(each, metrics, half, high, scale) for each in self._pair):
                return high
        return TALLEST

    def _is_room(
        self, vessel: Vessel, metrics: QFontMetricsF, half: float, high: float, scale: float
    ) -> bool:
        """Whether the short names of a vessel's levels have room in a row so high."""
        width = _name_width(half, _width(vessel.shown_l) * scale)
        said = [self._said(each.brief, metrics, width) for each in vessel.levels]
        return sum(size for _, size in said) <= high - metrics.height() - ABOVE - BELOW

    def _area(self) -> QRectF:
        return QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)

    def _half(self, area: QRectF) -> float:
        """How wide the place of one vessel is."""
        return area.width() / max(-(-len(self._pair) // self._count_rows()), ACROSS)

    def _scale(self, high: float, half: float) -> float:
        """How large the vessels are drawn in places so high and wide."""
        line = QFontMetricsF(self.font()).height()
        tallest = max(_height(each.shown_l) * each.tall_l / each.shown_l for each in self._pair)
        share = 0.42 if self._brief else 0.46
        widest = max(_width(each.shown_l) for each in self._pair)
        beside = half - _name_width(half, 0.0) + self._longest
        wide = min(share * half, max(half - beside, LEAST_SHARE * half))
        return min((high - line - 26) / tallest, wide / widest)

    def _count_rows(self) -> int:
        """How many rows the vessels stand in."""
        return max(-(-len(self._pair) // self._most), 1)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._pair:
            with QPainter(self) as painter:
                painter.setLayoutDirection(self.layoutDirection())
                self._paint(painter)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        self._rows = {}
        if event.type() == QEvent.Type.PaletteChange:
            self._describe()
        elif event.type() == QEvent.Type.FontChange:
            self._make_room()

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inks, pair = self._inks, self._pair
        area = self._area()
        painter.setPen(QColor(inks.paper if self._brief else inks.line))
        painter.setBrush(QColor(inks.paper))
        painter.drawRoundedRect(area, 4, 4)
        painter.setFont(self.font())
        rows, half = self._count_rows(), self._half(area)
        high = area.height() / rows
        across, scale = round(area.width() / half), self._scale(high, half)
        for number_, vessel in enumerate(pair):
            top = area.top() + number_ // across * high
            band = QRectF(area.left() + number_ % across * half, top, half, high)
            self._draw(painter, vessel, band, scale, inks)

    def _draw(
        self,
        painter: QPainter,
        vessel: Vessel,
        band: QRectF,
        scale: float,
        inks: Inks,
    ) -> None:
        line, room = QFontMetricsF(self.font()).height(), band.width() - 18
        foot = QPointF(band.left() + 14, band.bottom() - line - 12)
        size = vessel.shown_l
        width, height = _width(size) * scale, _height(size) * scale
        body = QRectF(foot.x(), foot.y() - height, width, height)

        def at(volume_l: float) -> float:
            return foot.y() - height * volume_l / size

        filled = QRectF(body.left(), at(min(vessel.filled_l, vessel.tall_l)), width, 0)
        filled.setBottom(body.bottom())
        path = QPainterPath()
        path.addRoundedRect(body, 5, 5)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(inks.paper))
        painter.drawPath(path)
        wort = QPainterPath()
        wort.addRect(filled)
        painter.setBrush(colour(vessel.fill, PALE))
        painter.drawPath(path.intersected(wort))
        if vessel.filled_l > size:
            painter.setBrush(colour(inks.stop, 150))
            over = QRectF(body.left(), filled.top(), width, body.top() - filled.top())
            in_strips(painter, over, lambda: painter.drawRect(over))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        style = Qt.PenStyle.SolidLine if vessel.size_l is not None else Qt.PenStyle.DashLine
        painter.setPen(QPen(QColor(inks.ink_soft), 2, style))
        painter.drawPath(path)
        painter.setPen(QColor(inks.ink_soft))
        metrics = QFontMetricsF(painter.font())
        behind = f", {self._size_text(vessel)}"  # told whole, however little room the name has
        left = room - metrics.horizontalAdvance(behind)
        painter.drawText(
            QRectF(foot.x(), foot.y() + 3, room, metrics.height() + 2),
            Qt.AlignmentFlag.AlignLeft,
            metrics.elidedText(vessel.name, Qt.TextElideMode.ElideRight, left) + behind,
        )
        self._draw_levels(painter, vessel, body, at, band)

    def _all_said(
        self, levels: Sequence[Level], metrics: QFontMetricsF, width: float, height: float
    ) -> list[tuple[str, float]]:
        """Return the names of levels, short ones where there is little room, with their heights."""
        if not self._brief and len(self._pair) <= ACROSS:
            said = [self._said(each.text, metrics, width) for each in levels]
            if sum(size for _, size in said) <= height:
                return said
        return [self._said(each.brief, metrics, width) for each in levels]

    def _said(self, text: str, metrics: QFontMetricsF, width: float) -> tuple[str, float]:
        """Return the name of a level as it is written, and how high it is in a width.

        A figure stays by its unit. What was measured is kept: most names come again at each key.
        """
        found = self._rows.get((text, width))
        if found is None:
            if len(self._rows) >= MOST_ROWS:
                self._rows.clear()
            joined = unbroken(text)
            longest = max(metrics.horizontalAdvance(part) for part in _parts(joined))
            said = joined if longest <= width else text
            room = metrics.boundingRect(QRectF(0, 0, width, 1e4), _WRAPPED, said)
            found = self._rows[text, width] = said, room.height()
        return found

    def _draw_levels(
        self,
        painter: QPainter,
        vessel: Vessel,
        body: QRectF,
        at: Callable[[float], float],
        band: QRectF,
    ) -> None:
        """Marks with their names beside the vessel, moved apart where they would overlap."""
        metrics = QFontMetricsF(painter.font())
        text_left = body.right() + 14
        width = _name_width(band.width(), body.width())
        levels = sorted(vessel.levels, key=lambda each: -each.volume_l)
        first, last = band.top() + ABOVE, band.bottom() - metrics.height() - BELOW
        said = self._all_said(levels, metrics, width, last - first)
        half = metrics.height() / 2
        tops = _spread(
            [at(each.volume_l) - half for each in levels],
            [size for _, size in said],
            first,
            last,
        )
        for level, (text, size), top in zip(levels, said, tops, strict=True):
            y = at(level.volume_l)
            painter.setPen(QPen(QColor(level.ink), 1.3, Qt.PenStyle.DashLine))
            painter.drawLine(QPointF(body.left() - 3, y), QPointF(body.right() + 4, y))
            painter.setPen(QPen(QColor(level.ink), 1))
            painter.drawLine(QPointF(body.right() + 4, y), QPointF(text_left - 2, top + half))
            painter.drawText(QRectF(text_left, top, width, size), _WRAPPED, text)


def _spread(wanted: list[float], sizes: list[float], first: float, last: float) -> list[float]:
    """Return tops near those wanted, from the top down, none on another, all between two ends."""
    tops: list[float] = []
    free = first
    for top, size in zip(wanted, sizes, strict=True):
        tops.append(max(top, free))
        free = tops[-1] + size
    below = last
    for row in reversed(range(len(tops))):
        tops[row] = min(tops[row], below - sizes[row])
        below = tops[row]
    return tops


def _parts(text: str) -> list[str]:
    """Return what stays on one line each: words, and parts of words that may be hyphenated."""
    return text.replace("\u00ad", "- ").split(" ")


def _name_width(half: float, vessel: float) -> float:
    """Return how wide the names beside a vessel may be, in its place."""
    return max(half - 18 - vessel - 14, 20.0)


def _width(litres: float) -> float:
    """Width in decimetres of a vessel as wide as PROPORTION makes it."""
    return float((litres * 4.0 / (3.14159 * PROPORTION)) ** (1.0 / 3.0))


def _height(litres: float) -> float:
    return PROPORTION * _width(litres)
