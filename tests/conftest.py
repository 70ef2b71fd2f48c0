"""For all tests: no display, no one's own settings, and the rewriting of golden files."""

from __future__ import annotations

import atexit
import gc
import os
import shutil
import sys
import tempfile
import threading
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck
from hypothesis import settings as hypothesis_settings

from designer import translation
from tests.active_window import made_active
from tests.rewritten_once import rewrite_once

# The same examples on every machine, so that a red run can be run again; HOBWORT_OTHER_EXAMPLES=yes
# draws others, to look further. No test fails for the slowness of a machine.
for name, same in (("same examples", True), ("other examples", False)):
    hypothesis_settings.register_profile(
        name, derandomize=same, deadline=None, suppress_health_check=[HealthCheck.too_slow]
    )
wants_others = bool(os.environ.get("HOBWORT_OTHER_EXAMPLES"))
hypothesis_settings.load_profile("other examples" if wants_others else "same examples")

if os.environ.get("QT_QPA_PLATFORM", "offscreen") == "offscreen":
    # On a desk of its own, large enough for the window: Qt's is 800 by 800.
    screen = Path(__file__).with_name("screen.json")
    os.environ["QT_QPA_PLATFORM"] = f"offscreen:configfile={screen}"
for name in ("HOBWORT_SETTINGS", "HOBWORT_STORE"):
    # Removed with the process itself: by then no thread writes to them any more.
    os.environ[name] = tempfile.mkdtemp(prefix="hobwort-tests-")
    atexit.register(shutil.rmtree, os.environ[name], ignore_errors=True)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="write the golden files anew; read the difference like code",
    )
    parser.addoption(
        "--folder-times",
        action="store_true",
        help="tell at the end how long the tests of each folder took together",
    )


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Tell where the time of a run went: seconds of tests and their set-ups, folder by folder."""
    if not terminalreporter.config.getoption("--folder-times"):
        return
    times: Counter[str] = Counter()
    for reports in terminalreporter.stats.values():
        for report in reports:
            if isinstance(report, pytest.TestReport):
                file = report.nodeid.partition("::")[0]
                times[str(Path(file).parent)] += report.duration
    terminalreporter.section("seconds of each folder")
    for folder, seconds in times.most_common():
        terminalreporter.write_line(f"{seconds:7.1f} s  {folder}")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_setupnodes(config: pytest.Config) -> None:
    """Spare the processes of a run what one can do for all."""
    rewrite_once(config)


LONGEST = (
    "tests/stories/test_robot.py",
    "tests/stories/test_limits.py",
    "tests/stories/test_starting.py",
    "tests/stories/test_leaving.py",
    "tests/library/store/test_damage.py",
    "tests/brewday/fit/",
    "tests/fit_proof/",
    "tests/stories/",
)
"""Files and folders whose tests take longest, these first."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with what takes longest, or one process would end minutes after the others."""
    items.sort(key=lambda each: next(
        (place for place, name in enumerate(LONGEST) if each.nodeid.startswith(name)), len(LONGEST)
    ))  # fmt: skip


def pytest_collection_finish() -> None:
    """Let the collector pass over twelve thousand tests: looking through them takes a tenth."""
    gc.collect()
    gc.freeze()


def pytest_sessionfinish() -> None:
    """Empty the clipboard: without a display Qt would take it down after Python's own objects."""
    if "PySide6.QtGui" in sys.modules:
        from PySide6.QtGui import QGuiApplication

        if QGuiApplication.instance() is not None:
            QGuiApplication.clipboard().clear()


def pytest_sessionstart() -> None:
    """Let `coverage` see what runs on Qt's threads too: Python knows of its own alone."""
    traced = threading.gettrace()
    if traced is None:
        return
    from designer.window.parts import background

    run = background._Task.run

    def run_traced(task: background._Task) -> None:
        sys.settrace(traced)
        run(task)

    background._Task.run = run_traced


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    """Speak English after a test that ran a command in another language."""
    yield
    if translation.spoken() != "en":
        translation.use(None)


@pytest.fixture(autouse=True)
def keys_let_go() -> Iterator[None]:
    """Let go of Ctrl and Shift after a test that pressed a key with them.

    Qt holds them down until the next key or click, and what the next test chooses in a list would
    be chosen as well, or no longer.
    """
    yield
    if "PySide6.QtWidgets" not in sys.modules:
        return
    from PySide6.QtCore import Qt
    from PySide6.QtGui import QGuiApplication

    if QGuiApplication.keyboardModifiers() != Qt.KeyboardModifier.NoModifier:
        from PySide6.QtTest import QTest
        from PySide6.QtWidgets import QWidget

        QTest.keyRelease(QWidget(), Qt.Key.Key_Control)


@pytest.fixture(scope="session", autouse=True)
def application_first(request: pytest.FixtureRequest) -> None:
    """Make the application of windows before a command makes one that only prints.

    Qt has one in a process, and takes no window in the lesser one.
    """
    if any("qapp" in each.fixturenames for each in request.session.items):
        request.getfixturevalue("qapp")


COLLECTS = gc.get_threshold()


@pytest.fixture(autouse=True)
def collects_again() -> Iterator[None]:
    """Look for garbage as often as before: a window asks for less, which suits one, not hundreds.

    Windows of tests that are over would stay in memory, and be dressed anew with each new one.
    """
    yield
    gc.set_threshold(*COLLECTS)


@pytest.fixture
def update_golden(request: pytest.FixtureRequest) -> bool:
    """Whether golden files are to be written anew."""
    return bool(request.config.getoption("--update-golden"))


class Answers:
    """Stands in for the dialogs: says what the test has told it to say."""

    def __init__(self) -> None:
        self.file = None
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

    def picture_where(self, parent, suggested):
        self.asked.append(suggested)
        return self.file

    def about_unsaved(self, parent, name):
        self.asked.append("unsaved")
        return self.unsaved


@pytest.fixture
def porter():
    """Harbour Lamp Porter, the example."""
    from designer.library.recipe_file import load
    from designer.resource_files import resource_path

    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture
def boxed(porter, tmp_path):
    """The porter under names that are hard on files, two the same, kept in tmp_path / "box"."""
    from dataclasses import replace

    from designer.library.recipe_file import document_text
    from designer.library.store import Store
    from designer.workbench.recipe_summary import summary_of

    named = [replace(porter, name=name) for name in ("Porter", "Porter", "..", "黒" * 10_000)]
    with Store.open(tmp_path / "box") as store:
        for recipe in named:
            store.recipes.add(document_text(recipe), summary_of(recipe))
    return named


# The window's parts are imported by the fixtures that need them: most tests know no Qt.


@pytest.fixture
def settings(qapp, tmp_path, monkeypatch):
    """Preferences of their own: metric, SRM, light."""
    from PySide6.QtCore import QCoreApplication, QEvent

    from designer.units import ShownUnits
    from designer.window.parts.settings import Settings
    from designer.window.parts.theme import apply_scheme
    from designer.window.parts.typeface import wear_typeface

    # The windows of the test before go now, or each would be dressed anew once more.
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    monkeypatch.setenv("HOBWORT_SETTINGS", str(tmp_path / "settings"))
    kept = Settings()
    kept.units = ShownUnits.METRIC
    kept.colour = "srm"
    kept.scheme = "light"
    qapp.setStyle("Fusion")
    wear_typeface(qapp, kept.typeface)
    apply_scheme(qapp, "light")
    return kept


@pytest.fixture
def display(settings):
    """Text in those preferences."""
    from designer.window.parts.display_format import DisplayFormat

    return DisplayFormat(settings)


@pytest.fixture
def opened(qapp, porter):
    """The porter, open."""
    from designer.window.session.open_recipe import OpenRecipe

    return OpenRecipe(porter)


@pytest.fixture
def answers():
    """What dialogs would have answered."""
    return Answers()


@pytest.fixture
def window(qtbot, opened, settings, answers):
    """A window over the porter, active, with its ranges."""
    from designer.window.main_window import MainWindow

    made = MainWindow(opened, settings, answers)
    qtbot.addWidget(made, before_close_func=lambda one: one.opened.undo_stack.setClean())
    made.resize(1280, 800)
    with qtbot.waitSignal(opened.outlook_changed):
        made.show()
    return made_active(qtbot, made)
