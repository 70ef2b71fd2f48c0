"""How a kit comes out as it is typed: its leaflet beside the day, and whether it fits."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from designer.recipe.message import Message
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.plain_text import caption
from designer.workbench.kit_check import KitLooked


class KitSeen(QWidget):
    """`mend_wanted` and `undo_wanted` come of the buttons beside a doubt."""

    mend_wanted = Signal()
    undo_wanted = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self.stated, self.doubt, self.vessels = _words(), _words(), _words()
        self.mend, self.undo = QPushButton(), QPushButton(tr("Undo"))
        for link in (self.mend, self.undo):
            link.setObjectName("cure")
            link.hide()
        self.mend.clicked.connect(self.mend_wanted)
        self.undo.clicked.connect(self.undo_wanted)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        for each in (self.stated, self.doubt, self.mend, self.undo, self.vessels):
            layout.addWidget(each)
        self.show_nothing(tr("Type in what the leaflet says, and see here how the beer comes out."))

    def show_nothing(self, why: str) -> None:
        """Say why there is nothing to be seen yet."""
        self.stated.setText(why)
        for each in (self.doubt, self.mend, self.vessels):
            each.hide()

    def show_kit(self, looked: KitLooked) -> None:
        """Show a kit that could be read."""
        forecasts = looked.outlook.forecasts
        told = [self._said(each.said) for each in looked.stated]
        if not told:
            told = [
                tr(
                    "Comes to {gravity}, {alcohol} % alcohol. Type what the leaflet states, and "
                    "it is compared.",
                    gravity=self._display.decimal(f"{forecasts['original_gravity'].value:.3f}"),
                    alcohol=self._display.decimal(f"{forecasts['abv_percent'].value:.1f}"),
                )
            ]
        self.stated.setText("\n".join(told))
        doubt = looked.doubt
        self.doubt.setText(self._said(doubt.message) if doubt is not None else "")
        self.doubt.setVisible(doubt is not None)
        offer = doubt.offer if doubt is not None else None
        self.mend.setText(caption(self._said(offer)) if offer is not None else "")
        self.mend.setVisible(offer is not None)
        self.vessels.setText("\n".join(self._said(each) for each in looked.vessels))
        self.vessels.setVisible(bool(looked.vessels))

    def _said(self, said: Message) -> str:
        return said.said(self._display.rounded, self._display.quantity)


def _words() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
