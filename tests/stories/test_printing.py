"""A brewer looks at the sheet, prints it, and takes it away in other forms."""

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtPrintSupport import QPrinter


@pytest.fixture
def sheet_page(qtbot, window):
    qtbot.keyClick(window, Qt.Key.Key_3, Qt.KeyboardModifier.ControlModifier)
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


def test_the_pdf_has_the_text_of_the_sheet(window, sheet_page, answers, tmp_path):
    answers.file = tmp_path / "porter.pdf"
    sheet_page.write_pdf()
    reader = PdfReader(answers.file)
    text = "".join(page.extract_text() for page in reader.pages)
    assert len(reader.pages) == 2
    assert "Challenger" in text
    assert "Wrote 2 pages" in window.messages.text.text()


def test_a_pdf_that_cannot_be_written_is_told(window, sheet_page, answers, tmp_path):
    answers.file = tmp_path / "nowhere" / "porter.pdf"
    sheet_page.write_pdf()
    assert "could not be written" in window.messages.text.text()


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


def test_the_sheet_goes_to_the_clipboard_and_to_a_web_page(sheet_page, answers, tmp_path):
    sheet_page.copy_text()
    assert "Challenger" in QGuiApplication.clipboard().text()
    answers.file = tmp_path / "porter.html"
    answers.html_where = lambda parent, suggested: answers.file
    sheet_page.write_html()
    assert "Challenger" in answers.file.read_text(encoding="utf-8")


def test_letter_paper_and_the_card_are_a_choice_away(qtbot, sheet_page):
    sheet_page.variant.setCurrentText("One-page card")
    sheet_page.variant.activated.emit(1)
    assert sheet_page.count.text() == "1 page"
    a4 = sheet_page.pages._pages.height
    sheet_page.paper.setCurrentText("US Letter")
    sheet_page.paper.activated.emit(1)
    qtbot.waitUntil(lambda: sheet_page.pages._pages.height != a4)
