"""A window over the harbour kitchen's recipes, with settings of its own."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtGui import QGuiApplication

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.units import ShownUnits
from designer.window.main_window import MainWindow
from designer.window.open_recipe import OpenRecipe
from designer.window.settings import Settings
from designer.window.shown import Shown
from designer.window.theme import apply_scheme


class Answers:
    """Stands in for the dialogs: says what the test has told it to say."""

    def __init__(self) -> None:
        self.file: Path | None = None
        self.unsaved = "leave"
        self.asked: list[str] = []

    def which_file(self, parent, folder):
        self.asked.append("open")
        return self.file

    def save_where(self, parent, suggested):
        self.asked.append("save")
        return self.file

    def pdf_where(self, parent, suggested):
        self.asked.append("pdf")
        return self.file

    def about_unsaved(self, parent, name):
        self.asked.append("unsaved")
        return self.unsaved


@pytest.fixture
def settings(qapp, tmp_path, monkeypatch):
    monkeypatch.setenv("HOBWORT_SETTINGS", str(tmp_path / "settings"))
    kept = Settings()
    kept.units = ShownUnits.METRIC
    kept.colour = "srm"
    kept.scheme = "light"
    qapp.setStyle("Fusion")
    apply_scheme(qapp, "light")
    return kept


@pytest.fixture
def shown(settings):
    return Shown(settings)


@pytest.fixture
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture
def opened(qapp, porter):
    return OpenRecipe(porter)


@pytest.fixture
def answers():
    return Answers()


@pytest.fixture
def window(qtbot, opened, settings, answers):
    made = MainWindow(opened, settings, answers)
    qtbot.addWidget(made, before_close_func=lambda one: one.opened.undo_stack.setClean())
    made.resize(1280, 800)
    with qtbot.waitSignal(opened.outlook_changed), qtbot.waitExposed(made):
        made.show()
    with qtbot.waitActive(made):
        made.activateWindow()
        QGuiApplication.processEvents()
    return made
