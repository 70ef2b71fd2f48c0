"""Which units are shown: a preference of the brewer, never a conversion of the recipe."""

from __future__ import annotations

from enum import StrEnum


class ShownUnits(StrEnum):
    """Metric, US customary, or both side by side."""

    METRIC = "metric"
    US = "us"
    BOTH = "both"
