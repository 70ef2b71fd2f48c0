"""Keys and first steps, laid over the window; Escape or a click puts it away."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from designer.translation import message, tr
from designer.window.parts.plain_text import as_read

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
KEYS = (
    (message("Return, F2"), message("edit the cell, or keep what was typed")),
    (message("Escape"), message("take back what was typed")),
    (message("Up, Down in a number"), message("step it; with Shift ten times as far")),
    (message("Delete"), message("remove the chosen lines")),
    (message("Ctrl+D"), message("duplicate the line")),
    (message("Ctrl+C, Ctrl+X, Ctrl+V"), message("copy, cut, paste lines, also from a spreadsheet")),
    (message("Alt+Up, Alt+Down"), message("move the line")),
    (message("Tab, Shift+Tab"), message("to the next field or table, and back")),
    (
        message("Left, Right on the day"),
        message("choose an addition; with Alt move it by a minute"),
    ),
    (message("Space, Return on the brew day"), message("the step is done")),
    (message("Backspace on the brew day"), message("back a step")),
    (message("T, N on the brew day"), message("a new timer; a note for the log")),
    (message("N while it ferments"), message("type a reading")),
    (message("A figure on the brew day"), message("type into the blank that comes next")),
)


class HelpOverlay(QFrame):
    """A card over the middle of the window."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._over = window
        self.setObjectName("card")
        self.setAccessibleName(tr("Keys and first steps"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAutoFillBackground(True)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(26, 18, 26, 18)
        self._body = QWidget()
        self._before: QWidget | None = None
        self.hide()
        window.installEventFilter(self)

    def open_for(self, actions: list[QAction]) -> None:
        """Show the overlay with the keys of the window's actions."""
        self._before = self.window().focusWidget()
        self._body.setParent(None)
        self._body = self._made(actions)
        self._layout.addWidget(self._body)
        self._place()
        self.show()
        self.raise_()
        self.close_button.setFocus()

    def _made(self, actions: list[QAction]) -> QWidget:
        body = QWidget()
        grid = QGridLayout(body)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(22)
        title = QLabel(f"<b>{tr('First steps')}</b>")
        grid.addWidget(title, 0, 0, 1, 4)
        for row, step in enumerate(STEPS, 1):
            label = QLabel(tr(step))
            label.setWordWrap(True)
            grid.addWidget(label, row, 0, 1, 4)
        row = len(STEPS) + 1
        grid.addWidget(QLabel(f"<b>{tr('Keys')}</b>"), row, 0, 1, 4)
        shortcuts = [
            (
                ", ".join(
                    each.toString(QKeySequence.SequenceFormat.NativeText)
                    for each in action.shortcuts()
                ),
                as_read(action.text()).rstrip("…"),
            )
            for action in actions
            if action.shortcuts()
        ]
        pairs = [*((tr(keys), tr(does)) for keys, does in KEYS), *shortcuts]
        half = (len(pairs) + 1) // 2
        for number, (keys, does) in enumerate(pairs):
            line, side = row + 1 + number % half, 2 * (number // half)
            grid.addWidget(QLabel(f"<b>{keys}</b>"), line, side)
            grid.addWidget(QLabel(does), line, side + 1)
        self.close_button = QPushButton(tr("Close"))
        self.close_button.clicked.connect(self.put_away)
        grid.addWidget(self.close_button, row + half + 1, 0)
        return body

    def _place(self) -> None:
        window = self._over
        self.setFixedWidth(min(920, window.width() - 24))
        self.adjustSize()
        self.move(
            (window.width() - self.width()) // 2, max((window.height() - self.height()) // 2, 4)
        )

    def put_away(self) -> None:
        """Hide, and give the keyboard back to where it was."""
        self.hide()
        if self._before is not None:
            self._before.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        else:
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        return False
