"""Pages of the guide that are made of the program's own lists: its keys and its glossary."""

from __future__ import annotations

from designer.guide.blocks import Block, Grid, Heading, Page, Paragraph, Span, Way, Words
from designer.library.glossary import headed, terms
from designer.translation import message, tr
from designer.workbench.keys import MENU_KEYS, PAGE_KEYS, does_said, keys_said

ABOUT_KEYS = message(
    "Everything can be done by keys alone. Menus show their keys beside their entries."
)
ABOUT_TERMS = message("Point at any of these words in the program and rest: its meaning is shown.")


def keys_page() -> Page:
    """Return all keys and what they do, in the language that is spoken."""
    of_menus = [(each.keys, each.does or each.text) for each in MENU_KEYS]
    blocks: tuple[Block, ...] = (
        Paragraph(_plain(tr(ABOUT_KEYS))),
        Heading(2, _plain(tr("On the pages"))),
        _keys(list(PAGE_KEYS)),
        Heading(2, _plain(tr("In the menus"))),
        _keys(of_menus),
    )
    return Page("keys", tr("Keys"), blocks)


def _keys(pairs: list[tuple[tuple[str, ...], str]]) -> Grid:
    rows = tuple((_strong(keys_said(keys)), _plain(does_said(does))) for keys, does in pairs)
    return Grid((_plain(tr("Key")), _plain(tr("What it does"))), rows)


def glossary_page() -> Page:
    """Return the glossary in the language that is spoken, in the order of its alphabet."""
    rows = []
    for each in terms():
        name = headed(each)
        others = [other for other in each.called[1:] if other not in name]
        said = [
            tr(each.meaning),
            *([tr("Also: {names}", names=f"{', '.join(others)}.")] if others else []),
            *([tr("Source: {source}", source=f"{each.source}.")] if each.source else []),
        ]
        rows.append((_strong(name), _plain(" ".join(said))))
    grid = Grid((_plain(tr("Term")), _plain(tr("Meaning"))), tuple(rows))
    return Page("glossary", tr("Glossary"), (Paragraph(_plain(tr(ABOUT_TERMS))), grid))


def _plain(text: str) -> Words:
    return (Span(text),)


def _strong(text: str) -> Words:
    return (Span(text, Way.STRONG),)
