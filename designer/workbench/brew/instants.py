"""Instants of a brew day by two clocks: the wall's, which may be set, and the machine's since boot.

The boot clock counts sleep and cannot be set, but starts anew at each boot; so each instant holds
the id of the boot too.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Instant:
    """One instant: wall clock in UTC seconds since 1970, seconds since boot, and which boot.

    `boot` is "" where the machine tells neither; then only the wall clock counts.
    """

    wall: float
    boot: str = ""
    up: float = 0.0
