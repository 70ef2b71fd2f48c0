"""Pages of the guide by words that stand on them."""

from __future__ import annotations

from functools import cache

from designer.guide.blocks import Page, spans_of
from designer.guide.pages import Guide


def pages_with(guide: Guide, typed: str) -> tuple[Page, ...]:
    """Return the pages on which all typed words stand, those with them in their title first."""
    words = typed.casefold().split()
    found = [page for page in guide.pages() if all(word in _text_of(page) for word in words)]
    return tuple(sorted(found, key=lambda page: not _is_titled(page, words)))


def _is_titled(page: Page, words: list[str]) -> bool:
    title = page.title.casefold()
    return all(word in title for word in words)


@cache
def _text_of(page: Page) -> str:
    return " ".join([page.title, *(span.text for span in spans_of(page.blocks))]).casefold()
