"""What the program has to say, below the header: stays until it is read, never stops the work."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QElapsedTimer, Qt, QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QWidget

LEAST_MS, MS_A_SIGN = 1500, 60
"""How long a message is shown at least: a slow reader takes some 60 ms for a letter."""


class MessageBar(QFrame):
    """One message at a time; a grave one is coloured and stays until it is put away."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("messageBar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._grave = False
        self.text = QLabel()
        self.text.setWordWrap(True)
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.close_button = QPushButton("Put away")
        self.close_button.setObjectName("quiet")
        self.close_button.clicked.connect(self.hide)
        self._buttons: list[QPushButton] = []
        self._shown_for = QElapsedTimer()
        self._readable_ms = 0
        self._later = QTimer(self, singleShot=True)
        self._later.timeout.connect(self._put_away)
        self._layout = layout = QHBoxLayout(self)
        layout.setContentsMargins(20, 4, 16, 4)
        layout.addWidget(self.text, 1)
        layout.addWidget(self.close_button)
        self.hide()

    def say(
        self,
        message: str,
        *,
        grave: bool = False,
        actions: Sequence[tuple[str, Callable[[], None]]] = (),
    ) -> None:
        """Show a message in place of the one before, with buttons for what can be done."""
        for button in self._buttons:
            button.deleteLater()
        self._buttons = []
        for text, act in actions:
            self._buttons.append(self._action(text, act))
        self._grave = grave
        self.setProperty("grave", grave)
        self.style().unpolish(self)
        self.style().polish(self)
        self._later.stop()
        self._shown_for.start()
        self._readable_ms = LEAST_MS + MS_A_SIGN * len(message)
        self.text.setText(message)
        self.setAccessibleName(message)
        self.show()

    def _action(self, text: str, act: Callable[[], None]) -> QPushButton:
        button = QPushButton(text)
        button.clicked.connect(self.hide)
        button.clicked.connect(lambda _checked=False: act())
        self._layout.insertWidget(self._layout.count() - 1, button)
        self.setTabOrder(self._buttons[-1] if self._buttons else self.text, button)
        self.setTabOrder(button, self.close_button)
        return button

    def settle(self) -> None:
        """Put a message that is not grave away as the work goes on, once it could be read."""
        if not self._grave and self.isVisible():
            left = self._readable_ms - self._shown_for.elapsed()
            self._later.start(max(int(left), 0))

    def _put_away(self) -> None:
        if not self._grave:
            self.hide()
