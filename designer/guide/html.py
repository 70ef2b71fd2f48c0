"""Pages of the guide as HTML: for the reader in the window, and as one file that stands alone.

The file needs no script and no network: style and pictures are in it. It is well-formed XML too.
Amounts, equations and what is typed keep their direction in a language that is written from the
right.
"""

from __future__ import annotations

import base64
from collections.abc import Callable
from dataclasses import dataclass
from html import escape

from designer import __version__
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
from designer.guide.pages import Guide
from designer.resource_files import resource_path
from designer.translation import tr

FROM_THE_RIGHT = ("ar", "fa", "he", "ur")


@dataclass(frozen=True)
class Form:
    """What differs between window and file: where a picture is, where a link leads.

    Each returns "" for what is left out; headings of a page are `below` so many levels.
    """

    picture: Callable[[str], str]
    link: Callable[[Span], str]
    below: int = 0


def page_html(page: Page, form: Form) -> str:
    """Return a page as HTML, its title first."""
    level = 1 + form.below
    title = f"<h{level}>{escape(page.title)}</h{level}>"
    return "\n".join([title, *(_block(each, form) for each in page.blocks)])


def guide_html(guide: Guide) -> str:
    """Return the whole guide as one file of HTML, in the language that is spoken."""
    form = Form(lambda name: _data(guide, name), _within_the_file, below=1)
    title = tr("Hobwort {version}: guide", version=__version__)
    direction = "rtl" if guide.language in FROM_THE_RIGHT else "ltr"
    style = resource_path("guide/guide.css").read_text(encoding="utf-8")
    pages = "\n".join(
        f'<section id="{page.name}">\n{page_html(page, form)}\n</section>' for page in guide.pages()
    )
    return (
        f'<!DOCTYPE html>\n<html lang="{guide.language}" dir="{direction}">\n<head>\n'
        '<meta charset="utf-8"/>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1"/>\n'
        '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; '
        "img-src data:; style-src 'unsafe-inline'\"/>\n"
        f"<title>{escape(title)}</title>\n<style>\n{style}</style>\n</head>\n<body>\n"
        f"<h1>{escape(title)}</h1>\n{_contents(guide)}\n{pages}\n</body>\n</html>\n"
    )


def _contents(guide: Guide) -> str:
    parts = (
        f"<p>{escape(part.title)}</p>\n<ul>"
        + "".join(
            f'<li><a href="#{page.name}">{escape(page.title)}</a></li>' for page in part.pages
        )
        + "</ul>"
        for part in guide.parts
    )
    return f'<nav aria-label="{escape(tr("Contents"))}">\n' + "\n".join(parts) + "\n</nav>"


def _data(guide: Guide, name: str) -> str:
    path = guide.picture(name)
    if path is None:
        return ""
    return f"data:image/png;base64,{base64.b64encode(path.read_bytes()).decode('ascii')}"


def _within_the_file(span: Span) -> str:
    return "" if span.way is Way.SHOW else f"#{span.target}"


def _block(block: Block, form: Form) -> str:
    match block:
        case Heading(level=level, words=words):
            tag = f"h{level + form.below}"
            return f"<{tag}>{_words(words, form)}</{tag}>"
        case Paragraph(words=words):
            said = _words(words, form)
            return f"<p>{said}</p>" if said else ""
        case Listing():
            return _listing(block, form)
        case Grid(head=head, rows=rows):
            return _grid(head, rows, form)
        case Picture(name=name, words=told):
            return _picture(form.picture(name), told)
        case Note():
            return _note(block, form)
        case Lines(lines=lines, is_formula=is_formula):
            kind = "formula" if is_formula else "typed"
            return f'<pre class="{kind}" dir="ltr">{escape(chr(10).join(lines))}</pre>'


def _listing(block: Listing, form: Form) -> str:
    items = "".join(f"<li>{_inside(item, form)}</li>" for item in block.items)
    if not block.first:
        return f"<ul>{items}</ul>"
    start = f' start="{block.first}"' if block.first > 1 else ""
    return f"<ol{start}>{items}</ol>"


def _inside(blocks: tuple[Block, ...], form: Form) -> str:
    """The blocks of an item: a single paragraph has no gap around it."""
    if len(blocks) == 1 and isinstance(blocks[0], Paragraph):
        return _words(blocks[0].words, form)
    return "".join(_block(each, form) for each in blocks)


def _grid(head: tuple[Words, ...], rows: tuple[tuple[Words, ...], ...], form: Form) -> str:
    heads = "".join(f'<th scope="col">{_words(cell, form)}</th>' for cell in head)
    body = "".join(
        "<tr>" + "".join(f"<td>{_words(cell, form)}</td>" for cell in row) + "</tr>\n"
        for row in rows
    )
    return f"<table>\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{body}</tbody>\n</table>"


def _picture(source: str, told: str) -> str:
    if not source:
        return f'<p class="told">{escape(told)}</p>'
    return (
        f'<p class="picture"><img src="{escape(source)}" alt="{escape(told)}"/></p>\n'
        f'<p class="told">{escape(told)}</p>'
    )


def _note(block: Note, form: Form) -> str:
    kind, head = ("caution", tr("Take care")) if block.is_caution else ("note", tr("Worth knowing"))
    inside = "".join(_block(each, form) for each in block.blocks)
    return (
        f'<table class="{kind}" width="100%"><tbody><tr><td><p><b>{escape(head)}</b></p>'
        f"{inside}</td></tr></tbody></table>"
    )


def _words(words: Words, form: Form) -> str:
    return "".join(_span(each, form) for each in words)


def _span(span: Span, form: Form) -> str:
    text = escape(span.text)
    match span.way:
        case Way.STRONG:
            return f"<b>{text}</b>"
        case Way.SCREEN:
            return f'<b class="screen">{text}</b>'
        case Way.TYPED:
            return f'<code dir="ltr">{text}</code>'
        case Way.LINK | Way.SHOW:
            target = form.link(span)
            if span.way is Way.SHOW and not target:
                return ""
            return f'<a href="{escape(target)}">{text}</a>' if target else text
    return text
