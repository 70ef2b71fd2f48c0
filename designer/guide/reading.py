"""A page of the guide read from its Markdown.

How a page is written: resources/guide/README.md. Whatever else Markdown can do is refused, so that
no page holds what one of its forms would leave out; HTML in it is text.

Markdown is read by markdown-it-py, which keeps to CommonMark, is plain Python, and needs but one
small package of its authors. Qt reads Markdown too, but gives a laid-out document instead of its
parts, and the command line does without Qt.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

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
    Span,
    Way,
    Words,
)

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.tree import SyntaxTreeNode

_NOTE, _CAUTION = "[!NOTE]", "[!CAUTION]"
_PAGE = re.compile(r"[a-z_]+\Z")
_SHOW = "show:"


@cache
def _markdown() -> MarkdownIt:
    from markdown_it import MarkdownIt  # loaded when a page is first read

    return MarkdownIt("commonmark", {"html": False}).enable("table").disable("entity")


def read_page(name: str, text: str) -> Page:
    """Return a page of its Markdown. Raises ValueError for what no page may hold, naming it."""
    from markdown_it.tree import SyntaxTreeNode

    nodes = SyntaxTreeNode(_markdown().parse(text)).children
    if not nodes or nodes[0].type != "heading" or nodes[0].tag != "h1":
        raise ValueError(f"{name}: a page begins with its title, # ...")
    try:
        title = "".join(each.text for each in _words(nodes[0].children[0]))
        return Page(name, title, _blocks(nodes[1:]))
    except ValueError as fault:
        raise ValueError(f"{name}: {fault}") from None


def _blocks(nodes: list[SyntaxTreeNode]) -> tuple[Block, ...]:
    return tuple(_block(each) for each in nodes)


def _block(node: SyntaxTreeNode) -> Block:
    match node.type:
        case "heading" if node.tag in ("h2", "h3"):
            return Heading(int(node.tag[1]), _words(node.children[0]))
        case "paragraph":
            return _paragraph(node.children[0])
        case "bullet_list":
            return Listing(tuple(_blocks(each.children) for each in node.children))
        case "ordered_list":
            first = int(node.attrs.get("start", 1))
            return Listing(tuple(_blocks(each.children) for each in node.children), first)
        case "table":
            return _grid(node)
        case "blockquote":
            return _note(node)
        case "fence" if node.info in ("", "formula"):
            lines = tuple(node.content.rstrip("\n").split("\n"))
            return Lines(lines, is_formula=bool(node.info))
    raise ValueError(f"a page of the guide has no {node.type} {node.info or node.tag}".rstrip())


def _paragraph(inline: SyntaxTreeNode) -> Paragraph | Picture:
    if len(inline.children) == 1 and inline.children[0].type == "image":
        image = inline.children[0]
        return Picture(str(image.attrs["src"]), image.content)
    return Paragraph(_words(inline))


def _grid(node: SyntaxTreeNode) -> Grid:
    rows = [
        tuple(_words(cell.children[0]) if cell.children else () for cell in row.children)
        for part in node.children
        for row in part.children
    ]
    return Grid(rows[0], tuple(rows[1:]))


def _note(node: SyntaxTreeNode) -> Note:
    blocks = _blocks(node.children)
    first = blocks[0]
    kind = first.words[0].text if isinstance(first, Paragraph) and first.words else ""
    for mark in (_NOTE, _CAUTION):
        if isinstance(first, Paragraph) and kind.startswith(mark):
            rest = Span(kind.removeprefix(mark).lstrip())
            words = tuple(each for each in (rest, *first.words[1:]) if each.text)
            return Note((Paragraph(words), *blocks[1:]), is_caution=mark == _CAUTION)
    raise ValueError(f"what is quoted begins with {_NOTE} or {_CAUTION}")


def _words(inline: SyntaxTreeNode) -> Words:
    joined: list[Span] = []
    for child in inline.children:
        span = _span(child)
        if joined and span.way is Way.PLAIN and joined[-1].way is Way.PLAIN:
            joined[-1] = Span(joined[-1].text + span.text)
        elif span.text:
            joined.append(span)
    return tuple(joined)


def _span(node: SyntaxTreeNode) -> Span:
    match node.type:
        case "text":
            if "](" in node.content:
                raise ValueError(
                    f"{node.content} is read as text: a target is written without "
                    "spaces, or between < and >"
                )
            return Span(node.content)
        case "softbreak":
            return Span(" ")
        case "code_inline":
            return Span(node.content, Way.TYPED)
        case "strong":
            return Span(_plain(node), Way.STRONG)
        case "em":
            return Span(_plain(node), Way.SCREEN)
        case "link":
            return _link(node)
    raise ValueError(f"text of the guide has no {node.type}")


def _plain(node: SyntaxTreeNode) -> str:
    return "".join(_span(each).text for each in node.children)


def _link(node: SyntaxTreeNode) -> Span:
    from urllib.parse import unquote

    target = unquote(str(node.attrs["href"]))
    if target.startswith(_SHOW):
        return Span(_plain(node), Way.SHOW, target.removeprefix(_SHOW))
    if _PAGE.match(target):
        return Span(_plain(node), Way.LINK, target)
    raise ValueError(f"a link leads to a page or to show:Page, not to {target}")
