"""How far a long piece of work is, and a button that ends it."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QWidget

from designer.window.buttons import button
from designer.window.errand import Errand

BAR_WIDTH = 140


class UnderWay(QWidget):
    """Follows one errand. Its room is kept while it is hidden, so that nothing moves."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.doing = ""
        self.told = QLabel()
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedWidth(BAR_WIDTH)
        self.stop_button = button("Stop", "What is done by then stays done", lambda: None)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.told)
        layout.addWidget(self.bar)
        layout.addWidget(self.stop_button)
        policy = self.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.setSizePolicy(policy)
        self.hide()

    def begin(self, doing: str, errand: Errand) -> None:
        """Show how far an errand is from now on."""
        self.doing = doing
        self.bar.setAccessibleName(doing)
        errand.progressed.connect(self._tell)
        self.stop_button.clicked.connect(errand.stop)
        self.show()

    def _tell(self, done: int, of: int) -> None:
        self.told.setText(f"{self.doing}: {done:,} of {of:,}")
        self.bar.setRange(0, of)
        self.bar.setValue(done)

    def end(self) -> None:
        """Nothing is under way any more."""
        self.stop_button.clicked.disconnect()
        self.hide()
