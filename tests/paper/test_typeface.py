"""The typeface that goes with the program: what it holds, and that window and paper wear it."""

import pytest
from pypdf import PdfReader
from PySide6.QtGui import QFontDatabase, QFontInfo, QFontMetricsF, QRawFont

from designer.brewday.outlook import look_ahead
from designer.paper.pages import write_pdf
from designer.paper.typeface import FAMILY, FILES, own_families
from designer.paper.typography import font
from designer.resource_files import resource_path
from designer.sheet.content import brew_sheet
from designer.units import ShownUnits

SIGNS = "☐☑½¼¾⅓⅔°·—–…×±−≤≥≈→²³µ“”’•"
LETTERS = "ÄÖÜäöüßẞÀÂÆÇÉÈÊËÎÏÔŒÙÛŸàâæçéèêëîïôœùûÿ«»€£łŁčřůőșığøåñ"


@pytest.mark.parametrize("name", FILES)
def test_signs_of_the_sheet_and_letters_of_german_and_french_are_in_it(qapp, name):
    raw = QRawFont(str(resource_path(name)), 12.0)
    assert [each for each in SIGNS + LETTERS if not raw.supportsCharacter(ord(each))] == []


@pytest.mark.parametrize("bold", [False, True])
def test_all_figures_are_of_one_width_so_that_numbers_stand_in_columns(qapp, bold):
    metrics = QFontMetricsF(font(10.0, bold))
    widths = {metrics.horizontalAdvance(each + other) for each in "0123456789" for other in "017"}
    assert len(widths) == 1


def test_it_goes_with_its_licence_and_is_small():
    folder = resource_path("fonts")
    assert "SIL OPEN FONT LICENSE Version 1.1" in (folder / "OFL.txt").read_text("utf-8")
    assert "fonts-noto-core" in (folder / "README.md").read_text("utf-8")
    assert sum(path.stat().st_size for path in folder.iterdir()) < 400_000


def test_the_sheet_is_set_in_it_and_carries_it_along(qapp, porter, tmp_path):
    assert own_families() == [FAMILY]
    assert QFontInfo(font(10.0)).family() == FAMILY
    sheet = brew_sheet(
        porter,
        look_ahead(porter),
        shown=ShownUnits.METRIC,
        start=None,
        brew_date=None,
        variant="full",
    )
    write_pdf(sheet, tmp_path / "day.pdf", "a4")
    fonts = {
        each.get_object()["/BaseFont"]
        for page in PdfReader(tmp_path / "day.pdf").pages
        for each in page["/Resources"]["/Font"].values()
    }
    assert fonts
    assert all("HobwortSans" in name for name in fonts), fonts


def test_the_window_is_set_in_it_or_in_the_face_of_the_desktop_as_chosen(qtbot, window):
    size = window.font().pointSizeF()
    assert QFontInfo(window.compose.font()).family() == FAMILY
    window.settings.typeface = "desktop"
    general = QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont)
    assert QFontInfo(window.compose.font()).family() == QFontInfo(general).family()
    assert QFontInfo(window.header.name.font()).family() == QFontInfo(general).family()
    window.settings.typeface = "own"
    assert QFontInfo(window.header.name.font()).family() == FAMILY
    assert window.font().pointSizeF() == size
