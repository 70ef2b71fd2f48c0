"""A brewer looks at the sheet, prints it, and takes it away in other forms."""

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtPrintSupport import QPrinter

from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.sheet.language import language

from .acts import wait_for_words


@pytest.fixture
def sheet_page(qtbot, window):
    window.show_page(window.page_names.index("Sheet"))
    qtbot.waitUntil(lambda: bool(window.sheet.count.text()))
    return window.sheet


def test_the_page_shows_the_pages_that_print(sheet_page):
    assert sheet_page.count.text() == "2 pages"
    assert "Harbour Lamp Porter" in sheet_page.pages.accessibleDescription()


def test_the_pages_follow_the_recipe(qtbot, window, sheet_page):
    window.header.name.setFocus()
    window.header.name.selectAll()
    qtbot.keyClicks(window.header.name, "Low Water Porter")
    qtbot.waitUntil(lambda: "Low Water Porter" in sheet_page.pages.accessibleDescription())


def test_the_pdf_has_the_text_of_the_sheet(qtbot, window, sheet_page, answers, tmp_path):
    answers.file = tmp_path / "porter.pdf"
    sheet_page.write_pdf()
    wait_for_words(qtbot, window, "Exported 2 pages")
    reader = PdfReader(answers.file)
    text = "".join(page.extract_text() for page in reader.pages)
    assert len(reader.pages) == 2
    assert "Challenger" in text


def test_a_pdf_that_cannot_be_written_is_told(qtbot, window, sheet_page, answers, tmp_path):
    answers.file = tmp_path / "nowhere" / "porter.pdf"
    sheet_page.write_pdf()
    wait_for_words(qtbot, window, "could not be written")


def test_printing_to_a_file_gives_the_same_pages(sheet_page, answers, tmp_path):
    path = tmp_path / "printed.pdf"

    def printer(parent, paper):
        made = QPrinter(QPrinter.PrinterMode.HighResolution)
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(path))
        return made

    answers.which_printer = printer
    sheet_page.print_sheet()
    assert len(PdfReader(path).pages) == 2


def test_the_sheet_goes_to_the_clipboard_and_to_a_web_page(
    qtbot, window, sheet_page, answers, tmp_path
):
    sheet_page.copy_text()
    assert "Challenger" in QGuiApplication.clipboard().text()
    answers.file = tmp_path / "porter.html"
    answers.html_where = lambda parent, suggested: answers.file
    sheet_page.write_html()
    wait_for_words(qtbot, window, f"Exported {answers.file}.")
    assert "Challenger" in answers.file.read_text(encoding="utf-8")


@pytest.fixture
def no_german(monkeypatch):
    """German words of the sheet that are no text: a file cut off within a letter, say."""

    def cut_off(name):
        return b"\xc3".decode("utf-8")

    monkeypatch.setattr("designer.sheet.language.catalogue_of", cut_off)
    language.cache_clear()
    yield
    language.cache_clear()


@pytest.mark.parametrize("act", ["copy_text", "write_html", "write_pocket", "write_pdf"])
def test_a_language_of_the_sheet_that_cannot_be_read_is_told_whatever_is_made_of_it(
    qtbot, window, sheet_page, answers, settings, no_german, tmp_path, act
):
    answers.file = tmp_path / "porter"
    answers.html_where = lambda parent, suggested: answers.file
    QGuiApplication.clipboard().setText("mine")
    settings.sheet_language = "de"
    getattr(sheet_page, act)()
    wait_for_words(qtbot, window, "The words of the sheet in Deutsch cannot be read")
    assert not answers.file.exists()
    assert QGuiApplication.clipboard().text() == "mine"


def test_the_sheet_on_the_clipboard_is_no_formula_in_a_spreadsheet(window, sheet_page):
    """The characters are those of OWASP, "CSV Injection"."""
    window.opened.make(ChangeRecipe("name", "=1+1\t=2", word("rename")))
    sheet_page.copy_text()
    lines = QGuiApplication.clipboard().text().split("\n")
    assert any("=1+1" in line for line in lines)
    assert all(line.strip()[:1] not in ("=", "+", "-", "@") for line in lines)
    assert not any("\t" in line for line in lines)


def test_letter_paper_and_the_card_are_a_choice_away(qtbot, sheet_page):
    sheet_page.variant.setCurrentText("One-page card")
    sheet_page.variant.activated.emit(1)
    assert sheet_page.count.text() == "1 page"
    a4 = sheet_page.pages._pages.height
    sheet_page.paper.setCurrentText("US Letter")
    sheet_page.paper.activated.emit(1)
    qtbot.waitUntil(lambda: sheet_page.pages._pages.height != a4)


def test_a_brew_day_dates_the_weeks_after_it(qtbot, sheet_page):
    field = sheet_page.wishes.brew_day
    field.setFocus()
    qtbot.keyClicks(field, "2026-03-28")
    qtbot.waitUntil(lambda: "Sat 28 March 2026" in sheet_page.pages.accessibleDescription())
    assert "Day 14 Sat 11 Apr" in sheet_page.pages.accessibleDescription()
    assert not field.property("refused")


def test_a_brew_day_half_typed_is_marked_and_the_blank_stays(qtbot, sheet_page):
    field = sheet_page.wishes.brew_day
    field.setFocus()
    qtbot.keyClicks(field, "2026-13")
    assert field.property("refused")
    assert "such as 2026-03-28" in field.toolTip()
    assert sheet_page.wishes.brew_date is None
    field.clear()
    assert not field.property("refused")


def test_large_print_takes_more_pages_and_is_remembered(qtbot, sheet_page, settings):
    sheet_page.wishes.large.click()
    qtbot.waitUntil(lambda: sheet_page.count.text() in ("4 pages", "5 pages"))
    assert settings.large_print


def test_a_shop_s_name_stands_on_the_sheet_and_is_remembered(qtbot, sheet_page, settings):
    field = sheet_page.wishes.shop
    field.setFocus()
    qtbot.keyClicks(field, "Quay Street Homebrew")
    qtbot.waitUntil(
        lambda: sheet_page.pages.accessibleDescription().startswith("Quay Street Homebrew")
    )
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert settings.shop == "Quay Street Homebrew"


def test_the_sheet_is_written_in_the_language_chosen(
    qtbot, window, sheet_page, settings, answers, tmp_path
):
    choice = sheet_page.wishes.language
    choice.setCurrentText("Deutsch")
    choice.activated.emit(choice.currentIndex())
    assert settings.sheet_language == "de"
    qtbot.waitUntil(lambda: "Stammwürze" in sheet_page.pages.accessibleDescription())
    answers.file = tmp_path / "porter.pdf"
    sheet_page.write_pdf()
    wait_for_words(qtbot, window, "Exported 2 pages")
    assert "Stammwürze" in PdfReader(answers.file).pages[0].extract_text()


def test_the_card_may_take_two_pages_in_larger_type(qtbot, sheet_page):
    sheet_page.variant.setCurrentText("One-page card")
    sheet_page.variant.activated.emit(1)
    one = len(sheet_page.pages._pages)
    sheet_page.wishes.pages.setCurrentIndex(1)
    sheet_page.wishes.pages.activated.emit(1)
    qtbot.waitUntil(lambda: sheet_page.wishes.form.pages == 2)
    assert one == 1


def test_pages_are_zoomed_by_choice_and_by_the_wheel(qtbot, sheet_page):
    sheet_page.zoom.setCurrentText("100 %")
    sheet_page.zoom.activated.emit(2)
    width = sheet_page.pages.width()
    for turn, text in ((1, "150 %"), (1, "200 %"), (1, "200 %"), (-1, "150 %")):
        sheet_page.area.zoomed.emit(turn)
        assert sheet_page.zoom.currentText() == text
    assert sheet_page.pages.width() > 1.4 * width
