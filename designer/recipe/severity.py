"""How grave a doubt about a recipe is."""

from __future__ import annotations

from enum import StrEnum


class Severity(StrEnum):
    """How grave a finding is, the worst first: do not brew so, take care, worth knowing."""

    STOP = "stop"
    CARE = "care"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """Its place in order: 0 for the worst."""
        return tuple(Severity).index(self)
