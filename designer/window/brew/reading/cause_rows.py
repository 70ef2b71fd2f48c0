"""What may lie behind a reading: a row for each cause, with what the beer would be then.

Where a row has no room for its columns they stand below its name; nothing is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import (
    QEvent,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QSizePolicy,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.explaining.explained import CauseCode, Explained, LikelyCause
from designer.recipe.message import Message
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.row_list import ROW, Index, RowList, RowsModel
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.inks import Inks, inks_for
from designer.window.parts.sized_text import grown, height_of, sized
from designer.window.parts.targets import TARGET_PX

WRAPS = int(Qt.TextFlag.TextWordWrap)
DONT_CLIP = int(Qt.TextFlag.TextDontClip)
WIDE_PX = 720.0
"""From this width on the figures have columns of their own."""
PAD = 8.0
BAR_PX = 110.0
"""How long a bar is where it stands below its figure."""
SHARES = (0.315, 0.215, 0.075, 0.08, 0.075, 0.24)
"""What name, likelihood, gravity, alcohol, bitterness and the test have of the width."""
TITLE_PX, TEXT_PX, SMALL_PX = 14.0, 13.0, 11.5


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause as it is shown: `marked` are the figures that differ from what was planned."""

    title: str
    words: str
    share: float
    percent: str
    figures: tuple[str, str, str]
    marked: tuple[bool, bool, bool]
    how: str
    is_first: bool
    is_grey: bool
    said: str


def rows_of(explained: Explained, display: DisplayFormat) -> tuple[CauseRow, ...]:
    """Return the rows of an answer, the likeliest first."""
    grey = explained.verdict in ("cannot_tell", "beyond")
    return tuple(
        _row(each, explained, display, is_first=number == 0 and not grey, is_grey=grey)
        for number, each in enumerate(explained.causes)
    )


def _row(
    cause: LikelyCause,
    explained: Explained,
    display: DisplayFormat,
    *,
    is_first: bool,
    is_grey: bool,
) -> CauseRow:
    def words(message: Message) -> str:
        return message.said(display.short, display.quantity)

    gravity = display.short(Kind.GRAVITY, cause.original_gravity)
    alcohol = figure("abv_percent", cause.abv_percent, display)
    bitter = bitterness_text(cause.bitterness_ibu, display)
    off = abs(cause.original_gravity - explained.expected.value) > 0.002
    percent = percent_text(cause.probability)
    title, about, how = words(cause.title), words(cause.words), words(cause.how_to_tell)
    said = tr(
        "{cause}, {percent}. {words} {then}. To tell: {how}",
        cause=title,
        percent=percent,
        words=about,
        then=then_text((gravity, alcohol, bitter)),
        how=how,
    )
    return CauseRow(
        title,
        about,
        cause.probability,
        percent,
        (gravity, alcohol, bitter),
        (off, off, False),
        how,
        is_first,
        is_grey or cause.code is CauseCode.OTHER,
        said,
    )


def bitterness_text(ibu: float | None, display: DisplayFormat) -> str:
    """Return a bitterness without its unit; nothing where nobody told any."""
    return "" if ibu is None else figure("bitterness_ibu", ibu, display, unit=False)


def then_text(figures: tuple[str, str, str]) -> str:
    """Return what the beer then is, of gravity, alcohol and bitterness as they are shown."""
    gravity, alcohol, bitter = figures
    if not bitter:
        return tr("Then OG {gravity}, alcohol {alcohol}", gravity=gravity, alcohol=alcohol)
    return tr(
        "Then OG {gravity}, alcohol {alcohol}, {bitter} IBU",
        gravity=gravity,
        alcohol=alcohol,
        bitter=bitter,
    )


def percent_text(share: float) -> str:
    """Return a probability as one reads it: never quite nothing, never quite sure."""
    percent = round(100.0 * share)
    if percent < 1:
        return tr("under 1 %")
    return tr("over 99 %") if percent > 99 else tr("{number} %", number=percent)


class CausesModel(RowsModel):
    """The causes of the answer that is shown."""

    rows: tuple[CauseRow, ...] = ()

    def show_rows(self, rows: tuple[CauseRow, ...]) -> None:
        """Show other causes; where there are as many their places stay."""
        if rows == self.rows:
            return
        if len(rows) == len(self.rows):
            self.rows = rows
            self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()


@dataclass(frozen=True, slots=True)
class _Types:
    """The types that a row is written in."""

    title: QFont
    text: QFont
    small: QFont

    @classmethod
    def of(cls, widget: QWidget) -> _Types:
        font = widget.font()
        return cls(
            sized(font, grown(widget, TITLE_PX), bold=True),
            sized(font, grown(widget, TEXT_PX)),
            sized(font, grown(widget, SMALL_PX)),
        )


def is_wide(widget: QWidget, width: float) -> bool:
    """Whether the figures have columns of their own."""
    return width >= grown(widget, WIDE_PX)


def columns(width: float) -> list[tuple[float, float]]:
    """Return left edge and width of each column."""
    found, left = [], 14.0
    for share in SHARES:
        found.append((left, share * (width - 20.0) - 8.0))
        left += share * (width - 20.0)
    return found


class CauseDelegate(QStyledItemDelegate):
    """Paints a cause."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        widget = option.widget
        assert isinstance(widget, QListView)
        row: CauseRow = index.data(ROW)
        wide = widget.viewport().width()
        return QSize(120, max(TARGET_PX, round(self._height(widget, row, wide) + 2 * PAD)))

    def _height(self, widget: QWidget, row: CauseRow, width: float) -> float:
        types = _Types.of(widget)
        if not is_wide(widget, width):
            return sum(high for _, _, high in self._below(types, row, width))
        (_, name), *_, (_, test) = columns(width)
        left = height_of(types.title, row.title, name) + height_of(types.small, row.words, name)
        return max(left, height_of(types.small, row.how, test))

    def _below(self, types: _Types, row: CauseRow, width: float) -> list[tuple[QFont, str, float]]:
        """Return the lines of a row without columns, each with its type and height."""
        room = width - 28.0
        then = then_text(row.figures)
        tell = tr("To tell: {how}", how=row.how)
        beside = room - QFontMetricsF(types.title).horizontalAdvance(row.percent) - 10.0
        lines = [(types.title, row.title, beside)]
        lines += [(types.small, row.words, room - BAR_PX - 10.0)]
        lines += [(types.small, each, room) for each in (then, tell)]
        return [(font, text, height_of(font, text, wide)) for font, text, wide in lines]

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        widget = option.widget
        assert isinstance(widget, QListView)
        row: CauseRow = index.data(ROW)
        inks, place = inks_for(widget.window().palette()), QRectF(option.rect)
        types = _Types.of(widget)
        painter.save()
        if row.is_first:
            painter.fillRect(place, QColor(inks.green_soft))
        painter.setPen(QColor(inks.line))
        painter.drawLine(place.topLeft(), place.topRight())
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QColor(inks.green))
            painter.drawRect(place.adjusted(1, 1, -1, -1))
        if is_wide(widget, place.width()):
            self._paint_columns(painter, place, widget, row, types, inks)
        else:
            self._paint_below(painter, place, row, types, inks)
        painter.restore()

    def _paint_columns(
        self,
        painter: QPainter,
        place: QRectF,
        widget: QWidget,
        row: CauseRow,
        types: _Types,
        inks: Inks,
    ) -> None:
        at = columns(place.width())
        name, likely, *figures, test = [
            QRectF(place.left() + left, place.top() + PAD, wide, place.height() - 2 * PAD)
            for left, wide in at
        ]
        high = height_of(types.title, row.title, name.width())
        _write(painter, name, types.title, inks.ink, row.title)
        _write(painter, name.adjusted(0, high, 0, 0), types.small, inks.ink_soft, row.words)
        middle = int(Qt.AlignmentFlag.AlignVCenter)
        figure_room = QFontMetricsF(types.title).horizontalAdvance(tr("over 99 %")) + 8
        figure_place = QRectF(likely.left(), likely.top(), figure_room, likely.height())
        _write(painter, figure_place, types.title, inks.ink, row.percent, middle)
        room = likely.right() - figure_place.right() - 10
        bar = QRectF(figure_place.right(), 0, room, grown(widget, 12))
        bar.moveTop(likely.center().y() - bar.height() / 2)
        self._bar(painter, bar, row, inks)
        for spot, text, marked in zip(figures, row.figures, row.marked, strict=True):
            font = sized(types.text, types.text.pixelSize(), bold=marked)
            ink = inks.brass if marked else inks.ink
            painter.setFont(font)
            painter.setPen(QColor(ink))
            painter.drawText(spot, middle, text)
        _write(painter, test, types.small, inks.ink, row.how, middle)

    def _bar(self, painter: QPainter, bar: QRectF, row: CauseRow, inks: Inks) -> None:
        painter.fillRect(bar, QColor(inks.raised))
        full = QRectF(bar)
        full.setWidth(max(bar.width() * row.share, 2.0))
        painter.fillRect(full, QColor(inks.line_strong if row.is_grey else inks.green))

    def _paint_below(
        self, painter: QPainter, place: QRectF, row: CauseRow, types: _Types, inks: Inks
    ) -> None:
        left, top = place.left() + 14.0, place.top() + PAD
        room = place.width() - 28.0
        right = int(Qt.AlignmentFlag.AlignRight)
        at = QRectF(left, top, room, place.height())
        _write(painter, at, types.title, inks.ink, row.percent, right)
        high = QFontMetricsF(types.title).height()
        bar = QRectF(left + room - BAR_PX, top + high + 4.0, BAR_PX, 10.0)
        self._bar(painter, bar, row, inks)
        soft = (inks.ink, inks.ink_soft, inks.ink, inks.ink)
        beside = room - QFontMetricsF(types.title).horizontalAdvance(row.percent) - 10.0
        for number, (font, text, high) in enumerate(self._below(types, row, place.width())):
            wide = (beside, room - BAR_PX - 10.0, room, room)[number]
            _write(painter, QRectF(left, top, wide, high), font, soft[number], text)
            top += high


def _write(
    painter: QPainter, place: QRectF, font: QFont, ink: str, text: str, align: int = 0
) -> None:
    painter.setFont(font)
    painter.setPen(QColor(ink))
    painter.drawText(place, WRAPS | DONT_CLIP | align, text)


class CauseHeads(QWidget):
    """What the columns are called."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def heads(self) -> tuple[str, ...]:
        """Return the names of the columns."""
        return (
            tr("What it may be"),
            tr("How likely"),
            tr("OG then"),
            tr("Alcohol"),
            tr("IBU"),
            tr("How to tell"),
        )

    def sizeHint(self) -> QSize:
        wide = is_wide(self, self.width())
        return QSize(120, round(grown(self, 20)) if wide else 0)

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self.sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.updateGeometry()

    def paintEvent(self, event: QPaintEvent) -> None:
        if not is_wide(self, self.width()):
            return
        with QPainter(self) as painter:
            inks = inks_for(self.window().palette())
            painter.setFont(sized(self.font(), grown(self, SMALL_PX)))
            painter.setPen(QColor(inks.ink_soft))
            for (left, wide), text in zip(columns(self.width()), self.heads(), strict=True):
                painter.drawText(QRectF(left, 0, wide + 8, self.height()), 0, text)


class CausesList(QWidget):
    """The causes with their heads, as high as all of them are."""

    def __init__(self) -> None:
        super().__init__()
        self.model = CausesModel()
        self.view = RowList(self.model, CauseDelegate(), tr("What may lie behind it"))
        self.view.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.view.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.heads = CauseHeads()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.heads)
        layout.addWidget(self.view)

    def show_rows(self, rows: Sequence[CauseRow]) -> None:
        """Show the causes."""
        self.model.show_rows(tuple(rows))
        self.fit()

    def fit(self) -> None:
        """Be as high as all rows."""
        self.view.doItemsLayout()
        count = self.model.rowCount()
        high = sum(self.view.sizeHintForRow(number) for number in range(count))
        self.view.setFixedHeight(high + 2 * self.view.frameWidth() + 2)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.fit()
