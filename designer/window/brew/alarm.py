"""The one place that speaks up: tone, flash, window to the front, and a word on the desktop.

What is due is given to it every second; it keeps in mind what it has said. Something new is said
once, whatever number of things fell due meanwhile; what wants a confirmation is said again every
20 seconds until there is one. The flash is for the page to paint, in colour and in words.
"""

from __future__ import annotations

import shutil
from collections.abc import Sequence

from PySide6.QtCore import QObject, QProcess, Signal
from PySide6.QtWidgets import QApplication, QWidget

from designer.translation import tr
from designer.window.brew.sound import Sound, Tone
from designer.window.parts.announcing import announce
from designer.window.parts.settings import Settings
from designer.window.parts.tray import Tray, to_the_front
from designer.workbench.brew.announcements import Announcement, When
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.passing import passed

AGAIN_S = 20.0
_TONES = {
    When.SOON: Tone.SOON,
    When.NOW: Tone.NOW,
    When.LATE: Tone.NOW,
    When.OVER: Tone.OVER,
    When.ASK: Tone.SOON,
}
_GRAVEST = (Tone.NOW, Tone.OVER, Tone.SOON)


class Alarm(QObject):
    """Says announcements. `flashed` carries those that are said now, `said` the words of them."""

    flashed = Signal(object)
    said = Signal(str)

    def __init__(
        self,
        page: QWidget,
        settings: Settings,
        sound: Sound | None = None,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent if parent is not None else page)
        self._page, self._settings = page, settings
        self.sound = sound if sound is not None else Sound(parent=self)
        self._known: set[tuple[str, ...]] = set()
        self._last: Instant | None = None
        self._tray: Tray | None = None

    @property
    def _window(self) -> QWidget:
        return self._page.window()

    def tell(self, due: Sequence[Announcement], now: Instant) -> None:
        """Say what is new of all that is due, or again what is not confirmed."""
        fresh = [each for each in due if each.said_once not in self._known]
        self._known = {each.said_once for each in due}
        waiting = [each for each in due if each.until_confirmed]
        if fresh:
            self._speak(fresh, now, first=True)
        elif waiting and self._is_time_again(now):
            self._speak(waiting, now, first=False)
        if not due:
            self._last = None

    def _is_time_again(self, now: Instant) -> bool:
        return self._last is None or abs(passed(self._last, now).seconds) >= AGAIN_S

    def _speak(self, told: Sequence[Announcement], now: Instant, *, first: bool) -> None:
        self._last = now
        tones = {_TONES[each.when] for each in told}
        self.play(next(each for each in _GRAVEST if each in tones))
        self.flashed.emit(tuple(told))
        if not first:
            return
        words = "\n".join(each.words.text for each in told)
        self.said.emit(words)
        announce(self._window, words, grave=True)
        urgent = any(each.until_confirmed for each in told)
        QApplication.alert(self._window, 0)
        if self._window.isMinimized() or not self._window.isActiveWindow():
            self._notify(words)
            if urgent:
                to_the_front(self._window)

    def play(self, tone: Tone) -> None:
        """Play a tone as loud as is set; nothing where sound is off."""
        if self._settings.brew_sound:
            self.sound.play(tone, self._settings.brew_volume / 100.0)

    def test(self) -> None:
        """Let the brewer hear it, off or not."""
        self.sound.play(Tone.NOW, self._settings.brew_volume / 100.0)

    def _notify(self, words: str) -> None:
        """Say it on the desktop, by the tray where there is one, else by its own program."""
        if self._tray is None:
            self._tray = Tray(self._window)
        if self._tray.say(tr("Brew day"), words):
            return
        program = shutil.which("notify-send")
        if program is not None:
            QProcess.startDetached(program, ["--app-name=Hobwort", tr("Brew day"), words])

    def be_quiet(self) -> None:
        """The day is over or another brew is shown: nothing was said yet, and no sign stays."""
        self._known.clear()
        self._last = None
        if self._tray is not None:
            self._tray.put_away()
