"""Titles and headings of the pages of the guide, without reading the pages themselves."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from designer.guide.pages import ENGLISH
from designer.resource_files import resource_path
from designer.translation import tr

_LINES = "```"
"""Between such lines stands what is no text: equations and what is typed."""


class Headed(NamedTuple):
    """A page: the name by which it is called, its title, the headings on it."""

    page: str
    title: str
    headings: tuple[str, ...]


@cache
def headed_pages(language: str) -> tuple[Headed, ...]:
    """Return all pages of the guide in a language, which is spoken, in order.

    No heading of the guide has a word of the screen in it, so each stands as it is written.
    """
    folder = resource_path(f"guide/{ENGLISH}")
    written = tuple(_headed(language, path.name) for path in sorted(folder.glob("[0-9]*.md")))
    return (
        *written,
        Headed("keys", tr("Keys"), (tr("On the pages"), tr("In the menus"))),
        Headed("glossary", tr("Glossary"), ()),
    )


def _headed(language: str, file: str) -> Headed:
    path = resource_path(f"guide/{language}/{file}")
    if not path.is_file():
        path = resource_path(f"guide/{ENGLISH}/{file}")
    found, is_text = [], True
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith(_LINES):
            is_text = not is_text
        elif is_text and line.startswith("#"):
            found.append(line.lstrip("#").strip())
    name = file.removesuffix(".md").partition("_")[2]
    return Headed(name, found[0], tuple(found[1:]))
