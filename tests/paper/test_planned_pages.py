"""The sheet of a plan on paper: few pages, nothing cut, a box for each time, a card."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from designer.brewday.outlook import look_ahead
from designer.paper.pages import TOP, lay_out, pdf_bytes
from designer.paper.pieces import BOX_APART
from designer.sheet.blocks import Form
from designer.sheet.content import brew_sheet
from designer.units import ShownUnits
from tests.sheet import plans

from .pictures import assert_within_margins, page_images


def sheet_of(name, units="metric", **wishes):
    recipe = plans.ALL[name]()
    outlook = look_ahead(recipe, ranges=False)
    return brew_sheet(
        recipe, outlook, shown=ShownUnits(units), start=None, brew_date=None, **wishes
    )


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", ["two buckets", "two boils", "two boils into one"])
def test_the_kit_in_two_buckets_or_two_boils_takes_two_pages(qapp, name, paper):
    assert len(lay_out(sheet_of(name), paper)) == 2
    assert len(lay_out(sheet_of(name, variant="bench"), paper)) == 1


def test_pots_at_once_take_three_pages_and_a_card_of_two(qapp):
    """Two days run beside each other: each pot has all of its steps."""
    assert len(lay_out(sheet_of("two pots at once"), "a4")) == 3
    assert len(lay_out(sheet_of("two pots at once", variant="bench"), "a4")) == 2


@pytest.mark.parametrize("name", plans.ALL)
@pytest.mark.parametrize(
    ("language", "units", "variant", "large", "paper"),
    [
        ("en", "both", "full", False, "letter"),
        ("de", "both", "bench", False, "a4"),
        ("fr", "us", "full", True, "letter"),
        ("fr", "metric", "full", False, "a4"),
    ],
)
def test_no_plan_runs_into_the_margins_or_is_cut(
    qapp, name, language, units, variant, large, paper
):
    sheet = sheet_of(name, units, language=language, variant=variant, form=Form(large=large))
    for image in page_images(sheet, paper, 72.0):
        assert_within_margins(image)
    pages = lay_out(sheet, paper)
    room = (pages.height - 2.0 * TOP - pages.foot) / pages.zoom
    for page in pages.rows:
        assert all(placed.top + placed.height <= room + 1.0 for placed in page)


def test_both_times_and_both_blanks_are_on_paper(qapp):
    reader = PdfReader(io.BytesIO(pdf_bytes(sheet_of("two boils"), "a4")[0]))
    text = " ".join(" ".join(page.extract_text() for page in reader.pages).split())
    assert "09:00 11:28" in text
    assert "Do all of this twice" in text
    assert "Fermenter 1, 12 L" in text
    assert "Fermenter 2, 12 L" in text


def test_a_step_has_a_box_in_the_column_of_each_time(qapp, monkeypatch):
    drawn = []
    monkeypatch.setattr(
        "designer.paper.pieces.paint_box", lambda painter, x, y: drawn.append((x, y))
    )
    sheet = sheet_of("two boils")
    for image in page_images(sheet, "a4", 20.0):
        assert not image.isNull()
    steps = [each for each in sheet.steps if len(each.turns) == 2]
    pairs = [(x, y) for x, y in drawn if (x + BOX_APART, y) in drawn]
    assert len(pairs) >= len(steps)
