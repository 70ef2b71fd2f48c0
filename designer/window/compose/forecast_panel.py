"""The forecast by the brewer's questions: how strong, how bitter, how dark.

Each question has its figure large, with its likely range and a ruler; the alcohol stands before the
ruler on which the beer falls from one gravity to the other. A forecast that answers none of them
stands below, on a ruler of its own. Every forecast is a button: pressed, it tells what makes its
number doubtful and by which method it is read.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QFrame, QLabel, QSizePolicy, QVBoxLayout, QWidget

from designer.brewday.in_words import said_of
from designer.brewday.predictions import MAIN, Prediction
from designer.brewday.results import Range
from designer.library.catalogue import StyleEntry
from designer.recipe.quantity import Kind
from designer.translation import named, tr
from designer.window.compose.forecast_row import LEFT, ForecastRow, Role
from designer.window.compose.forecast_rulers import ABOVE, BAR, BELOW, FALL, Shown, ruler_for
from designer.window.compose.forecast_type import PAD, Type, type_for
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for
from designer.window.parts.scrolling import bring_into_view
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from PySide6.QtGui import QContextMenuEvent, QKeyEvent

    from designer.window.compose.forecast_details import BehindPanel


class Question(QWidget):
    """One question of the forecast: the row that answers it, and a ruler with its marks.

    On the ruler stands that row, or those `ruled`: of gravities, the lowest first.
    """

    def __init__(
        self,
        lead: Prediction,
        ruled: Sequence[Prediction],
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        role = Role.LEAD if ruled else Role.WHOLE
        self.lead = ForecastRow(lead, role, display, self)
        self.ruled = [ForecastRow(each, Role.RULED, display, self) for each in ruled]
        self._facts = tuple(ruled) or (lead,)
        self._ruler = ruler_for(self._facts, display)
        self._ends = (0.0, 0.0)
        for row in self._on_ruler:
            row.changed.connect(self._repaint_ruler)
        size = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        size.setHeightForWidth(True)
        self.setSizePolicy(size)

    @property
    def rows(self) -> list[ForecastRow]:
        """All rows of the question."""
        return [self.lead, *self.ruled]

    @property
    def _on_ruler(self) -> list[ForecastRow]:
        return self.ruled or [self.lead]

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        faces = type_for(self.font(), width)
        lines = faces.figure_line + 3 * faces.caption_line
        if self.ruled:
            lines = self._ruler_middle(faces) - PAD + BELOW + 2
            lines += faces.mark_line + faces.caption_line + 2
        return int(lines + 2 * PAD)

    def sizeHint(self) -> QSize:
        return QSize(440, self.heightForWidth(440))

    def minimumSizeHint(self) -> QSize:
        return QSize(300, self.heightForWidth(300))

    def _ruler_middle(self, faces: Type) -> float:
        """How far below the top the line of the ruler is."""
        if self.ruled:
            return PAD + 2 * faces.caption_line + faces.ruled_line + FALL + ABOVE
        return PAD + 0.5 * BAR + 0.5 * faces.caption_line + 4

    def _ruler_place(self) -> QRectF:
        faces = type_for(self.font(), self.width())
        left = faces.lead + 8.0
        made = QRectF(left, 0.0, self.width() - left - LEFT, 2.0)
        made.moveTop(self._ruler_middle(faces) - 1.0)
        return made

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place_rows()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.updateGeometry()
            self._place_rows()

    def _place_rows(self) -> None:
        across, height = self.width(), self.height()
        if not self.ruled:
            self.lead.stand(self.rect(), across)
            return
        ruler = self._ruler_place()
        self.lead.stand(QRect(0, 0, int(ruler.left()) - 6, height), across)
        wide = ruler.width() / len(self.ruled)
        for number, row in enumerate(self.ruled):
            left = int(ruler.left() + number * wide) - 2
            row.stand(QRect(left, 0, int(wide) + (2 if number else 0), height), across)

    def _shown(self) -> list[Shown]:
        """Return what stands on the ruler."""
        return [
            (facts, row.found, row.asked)
            for facts, row in zip(self._facts, self._on_ruler, strict=True)
        ]

    def _repaint_ruler(self) -> None:
        """Paint the ruler anew, its marks only if the scale has become another."""
        place, faces = self._ruler_place(), type_for(self.font(), self.width())
        above, below = (FALL if self.ruled else 0.0) + ABOVE + 2, self._ruler.foot
        ends = self._ruler.ends(self._shown())
        if ends != self._ends:
            self._ends, below = ends, below + 5 + faces.mark_line
        self.update(place.adjusted(-6, -above, 6, below).toAlignedRect())

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            inks, part, region = inks_for(self.palette()), QRectF(event.rect()), event.region()
            for row in self.rows:
                if row.isChecked() or row.underMouse():
                    painter.fillRect(QRectF(row.geometry()), QColor(inks.green_soft))
            if self.y() > 1 and part.top() < 1.0:
                painter.setPen(QPen(QColor(inks.line), 1))
                painter.drawLine(0, 0, self.width(), 0)
            place = self._ruler_place()
            if place.width() > 60 and part.right() > place.left() - 6:
                faces = type_for(self.font(), self.width())
                marks = place.adjusted(-6.0, self._ruler.foot + 2, 6.0, self._ruler.foot + 16)
                with_marks = region.intersects(marks.toAlignedRect())
                self._ruler.paint(painter, place, self._shown(), faces, inks, marks=with_marks)


def questions() -> list[tuple[Prediction, tuple[Prediction, ...]]]:
    """Return the main forecasts that lead a question, each with the gravities on its ruler."""
    ruled: dict[str, list[Prediction]] = {}
    leads = [each for each in MAIN if each.kind is not Kind.GRAVITY]
    asked = {each.question for each in leads if each.question}
    for each in MAIN:
        if each.kind is Kind.GRAVITY and each.question in asked:
            ruled.setdefault(each.question, []).append(each)
        elif each not in leads:
            leads.append(each)
    return [(each, tuple(reversed(ruled.pop(each.question, [])))) for each in leads]


class ForecastPanel(QFrame):
    """The questions, and below that of the pressed row what stands behind its number.

    `copy_wanted` and `menu_wanted`, with the place and the row's key, want it out of the window.
    """

    copy_wanted = Signal()
    menu_wanted = Signal(QPoint, str)

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._opened, self._display = opened, display
        self._forecasts: dict[str, Range] = {}
        self._style: StyleEntry | None = None
        self.questions = [Question(lead, ruled, display, self) for lead, ruled in questions()]
        by_key = {row.key: row for each in self.questions for row in each.rows}
        self.rows = [by_key[facts.key] for facts in MAIN]
        self.behind: BehindPanel | None = None
        self._layout = layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(0)
        for each in self.questions:
            layout.addWidget(each)
            for row in each.rows:
                row.toggled.connect(lambda _, pressed=row: self._press(pressed))
                row.copy_wanted.connect(self.copy_wanted)
        self.beers: QLabel | None = None
        display.settings.changed.connect(self.refresh)

    def show_forecasts(self, forecasts: dict[str, Range], style: StyleEntry | None) -> None:
        """Show other forecasts, against what a style asks for if one is chosen.

        What stands behind a number stays until `show_behind`.
        """
        self._forecasts, self._style = forecasts, style
        name = named(style.name) if style is not None else ""
        said = said_of({key: found.value for key, found in forecasts.items()})
        for row in self.rows:
            asked = getattr(style, row.key, None)
            words = tr(said[row.key]) if row.key in said else ""
            row.show_range(forecasts[row.key], asked, name, words)

    def show_beers(self, told: str) -> None:
        """Tell below the questions of other beers than that of the whole; "" for none."""
        if self.beers is None and told:
            self.beers = QLabel()
            self.beers.setTextFormat(Qt.TextFormat.PlainText)
            self.beers.setObjectName("soft")
            self.beers.setWordWrap(True)
            self.beers.setContentsMargins(10, 2, 10, 6)
            self._layout.addWidget(self.beers)
        if self.beers is not None and self.beers.text() != told:
            self.beers.setText(told)
            self.beers.setVisible(bool(told))

    def refresh(self) -> None:
        """Show the forecast in the units now preferred."""
        if self._forecasts:
            self.show_forecasts(self._forecasts, self._style)
            for each in self.questions:
                each.update()
            self.show_behind()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts away what stands behind a number; the keyboard goes back to that."""
        pressed = next((row for row in self.rows if row.isChecked()), None)
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy_wanted.emit()
        elif event.key() == Qt.Key.Key_Escape and pressed is not None:
            pressed.setFocus(Qt.FocusReason.OtherFocusReason)
            pressed.setChecked(False)
            bring_into_view(pressed)
        else:
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        at, by_key = event.globalPos(), event.reason() is type(event).Reason.Keyboard
        meant = (
            row.key
            for row in self.rows
            if (row.hasFocus() if by_key else row.rect().contains(row.mapFromGlobal(at)))
        )
        self.menu_wanted.emit(at, next(meant, ""))

    def tell_behind(self, key: str) -> None:
        """Show what stands behind a number, as pressing it does."""
        self._row(key).setChecked(True)

    def explain(self, key: str) -> None:
        """Explain the terms of a forecast."""
        from designer.window.parts.explained import explain  # no start asks

        explain(self._row(key))

    def _row(self, key: str) -> ForecastRow:
        return next(row for row in self.rows if row.key == key)

    def _press(self, pressed: ForecastRow) -> None:
        if pressed.isChecked():
            for row in self.rows:
                if row is not pressed:
                    row.setChecked(False)
        self.show_behind()
        if pressed.isChecked() and self.behind is not None:
            self._layout.activate()
            bring_into_view(self.behind)

    def show_behind(self) -> None:
        """Show what stands behind the pressed row; the panel is made when first wanted."""
        pressed = next((row for row in self.rows if row.isChecked()), None)
        if pressed is not None and self._forecasts:
            if self.behind is None:
                # Opened by few, and it brings what seeks other figures.
                from designer.window.compose.forecast_details import BehindPanel

                self.behind = BehindPanel(self._opened, self._display, self)
            self._put_behind(pressed)
            self.behind.show_key(pressed.key, self._forecasts)
        if self.behind is not None:
            self.behind.setVisible(pressed is not None)

    def _put_behind(self, pressed: ForecastRow) -> None:
        """Let what stands behind a number follow its question."""
        assert self.behind is not None
        asked = next(each for each in self.questions if pressed in each.rows)
        if self._layout.indexOf(self.behind) != self._layout.indexOf(asked) + 1:
            self._layout.removeWidget(self.behind)
            self._layout.insertWidget(self._layout.indexOf(asked) + 1, self.behind)
            from designer.window.parts.reading_order import order_tabs  # as the panel itself

            order_tabs(self)
