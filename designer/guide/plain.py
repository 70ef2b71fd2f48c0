"""A page of the guide, and its contents, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from designer.guide.blocks import (
    Block,
    Grid,
    Heading,
    Lines,
    Listing,
    Note,
    Page,
    Paragraph,
    Picture,
    Way,
    Words,
)
from designer.guide.pages import Guide
from designer.translation import labelled, tr

WIDTH = 80


def contents_text(guide: Guide) -> list[str]:
    """Return the contents as lines: each page by the name that the command takes, and its title."""
    longest = max(len(page.name) for page in guide.pages())
    lines: list[str] = []
    for part in guide.parts:
        lines += [*([""] if lines else []), part.title]
        lines += [f"  {page.name:{longest}}  {page.title}" for page in part.pages]
    return lines


def page_text(page: Page) -> list[str]:
    """Return a page as lines."""
    lines = [page.title, "=" * len(page.title)]
    for block in page.blocks:
        made = list(_lines(block, WIDTH))
        lines += ["", *made] if made else []
    return lines


def flat(words: Words) -> str:
    """Return words as text: words of the screen between quotes; what shows a page is left out."""
    return "".join(_said(each.text, each.way) for each in words if each.way is not Way.SHOW)


def _said(text: str, way: Way) -> str:
    return tr("“{name}”", name=text) if way is Way.SCREEN else text


def _lines(block: Block, width: int) -> Iterator[str]:
    match block:
        case Heading(words=words):
            title = flat(words)
            yield from (title, "-" * len(title))
        case Paragraph(words=words):
            yield from wrap(flat(words), width, break_on_hyphens=False)
        case Listing():
            yield from _listed(block, width)
        case Grid():
            yield from _rows(block, width)
        case Picture():
            return
        case Note(blocks=blocks, is_caution=is_caution):
            head = tr("Take care") if is_caution else tr("Worth knowing")
            yield from _indented([tr("{name}:", name=head)], "! " if is_caution else "| ")
            for each in blocks:
                made = list(_lines(each, width - 2))
                yield from _indented(made, "! " if is_caution else "| ")
        case Lines(lines=lines):
            yield from _indented(lines, "    ")


def _indented(lines: list[str] | tuple[str, ...], by: str) -> Iterator[str]:
    yield from (f"{by}{line}".rstrip() for line in lines)


def _listed(block: Listing, width: int) -> Iterator[str]:
    for place, item in enumerate(block.items):
        mark = f"{block.first + place}. " if block.first else "- "
        lines = [line for each in item for line in _lines(each, width - len(mark))]
        for number, line in enumerate(lines):
            yield f"{mark if number == 0 else ' ' * len(mark)}{line}"


def _rows(block: Grid, width: int) -> Iterator[str]:
    """Each row under the other, its cells beside each other while they fit, else headed."""
    rows = [[flat(cell) for cell in row] for row in (block.head, *block.rows)]
    across = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    if sum(across) + 2 * (len(across) - 1) <= width:
        for row in rows:
            cells = (f"{cell:{across[at]}}" for at, cell in enumerate(row))
            yield "  ".join(cells).rstrip()
        return
    head, *others = rows
    for number, row in enumerate(others):
        if number:
            yield ""
        for name, cell in zip(head, row, strict=True):
            said = labelled(name, cell) if name else cell
            yield from wrap(said, width, subsequent_indent="  ", break_on_hyphens=False)
