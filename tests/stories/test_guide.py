"""A brewer opens the guide beside the work, finds a word in it, and is led to where it is done."""

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import QApplication

from tests.active_window import made_active

ALT, CONTROL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
IMAGE = QTextDocument.ResourceType.ImageResource.value


@pytest.fixture
def reader(qtbot, window):
    """The guide, opened by its key on Compose."""
    qtbot.keyClick(window, Qt.Key.Key_F1)
    return made_active(qtbot, window.guide.reader)


def press(qtbot, key, modifier=Qt.KeyboardModifier.NoModifier):
    qtbot.keyClick(QApplication.focusWidget(), key, modifier)


def test_f1_opens_the_guide_at_the_page_that_fits_what_is_shown(qtbot, window, reader):
    assert reader.view.page.name == "compose"
    assert reader.view.hasFocus()
    for page, told in (("Fit", "fit"), ("Sheet", "sheet")):
        window.show_page(window.page_names.index(page))
        qtbot.keyClick(made_active(qtbot, window), Qt.Key.Key_F1)
        assert reader.view.page.name == told
    window.begin()
    qtbot.keyClick(made_active(qtbot, window), Qt.Key.Key_F1)
    assert reader.view.page.name == "begin"
    made_active(qtbot, window)
    window.close()
    assert window.guide.reader is None, "it goes with its window"


def test_a_word_is_found_by_keys_alone_from_page_to_page_and_back(qtbot, window, reader):
    press(qtbot, Qt.Key.Key_F, CONTROL)
    assert reader.search.hasFocus()
    qtbot.keyClicks(reader.search, "camping")
    assert reader.contents.topLevelItemCount() == 1
    assert reader.count.text() == "1 page"
    press(qtbot, Qt.Key.Key_Return)
    assert reader.view.page.name == "safety"
    assert reader.view.textCursor().selectedText() == "camping"
    press(qtbot, Qt.Key.Key_Escape)
    assert reader.search.text() == ""
    press(qtbot, Qt.Key.Key_Left, ALT)
    assert reader.view.page.name == "compose"
    press(qtbot, Qt.Key.Key_Right, ALT)
    assert reader.view.page.name == "safety"
    qtbot.keyClicks(reader.search, "zymurgist")
    assert reader.count.text() == "No page has all these words"
    press(qtbot, Qt.Key.Key_Escape)
    press(qtbot, Qt.Key.Key_Escape)
    assert not reader.isVisible()


def test_links_lead_to_pages_of_the_guide_and_of_the_program_and_nowhere_else(
    qtbot, window, reader, tmp_path
):
    reader.view.anchorClicked.emit(QUrl("kitchen"))
    assert reader.view.page.name == "kitchen"
    reader.view.anchorClicked.emit(QUrl("show:Recipe box"))
    reader.view.anchorClicked.emit(QUrl("show:Fit"))
    assert window.page_shown == "Fit"
    for address in ("https://a.example", "file:///etc/passwd", "nowhere"):
        reader.view.anchorClicked.emit(QUrl(address))
        assert reader.view.page.name == "kitchen"
    secret = tmp_path / "secret.png"
    secret.write_bytes(b"")
    for url in (QUrl.fromLocalFile(str(secret)), QUrl("http://a.example/a.png"), QUrl("../a.png")):
        assert reader.view.loadResource(IMAGE, url) is None


def test_contents_are_walked_by_the_arrow_keys(qtbot, window, reader):
    reader.contents.setFocus()
    press(qtbot, Qt.Key.Key_Down)
    assert reader.view.page.name == "fit"
    press(qtbot, Qt.Key.Key_Up)
    assert reader.view.page.name == "compose"
    assert reader.view.accessibleDescription() == "Compose"


def test_the_whole_guide_is_written_to_a_file_beside_the_window(qtbot, window, answers, tmp_path):
    places = {".pdf": tmp_path / "guide.pdf", ".html": tmp_path / "nowhere" / "guide.html"}
    answers.guide_where = lambda parent, suffix: places[suffix]
    window.guide.open()
    reader = window.guide.reader
    qtbot.mouseClick(reader.pdf, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: reader.count.text() == "Exported guide.pdf.", timeout=20_000)
    assert places[".pdf"].read_bytes().startswith(b"%PDF-")
    qtbot.mouseClick(reader.web, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "nowhere" in reader.count.text(), timeout=20_000)
    assert not places[".html"].exists()
