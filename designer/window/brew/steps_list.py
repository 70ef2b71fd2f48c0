"""The steps of the day: what was done last, the step now, and what comes, each with its clock."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from designer.translation import tr
from designer.window.brew.mark_ring import draw_mark
from designer.window.brew.row_list import ROW, Index, RowList, RowsModel
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.page_frame import heading
from designer.window.parts.sized_text import grown, sized
from designer.window.parts.targets import TARGET_PX
from designer.workbench.brew.brewing import Status

_ELIDED = Qt.TextElideMode.ElideRight


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step as the list tells it: `clock` is when it was done, or is expected.

    `said` tells it in words to a screen reader.
    """

    key: str
    mark: str
    title: str
    below: str
    clock: str
    status: Status
    said: str

    @property
    def is_past(self) -> bool:
        """Whether it is done, or was left out."""
        return self.status in (Status.DONE, Status.LEFT_OUT)


class StepsModel(RowsModel):
    """The steps that are listed."""

    rows: tuple[StepRow, ...] = ()

    def show_rows(self, rows: tuple[StepRow, ...]) -> None:
        """List other steps; where only what is said of them differs no row is made anew."""
        before = self.rows
        if [each.key for each in rows] != [each.key for each in before]:
            self.beginResetModel()
            self.rows = rows
            self.endResetModel()
            return
        self.rows = rows
        for number, (row, was) in enumerate(zip(rows, before, strict=True)):
            if row != was:
                index = self.index(number)
                self.dataChanged.emit(index, index)


class _Face:
    """A font of the list, and how wide and high what is set in it is."""

    def __init__(self, font: QFont) -> None:
        self.font, self.metrics = font, QFontMetricsF(font)
        self.height = self.metrics.height()
        self.of_clock = self.metrics.horizontalAdvance("00:00") + 4


class _Faces:
    """The fonts of the list in the type of a widget, and the size of its rings."""

    def __init__(self, widget: QWidget) -> None:
        self.of = QFont(widget.font())
        self.title, self.past = (
            _Face(sized(self.of, grown(widget, 13.5), bold=bold)) for bold in (True, False)
        )
        self.below = _Face(sized(self.of, grown(widget, 11.5)))
        self.now, self.clock = (
            _Face(sized(self.of, grown(widget, 14), bold=bold)) for bold in (True, False)
        )
        self.ring = grown(widget, 27)


class StepDelegate(QStyledItemDelegate):
    """Paints a step: its mark, two lines, its clock."""

    _faces: _Faces | None = None

    def _faces_of(self, widget: QWidget) -> _Faces:
        """Return the fonts of a widget, made once: every row is painted at each step."""
        if self._faces is None or self._faces.of != widget.font():
            self._faces = _Faces(widget)
        return self._faces

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        widget = option.widget
        return QSize(120, max(TARGET_PX, round(grown(widget, 40))))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        row: StepRow = index.data(ROW)
        widget = option.widget
        place = QRectF(option.rect)
        state = option.state
        inks = inks_for(widget.window().palette())  # its own ground is clear
        painter.save()
        is_now, is_past = row.status is Status.NOW, row.is_past
        if is_now:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(inks.chosen))
            painter.drawRoundedRect(place, 4, 4)
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QColor(inks.green))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(place.adjusted(1, 1, -1, -1), 4, 4)
        faces = self._faces_of(widget)
        ring = faces.ring
        spot = QRectF(place.left() + 9, place.center().y() - ring / 2, ring, ring)
        draw_mark(painter, spot, row.mark, faces.of, inks, done=row.status is Status.DONE)
        self._write(painter, place, faces, inks, row, spot.right() + 11, is_past=is_past)
        painter.restore()

    def _write(
        self,
        painter: QPainter,
        place: QRectF,
        faces: _Faces,
        inks: Inks,
        row: StepRow,
        left: float,
        *,
        is_past: bool,
    ) -> None:
        title, below = faces.past if is_past else faces.title, faces.below
        clock = faces.now if row.status is Status.NOW else faces.clock
        wide, right = clock.of_clock, place.right() - 10
        soft, ink = QColor(inks.ink_soft), QColor(inks.ink)
        painter.setPen(soft if is_past else ink)
        painter.setFont(clock.font)
        flags = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(QRectF(right - wide, place.top(), wide, place.height()), flags, row.clock)
        room = right - wide - 8 - left
        both = title.height + (below.height if row.below else 0.0)
        top = place.center().y() - both / 2
        painter.setFont(title.font)
        text = title.metrics.elidedText(row.title, _ELIDED, room)
        painter.drawText(QRectF(left, top, room, title.height), 0, text)
        if row.below:
            painter.setFont(below.font)
            painter.setPen(soft)
            text = below.metrics.elidedText(row.below, _ELIDED, room)
            painter.drawText(QRectF(left, top + title.height, room, below.height), 0, text)


class StepsList(QFrame):
    """The list with its heading; `chosen` carries the key of a step that was pressed."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._rows: tuple[StepRow, ...] = ()
        self.model = StepsModel()
        self.view = RowList(self.model, StepDelegate(), tr("Steps"))
        self.view.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.view.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.view.clicked.connect(self._choose)
        self.view.activated.connect(self._choose)
        self.all_button = QPushButton()
        self.all_button.setObjectName("quiet")
        self.all_button.setCheckable(True)
        self.all_button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.all_button.setMinimumHeight(TARGET_PX - 12)
        self.all_button.setToolTip(tr("List the whole day, or only from the last step done on"))
        self.all_button.toggled.connect(lambda _on: self._list())
        top = QHBoxLayout()
        top.setContentsMargins(12, 0, 8, 0)
        top.addWidget(heading(tr("Steps")))
        top.addStretch(1)
        top.addWidget(self.all_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(5, 3, 5, 5)
        layout.setSpacing(0)
        layout.addLayout(top)
        layout.addWidget(self.view, 1)

    def sizeHint(self) -> QSize:
        return QSize(round(grown(self, 308)), 3 * TARGET_PX)

    def minimumSizeHint(self) -> QSize:
        return QSize(round(grown(self, 200)), 3 * TARGET_PX)

    def show_rows(self, rows: tuple[StepRow, ...]) -> None:
        """Show the steps as they now stand."""
        if rows == self._rows:
            return
        now_before, now = _now_of(self._rows), _now_of(rows)
        self._rows = rows
        self.all_button.setText(tr("All {number}", number=len(rows)))
        self._list(follow=now != now_before)

    def _list(self, *, follow: bool = True) -> None:
        rows = self._rows if self.all_button.isChecked() else from_last_done(self._rows)
        self.model.show_rows(rows)
        if follow:
            number = next((n for n, each in enumerate(rows) if each.status is Status.NOW), 0)
            top = QAbstractItemView.ScrollHint.PositionAtTop
            self.view.scrollTo(self.model.index(max(number - 1, 0)), top)
            self.view.setCurrentIndex(self.model.index(number))

    def _choose(self, index: QModelIndex) -> None:
        row = index.data(ROW)
        if row is not None:
            self.chosen.emit(row.key)

    def place_of(self, key: str) -> QRect:
        """Return where a step stands in the view."""
        rows = self.model.rows
        number = next((n for n, each in enumerate(rows) if each.key == key), 0)
        return self.view.visualRect(self.model.index(number))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.view.doItemsLayout()


def _now_of(rows: tuple[StepRow, ...]) -> str:
    return next((each.key for each in rows if each.status is Status.NOW), "")


def from_last_done(rows: tuple[StepRow, ...]) -> tuple[StepRow, ...]:
    """Return the steps from the one before the step now on, and those put off before that."""
    now = next((n for n, each in enumerate(rows) if each.status is Status.NOW), None)
    if now is None:
        return rows
    past = [n for n in range(now) if rows[n].is_past]
    first = past[-1] if past else now
    return tuple(each for number, each in enumerate(rows) if number >= first or not each.is_past)
