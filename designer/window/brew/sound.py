"""A short tone made by the program itself, of numbers in memory: no file, and no library of Qt.

Qt's own audio is not in the installed part of PySide6. The tone is handed to the sound system of
the desktop: on Linux by its library (`libpulse-simple`, which PipeWire serves too, or `libasound`),
on Windows by `winsound`; both are loaded when a tone is first wanted, on a thread of their own, so
a sound server that does not answer holds nothing up. Elsewhere there is no sound yet, and that is
said. On Windows it has not been tried.
"""

from __future__ import annotations

import array
import math
import sys
import threading
from collections.abc import Callable
from enum import StrEnum

from PySide6.QtCore import QObject, Signal, SignalInstance

from designer.translation import message, tr
from designer.window.brew.sound_system import NoSoundError, play

RATE = 44_100
FADE_S = 0.012
SILENCE_S = 0.02
NO_DEVICE = message("There is no sound device here, or it takes no sound: watch the colour.")


class Tone(StrEnum):
    """What a tone announces; each sounds otherwise."""

    SOON = "soon"
    NOW = "now"
    OVER = "over"


NOTES: dict[Tone, tuple[tuple[float, float], ...]] = {
    Tone.SOON: ((660.0, 0.16), (0.0, 0.06), (880.0, 0.22)),
    Tone.NOW: ((988.0, 0.14), (0.0, 0.06)) * 3 + ((1319.0, 0.42),),
    Tone.OVER: ((880.0, 0.24), (0.0, 0.05), (660.0, 0.24), (0.0, 0.05), (440.0, 0.5)),
}
"""Hertz and seconds of each note; no hertz is a rest."""


def samples_of(tone: Tone, volume: float) -> bytes:
    """Return a tone as 16-bit samples, one channel, `RATE` a second; volume 0 to 1."""
    found = array.array("h")
    loud = 0.9 * 32767 * min(max(volume, 0.0), 1.0) ** 2
    for hertz, seconds in NOTES[tone]:
        count = int(seconds * RATE)
        fade = int(FADE_S * RATE)
        for at in range(count):
            edge = min(1.0, at / fade, (count - 1 - at) / fade)
            turn = 2.0 * math.pi * hertz * at / RATE
            wave = math.sin(turn) + 0.3 * math.sin(2.0 * turn)
            found.append(int(loud * edge * wave / 1.3))
    if sys.byteorder == "big":
        found.byteswap()
    return found.tobytes()


class Sound(QObject):
    """Plays tones one at a time; `trouble` says why nothing is heard, "" where it is.

    `played` and `silent` tell what became of the last one.
    """

    silent = Signal()
    played = Signal()

    def __init__(
        self,
        player: Callable[[bytes, int], None] = play,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._player = player
        self._made: dict[tuple[Tone, float], bytes] = {}
        self._playing = threading.Lock()
        self.trouble = ""

    def play(self, tone: Tone, volume: float) -> bool:
        """Play a tone unless one is heard now; never waits. Returns whether it is begun."""
        if volume <= 0.0 or not self._playing.acquire(blocking=False):
            return False
        thread = threading.Thread(target=self._play, args=(tone, volume), name="tone", daemon=True)
        thread.start()
        return True

    def look_for_device(self) -> None:
        """Find out, by a moment of silence, whether a tone would be heard; never waits."""
        if self._playing.acquire(blocking=False):
            samples = bytes(2 * int(SILENCE_S * RATE))
            threading.Thread(target=self._hand_over, args=(samples,), daemon=True).start()

    def _play(self, tone: Tone, volume: float) -> None:
        key = (tone, volume)
        if key not in self._made:
            self._made[key] = samples_of(tone, volume)
        self._hand_over(self._made[key])

    def _hand_over(self, samples: bytes) -> None:
        try:
            self._player(samples, RATE)
        except NoSoundError:
            self.trouble = tr(NO_DEVICE)
            self._tell(self.silent)
        else:
            self.trouble = ""
            self._tell(self.played)
        finally:
            self._playing.release()

    def _tell(self, signal: SignalInstance) -> None:
        """Emit from the thread; a window that is gone meanwhile does not hear it."""
        try:
            signal.emit()
        except RuntimeError:
            return
