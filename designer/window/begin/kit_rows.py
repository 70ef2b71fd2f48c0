"""Rows of one sort of thing that is in a kit's box: tins, bags, packets of hops.

A row whose amount is empty is none. Return in the last field of the last row makes another; in an
empty row it goes on to what comes after the rows. So does Tab, by way of the button at their end.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSizePolicy,
    QWidget,
)

from designer.errors import RefusedInputError
from designer.recipe.limits import LONGEST_TYPED, MOST_LINES
from designer.recipe.quantity import Kind, Quantity
from designer.translation import named, tr
from designer.window.parts.buttons import button
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.icons import Choice
from designer.window.parts.offers import attach_suggestions
from designer.window.parts.refusal import read_from, within_reach

LARGEST = 10_000.0
MORE_WIDTH = 34
AMOUNT, NAME = "amount", "name"


class KitColumn(NamedTuple):
    """A field of each row: its key and what it is called, with what stands in it while it is empty.

    It is so many `letters` wide, 0 for as wide as there is room. `kind` is that of its figure,
    `suggests` the part of the catalogue whose names it offers, `choices` the words it is chosen of,
    each with what stands for it.
    """

    key: str
    label: str
    empty: str = ""
    letters: int = 0
    kind: Kind | None = None
    suggests: str = ""
    choices: tuple[tuple[str, str], ...] = ()


Field = QLineEdit | QComboBox
LEAST_NAME_PX = 64
LEAST_SHARE = 0.72
"""How far a field of so many letters may be narrowed: what is usual in it still has room."""


class KitRows(QWidget):
    """`changed` when anything is typed or chosen; `rearranged` when a row has come to them."""

    changed = Signal()
    rearranged = Signal()

    def __init__(
        self, display: DisplayFormat, title: str, columns: tuple[KitColumn, ...], another: str = ""
    ) -> None:
        super().__init__()
        self._display, self._title, self._columns = display, title, columns
        self.rows: list[dict[str, Field]] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(4)
        self.heading = heading = QLabel(title)
        heading.setObjectName("soft")
        heading.setWordWrap(True)
        self._grid.addWidget(heading, 0, 0)
        for number, column in enumerate(columns, 1):
            self._grid.setColumnStretch(number, 0 if column.letters else 1)
        self.more: QPushButton | None = None
        if another:
            self.more = button("+", another, self._add_and_go)
            self.more.setObjectName("quiet")
            self.more.setMinimumWidth(MORE_WIDTH)
            self.more.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.add_row()
        heading.setBuddy(self.rows[0][AMOUNT])

    def add_row(self, **texts: str) -> dict[str, Field]:
        """Add a row, its fields with these texts."""
        number = len(self.rows)
        row = {column.key: self._field(column, number + 1) for column in self._columns}
        for at, field in enumerate(row.values(), 1):
            self._grid.addWidget(field, number, at)
            field.show()  # so that it can take the keyboard at once
        self.rows.append(row)
        for key, text in texts.items():
            self.put(row, key, text)
        if self.more is not None:
            self._grid.addWidget(self.more, number, len(self._columns) + 1)
            self.more.setEnabled(len(self.rows) < MOST_LINES)
        self.rearranged.emit()
        return row

    def _field(self, column: KitColumn, number: int) -> Field:
        field: Field
        if column.choices:
            field = Choice()
            for word, data in column.choices:
                field.addItem(word, data)
            field.currentIndexChanged.connect(lambda _at: self.changed.emit())
        else:
            field = QLineEdit()
            field.setMaxLength(LONGEST_TYPED)
            field.setPlaceholderText(named(column.empty))
            if column.suggests:
                attach_suggestions(field, column.suggests)
            field.textChanged.connect(lambda _text: self.changed.emit())
        of = self._title if number == 1 else f"{self._title} {number}"
        field.setAccessibleName(tr("{column} of {row}", column=column.label, row=of))
        field.setToolTip(column.label)
        if column.letters:
            width = field.fontMetrics().averageCharWidth() * column.letters + 20
            field.setMaximumWidth(width)
            share = 1.0 if column.choices else LEAST_SHARE
            field.setMinimumWidth(round(share * width))
        else:
            field.setMinimumWidth(LEAST_NAME_PX)
        if column.kind is not None and isinstance(field, QLineEdit):
            ask_when_left(field, self._display, column.kind)
        return field

    def put(self, row: dict[str, Field], key: str, text: str) -> None:
        """Put a text, or what stands for a choice, into a field of a row."""
        field = row[key]
        if isinstance(field, QLineEdit):
            field.setText(text)
        else:
            field.setCurrentIndex(max(field.findData(text), 0))

    # keys

    def stops(self) -> list[QWidget]:
        """Return all that Tab comes to, in its order."""
        fields: list[QWidget] = [field for row in self.rows for field in row.values()]
        return fields if self.more is None else [*fields, self.more]

    def makes_room(self, field: QWidget | None) -> bool:
        """Hear of Return in a field of these rows: whether another row has been made for it."""
        last = self.rows[-1]
        at_end = field is list(last.values())[-1] and self.is_filled(last)
        if not at_end or self.more is None or not self.more.isEnabled():
            return False
        self._add_and_go()
        return True

    def is_passed_over(self, field: QWidget | None) -> bool:
        """Whether Return in a field leaves the rows: its row is the last one, and empty."""
        last = self.rows[-1]
        return field is last[AMOUNT] and not self.is_filled(last)

    def _add_and_go(self) -> None:
        self.add_row()[AMOUNT].setFocus()

    # what is typed

    def is_filled(self, row: dict[str, Field]) -> bool:
        """Whether there is anything in a row."""
        return any(
            isinstance(field, QLineEdit) and bool(field.text().strip()) for field in row.values()
        )

    def filled(self) -> Iterator[dict[str, Field]]:
        """Yield the rows in which there is anything."""
        return (row for row in self.rows if self.is_filled(row))

    def quantity(self, row: dict[str, Field], key: str, kind: Kind) -> Quantity | None:
        """Return what a field says; None where it is empty. Raises FieldRefusedError."""
        field = row[key]
        if not self.text(row, key):
            return None
        with read_from(field):
            found = self._display.read(kind, self.text(row, key))
            return within_reach(found, LARGEST, self.text(row, key))

    def amount(self, row: dict[str, Field], kind: Kind = Kind.MASS) -> Quantity:
        """Return how much there is of a row. Raises FieldRefusedError where that is not said."""
        found = self.quantity(row, AMOUNT, kind)
        if found is None:
            with read_from(row[AMOUNT]):
                raise RefusedInputError(tr("how much of it is there?"))
        return found

    @staticmethod
    def text(row: dict[str, Field], key: str) -> str:
        """Return what is typed in a field, or what stands for what is chosen."""
        field = row[key]
        if isinstance(field, QLineEdit):
            return field.text().strip()
        return str(field.currentData())


def in_line(several: Iterable[KitRows]) -> None:
    """Let the fields of all begin below each other, beside the longest word of their titles."""
    headings = [each.heading for each in several]
    wide = headings[0].fontMetrics().horizontalAdvance
    words = [word for each in headings for word in each.text().split()]
    width = max(map(wide, [*words, 10 * "x"])) + 2
    for each in headings:
        each.setFixedWidth(width)
