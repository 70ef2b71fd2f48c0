"""The window as it is first seen: editors at once, all that is reckoned one turn later."""

import subprocess
import sys

import pytest
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication

from designer.window.main_window import MainWindow
from designer.window.session.open_recipe import OpenRecipe

OPENING = """
import sys
from designer.resource_files import resource_path
from designer.window.parts.settings import Settings
from designer.window.start import made_application, opened_window
application = made_application()
example = resource_path("examples/harbour_lamp_porter.hobwort")
window = opened_window(example, Settings(application), waiting=True)
assert window.compose.fermentables.model.rowCount() > 1
print(*sorted(sys.modules))
"""
WHOLE = """
from designer.paper.plain_imports import import_qt
import_qt()
from PySide6.QtWidgets import QWidget
from designer.resource_files import resource_path
from designer.window.parts.settings import Settings
from designer.window.start import made_application, opened_window
application = made_application()
example = resource_path("examples/harbour_lamp_porter.hobwort")
window = opened_window(example, Settings(application), waiting=True)
window.show()
def kinds(of):
    return {of.__name__}.union(*map(kinds, of.__subclasses__()))
def painted(_):
    window.grab()
    application.quit()
window.opened.outlook_changed.connect(painted)
application.exec()
print(*sorted(kinds(QWidget)))
"""
BESIDE = """
import sys
from designer.paper.plain_imports import import_qt
import_qt()
from threading import current_thread, main_thread
DEAR = ("designer.library.store", "numpy", "platformdirs", "sqlite3", "sqlite_utils")
by_the_window = {}
class Noting:
    def find_spec(self, name, path=None, target=None):
        if name in DEAR:
            by_the_window[name] = current_thread() is main_thread()
sys.meta_path.insert(0, Noting())
from PySide6.QtCore import QTimer
from designer.resource_files import resource_path
from designer.window.parts.settings import Settings
from designer.window.start import made_application, opened_window
application = made_application()
example = resource_path("examples/harbour_lamp_porter.hobwort")
window = opened_window(example, Settings(application), keeping=True, waiting=True)
window.show()
def see():
    if window.opened.with_ranges and window.autosave is not None and window.autosave.settled:
        window.opened.undo_stack.setClean()
        window.close()
timer = QTimer(interval=20)
timer.timeout.connect(see)
timer.start()
application.exec()
assert set(by_the_window) == set(DEAR), by_the_window
print("by the window", *[name for name, is_so in by_the_window.items() if is_so])
print(*[name for name, module in sys.modules.items() if "OnceAsked" not in type(module).__name__])
"""
NOT_HELD = {
    "_hashlib",  # and with it OpenSSL, 3 MB
    "bz2", "click", "ctypes", "designer.sheet.stove", "html.entities", "ipaddress", "logging",
    "lzma", "numpy._core._add_newdocs", "numpy._typing", "pickle", "socket",
}  # fmt: skip
"""What the window, its Recipe box and the first forecast have no use for: 12 MB of memory."""
WRONG_CALL = """
import sys
{first}
from PySide6.QtCore import QRect
told = [name for name in sys.modules if name.startswith("shibokensupport")]
asked = [name for name in told if "create_signature" in vars(sys.modules[name])]
try:
    QRect("a", 3, 4)
except TypeError as fault:
    print(fault)
from shibokensupport.signature import get_signature
print(get_signature(QRect.intersects))
print(sys.modules["PySide6.support.signature.parser"].EnumSelect.NEW)
print(len(asked), file=sys.stderr)
"""
SELDOM = ("message_bar", "questions", "offers", "suggestions", "choice_editor", "icons")
"""Modules of the window that most brewers' first minute has no use for."""


def is_seldom(module):
    return module.rpartition(".")[2] in SELDOM


def test_no_kind_of_widget_is_made_known_that_the_window_has_no_use_for(qapp):
    done = subprocess.run(
        [sys.executable, "-c", WHOLE], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    known = set(done.stdout.split())
    assert {"QTableView", "QScrollArea", "CellTable"} <= known
    assert not known & {"QCalendarWidget", "QDial", "QMdiArea", "QTreeWidget", "QWizard"}


def test_what_is_dear_to_import_is_loaded_beside_the_window(qapp, tmp_path, monkeypatch):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path))
    done = subprocess.run(
        [sys.executable, "-c", BESIDE], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    by_the_window, held = done.stdout.splitlines()
    assert by_the_window == "by the window"
    assert "sqlite_utils.db" in held.split()
    assert not NOT_HELD.intersection(held.split())


@pytest.fixture
def waiting(qtbot, porter, settings, answers):
    """A window that has not been shown yet, with nothing forecast."""
    made = MainWindow(OpenRecipe(porter, waiting=True), settings, answers)
    qtbot.addWidget(made, before_close_func=lambda one: one.opened.undo_stack.setClean())
    return made


def given(window):
    model = window.compose.fermentables.model
    return model.index(0, model.columnCount() - 1).data()


def test_nothing_is_reckoned_before_the_first_picture(qapp, tmp_path):
    done = subprocess.run(
        [sys.executable, "-c", OPENING], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    loaded = set(done.stdout.split())
    assert "PySide6.QtWidgets" in loaded
    assert not loaded & {
        "designer.brewday",
        "designer.sheet",
        "numpy",
        "pint",
        "platformdirs",
        "sqlite3",
    }
    assert not {name for name in loaded if name.startswith("designer.") and is_seldom(name)}


def test_before_it_is_seen_a_line_shows_its_amount_but_not_yet_what_it_gives(waiting):
    assert waiting.opened.waiting
    assert given(waiting) == ""
    model = waiting.compose.fermentables.model
    assert "kg" in model.index(0, 0).data()


def test_once_it_is_seen_forecast_day_and_findings_follow(qtbot, waiting, porter):
    with qtbot.waitSignal(waiting.opened.outlook_changed):
        waiting.show()
    assert not waiting.opened.waiting
    assert given(waiting).endswith(" points")
    page = waiting.compose
    at_once = OpenRecipe(porter).outlook
    assert page.forecast.rows[0].accessibleName()
    for panel in (page.forecast, page.vessels, page.watch_out, page.day_line, page.process):
        assert panel.isVisibleTo(waiting)
    assert waiting.opened.outlook.forecasts.keys() == at_once.forecasts.keys()


class Painted(QObject):
    """Notes that a widget is being painted."""

    def __init__(self, widget, noted):
        super().__init__(widget)
        self.noted = noted
        widget.installEventFilter(self)

    def eventFilter(self, watched, event):  # noqa: N802 - Qt's own name
        if event.type() == QEvent.Type.Paint:
            self.noted.append("painted")
        return False


def test_larger_libraries_wait_for_the_second_picture_however_late_it_is(
    qtbot, waiting, monkeypatch
):
    noted = []
    monkeypatch.setattr("designer.window.main_window._load_numpy", lambda: noted.append("numpy"))
    complete = waiting.compose.complete

    def complete_on_a_busy_machine():
        complete()
        line = waiting.compose.day_line
        Painted(line, noted)
        line.setUpdatesEnabled(False)
        QTimer.singleShot(200, line, lambda: line.setUpdatesEnabled(True))

    monkeypatch.setattr(waiting.compose, "complete", complete_on_a_busy_machine)
    waiting.show()
    qtbot.waitUntil(lambda: "numpy" in noted)
    assert noted[0] == "painted"


def test_larger_libraries_do_not_wait_for_a_page_that_is_not_seen(qtbot, waiting, monkeypatch):
    noted = []
    monkeypatch.setattr("designer.window.main_window._load_numpy", lambda: noted.append("numpy"))
    waiting.begin()
    waiting.show()
    qtbot.waitUntil(lambda: "numpy" in noted)


def test_names_of_styles_are_offered_as_soon_as_the_field_is_entered(qtbot, waiting):
    waiting.show()
    field = waiting.header.style_field
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    field.selectAll()
    qtbot.keyClicks(field, "oat")
    offers = field.completer().popup()
    qtbot.waitUntil(offers.isVisible)
    assert "Oatmeal Stout" in offers.model().index(0, 0).data()
    offers.hide()


def test_an_amount_typed_before_the_forecast_is_in_it(qtbot, waiting):
    model = waiting.compose.fermentables.model
    before = OpenRecipe(waiting.opened.recipe).outlook.day.beer.original_gravity
    assert model.setData(model.index(0, 0), "5 kg")
    with qtbot.waitSignal(waiting.opened.outlook_changed):
        waiting.show()
    qtbot.waitUntil(lambda: not waiting.opened.waiting)
    assert waiting.opened.outlook.day.beer.original_gravity > before


def test_a_new_extra_can_be_begun_before_the_page_is_complete(qtbot, waiting):
    waiting.compose.add_line("extras")
    assert waiting.compose.extras.model.rowCount() >= 1
    waiting.compose.complete()
    assert (
        waiting.compose.findChildren(type(waiting.compose.extras)).count(waiting.compose.extras)
        == 1
    )


def test_undo_in_a_field_with_the_focus_is_the_recipes_own(qtbot, window):
    from PySide6.QtCore import Qt

    name = window.header.name
    old = window.opened.recipe.name
    name.setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is name)
    name.selectAll()
    qtbot.keyClicks(name, "Fog Horn")
    assert window.opened.recipe.name == "Fog Horn"
    qtbot.keyClick(name, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.recipe.name == old


def test_pythons_own_import_stays_in_place_beside_qt(qapp):
    code = (
        "import builtins\n"
        "own = builtins.__import__\n"
        "from designer.paper.plain_imports import import_qt\n"
        "import_qt()\n"
        "assert builtins.__import__ is own\n"
        "from designer.window.start import made_application\n"
        "from PySide6.QtWidgets import QLabel\n"
        "application = made_application()\n"
        "label = QLabel('porter')\n"
        "label.show()\n"
        "application.processEvents()\n"
        "print(label.text())\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120)
    assert done.stdout.strip() == "porter", done.stderr


def told_of_a_wrong_call(first):
    done = subprocess.run(
        [sys.executable, "-c", WRONG_CALL.format(first=first)],
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout, int(done.stderr)


def test_signatures_of_qt_are_read_once_asked_for_and_tell_what_they_always_do(qapp):
    plain = "from designer.paper.plain_imports import import_qt; import_qt()"
    told, read_at_once = told_of_a_wrong_call(plain)
    as_ever, read_by_qt = told_of_a_wrong_call("")
    assert "wrong argument types" in told
    assert told == as_ever
    assert read_at_once < read_by_qt
