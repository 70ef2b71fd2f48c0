"""The heading of the table of pasted rows: above each column of text a choice of what it is."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QHeaderView, QTableView, QWidget

from designer.library.pasted import Means, Use
from designer.translation import message, tr
from designer.window.compose.pasted_rows import FIRST_CELL
from designer.window.parts.icons import Choice

_NAMES = {
    Means.NAME: message("Name"),
    Means.AMOUNT: message("Amount"),
    Means.UNIT: message("Unit of amount"),
    Means.WHEN: message("Goes in"),
    Means.ALPHA: message("Alpha acid"),
    Means.COLOUR: message("Colour"),
    Means.YIELD: message("Extract yield"),
    Means.FIGURE: message("Alpha or colour"),
    Means.KIND: message("Kind or form"),
    Means.LIST: message("List"),
    Means.OUT: message("Leave out"),
}
_DAYS = message("days")
OFFERED = (
    Use(Means.OUT),
    Use(Means.NAME),
    Use(Means.AMOUNT),
    *(Use(Means.AMOUNT, unit) for unit in ("kg", "g", "lb", "oz")),
    Use(Means.UNIT),
    Use(Means.WHEN),
    Use(Means.WHEN, "min"),
    Use(Means.WHEN, _DAYS),
    Use(Means.ALPHA, "%"),
    *(Use(Means.COLOUR, unit) for unit in ("EBC", "°L", "SRM")),
    *(Use(Means.YIELD, unit) for unit in ("%", "ppg", "L°/kg")),
    Use(Means.KIND),
    Use(Means.LIST),
)
ROOM = 44  # beside the words: the edges of a choice and its arrow


def use_name(use: Use) -> str:
    """Return what a use is called in the choice: "Amount in kg"."""
    name = tr(_NAMES[use.means])
    if not use.unit:
        return name
    if use.unit == "%" or use.means is Means.WHEN:
        unit = tr(use.unit) if use.unit == _DAYS else use.unit
        return tr("{use}, {unit}", use=name, unit=unit)
    return tr("{use} in {unit}", use=name, unit=use.unit)


class StillChoice(Choice):
    """A choice that is not changed by being scrolled over."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to what is below."""
        event.ignore()


class UseChoice(StillChoice):
    """A choice of what a column is."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.offered: list[Use] = []

    @property
    def chosen_use(self) -> Use:
        """The use that is chosen; Qt would hand it back as a bare list."""
        return self.offered[self.currentIndex()]


class UseHeader(QHeaderView):
    """Headings of the first columns, choices above the others. `use_chosen`: column, use."""

    use_chosen = Signal(int, object)

    def __init__(self, view: QTableView) -> None:
        super().__init__(Qt.Orientation.Horizontal, view)
        self.choices: list[UseChoice] = []
        self._view = view
        self.setSectionsClickable(False)
        self.setHighlightSections(False)
        self.sectionResized.connect(self.place)
        view.horizontalScrollBar().valueChanged.connect(self.place)

    def show_uses(self, uses: tuple[Use, ...]) -> None:
        """Show what the columns are taken for."""
        if len(uses) != len(self.choices):
            self._make(len(uses))
        for number, (choice, use) in enumerate(zip(self.choices, uses, strict=True), 1):
            offered = [*OFFERED, *([] if use in OFFERED else [use])]
            choice.blockSignals(True)
            choice.clear()
            choice.offered = offered
            choice.addItems([use_name(each) for each in offered])
            choice.setCurrentIndex(offered.index(use))
            choice.blockSignals(False)
            longest = max(map(choice.fontMetrics().horizontalAdvance, map(use_name, offered)))
            choice.view().setMinimumWidth(longest + ROOM)
            choice.setAccessibleName(tr("What text column {number} is", number=number))
        self.place()

    def width_of(self, column: int) -> int:
        """Return the room that the choice of a column needs to show its words whole."""
        choice = self.choices[column]
        return choice.fontMetrics().horizontalAdvance(choice.currentText()) + ROOM

    def _make(self, count: int) -> None:
        for choice in self.choices:
            choice.hide()
            choice.deleteLater()
        self.choices = [UseChoice(self.viewport()) for _ in range(count)]
        for number, choice in enumerate(self.choices):
            choice.setSizeAdjustPolicy(
                Choice.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )
            choice.activated.connect(partial(self._choose, number))
            choice.installEventFilter(self)
            choice.show()

    def _choose(self, column: int, at: int) -> None:
        self.use_chosen.emit(column, self.choices[column].offered[at])

    def place(self) -> None:
        """Put each choice above its column."""
        for number, choice in enumerate(self.choices):
            section = FIRST_CELL + number
            left, width = self.sectionViewportPosition(section), self.sectionSize(section)
            choice.setGeometry(left + 2, 2, width - 4, self.height() - 4)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Bring the column of a choice that gets the keyboard into view."""
        if event.type() == QEvent.Type.FocusIn and watched in self.choices:
            at = self.choices.index(watched)
            model = self._view.model()
            self._view.scrollTo(model.index(self._view.rowAt(0), FIRST_CELL + at))
        return False

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        return QSize(hint.width(), self.fontMetrics().height() + 20)

    def updateGeometries(self) -> None:
        super().updateGeometries()
        self.place()
