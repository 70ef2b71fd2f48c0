"""Signs that nobody sees and nobody types on purpose: control characters and direction marks.

They come with what is pasted. A direction mark turns the words around it round, on the screen and
on paper; a control character is no part of a name. Tabs and line ends are no such marks.
"""

from __future__ import annotations

import re

from designer.translation import message

_MARKS = (
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f"  # C0 and C1 without tab and line ends
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u206f\ufeff\ufff9-\ufffb]"
)
_UNSEEN = "[\u00ad\u200b-\u200d\u2060-\u2064]"
DROPPED = message("Invisible direction and control characters were removed from the text.")


def without_control_characters(text: str) -> str:
    """Return the text without direction and control marks; the same text where it has none."""
    # None of the marks counts as printable, and patterns are dear to make as a recipe is opened.
    return text if text.isprintable() else re.sub(_MARKS, "", text)


def figures_only(text: str) -> str:
    """Return what was typed as a quantity without any sign that takes no room on the screen."""
    if text.isprintable():
        return text
    return re.sub(_UNSEEN, "", re.sub(_MARKS, "", text))
