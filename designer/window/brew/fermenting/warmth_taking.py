"""Temperatures that a thermometer wrote into a table: read beside the window, kept as one entry."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from designer.errors import DesignerError, RefusedInputError
from designer.translation import tr
from designer.window.parts.background import Latest
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.warmth_csv import WarmthTable, warmth_in_file


class WarmthTaking(QObject):
    """`told` says what was taken, `failed` why a table is not."""

    told = Signal(str)
    failed = Signal(str)

    def __init__(self, brew: OpenBrew, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._brew = brew
        self._latest = Latest(self)
        self._latest.answered.connect(self._take)

    def read(self, path: Path) -> None:
        """Take the table of a file into the brew that is shown now."""
        uid = self._brew.brew.uid if self._brew.brew is not None else ""
        self._latest.ask(partial(_read, path, uid))

    def _take(self, answer: tuple[str, Path, WarmthTable | str]) -> None:
        uid, path, found = answer
        if isinstance(found, str):
            self.failed.emit(found)
        elif self._brew.brew is not None and self._brew.brew.uid == uid:
            self._brew.note_warmth(found.temperatures, path.name)
            self.told.emit(tr("Taken in: {table}.", table=str(found.words)))

    def close(self) -> None:
        """Wait for what is being read; nobody is told any more."""
        self._latest.wait()


def _read(path: Path, uid: str) -> tuple[str, Path, WarmthTable | str]:
    try:
        return uid, path, warmth_in_file(path)
    except (DesignerError, RefusedInputError) as fault:
        return uid, path, str(fault)
