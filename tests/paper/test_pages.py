"""The sheet on paper: pages, sizes, fonts, text in reading order, nothing cut or left alone."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtPrintSupport import QPrinter

from designer.brewday.outlook import look_ahead
from designer.errors import DesignerError
from designer.library.recipe_file import load
from designer.paper.pages import (
    LARGE_PRINT,
    lay_out,
    pdf_bytes,
    print_sheet,
    write_pdf,
)
from designer.paper.typesetter import typesetters_for
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Stage, When
from designer.resource_files import resource_path
from designer.sheet.blocks import Form, Item, SideBySide, Steps, Table
from designer.sheet.content import brew_sheet
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.spoken_language import LANGUAGES
from designer.units import ShownUnits

from .pictures import assert_within_margins, page_images

EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")
A4, LETTER = (595.0, 842.0), (612.0, 792.0)


def _recipe(name):
    return load(resource_path(f"examples/{name}.hobwort"))


def _sheet(recipe, units="metric", variant="full"):
    return brew_sheet(
        recipe,
        look_ahead(recipe),
        shown=ShownUnits(units),
        start=None,
        brew_date=None,
        variant=variant,
    )


def _plain(text):
    return re.sub(r"\s+", " ", text.replace("\u00a0", " "))


def _words_of(reader):
    return _plain(" ".join(page.extract_text() for page in reader.pages))


@pytest.fixture
def porter_sheet(qapp):
    return _sheet(_recipe("harbour_lamp_porter"))


@pytest.fixture
def long_recipe():
    """Sixty lines, all hops of one minute and all else of one stage: the worst to break."""
    recipe = _recipe("harbour_lamp_porter")
    boil = When(Stage.BOIL, "boil 10 min", 10.0)
    hops = tuple(replace(recipe.hops[0], name=f"Hop number {n}", when=boil) for n in range(40))
    malts = tuple(
        replace(recipe.fermentables[2], name=f"Grain with a rather long name, number {n}")
        for n in range(20)
    )
    return with_line_ids(replace(recipe, hops=hops, fermentables=malts, notes="On and on. " * 600))


@pytest.mark.parametrize("units", ["metric", "us", "both"])
@pytest.mark.parametrize(("paper", "size"), [("a4", A4), ("letter", LETTER)])
@pytest.mark.parametrize("name", EXAMPLES)
def test_demo_recipes_take_two_pages_of_either_paper(qapp, name, paper, size, units):
    content, count = pdf_bytes(_sheet(_recipe(name), units), paper)
    reader = PdfReader(io.BytesIO(content))
    assert count == len(reader.pages) == 2
    for page in reader.pages:
        assert float(page.mediabox.width) == pytest.approx(size[0], abs=1.0)
        assert float(page.mediabox.height) == pytest.approx(size[1], abs=1.0)


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", EXAMPLES)
def test_the_card_is_one_page_and_the_sheet_two_in_any_language_on_any_paper(qapp, name, language):
    recipe = _recipe(name)
    outlook = look_ahead(recipe)
    for units in ShownUnits:
        for variant, count in (("bench", 1), ("full", 2)):
            sheet = brew_sheet(
                recipe, outlook, shown=units, start=None, brew_date=None, variant=variant,
                language=language,
            )  # fmt: skip
            for paper in ("a4", "letter"):
                assert len(lay_out(sheet, paper)) == count, (units, variant, paper)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_bench_card_is_one_page(qapp, name):
    for units in ("metric", "us", "both"):
        for paper in ("a4", "letter"):
            assert len(lay_out(_sheet(_recipe(name), units, "bench"), paper)) == 1


@pytest.mark.parametrize("variant", ["full", "bench"])
def test_steps_are_set_in_ten_points_at_the_least_and_in_large_print_in_fourteen(qapp, variant):
    sheet = _sheet(_recipe("slipway_bitter"), "both", variant)
    large = replace(sheet, form=Form(large=True))
    assert min(setter.body for setter in typesetters_for(sheet, 5000.0)) >= 10.0
    assert min(setter.body for setter in typesetters_for(large, 5000.0)) * LARGE_PRINT >= 14.0
    assert len(lay_out(large, "letter")) > len(lay_out(sheet, "letter"))


def test_large_print_is_large_on_the_page(porter_sheet):
    """The size of type in which a step is printed, read back from the PDF."""
    for large, least in ((False, 10.0), (True, 14.0)):
        content, _ = pdf_bytes(replace(porter_sheet, form=Form(large=large)), "a4")
        assert _size_of("Lift the bag", PdfReader(io.BytesIO(content))) >= least - 0.05


def _size_of(words, reader):
    """The points of the type that words are set in, all scales taken into account."""
    found = []

    def visit(text, place, matrix, font, size):
        if words in _plain(text):
            found.append(abs(size * matrix[3] * place[3]))

    for page in reader.pages:
        page.extract_text(visitor_text=visit)
    return found[0]


def test_a_shop_s_name_stands_at_the_head_for_its_customer(qapp):
    recipe = _recipe("harbour_lamp_porter")
    sheet = brew_sheet(
        recipe, look_ahead(recipe), shown=ShownUnits.METRIC, start=None, brew_date=None,
        shop="Quay Street Homebrew\n",
    )  # fmt: skip
    reader = PdfReader(io.BytesIO(pdf_bytes(sheet, "a4")[0]))
    first, second = (_plain(page.extract_text()) for page in reader.pages)
    assert first.index("Quay Street Homebrew") < first.index("Harbour Lamp Porter")
    assert "Quay Street" not in second
    assert '<p class="shop">Quay Street Homebrew</p>' in sheet_html(sheet)
    assert sheet_text(sheet).startswith("Quay Street Homebrew\n")


def test_every_page_has_the_name_and_its_number_of_all(porter_sheet):
    reader = PdfReader(io.BytesIO(pdf_bytes(porter_sheet, "a4")[0]))
    for number, page in enumerate(reader.pages, 1):
        assert f"Harbour Lamp Porter · page {number} of 2" in _plain(page.extract_text())
    assert reader.metadata.title == "Harbour Lamp Porter"


def test_all_fonts_are_embedded(porter_sheet):
    reader = PdfReader(io.BytesIO(pdf_bytes(porter_sheet, "a4")[0]))
    found = 0
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            descendant = font.get_object()["/DescendantFonts"][0].get_object()
            described = descendant["/FontDescriptor"].get_object()
            assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(described)
            found += 1
    assert found >= 2


def test_text_can_be_selected_in_reading_order(porter_sheet):
    words = _words_of(PdfReader(io.BytesIO(pdf_bytes(porter_sheet, "a4")[0])))
    order = [
        "Harbour Lamp Porter", "Original gravity (OG)", "Buy", "Weigh out", "Water, the day before",
        "Brew day", "09:00", "Crystal malt 60 °L", "60 min left",
        "Challenger", "15 min left", "5 min left", "Carrageenan finings", "0 min left",
        "Fill the sample jar", "To the reading add", "Dry English ale yeast.", "Ferment", "Day 14",
        "table sugar (or", "Notes",
    ]  # fmt: skip
    at = 0
    for each in order:
        found = words.find(each, at)
        assert found >= 0, each
        at = found


def test_sixty_lines_are_all_on_paper_and_none_is_cut(qapp, long_recipe):
    sheet = _sheet(long_recipe)
    content, count = pdf_bytes(sheet, "letter")
    words = _words_of(PdfReader(io.BytesIO(content)))
    assert count > 2
    for line in (*long_recipe.hops, *long_recipe.fermentables):
        assert len(re.findall(re.escape(line.name) + r"\b", words)) >= 3, (
            line.name
        )  # buy, weigh, step
    assert words.count("On and on.") == 600
    pages = lay_out(sheet, "letter")
    for page in pages.rows:
        for placed in page:
            assert placed.top + placed.height <= pages.height - 2 * 270.0 + 1.0


def test_the_bill_is_on_paper_in_the_units_shown(qapp):
    sheet = _sheet(_recipe("foghorn_wheat"), "us")
    words = _words_of(PdfReader(io.BytesIO(pdf_bytes(sheet, "letter")[0])))
    for amount in ("3.3 lb", "2.25 lb", "0.75 oz", "0.5 oz", "11.5 g", "175 °F"):
        assert amount in words
    lists = next(b for s in sheet.sections for b in s.blocks if isinstance(b, SideBySide))
    assert all(isinstance(item, Item) for item in lists.left[0].items)


def test_what_is_shown_is_what_prints(porter_sheet, tmp_path):
    """The page that a widget paints has the same rows as the printer's."""
    printer = QPrinter()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    printer.setPageSize(lay_a4())
    assert print_sheet(porter_sheet, printer) == 2
    printed = PdfReader(tmp_path / "printed.pdf")
    written = PdfReader(io.BytesIO(pdf_bytes(porter_sheet, "a4")[0]))
    assert [_plain(p.extract_text()) for p in printed.pages] == [
        _plain(p.extract_text()) for p in written.pages
    ]


def lay_a4():
    from PySide6.QtGui import QPageSize

    return QPageSize(QPageSize.PageSizeId.A4)


def test_the_print_dialog_may_ask_for_one_page_only(porter_sheet, tmp_path):
    printer = QPrinter()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "second.pdf"))
    printer.setPageSize(lay_a4())
    printer.setFromTo(2, 2)
    assert print_sheet(porter_sheet, printer) == 1
    words = _words_of(PdfReader(tmp_path / "second.pdf"))
    assert "page 2 of 2" in words
    assert "page 1 of 2" not in words


def test_pages_can_be_painted_as_pictures_with_nothing_beyond_their_margins(porter_sheet):
    images = list(page_images(porter_sheet, "a4", 72.0))
    assert [(image.width(), image.height()) for image in images] == [(595, 842)] * 2
    for image in images:
        edge = 20
        for x in range(0, image.width(), 3):
            for y in (*range(edge), *range(image.height() - edge, image.height())):
                assert image.pixel(x, y) & 0xFFFFFF == 0xFFFFFF
        for y in range(0, image.height(), 3):
            for x in (*range(edge), *range(image.width() - edge, image.width())):
                assert image.pixel(x, y) & 0xFFFFFF == 0xFFFFFF


def test_the_correction_table_stays_with_its_reading(porter_sheet):
    brewing = next(section for section in porter_sheet.sections if section.key == "brew")
    table = next(block for block in brewing.blocks if isinstance(block, Table))
    steps = Steps(brewing.steps[-3:-2])
    only = replace(porter_sheet, sections=(replace(brewing, blocks=(steps, table)),))
    *_, reading, _correction = typesetters_for(only, 5300.0)[0].rows()
    assert steps.steps[0].readings
    assert reading.keep


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize(
    ("language", "units", "variant", "large", "paper"),
    [
        ("en", "both", "full", False, "letter"),
        ("de", "both", "bench", False, "a4"),
        ("fr", "us", "full", True, "letter"),
        ("fr", "metric", "full", False, "a4"),
    ],
)
def test_nothing_runs_into_the_margins(qapp, name, language, units, variant, large, paper):
    recipe = _recipe(name)
    sheet = brew_sheet(
        recipe, look_ahead(recipe), shown=ShownUnits(units), start="23:30", brew_date=None,
        variant=variant, language=language, form=Form(large=large),
    )  # fmt: skip
    for image in page_images(sheet, paper, 72.0):
        assert_within_margins(image)


def test_a_page_fits_any_rectangle_it_is_painted_into(porter_sheet):
    image = QImage(200, 283, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFF)
    painter = QPainter(image)
    lay_out(porter_sheet, "a4").paint_into(painter, 0, QRectF(image.rect()))
    painter.end()
    dark = sum((image.pixel(x, 15) & 0xFF) < 128 for x in range(200))
    assert dark > 0


def test_an_odd_paper_size_is_set_too(porter_sheet):
    assert len(lay_out(porter_sheet, QSizeF(420.0, 595.0))) >= 3


def test_a_failed_write_leaves_the_old_file_and_says_why(porter_sheet, tmp_path):
    kept = tmp_path / "sheet.pdf"
    assert write_pdf(porter_sheet, kept, "a4") == 2
    before = kept.read_bytes()
    with pytest.raises(DesignerError, match="folder"):
        write_pdf(porter_sheet, tmp_path, "a4")
    with pytest.raises(DesignerError, match="could not be written"):
        write_pdf(porter_sheet, tmp_path / "none" / "sheet.pdf", "a4")
    assert kept.read_bytes() == before
    assert list(tmp_path.iterdir()) == [kept]


def test_the_command_writes_the_pdf_without_any_display(tmp_path):
    out = tmp_path / "sheet.pdf"
    bare = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "QT_QPA_PLATFORM")}
    done = subprocess.run(
        [sys.executable, "-m", "designer", "sheet",
         str(resource_path("examples/harbour_lamp_porter.hobwort")), "-o", str(out),
         "--paper", "letter", "--units", "both", "--start", "18:30"],
        cwd=Path(__file__).parents[2], env=bare, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "18:30" in _words_of(PdfReader(out))
