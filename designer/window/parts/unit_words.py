"""Rarer units for the window: looked up in the background, so that no key waits for pint."""

from __future__ import annotations

from contextlib import suppress

from PySide6.QtCore import QCoreApplication, QObject, Qt, Signal, Slot
from shiboken6 import isValid

from designer.units.pint_units import fetch_table_by, is_table_known, table_text, take_table


class UnitWords(QObject):
    """Fetches the table of rarer units once; `known` tells that every unit can now be read."""

    known = Signal()
    _answered = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._asking = False
        self._answered.connect(self._take, Qt.ConnectionType.QueuedConnection)

    def look_up(self) -> None:
        """Begin to look units up, unless that is done or under way. Returns at once."""
        if self._asking or is_table_known():
            return
        if QCoreApplication.instance() is None:  # nobody to hear of it later, nor to be held up
            take_table(table_text())
            return
        from threading import Thread

        self._asking = True
        # No pool waits for it when the program ends: what it asks for ends by itself.
        Thread(target=self._ask, name="unit words", daemon=True).start()

    def _ask(self) -> None:
        from subprocess import SubprocessError

        from designer.units.pint_process import table_from_another_process

        try:
            found = table_from_another_process()
        except (OSError, SubprocessError, ValueError):
            found = ""
        with suppress(RuntimeError):  # the window is gone
            self._answered.emit(found)

    @Slot(str)
    def _take(self, found: str) -> None:
        self._asking = False
        try:
            take_table(found)
        except ValueError:  # no other process could be had: wait for pint here, this once
            take_table(table_text())
        self.known.emit()


def unit_words() -> UnitWords:
    """Return the one of this program; it lives as long as the application does.

    A document is read with all its units known, so one with a rare unit is waited for as it opens;
    the table comes from another process then too.
    """
    global _of_program
    program = QCoreApplication.instance()
    # Remembered, not looked for with findChild(), which has every enum of Qt made known to Python.
    if _of_program is None or not isValid(_of_program) or _of_program.parent() is not program:
        _of_program = UnitWords(program)
        fetch_table_by(_fetched)
    return _of_program


_of_program: UnitWords | None = None


def _fetched() -> str:
    from designer.units.pint_process import table_fetched

    return table_fetched()
