"""What a page of the guide is made of, whatever shows it: window, web page, paper or text.

A word on the screen stands here in English, as the program's sentence has it; it is put into the
reader's language where the page is read (`screen_words.py`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias


class Way(StrEnum):
    """How a piece of text is meant."""

    PLAIN = "plain"
    STRONG = "strong"
    SCREEN = "screen"
    TYPED = "typed"
    LINK = "link"
    SHOW = "show"


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of text.

    A link has the page of the guide that it leads to as its `target`, what shows a page of the
    program that page's English name. Nothing leads out of the guide.
    """

    text: str
    way: Way = Way.PLAIN
    target: str = ""


Words: TypeAlias = tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading below the title of the page: 2 or 3."""

    level: int
    words: Words


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    words: Words


@dataclass(frozen=True, slots=True)
class Listing:
    """A list; one that is `first` numbered so counts from there, 0 is not numbered."""

    items: tuple[tuple[Block, ...], ...]
    first: int = 0


@dataclass(frozen=True, slots=True)
class Grid:
    """A table with a head."""

    head: tuple[Words, ...]
    rows: tuple[tuple[Words, ...], ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture by the name of its file, with what is seen on it in words."""

    name: str
    words: str


@dataclass(frozen=True, slots=True)
class Note:
    """Something beside the text; a caution says what can hurt."""

    blocks: tuple[Block, ...]
    is_caution: bool


@dataclass(frozen=True, slots=True)
class Lines:
    """Lines that stand as they are: an equation, or what is typed at a command line."""

    lines: tuple[str, ...]
    is_formula: bool


Block: TypeAlias = Heading | Paragraph | Listing | Grid | Picture | Note | Lines


@dataclass(frozen=True, slots=True)
class Page:
    """A page: the name by which it is called, its title, what stands on it."""

    name: str
    title: str
    blocks: tuple[Block, ...]


def spans_of(blocks: tuple[Block, ...]) -> Iterator[Span]:
    """Yield all pieces of text of blocks, in order."""
    for block in every_block(blocks):
        match block:
            case Heading(words=words) | Paragraph(words=words):
                yield from words
            case Grid(head=head, rows=rows):
                yield from (span for row in (head, *rows) for cell in row for span in cell)
            case Picture(words=said):
                yield Span(said)
            case Lines(lines=lines):
                yield from (Span(line) for line in lines)


def pictures_of(blocks: tuple[Block, ...]) -> Iterator[str]:
    """Yield the names of the pictures among blocks, in order."""
    yield from (each.name for each in every_block(blocks) if isinstance(each, Picture))


def every_block(blocks: tuple[Block, ...]) -> Iterator[Block]:
    """Yield blocks, and behind each that holds others these."""
    for block in blocks:
        yield block
        if isinstance(block, Listing):
            for item in block.items:
                yield from every_block(item)
        elif isinstance(block, Note):
            yield from every_block(block.blocks)
