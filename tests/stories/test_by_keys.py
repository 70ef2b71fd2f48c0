"""Whole tasks by keys alone: no mouse, and nothing is called that a key does not reach."""

from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QDialog

from designer.library.recipe_file import read_document
from designer.library.store import Store
from designer.window.session.open_recipe import OpenRecipe
from tests.active_window import made_active

from .acts import store_at_rest, wait_for_words
from .by_keys import Keys

Key, Mod = Qt.Key, Qt.KeyboardModifier
CONTROL, SHIFT = Mod.ControlModifier, Mod.ShiftModifier


def test_from_the_doors_to_a_pdf(qtbot, on_a_box, opened, answers, tmp_path):
    window = on_a_box(opened)
    keys = Keys(qtbot, window)
    keys.press(Key.Key_N, modifier=CONTROL | SHIFT)
    own = window.begin_page.own
    qtbot.waitUntil(own.form.words.hasFocus, timeout=10_000)
    qtbot.waitUntil(lambda: own.found is not None and not own.reckoning.busy, timeout=20_000)
    keys.type("dry stout")
    popup = own.form.words.completer().popup()
    if popup.isVisible():
        qtbot.keyClick(popup, Key.Key_Escape)
        made_active(qtbot, window)
    qtbot.waitUntil(
        lambda: own.found.answers.words == "dry stout" and not own.reckoning.busy, timeout=20_000
    )
    keys.press(Key.Key_Return, modifier=CONTROL)
    qtbot.waitUntil(lambda: window.pages.currentWidget() is window.compose, timeout=20_000)
    made_active(qtbot, window)
    name = window.opened.recipe.name
    amount = window.opened.recipe.fermentables[0].amount.text
    keys.tab_to(window.compose.fermentables.view)
    assert window.compose.fermentables.view.currentIndex().row() == 0
    keys.press(Key.Key_Home)
    keys.press(Key.Key_F2)
    keys.press(Key.Key_A, modifier=CONTROL)
    keys.type("1.3 kg")
    keys.press(Key.Key_Return)
    assert window.opened.recipe.fermentables[0].amount.text == "1.3 kg" != amount
    answers.file = tmp_path / "stout.pdf"
    keys.press(Key.Key_P, modifier=CONTROL | SHIFT)
    wait_for_words(qtbot, window, "Exported")
    pages = PdfReader(answers.file).pages
    text = " ".join(word for page in pages for word in page.extract_text().split())
    assert name in text
    assert "1.3 kg" in text
    store_at_rest(qtbot, window)


def test_a_version_is_brought_back_from_the_box(qtbot, on_a_box, porter, folder):
    window = on_a_box(OpenRecipe(porter))
    keys = Keys(qtbot, window)
    keys.press(Key.Key_S, modifier=CONTROL)
    store_at_rest(qtbot, window)
    keys.tab_to(window.compose.hops.view)
    keys.press(Key.Key_Home)
    keys.press(Key.Key_F2)
    keys.press(Key.Key_A, modifier=CONTROL)
    keys.type("40 g")
    keys.press(Key.Key_Return)
    keys.press(Key.Key_S, modifier=CONTROL)
    qtbot.waitUntil(lambda: "version 2" in window.header.state.text(), timeout=10_000)
    assert window.opened.recipe.hops[0].amount.text == "40 g"
    keys.press(Key(Key.Key_1 + window.page_names.index("Recipe box")), modifier=CONTROL)
    box = window.box
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 1, timeout=10_000)
    store_at_rest(qtbot, window)
    details, recipe = box.details, box.model.rows_read[0].id
    qtbot.waitUntil(lambda: details.versions.model().rowCount() == 2, timeout=10_000)
    keys.tab_to(details.versions)
    keys.press(Key.Key_Down)
    if details.versions.currentIndex().row() == 0:
        keys.press(Key.Key_Down)
    assert details.versions.currentIndex().row() == 1, "the older one stands below"
    store_at_rest(qtbot, window)
    qtbot.waitUntil(details.back_button.isEnabled, timeout=10_000)
    keys.tab_to(details.back_button)
    keys.press(Key.Key_Return)
    qtbot.waitUntil(lambda: details.versions.model().rowCount() == 3, timeout=10_000)
    store_at_rest(qtbot, window)
    with Store.open(folder) as store:
        newest = read_document(store.recipes.newest(recipe).document, "version")
    assert newest.hops == porter.hops


def test_the_cupboard_is_filled_and_a_line_taken_out_again(qtbot, on_a_box, opened, folder):
    window = on_a_box(opened)
    keys = Keys(qtbot, window)
    keys.press(Key(Key.Key_1 + window.page_names.index("Kitchen")), modifier=CONTROL)
    kitchen = window.kitchen
    store_at_rest(qtbot, window)
    keys.tab_to(kitchen.cupboard)
    for name, amount in (("Fuggle", "50 g"), ("Chocolate malt", "300 g")):
        keys.press(Key.Key_Home)
        keys.type(name[0])
        assert kitchen.cupboard.is_editing
        keys.type(name[1:])
        if QApplication.activePopupWidget() is not None:  # the list of what is like it
            keys.press(Key.Key_Escape)
            made_active(qtbot, window)
        keys.press(Key.Key_Return)
        store_at_rest(qtbot, window)
        keys.press(Key.Key_Right)
        keys.press(Key.Key_F2)
        keys.type(amount)
        keys.press(Key.Key_Return)
        store_at_rest(qtbot, window)
        keys.press(Key.Key_Down)
    with Store.open(folder) as store:
        assert [(each.name, each.amount) for each in store.cupboard.all()] == [
            ("Fuggle", "50 g"),
            ("Chocolate malt", "300 g"),
        ]
    keys.press(Key.Key_Up, Key.Key_Up, Key.Key_Up)
    keys.press(Key.Key_Delete)
    store_at_rest(qtbot, window)
    with Store.open(folder) as store:
        assert [each.name for each in store.cupboard.all()] == ["Chocolate malt"]


def test_preferences_are_chosen(qtbot, window, settings):
    keys = Keys(qtbot, window)
    keys.press(Key.Key_Comma, modifier=CONTROL)
    dialog = next(each for each in window.findChildren(QDialog) if each.isVisible())
    qtbot.waitUntil(dialog.isActiveWindow, timeout=10_000)
    assert dialog.tabs.tabBar().hasFocus() or dialog.tabs.hasFocus()
    keys.tab_to(dialog.rows["gravity"])
    keys.press(Key.Key_Down)
    assert settings.gravity == "plato"
    keys.press(Key.Key_Tab, modifier=CONTROL)
    assert dialog.tabs.currentIndex() == 1
    keys.tab_to(dialog.rows["targets"])
    keys.press(Key.Key_Down)
    assert settings.targets == "always"
    keys.press(Key.Key_Up)
    assert settings.targets == "automatically"
    keys.press(Key.Key_Escape)
    qtbot.waitUntil(lambda: not dialog.isVisible())
    assert "°P" in window.compose.forecast.rows[0].sentence()
