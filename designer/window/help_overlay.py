"""Keys and first steps, laid over the window; Escape or its button puts it away."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from designer.translation import message, tr
from designer.window.parts.over_card import OverCard
from designer.window.parts.page_frame import scrolled
from designer.workbench.keys import KEYS, does_said, keys_said

WIDTH = 960
STEPS = (
    message(
        "Type what the label says: 3.3 lb, 1 1/2 oz, 1,5 kg, 5 gal, 155 F, 12.9 °P. Every field "
        "takes any unit of its kind. Add ± to say how sure a figure is: 7.2 % ± 0.5 %."
    ),
    message(
        "The last row of each table takes a new line: start typing, amount and name together if "
        "you like."
    ),
    message(
        "The forecast follows as you type. Press a number in it to see its largest uncertainties."
    ),
    message("A finding under Watch out offers its cure as one click; Undo takes it back."),
)


class HelpOverlay(OverCard):
    """First steps, and below them all keys; they scroll where the window is low."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window, tr("Keys and first steps"))
        self._told = self._made()
        self._area = scrolled(self._told)
        self._area.setObjectName("readByKeys")
        self._area.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self._area.setAccessibleName(tr("Keys and first steps"))
        self.close_button = QPushButton(tr("Close"))
        self.close_button.clicked.connect(self.put_away)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(26, 18, 26, 18)
        layout.addWidget(self._area, 1)
        layout.addWidget(self.close_button, 0, Qt.AlignmentFlag.AlignLeft)

    def first(self) -> QWidget:
        return self.close_button

    def wanted_size(self, room: QSize) -> QSize:
        width = min(WIDTH, room.width())
        within = width - 52 - 16
        told = self._told.heightForWidth(within) + self.close_button.sizeHint().height() + 48
        return QSize(width, min(told, room.height()))

    def _made(self) -> QWidget:
        body = QWidget()
        grid = QGridLayout(body)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(18)
        grid.addWidget(QLabel(f"<b>{tr('First steps')}</b>"), 0, 0, 1, 4)
        for row, step in enumerate(STEPS, 1):
            label = QLabel(tr(step))
            label.setWordWrap(True)
            grid.addWidget(label, row, 0, 1, 4)
        row = len(STEPS) + 1
        grid.addWidget(QLabel(f"<b>{tr('Keys')}</b>"), row, 0, 1, 4)
        half = (len(KEYS) + 1) // 2
        for number, (keys, does) in enumerate(KEYS):
            line, side = row + 1 + number % half, 2 * (number // half)
            for column, text in ((side, f"<b>{keys_said(keys)}</b>"), (side + 1, does_said(does))):
                label = QLabel(text)
                label.setWordWrap(True)
                grid.addWidget(label, line, column)
        for column, stretch in enumerate((4, 7, 4, 7)):
            grid.setColumnStretch(column, stretch)
        return body
