"""What is seen where no beer ferments: what will be here, and the beers that do."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from designer.translation import tr
from designer.window.brew.fermenting.standing_panel import words_in
from designer.window.brew.large_button import LargeButton
from designer.window.brew.stove_texts import beer_words
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import MARGIN
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.beer import is_pitched


class NoBeer(QWidget):
    """`brew_wanted` names a beer that is to be shown."""

    brew_wanted = Signal(str)

    def __init__(self, brew: OpenBrew) -> None:
        super().__init__()
        self._brew = brew
        self.title, self.words = words_in(1.3, bold=True), words_in()
        self.beers = QWidget()
        self.buttons: list[LargeButton] = []
        self._beers = FlowLayout(self.beers, across=8, down=8)
        column = QVBoxLayout(self)
        column.setContentsMargins(MARGIN, 24, MARGIN, 12)
        column.setSpacing(10)
        for widget in (self.title, self.words, self.beers):
            column.addWidget(widget)
        column.addStretch(1)

    def refresh(self) -> None:
        """Say what will be here, and lead to the beers that ferment."""
        title, words = self._told()
        self.title.setText(title)
        self.words.setText(words)
        self._offer_beers()

    def _told(self) -> tuple[str, str]:
        brewing = self._brew.brewing
        if brewing is None:
            return tr("No beer is shown"), tr(
                "Once a brew has its yeast, this is where its readings are typed in and held "
                "against the forecast, where it is said whether it is done, and how much sugar its "
                "bottles take."
            )
        if self._brew.reckoning_beer and is_pitched(brewing):
            return tr("One moment"), tr("The forecast of the beer is being worked out.")
        return tr("The yeast is not in yet"), tr(
            "The first reading can be typed in here once that step is ticked at the stove."
        )

    def _offer_beers(self) -> None:
        shown, at = self._brew.brew.uid if self._brew.brew is not None else "", self._brew.now()
        for button in self.buttons:
            button.hide()
            button.deleteLater()
        self.buttons = []
        for each in self._brew.in_fermenters():
            if each.uid != shown:
                button = LargeButton(tr("Show {beer}", beer=beer_words(each, at.wall)))
                button.clicked.connect(partial(self._want, each.uid))
                self._beers.addWidget(button)
                button.show()
                self.buttons.append(button)
        self.beers.setVisible(bool(self.buttons))

    def _want(self, uid: str, _checked: bool = False) -> None:
        self.brew_wanted.emit(uid)
