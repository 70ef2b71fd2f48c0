"""Which system of units a text was typed in."""

from __future__ import annotations

import re
from functools import cache

from designer.recipe.kinds import KINDS


@cache
def _us_words() -> re.Pattern[str]:
    # Made when it is first asked for: only what is typed needs it.
    words = "|".join("|".join(each.us_words.split()) for each in KINDS.values() if each.us_words)
    return re.compile(rf"(?<![a-z])({words})(?![a-z])", re.IGNORECASE)


def is_in_us(text: str) -> bool:
    """Return whether a quantity was typed in US customary units."""
    return _us_words().search(text) is not None
