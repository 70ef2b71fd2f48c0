"""How the page of a brew day gets onto a phone, and what may not work there; said beforehand.

Which pages may keep a screen on: W3C, Screen Wake Lock API and Secure Contexts. That opened files
count as secure where the browser is Chromium was tried; of others it is not known, so the page
itself says what holds.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from designer.translation import message, tr
from designer.window.parts.on_screen import keep_on_screen

WIDTH = 560
WAYS = (
    message(
        "The brew day as one page for the browser of your phone: steps to tick, timers, blanks to "
        "type in. It is a single file and needs no network."
    ),
    message(
        "Save it, then get the file onto the phone: over a cable, on a memory card, or in a mail "
        "to yourself. Open it there in the browser. What you tick and type stays in that browser; "
        "at the end you bring it back as a text or a file, with From the phone… on Brew day."
    ),
)
COMMAND = "hobwort sheet FILE --pocket --serve"
BY_NETWORK = message(
    "Or, in a network of your own, type {command} in a terminal: it offers the page for an hour "
    "and tells the address to open on the phone. It is sent unenciphered, so never in a public "
    "network."
)
LIMITS_HEAD = message("What may not work from an opened file:")
LIMITS = (
    message(
        "Some phones show a file only as a preview. Nothing can be ticked there, and the page "
        "says so: open it in a browser instead."
    ),
    message(
        "A browser may not let an opened file keep the screen on. The page says whether it does; "
        "if not, let the phone's screen go off late."
    ),
    message(
        "With the screen off, most phones play no sound. The timers go on all the same and are "
        "right as soon as you look."
    ),
    message(
        "In a private window the browser forgets everything when it is closed, and some keep "
        "nothing of opened files. Where the page notices that, it says so; copy its text first."
    ),
)


class OntoPhone(QDialog):
    """Tells the way, and offers the one thing to do: `save_wanted`."""

    save_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Onto the phone"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 14)
        layout.setSpacing(10)
        for text in WAYS:
            layout.addWidget(_words(tr(text)))
        self.by_network = _words(tr(BY_NETWORK, command=COMMAND))
        self.by_network.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        layout.addWidget(self.by_network)
        head = _words(tr(LIMITS_HEAD))
        head.setObjectName("heading")
        layout.addWidget(head)
        for text in LIMITS:
            layout.addWidget(_words(tr("• {text}", text=tr(text))))
        layout.addLayout(self._buttons())
        self.setMinimumWidth(WIDTH)
        self.resize(WIDTH, layout.totalHeightForWidth(WIDTH))
        keep_on_screen(self)

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.addStretch(1)
        close = QPushButton(tr("Cancel"))
        close.setAutoDefault(False)
        close.clicked.connect(self.reject)
        self.save = QPushButton(tr("Save the page…"))
        self.save.setDefault(True)
        self.save.clicked.connect(self._save)
        row.addWidget(close)
        row.addWidget(self.save)
        return row

    def _save(self) -> None:
        self.accept()
        self.save_wanted.emit()


def _words(text: str) -> QLabel:
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label
