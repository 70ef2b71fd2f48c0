"""Find on the page: what it says, from hit to hit, and the page's own search where it has one."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def ask(qtbot, window, typed):
    """Press Ctrl+F where the keyboard is, and type."""
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F, CTRL)
    bar = window.finding.bar
    qtbot.keyClicks(bar.search, typed)
    return bar


def test_labels_fields_and_cells_are_found_and_escape_gives_the_keyboard_back(qtbot, window):
    before = QApplication.focusWidget()
    bar = ask(qtbot, window, "CHALLENGER")
    hops = window.compose.hops.view
    assert bar.hit.widget is hops.viewport()
    assert bar.count.text().startswith("1 of ")
    assert bar._mark.geometry() == hops.visualRect(hops.model().index(0, 1))
    bar.search.setText("top-up mark")
    labels = [
        each.text() for each in window.findChildren(type(bar.count)) if each is bar.hit.widget
    ]
    assert labels == ["Top-up mark"]
    bar.search.setText("no such text")
    assert bar.count.text() == "Not on this page"
    assert not bar.on.isEnabled()
    qtbot.keyClick(bar.search, Qt.Key.Key_Escape)
    assert not bar.isVisible()
    assert QApplication.focusWidget() is before


def test_return_and_f3_go_round_through_the_hits_and_bring_each_into_view(qtbot, window):
    window.resize(1024, 600)
    bar = ask(qtbot, window, "malt")
    count = len(bar._hits)
    assert count > 3
    seen = [bar.hit]
    for _ in range(count - 1):
        qtbot.keyClick(bar.search, Qt.Key.Key_Return)
        seen.append(bar.hit)
        mark = bar._mark
        assert not mark.visibleRegion().isEmpty()
    assert [each.text for each in seen] == [each.text for each in bar._hits]
    qtbot.keyClick(bar.search, Qt.Key.Key_F3)
    assert bar.count.text() == f"1 of {count}"
    qtbot.keyClick(bar.search, Qt.Key.Key_F3, SHIFT)
    assert bar.count.text() == f"{count} of {count}"


def test_a_text_of_the_sheet_is_marked_where_it_is_printed(qtbot, window):
    window.show_page(window.page_names.index("Sheet"))
    pages = window.sheet.pages
    qtbot.waitUntil(pages.isVisible)
    bar = ask(qtbot, window, "carrageenan")
    assert bar.hit.widget is pages
    mark = bar._mark.geometry()
    assert pages.rect().contains(mark)
    assert 8 < mark.height() < 80
    picture = pages.grab(mark).toImage()
    inked = {
        picture.pixelColor(x, picture.height() // 2).lightness() < 128
        for x in range(picture.width())
    }
    assert inked == {True, False}
    bar.search.setText("challenger")
    assert all(each.widget is pages for each in bar._hits)


def test_the_recipe_box_has_a_search_of_its_own(qtbot, on_a_box, opened):
    window = on_a_box(opened)
    window.show_page(window.page_names.index("Recipe box"))
    window.box.table.setFocus()
    qtbot.keyClick(window.box.table, Qt.Key.Key_F, CTRL)
    assert QApplication.focusWidget() is window.box.search
    assert window.finding.bar is None
    window.show_page(0)
    bar = ask(qtbot, window, "hop")
    window.show_page(window.page_names.index("Kitchen"))
    qtbot.waitUntil(lambda: all(window.kitchen.isAncestorOf(each.widget) for each in bar._hits))
