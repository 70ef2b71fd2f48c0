"""How this program is begun again: anew in its place, or for a window beside it."""

from __future__ import annotations

import sys


def words_of_program(*words: str) -> list[str]:
    """Return the words of a command that begins this program with words of its own.

    From a bundle it is the program itself, else the Python that runs it.
    """
    is_bundle = getattr(sys, "frozen", False)
    begun = [sys.executable] if is_bundle else [sys.executable, "-P", "-m", "designer"]
    return [*begun, *words]
