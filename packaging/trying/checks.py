"""What is as it should be and what is not, said as it is found."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable

failed: list[str] = []
"""What was not as it should be."""


def say(what: str) -> None:
    """Say what is tried now."""
    sys.stdout.write(f"{what}\n")
    sys.stdout.flush()


def check(what: str, is_so: object, why: object = "") -> None:
    """Say whether something is as it should be, and remember it where not."""
    say(f"  {'ok    ' if is_so else 'FAILED'} {what}")
    if not is_so:
        failed.append(what)
        say(f"         {str(why)[-600:]}")


def until(holds: Callable[[], bool], longest_s: float) -> bool:
    """Wait until something holds; return whether it came to."""
    ends = time.monotonic() + longest_s
    while time.monotonic() < ends:
        if holds():
            return True
        time.sleep(0.005)
    return False
