"""How good the source of a row of the catalogue is, in a word, and whose the styles are.

The word stands in the row itself, in a column beside the source: none is told by how a source is
worded.
"""

from __future__ import annotations

from enum import StrEnum

from designer.translation import tr


class Standing(StrEnum):
    """How good the source of a row's figures is."""

    PUBLISHED = "published"
    """What the row says is printed in the sources that it names."""

    PARTLY = "partly published"
    """Yield, alpha acid or attenuation are; the source says which other figures are not."""

    PRACTICE = "common practice"
    """What brewers usually take; no publication is named."""

    MEMORY = "from memory"
    """As remembered of ingredients of its class; nothing was found to cite."""


STYLE_NUMBERS = (
    "Style names and numbers: BJCP Beer Style Guidelines 2021, © 2021 Beer Judge Certification "
    "Program, Inc. Newest edition: bjcp.org"
)
"""Whose the styles are; it stands as it is, in every language, where one is chosen or named."""


def source_words(standing: Standing, source: str) -> str:
    """Return where the figures of a row are from, and how good that is."""
    return tr(
        "Figures of the catalogue, {standing}: {source}", standing=tr(standing), source=source
    )
