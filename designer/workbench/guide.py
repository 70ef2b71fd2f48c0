"""The guide in a language: what is written, and what the program's own lists tell."""

from __future__ import annotations

from functools import cache

from designer.guide.pages import Guide, read_guide
from designer.spoken_language import catalogue_if_any
from designer.translation import speaking
from designer.workbench.guide_lists import glossary_page, keys_page

MADE = {"51_keys": keys_page, "52_glossary": glossary_page}
"""Pages that are made of the program's own lists, by the name that a file of theirs would have."""


@cache
def guide(language: str) -> Guide:
    """Return the guide in a language, whatever the program speaks; read once."""
    with speaking(catalogue_if_any(f"program_{language}"), language):
        made = {name: page() for name, page in MADE.items()}
        return read_guide(language, made)
