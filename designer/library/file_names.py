"""Names of recipes as files can bear them on every system."""

from __future__ import annotations

import unicodedata

LONGEST_NAME, MOST_BYTES = 400, 180
DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10)))
)


def file_name(name: str) -> str:
    """Return a recipe's name as a file can bear it on every system, without an ending.

    Letters, their marks and digits of every script stay; it is never empty, never longer in bytes
    than any file system takes, begins with no sign that a command would take for an option, and is
    none of the names that Windows keeps for devices.
    """
    whole = unicodedata.normalize("NFC", name[:LONGEST_NAME])
    words = "".join(map(_borne, whole)).lower().split()
    cut = "_".join(words).encode("utf-8")[:MOST_BYTES].decode("utf-8", errors="ignore")
    kept = cut.strip("-_")
    return f"recipe_{kept}" if kept in DEVICES else kept or "recipe"


def _borne(sign: str) -> str:
    """Return what becomes of one sign: signs that cannot be seen go, others part words."""
    kind = unicodedata.category(sign)
    if kind[0] in "LMN" or sign in "-_":
        return sign
    return "" if kind == "Cf" else " "
