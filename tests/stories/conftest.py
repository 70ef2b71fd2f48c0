"""A window as the program opens it: over a recipe, and over a Recipe box of its own."""

import pytest

from designer import translation
from tests.active_window import made_active
from tests.pseudo_language import PseudoLanguage
from tests.sentences import sentences


@pytest.fixture
def pseudo():
    """The language in which English stands out; what was looked up is in the template."""
    language = PseudoLanguage()
    translation.use(language)
    yield language
    translation.use(None)
    known = {text for ids in sentences() for text in ids}
    assert language.said <= known, language.said - known


@pytest.fixture
def folder(tmp_path):
    """The folder of the Recipe box."""
    return tmp_path / "box"


@pytest.fixture
def on_a_box(qtbot, settings, answers, folder):
    """Open windows over a recipe, with the Recipe box in a folder; closed at the end."""
    from PySide6.QtCore import QCoreApplication, QEvent
    from PySide6.QtWidgets import QApplication

    from designer.window.main_window import MainWindow
    from designer.window.session.autosave import Autosave
    from designer.window.session.store_thread import StoreThread

    windows = []
    before = set(QApplication.allWidgets())

    def open_window(opened, width=1280, height=800, folder=folder):
        autosave = Autosave(opened, StoreThread(folder), folder)
        window = MainWindow(opened, settings, answers, lambda: autosave)
        windows.append(window)
        window.resize(width, height)
        made_active(qtbot, window)
        qtbot.waitUntil(lambda: window.autosave is autosave, timeout=10_000)
        qtbot.waitUntil(lambda: not autosave.store.busy, timeout=10_000)
        return window

    yield open_window
    for window in windows:
        window.opened.undo_stack.setClean()
        window.close()
        qtbot.waitUntil(lambda window=window: not window.isVisible(), timeout=10_000)
        window.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    left = {_root_of(each) for each in set(QApplication.allWidgets()) - before}
    assert not left, [(each, each.objectName(), each.children()) for each in left]


def _root_of(widget):
    """Return the widget without a parent in which one is: what a window that is gone let lie."""
    return _root_of(widget.parentWidget()) if widget.parentWidget() else widget
