"""What several stories do and wait for, each in one way."""

from PySide6.QtCore import Qt

from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word


def rename(window, name):
    window.opened.make(ChangeRecipe("name", name, word("rename the recipe")))


def press(qtbot, button):
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def type_over(qtbot, field, text):
    """Type in place of all that stands in a field."""
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)


def wait_for_words(qtbot, window, words):
    """Wait until a message says these words."""
    qtbot.waitUntil(lambda: words in window.messages.text.text(), timeout=10_000)


def buttons_of(window):
    """The buttons of the message that is shown, by what they say."""
    return {button.text(): button for button in window.messages._buttons}


def store_at_rest(qtbot, window):
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=10_000)
