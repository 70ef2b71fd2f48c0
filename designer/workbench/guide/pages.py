"""The pages of the guide in a language, in their parts; what is not translated is in English.

A page is a file of resources/guide, `en/21_compose.md`: its number orders it, and the first digit
is its part. Pages that tell what the program knows itself are made of that.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from designer.resource_files import resource_path
from designer.translation import message
from designer.workbench.guide.blocks import Page
from designer.workbench.guide.glossary_page import glossary_page
from designer.workbench.guide.keys_page import keys_page
from designer.workbench.guide.reading import read_page
from designer.workbench.guide.screen_words import screen_words
from designer.workbench.guide.shown import with_shown_words

ENGLISH = "en"
PARTS = {
    "1": message("First steps"),
    "2": message("The pages of the program"),
    "3": message("The science"),
    "4": message("Safety and trouble"),
    "5": message("To look up"),
}
MADE: dict[str, Callable[[str], Page]] = {"51_keys": keys_page, "52_glossary": glossary_page}
"""Pages made of the program's own lists, in a language."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A page as the contents name it."""

    name: str
    part: str
    page: Page


class Guide:
    """The guide in a language."""

    def __init__(self, language: str, entries: tuple[Entry, ...]) -> None:
        self.language, self.entries = language, entries
        self._by_name = {each.name: each.page for each in entries}

    def page(self, name: str) -> Page | None:
        """Return a page by its name; None if there is none."""
        return self._by_name.get(name)

    def parts(self) -> Iterator[tuple[str, tuple[Entry, ...]]]:
        """Yield the title of each part, a sentence of the program, with its pages."""
        for key, title in PARTS.items():
            yield title, tuple(each for each in self.entries if each.part == key)

    def picture(self, name: str) -> Path | None:
        """Return the file of a picture in this language, or else in English; None without one."""
        for language in (self.language, ENGLISH):
            path = resource_path(f"guide/pictures/{language}/{name}")
            if path.is_file():
                return path
        return None


@cache
def guide(language: str) -> Guide:
    """Return the guide in a language, read once."""
    names = {path.stem for path in resource_path(f"guide/{ENGLISH}").glob("[0-9]*.md")}
    words = screen_words(language)
    entries = []
    for name in sorted(names | set(MADE)):
        if name in MADE:
            page = MADE[name](language)
        else:
            page = _read(language, name)
            page = replace(page, blocks=with_shown_words(page.blocks, words))
        entries.append(Entry(page.name, name[0], page))
    return Guide(language, tuple(entries))


def _read(language: str, name: str) -> Page:
    path = resource_path(f"guide/{language}/{name}.md")
    if not path.is_file():
        path = resource_path(f"guide/{ENGLISH}/{name}.md")
    return read_page(name.partition("_")[2], path.read_text(encoding="utf-8"))
