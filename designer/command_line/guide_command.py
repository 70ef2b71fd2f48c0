"""`hobwort guide`: the guide's contents, a page as text, or all of it as a web page or PDF."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.as_chosen import paper_of
from designer.command_line.output import FINE, print_lines
from designer.guide.pages import Guide
from designer.guide.plain import contents_text, page_text
from designer.recipe.message import refused
from designer.spoken_language import catalogue_if_any, wanted_language
from designer.translation import speaking
from designer.units.quoting import one_line
from designer.workbench.guide import guide

WEB, PDF = (".html", ".htm"), ".pdf"


def carry_out(chosen: Namespace) -> int:
    """Print contents or a page, or write the whole guide and say where."""
    language = chosen.language or wanted_language()
    found = guide(language)
    if chosen.output is None:
        with speaking(catalogue_if_any(f"program_{language}"), language):
            print_lines(*_said(found, one_line(chosen.page or "")))
        return FINE
    return _write(found, chosen)


def _said(found: Guide, name: str) -> list[str]:
    if not name:
        return contents_text(found)
    page = found.page(name)
    if page is None:
        raise refused(
            "no-page-of-the-guide",
            "The guide has no page “{name}”. Its pages are: {pages}.",
            name=name,
            pages=", ".join(each.name for each in found.pages()),
        )
    return page_text(page)


def _write(found: Guide, chosen: Namespace) -> int:
    # What only a file needs.
    from designer.command_line.new_file import kind_of_output, write_out

    suffix = kind_of_output(chosen.output, (*WEB, PDF), chosen.format, force=chosen.force)
    with speaking(catalogue_if_any(f"program_{found.language}"), found.language):
        if suffix == PDF:
            # Only what is printed needs Qt.
            from designer.paper.plain_imports import import_qt

            import_qt()
            from designer.paper.guide_pages import guide_pdf

            content = guide_pdf(found, paper_of(chosen))
        else:
            from designer.guide.html import guide_html

            content = guide_html(found).encode("utf-8")
    write_out(chosen.output, content, one_line(chosen.output))
    return FINE
