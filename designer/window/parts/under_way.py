"""How far a long piece of work is, and a button that ends it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QWidget

from designer.translation import message, tr
from designer.window.parts.buttons import button

BAR_WIDTH = 140
OF_ITEMS = message("{doing}: {done:,} of {of:,}")
OF_THE_WHOLE = message("{doing}: {share:.0%}")


class UnderWay(QWidget):
    """Shown while something is under way; its room is kept, so that nothing moves.

    `stop` is called by its button, whose tip says what becomes of what is done by then.
    """

    def __init__(
        self,
        stop: Callable[[], None],
        tip: str,
        words: str = OF_THE_WHOLE,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.doing, self._words = "", words
        self.told = QLabel()
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedWidth(BAR_WIDTH)
        self.stop_button = button(tr("Stop"), tip, stop)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.told)
        layout.addWidget(self.bar)
        layout.addWidget(self.stop_button)
        policy = self.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.setSizePolicy(policy)
        self.hide()

    def tell(self, doing: str, done: int, of: int) -> None:
        """Show how much is done of how much; of nothing: it has ended."""
        self.setVisible(of > 0)
        if of > 0:
            self.doing = doing
            self.bar.setAccessibleName(doing)
            self.told.setText(tr(self._words, doing=doing, done=done, of=of, share=done / of))
            self.bar.setRange(0, of)
            self.bar.setValue(done)
