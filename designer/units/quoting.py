"""Repeating what was typed or read, in one line that any terminal can show."""

from __future__ import annotations

from designer.translation import tr

LONGEST_QUOTE = 60


def one_line(text: str) -> str:
    """Return the text without line breaks and signs that a terminal would take as orders."""
    spaced = " ".join(text.split())
    return "".join(sign if sign.isprintable() else "\ufffd" for sign in spaced)


def quoted(text: str, longest: int = LONGEST_QUOTE) -> str:
    """Return the text between quotation marks, its end cut off if it is long."""
    plain = one_line(text)
    shown = plain if len(plain) <= longest else f"{plain[: longest - 1]}…"
    return tr("“{name}”", name=shown)
