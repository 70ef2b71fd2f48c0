"""What a window does is noted in the log for whoever helps with a problem."""

from __future__ import annotations

import time
from pathlib import Path

from PySide6.QtWidgets import QStackedWidget

from designer.window.system_words import system_words
from designer.workbench.support_log import Noted, SupportLog, note


class Noting:
    """For one window, from when its first pictures are painted to its end."""

    def __init__(self, pages: QStackedWidget, store: Path) -> None:
        self._begun = time.monotonic()
        self._log = SupportLog(store, system_words())
        note(Noted.STARTED)
        pages.currentChanged.connect(lambda _number: self._note_page())
        self._pages = pages
        self._note_page()

    def _note_page(self) -> None:
        page = self._pages.currentWidget()
        if page is not None:
            note(Noted.PAGE_SHOWN, type(page))

    def end(self) -> None:
        """Note the end, with the seconds that the window was open, and write all."""
        note(Noted.CLOSED, seconds=time.monotonic() - self._begun)
        self._log.end()
