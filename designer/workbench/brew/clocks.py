"""Where a brew day's time comes from: the machine's clocks.

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
