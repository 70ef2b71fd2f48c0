"""Steps at the stove as a log needs them: for tests that are about the log alone."""

from __future__ import annotations

from designer.sheet.stove import StoveStep

KEYS = ("fill", "heat", "steep", "boil", "hops", "cool", "pitch")


def step(key: str, minutes: float = 0.0) -> StoveStep:
    return StoveStep(
        key, key, "", "", key.capitalize(), (), minutes, "", "", None, boil=1, fermenter=0, on_day=0
    )


STEPS = tuple(step(key, 10.0 * at) for at, key in enumerate(KEYS))
