"""Watch out by keyboard alone: its cures answer the keys that press any other button."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit


def fill_too_full(qtbot, window):
    """Type so much water that the pot overflows; return the field, which has the keyboard."""
    fields = window.compose.findChildren(QLineEdit)
    field = next(each for each in fields if each.accessibleName() == "Water to start")
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "8.7 L")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    cards = window.compose.watch_out.cards
    qtbot.waitUntil(lambda: any(card.cure.isVisible() for card in cards))
    return field


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_a_cure_reached_by_tab_answers_the_key_and_the_keyboard_stays_there(qtbot, window, key):
    with qtbot.waitActive(window):
        window.activateWindow()
    fill_too_full(qtbot, window)
    for _ in range(100):
        if QApplication.focusWidget().objectName() == "cure":
            break
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    cure = QApplication.focusWidget()
    assert cure.text().startswith("Start with ")
    offered = cure.text().removeprefix("Start with ").split(" L")[0] + " L"
    qtbot.keyClick(cure, key)
    assert window.opened.recipe.process.start_water.text == offered
    watch_out = window.compose.watch_out
    qtbot.waitUntil(lambda: not any(card.cure.isVisible() for card in watch_out.cards))
    assert QApplication.focusWidget() is watch_out, "the next key is not typed into some field"
