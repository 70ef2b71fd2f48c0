"""The day: volume and temperature over the clock, with rim, foam line and every addition.

Painted by ourselves, so that it follows the palette and prints as lines. Additions can be dragged
along the boil to flame-out, and hops on into a stand and to dry hopping; from the keyboard the
arrows choose one and Alt with the arrows moves it. Of several boils each stands behind the one
before it; pots at once have lanes of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from designer.brewday.time_line import Addition
from designer.translation import tr
from designer.window.compose.day_hand import DayHand, Held
from designer.window.compose.day_markers import DayMarkers
from designer.window.compose.day_read_out import draw_read_out
from designer.window.compose.day_words import DayWords
from designer.window.parts.day_axis import draw_axis, draw_scales
from designer.window.parts.day_curves import (
    WortCurves,
    draw_band_texts,
    draw_bands,
    draw_run_names,
    draw_temperature,
    draw_volume,
)
from designer.window.parts.day_limits import draw_limits
from designer.window.parts.day_scale import DayScale, Lettering
from designer.window.parts.direction import keep_direction
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks, inks_for
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench import keys
from designer.workbench.day_moves import may_move
from designer.workbench.day_reading import Marker, markers
from designer.workbench.day_runs import Run

if TYPE_CHECKING:
    from PySide6.QtGui import QContextMenuEvent

    from designer.window.parts.deeds import Deeds

GRAB_PX = 9.0


@dataclass(frozen=True, slots=True)
class Chosen:
    """The lines that are chosen: they stay so when others go in at the same minute."""

    run: int
    lines: str
    line_ids: tuple[int, ...]


class DayLine(QWidget):
    """The time line of an open recipe."""

    edit_wanted = Signal(object)
    copy_wanted = Signal()
    menu_wanted = Signal(QPoint)

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._display = opened, display
        self._ready: tuple[tuple[float, int], ...] = ()
        self._markers: tuple[Marker, ...] = ()
        self._chosen: Chosen | None = None
        self._cursor: QPointF | None = None
        self._with_wort = False
        self._letters = Lettering(self.font())
        self.scale = DayScale()
        self.names = DayMarkers(self.scale, display)
        self._words = DayWords(opened, self.scale, display, self.names)
        self._wort = WortCurves(self.scale, display)
        self._hand = DayHand(opened, self.scale, display, self.edit_wanted.emit)
        self.read_out = ""
        self.setAccessibleName(tr("The day, as a time line"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setProperty("drawnAlong", True)  # a finger reads the curves as the pointer does
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)  # it stands on a panel of paper
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        display.settings.changed.connect(self._say_anew)
        keep_direction(self)

    @property
    def is_worked_on(self) -> bool:
        """Whether an addition is dragged along it or moved by keys: it has to keep up then."""
        return self._hand.is_dragging or self.hasFocus()

    def show_runs(self, runs: tuple[Run, ...], ready: tuple[tuple[float, int], ...] = ()) -> None:
        """Draw other boils; `ready` tells when yeast can be pitched, if not at their ends."""
        shown = self.scale.runs
        if len(runs) != len(shown) or any(
            run.day is not before.day or run.alone is not before.alone
            for run, before in zip(runs, shown, strict=True)
        ):
            self._ready = ready
            self.scale.show_runs(runs)
            self.refresh()

    def _say_anew(self) -> None:
        """Draw the same in other units."""
        self.names.say_anew()
        self.refresh()

    def refresh(self) -> None:
        """Draw the day as it now is."""
        self._markers = tuple(
            marker
            for number, run in enumerate(self.scale.runs)
            for marker in markers(run.day, run.at_min, number)
        )
        self.setAccessibleDescription(self.in_words())
        self.update()

    def show_wort(self, wanted: bool) -> None:
        """Draw gravity and bitterness of the wort in the pot too, or no longer."""
        self._with_wort = wanted
        self.update()

    def show_as(self, other: DayLine) -> None:
        """Draw what another line draws."""
        self.show_wort(other._with_wort)
        self.show_runs(other.scale.runs, other._ready)

    def in_words(self) -> str:
        """Return the day in words, for a screen reader."""
        return self._words.whole(self._markers)

    def summary(self) -> str:
        """Return when the day starts and the yeast goes in, and the ice that a bath takes."""
        return self._words.summary(self._ready)

    def told(self, marker: Marker) -> str:
        """Return what a marker stands for."""
        return self._words.told(marker)

    def sizeHint(self) -> QSize:
        return QSize(900, 190)

    def minimumSizeHint(self) -> QSize:
        return QSize(400, 140)

    def _measure(self) -> None:
        self._letters = Lettering(self.font())
        self.scale.measure(QRectF(self.rect()), self._letters)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._measure()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        self._measure()

    # painting

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setLayoutDirection(self.layoutDirection())
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inks, letters, scale = inks_for(self.palette()), self._letters, self.scale
        # Further than its edge: at 125 % that lies within a pixel, which would stay unpainted.
        painter.fillRect(self.rect().adjusted(-1, -1, 1, 1), QColor(inks.paper))
        painter.setFont(self.font())
        if scale.held:  # a day that grows longer is not drawn over the names beside it
            painter.setClipRect(QRectF(0, 0, scale.plot.right() + 1, self.height()))
        self._draw_curves(painter, inks)
        painter.setClipping(False)
        draw_scales(painter, inks, scale, letters, self._display)
        draw_limits(painter, inks, scale, letters, self._display, self.width())
        draw_run_names(painter, inks, scale, letters)
        if self._with_wort:
            self._wort.draw(painter, inks, letters, self.width())
        self.names.draw(painter, inks, letters, self._markers, self._chosen_marker())
        self._draw_read_out(painter, inks)
        if self.hasFocus():
            painter.setPen(QPen(QColor(inks.green), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)

    def _draw_curves(self, painter: QPainter, inks: Inks) -> None:
        scale, letters = self.scale, self._letters
        draw_bands(painter, inks, scale)
        draw_band_texts(painter, inks, scale, letters, self.width())
        draw_axis(painter, inks, scale, letters, lambda _: self._words.start)
        for run in scale.runs:
            draw_volume(painter, inks, scale, run)
        for run in scale.runs:
            draw_temperature(painter, inks, scale, run)

    def _draw_read_out(self, painter: QPainter, inks: Inks) -> None:
        x, self.read_out = self._read_at()
        if self.read_out:
            draw_read_out(painter, inks, self.scale, self._letters, x, self.read_out)

    def _read_at(self) -> tuple[float, str]:
        """Return where the read-out stands and what it says: never more than one thing at once."""
        marker = self._chosen_marker()
        if self._hand.is_dragging and marker is not None:
            return self.names.x(marker), self._words.moved(marker, self._chosen_of(marker))
        if self._cursor is not None:
            near = self._near(self._cursor)
            if near is not None:
                return self.names.x(near), self.told(near)
            return self._cursor.x(), self._curves_at(self._cursor)
        if self.hasFocus() and marker is not None:
            return self.names.x(marker), self._words.moved(marker, self._chosen_of(marker))
        return 0.0, ""

    def _curves_at(self, place: QPointF) -> str:
        plot, time = self.scale.plot, self.scale.time(place.x())
        run = self.scale.run_at(time, place.y())
        if run is None or not plot.left() <= place.x() <= plot.right():
            return ""
        return self._words.read_at(run, time)

    # choosing

    def _choose(self, marker: Marker | None) -> None:
        self._chosen = None
        if marker is not None:
            ids = tuple(each.line_id for each in marker.additions)
            self._chosen = Chosen(marker.run, marker.lines, ids)

    def _chosen_marker(self) -> Marker | None:
        """Return the marker that the chosen lines are of."""
        chosen = self._chosen
        if chosen is None:
            return None
        return next(
            (
                each
                for each in self._markers
                if (each.run, each.lines) == (chosen.run, chosen.lines) and self._chosen_of(each)
            ),
            None,
        )

    def _chosen_of(self, marker: Marker) -> tuple[Addition, ...]:
        """Return those additions of a marker that are chosen."""
        ids = self._chosen.line_ids if self._chosen is not None else ()
        return tuple(each for each in marker.additions if each.line_id in ids)

    def _near(self, place: QPointF) -> Marker | None:
        near = [
            each
            for each in self._markers
            if abs(self.names.x(each) - place.x()) <= GRAB_PX
            and self._is_at_foot(self.scale.lane(self.scale.runs[each.run]).bottom(), place.y())
        ]
        return min(near, key=lambda m: abs(self.names.x(m) - place.x()), default=None)

    def _is_at_foot(self, foot: float, y: float) -> bool:
        """Whether a height is that of the markers of a lane; below the lowest are their names."""
        return y >= foot - 2 * GRAB_PX and (y <= foot + 4 or foot >= self.scale.plot.bottom() - 1)

    # moving

    def mousePressEvent(self, event: QMouseEvent) -> None:
        marker = self._near(event.position())
        self._choose(marker)
        if marker is not None and is_movable(marker):
            self._hand.take_up(self.scale.runs[marker.run])
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._cursor = event.position()
        held = self._held()
        if self._hand.is_dragging and held is not None:
            self._hand.drag(held, event.position().x())
        else:
            near = self._near(event.position())
            hand = near is not None and is_movable(near)
            self.setCursor(Qt.CursorShape.SizeHorCursor if hand else Qt.CursorShape.ArrowCursor)
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._hand.let_go()
        self.update()

    def deeds(self) -> Deeds:
        """Return what can be done to the day while it has the keyboard."""
        return {keys.COPY: self.copy_wanted.emit}

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        self.menu_wanted.emit(event.globalPos())

    def leaveEvent(self, event: QEvent) -> None:
        self._cursor = None
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        sideways = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy_wanted.emit()
        elif sideways is None or not self._markers:
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.AltModifier:
            held = self._held()
            if held is not None:
                self._hand.nudge(held, sideways > 0, f"nudge {self._chosen}")
        else:
            self._choose_next(sideways)

    def _choose_next(self, by: int) -> None:
        marker = self._chosen_marker()
        now = self._markers.index(marker) if marker is not None else (-1 if by > 0 else 0)
        found = self._markers[(now + by) % len(self._markers)]
        self._choose(found)
        self.setAccessibleDescription(self.told(found))
        self.update()

    def _held(self) -> Held | None:
        """Return what is chosen and can be moved."""
        marker = self._chosen_marker()
        if marker is None or not is_movable(marker):
            return None
        return Held(self.scale.runs[marker.run], self._chosen_of(marker))


def is_movable(marker: Marker) -> bool:
    """Whether all that goes in at an instant can be moved to another."""
    return all(may_move(each) for each in marker.additions)
