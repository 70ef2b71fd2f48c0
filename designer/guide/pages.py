"""The pages of the guide in a language, in their parts; what is not translated is in English.

A page is a file of resources/guide, `en/21_compose.md`: its number orders it, and the first digit
is its part.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from designer.guide.blocks import Page
from designer.guide.reading import read_page
from designer.guide.screen_words import screen_words
from designer.guide.shown import with_shown_words
from designer.resource_files import resource_path
from designer.translation import message, tr

ENGLISH = "en"
PARTS = {
    "1": message("First steps"),
    "2": message("The pages of the program"),
    "3": message("The science"),
    "4": message("Safety and trouble"),
    "5": message("To look up"),
}


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the contents."""

    title: str
    pages: tuple[Page, ...]


class Guide:
    """The guide in a language."""

    def __init__(self, language: str, parts: tuple[Part, ...]) -> None:
        self.language, self.parts = language, parts
        self._by_name = {page.name: page for page in self.pages()}
        self._by_title = {page.title.casefold(): page for page in self.pages()}

    def pages(self) -> Iterator[Page]:
        """Yield all pages in order."""
        for part in self.parts:
            yield from part.pages

    def page(self, name: str) -> Page | None:
        """Return a page by its name, or by its title however that is written; None without one."""
        wanted = name.casefold()
        return self._by_name.get(wanted) or self._by_title.get(wanted)

    def picture(self, name: str) -> Path | None:
        """Return the file of a picture in this language, or else in English; None without one."""
        places = (
            resource_path(f"guide/pictures/{language}/{name}")
            for language in (self.language, ENGLISH)
        )
        return next((path for path in places if path.is_file()), None)


def read_guide(language: str, made: Mapping[str, Page]) -> Guide:
    """Return the guide of the files of a language, which is spoken, and of pages `made` beside."""
    written = {path.stem for path in resource_path(f"guide/{ENGLISH}").glob("[0-9]*.md")}
    said = screen_words(language)
    found: dict[str, list[Page]] = {key: [] for key in PARTS}
    for name in sorted(written | set(made)):
        page = made.get(name)
        if page is None:
            page = _read(language, name)
            page = replace(page, blocks=with_shown_words(page.blocks, said))
        found[name[0]].append(page)
    return Guide(language, tuple(Part(tr(PARTS[key]), tuple(of)) for key, of in found.items()))


def _read(language: str, name: str) -> Page:
    path = resource_path(f"guide/{language}/{name}.md")
    if not path.is_file():
        path = resource_path(f"guide/{ENGLISH}/{name}.md")
    return read_page(name.partition("_")[2], path.read_text(encoding="utf-8"))
