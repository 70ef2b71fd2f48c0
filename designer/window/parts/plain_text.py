"""What a brewer typed, shown as typed: Qt takes marks in it for headings, pictures and keys."""

from __future__ import annotations

import re

TIP_WIDTH = 80
"""Signs in a line of a tip."""


def tip(text: str) -> str:
    """Return a text for a tip: one that Qt could take for rich text is shown sign by sign."""
    if "<" not in text and "&lt;" not in text:
        return text
    return f"<qt>{as_signs(text)}</qt>".replace("\n", "<br>")


def as_signs(text: str) -> str:
    """Return a text that stands sign by sign within rich text, between its marks."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def unbroken(text: str) -> str:
    """Return a text that breaks into lines, with each figure beside its unit."""
    return re.sub(r"(?<=\d) (?=[\w°%])", "\u00a0", text)


def long_tip(text: str) -> str:
    """Return a text of sentences for a tip, in lines: Qt breaks none that is not rich text."""
    # Long tips are shown to whoever rests on a name: not loaded with the first picture.
    from textwrap import wrap

    return tip("\n".join(part for line in text.split("\n") for part in wrap(line, TIP_WIDTH)))


def caption(text: str) -> str:
    """Return a text for a button, a menu or a tab, where a single & marks a key."""
    return text.replace("&", "&&")


def as_read(caption: str) -> str:
    """Return what is read on a button or in a menu of that caption."""
    return caption.replace("&&", "\0").replace("&", "").replace("\0", "&")
