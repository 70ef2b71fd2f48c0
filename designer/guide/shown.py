"""Blocks of a page with the words of the screen put into the reader's language."""

from __future__ import annotations

from dataclasses import replace

from designer.guide.blocks import (
    Block,
    Grid,
    Heading,
    Listing,
    Note,
    Paragraph,
    Span,
    Way,
    Words,
)
from designer.guide.screen_words import ScreenWords


def with_shown_words(blocks: tuple[Block, ...], said: ScreenWords | None) -> tuple[Block, ...]:
    """Return blocks in which each word of the screen is as `said`; None leaves them as written."""
    return blocks if said is None else tuple(_block(each, said) for each in blocks)


def _block(block: Block, said: ScreenWords) -> Block:
    if isinstance(block, (Heading, Paragraph)):
        return replace(block, words=_words(block.words, said))
    if isinstance(block, Listing):
        return replace(block, items=tuple(with_shown_words(each, said) for each in block.items))
    if isinstance(block, Note):
        return replace(block, blocks=with_shown_words(block.blocks, said))
    if isinstance(block, Grid):
        head, *rows = (
            tuple(_words(cell, said) for cell in row) for row in (block.head, *block.rows)
        )
        return Grid(head, tuple(rows))
    return block


def _words(words: Words, said: ScreenWords) -> Words:
    return tuple(_span(each, said) for each in words)


def _span(span: Span, said: ScreenWords) -> Span:
    if span.way is not Way.SCREEN:
        return span
    return replace(span, text=said.find(span.text) or span.text)
