"""How good the source of a row of the catalogue is, in a word, and whose the styles are.

The word stands in the row itself, in a column beside the source: none is told by how a source is
worded.

A source is a row of parts with semicolons between them. Those that are words of our own, such as
"colour from memory", are sentences of the program and are said in its language; author and title
stay as they are printed, and of what follows them what comes again and again is said in it too.
"""

from __future__ import annotations

import re
from enum import StrEnum
from functools import partial

from designer.translation import message, parted, spoken, tr


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


_BETWEEN = "; "
_COMES_AGAIN = tuple(
    (re.compile(pattern), said)
    for pattern, said in (
        (r"\bas reprinted\b", message("as reprinted")),
        (r"\b(?P<years>\d+)-year range\b", message("range of {years} years")),
        (r"\b(?P<years>\d+)-year mean\b", message("mean of {years} years")),
        (r"\bmean above(?= \d)", message("mean above")),
        (r"\bmean(?= \d)", message("mean")),
        (r"\bcrop of (?P<year>\d{4})\b", message("crop of {year}")),
        (r"\(US crop\)", message("(US crop)")),
        (r"\(dry matter\)", message("(in dry matter)")),
        (r"\bgrown in Oregon\b", message("grown in Oregon")),
        (r"\bextract(?= 1\.)", message("extract")),
        (r"\bcolour(?= \d)", message("colour")),
        (r"\babout(?= \d)", message("about")),
        (r"\bhigh \((?P<range>[\d-]+ %)\) attenuation", message("high ({range}) attenuation")),
        (r"\blow \((?P<range>[\d-]+ %)\) attenuation", message("low ({range}) attenuation")),
        (r"\bmedium \((?P<range>[\d-]+ %)\) attenuation", message("medium ({range}) attenuation")),
        (
            r"\blow to high \((?P<range>[\d-]+ %)\) attenuation",
            message("low to high ({range}) attenuation"),
        ),
        (
            r"\bmedium to high \((?P<range>[\d-]+ %)\) attenuation",
            message("medium to high ({range}) attenuation"),
        ),
    )
)
"""What stands behind authors and titles, and how it is said: the longer before its parts."""


def phrases_of(source: str) -> list[str]:
    """Return the parts of a source that are words of our own: they begin with no name."""
    return [each for each in source.split(_BETWEEN) if each and not _is_cited(each)]


def _is_cited(part: str) -> bool:
    return part[0].isupper() or part[0] == "'"


def source_said(source: str) -> str:
    """Return a source in the language that is spoken."""
    if spoken() == "en":
        return source
    parts = source.split(_BETWEEN)
    return parted(_cited_said(each) if _is_cited(each) else tr(each) for each in parts if each)


def _cited_said(part: str) -> str:
    for pattern, said in _COMES_AGAIN:
        part = pattern.sub(partial(_put_in, said), part)
    return part


def _put_in(said: str, found: re.Match[str]) -> str:
    return tr(said, **found.groupdict())


def source_words(standing: Standing, source: str) -> str:
    """Return where the figures of a row are from, and how good that is."""
    return tr(
        "Figures of the catalogue, {standing}: {source}",
        standing=tr(standing),
        source=source_said(source),
    )
