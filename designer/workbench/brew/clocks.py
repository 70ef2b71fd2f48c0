"""Where a brew day's time comes from: the machine's clocks, or clocks that are driven.

Linux has a boot clock that counts the time it slept (`CLOCK_BOOTTIME`) and an id for each boot
(`/proc/sys/kernel/random/boot_id`). Elsewhere the boot is told as "", and only the wall clock
counts: Windows and macOS have clocks that count sleep too, but we have not tried them.
"""

from __future__ import annotations

import functools
import time
from pathlib import Path
from typing import Protocol

from designer.workbench.brew.instants import Instant

_BOOT_ID = Path("/proc/sys/kernel/random/boot_id")


class Clock(Protocol):
    """What tells the time of a brew day."""

    def now(self) -> Instant:
        """Return this instant."""


class MachineClock:
    """The clocks of this machine."""

    def now(self) -> Instant:
        """Return this instant."""
        boot = _boot_id()
        up = time.clock_gettime(time.CLOCK_BOOTTIME) if boot else 0.0
        return Instant(time.time(), boot, up)


class DrivenClock:
    """Clocks that go on only when told, and can be set, slept and booted as a real machine's.

    `go_on` is time that passes, asleep or awake; `true_s` counts it, whatever the clocks say.
    """

    def __init__(self, wall: float = 1_800_000_000.0, boot: str = "boot 1", up: float = 300.0):
        self.true_s = 0.0
        self._wall, self._boot, self._up = wall, boot, up
        self._boots = 1

    def now(self) -> Instant:
        """Return this instant."""
        return Instant(self._wall, self._boot, self._up)

    def go_on(self, seconds: float) -> None:
        """Let time pass."""
        self.true_s += seconds
        self._wall += seconds
        if self._boot:
            self._up += seconds

    def set_wall(self, by_s: float) -> None:
        """Set the wall clock forward or, below 0, back."""
        self._wall += by_s

    def reboot(self, off_s: float) -> None:
        """Switch the machine off, and on again after `off_s`."""
        self.go_on(off_s)
        if self._boot:
            self._boots += 1
            self._boot, self._up = f"boot {self._boots}", 0.0


class FasterClock:
    """Another clock, `times` as fast from now on: a whole brew day in some minutes."""

    def __init__(self, clock: Clock, times: float):
        self._clock, self._times = clock, times
        self._start = clock.now()

    def now(self) -> Instant:
        """Return this instant."""
        start, real = self._start, self._clock.now()
        more = self._times - 1.0
        if real.boot and real.boot == start.boot:
            ahead = (real.up - start.up) * more
            return Instant(real.wall + ahead, real.boot, real.up + ahead)
        return Instant(real.wall + (real.wall - start.wall) * more, real.boot, real.up)


def now() -> Instant:
    """Return this instant by the machine's clocks."""
    return MachineClock().now()


@functools.cache
def _boot_id() -> str:
    """Return which boot this is, "" where there is no boot clock that counts sleep."""
    if not hasattr(time, "CLOCK_BOOTTIME"):
        return ""
    try:
        return _BOOT_ID.read_text(encoding="ascii").strip()
    except (OSError, ValueError):
        return ""
