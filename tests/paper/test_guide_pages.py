"""The guide as PDF: contents with the right numbers, each page's text, headings never alone."""

import io
import re

import pytest
from pypdf import PdfReader
from PySide6.QtGui import QRawFont

from designer.guide.blocks import Grid, Page, Span, Way, spans_of
from designer.paper.guide_pages import guide_pdf, lay_out_guide
from designer.paper.guide_rows import GuideRows
from designer.paper.pagination import filled
from designer.paper.typeface import FILES
from designer.resource_files import resource_path
from designer.spoken_language import LANGUAGES
from designer.workbench.guide import guide


@pytest.fixture(scope="module")
def printed(qapp):
    return PdfReader(io.BytesIO(guide_pdf(guide("en"), "a4")))


@pytest.fixture(scope="module")
def texts(printed):
    return [" ".join(page.extract_text().split()) for page in printed.pages]


def test_contents_name_the_page_on_which_each_part_begins(texts):
    for page in guide("en").pages():
        at = int(re.search(rf"{re.escape(page.title)} (\d+)", texts[0])[1])
        assert texts[at - 1].startswith(page.title)
        assert texts[at - 1].endswith(f"{page.title} {at}"), "its foot"
        assert not texts[at - 2].endswith(f"{page.title} {at - 1}"), "it begins here"


def test_every_page_has_text_and_its_number(texts):
    assert all(len(text) > 100 for text in texts)
    assert all(text.endswith(str(number)) for number, text in enumerate(texts, 1))


def test_no_heading_stands_at_the_foot_of_a_page(qapp):
    laid = lay_out_guide(guide("en"), "letter")
    assert [page[-1].row.keep for page in laid.rows] == [False] * len(laid)


@pytest.mark.parametrize("count", [2, 3, 8])
def test_where_a_table_goes_over_a_page_two_of_its_rows_at_least_stand_on_either(qapp, count):
    line = (Span("water"),), (Span("7.2 L"),)
    page = Page("tables", "Tables", (Grid(line, (line,) * count),))
    title, *table = GuideRows(guide("en"), 400.0).of_page(page)
    step = table[1].height + table[1].gap
    for share in range(10):
        room = title.height + title.gap + (4 + share / 2) * step
        rows = [
            sum(each.row in table[1:] for each in page) for page in filled((title, *table), room)
        ]
        assert sum(rows) == count
        assert min(each for each in rows if each) >= 2, (share, rows)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_typeface_has_every_sign_of_the_guide(qapp, language):
    raw = QRawFont(str(resource_path(FILES[0])), 12.0)
    signs = {
        sign
        for page in guide(language).pages()
        for span in spans_of(page.blocks)
        for sign in span.text
        if not sign.isspace()  # any space is made of the plain one
    }
    assert {sign for sign in signs if not raw.supportsCharacter(ord(sign))} == set()


def test_contents_and_links_of_the_pdf_lead_to_the_pages_of_the_guide(printed, texts):
    found = guide("en")
    begins = {
        name: printed.get_destination_page_number(place)
        for name, place in printed.named_destinations.items()
    }
    assert set(begins) == {each.name for each in found.pages()}
    for page in found.pages():
        assert texts[begins[page.name]].startswith(page.title)
    links = [
        [each.get_object()["/Dest"] for each in page.get("/Annots") or ()] for page in printed.pages
    ]
    assert set(links[0]) == set(begins), "the contents lead to every page"
    wanted = [
        (begins[page.name], span.target)
        for page in found.pages()
        for span in spans_of(page.blocks)
        if span.way is Way.LINK
    ]
    assert len(wanted) > 15
    for first, target in wanted:
        assert any(target in each for each in links[first : first + 4]), target
