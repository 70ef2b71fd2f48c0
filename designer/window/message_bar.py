"""What the program has to say, below the header: stays until it is read, never stops the work."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QWidget


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
        self._buttons = [self._action(text, act) for text, act in actions]
        self._grave = grave
        self.setProperty("grave", grave)
        self.style().unpolish(self)
        self.style().polish(self)
        self.text.setText(message)
        self.setAccessibleName(message)
        self.show()

    def _action(self, text: str, act: Callable[[], None]) -> QPushButton:
        button = QPushButton(text)
        button.clicked.connect(self.hide)
        button.clicked.connect(lambda _checked=False: act())
        self._layout.insertWidget(self._layout.count() - 1, button)
        return button

    def settle(self) -> None:
        """Put a message that is not grave away, as the work goes on."""
        if not self._grave:
            self.hide()
