"""Clocks of a brew day that a test drives."""

from __future__ import annotations

from designer.workbench.brew.instants import Instant


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
