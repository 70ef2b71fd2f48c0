"""The program is at fault: it is told, work is kept where only its user can look, and reported."""

import getpass
import stat
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from designer.command_line import run
from designer.errors import DesignerError
from designer.library.recipe_file import load
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.window import faults
from designer.window.faults import FaultCatcher
from designer.window.problem_report import ProblemReport
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench import support_log

SECRET = "Aunt Meriel's secret stout"


@pytest.fixture
def store(tmp_path, monkeypatch):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    return tmp_path / "box"


@pytest.fixture
def catch(window, store):
    return FaultCatcher(window, lambda: store)


def fail(catch, words="a bug"):
    try:
        {}[words]
    except KeyError as fault:
        catch(type(fault), fault, fault.__traceback__)


def kept(store, ending):
    return sorted((store / "faults").glob(f"*.{ending}"))


def test_a_fault_is_told_and_the_recipe_kept_for_its_user_alone(window, catch, store, capsys):
    window.opened.make(ChangeRecipe("name", SECRET, word("rename the recipe")))
    fail(catch)
    (report,), (recipe,) = kept(store, "txt"), kept(store, "hobwort")
    assert load(recipe) == window.opened.recipe
    assert "You can go on" in window.messages.text.text()
    assert str(recipe) in window.messages.text.text()
    assert "KeyError: 'a bug'" in report.read_text(encoding="utf-8")
    assert capsys.readouterr().err.count("KeyError: 'a bug'") == 1
    assert stat.S_IMODE(report.stat().st_mode) == stat.S_IMODE(recipe.stat().st_mode) == 0o600
    assert stat.S_IMODE(report.parent.stat().st_mode) == 0o700


def test_a_second_fault_is_told_again_but_not_at_once(window, catch, store, monkeypatch):
    now = 1000.0
    monkeypatch.setattr(faults.time, "monotonic", lambda: now)
    fail(catch)
    window.messages.put_away()
    now += faults.AGAIN_S - 1
    fail(catch)
    assert not window.messages.isVisible()
    assert len(kept(store, "txt")) == 1
    now += 2
    fail(catch)
    assert "went wrong" in window.messages.text.text()
    assert len(kept(store, "txt")) == len(kept(store, "hobwort")) == 2


def test_where_nothing_can_be_kept_the_brewer_is_asked_to_save(window, monkeypatch, catch):
    def refuse(*_):
        raise OSError("no room")

    monkeypatch.setattr("designer.workbench.fault_folder._own_folder", refuse)
    fail(catch)
    assert "Save your recipe now" in window.messages.text.text()


def test_a_problem_is_reported_without_anything_private(qtbot, window, catch, store, tmp_path):
    window.opened.make(ChangeRecipe("name", SECRET, word("rename the recipe")))
    fail(catch, f"{SECRET} in {Path.home()}\n    by {getpass.getuser()}")
    button = next(b for b in window.messages._buttons if b.text() == "Report a problem…")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    report = window.findChild(ProblemReport)
    told = report.text.toPlainText()
    assert "KeyError (its words are left out" in told
    assert "tests/stories/test_problems.py:" in told
    assert "Hobwort" in told
    assert "PySide6" in told
    for private in (SECRET, "Meriel", str(Path.home()), str(tmp_path), str(store)):
        assert private not in told
    assert f" {getpass.getuser()}" not in told
    assert str(kept(store, "txt")[0]) in report.where.text()
    qtbot.mouseClick(report.copy_button, Qt.MouseButton.LeftButton)
    assert QGuiApplication.clipboard().text() == told
    report.close()


def test_without_a_fault_the_report_tells_of_program_and_system(window, store):
    window.report_problem()
    report = window.findChild(ProblemReport)
    assert "No fault of the program has been recorded." in report.text.toPlainText()
    report.close()


def test_a_fault_after_the_window_is_gone_is_only_logged(qtbot, store, capsys, settings, opened):
    from shiboken6 import delete

    from designer.window.main_window import MainWindow

    gone = MainWindow(opened, settings)
    catch = FaultCatcher(gone, lambda: store)
    delete(gone)
    fail(catch)
    assert capsys.readouterr().err.count("Traceback") == 1


def test_the_log_tells_what_was_done_and_nothing_private(qtbot, on_a_box, porter, tmp_path, folder):
    name = str(tmp_path / f"{SECRET}.hobwort")
    window = on_a_box(OpenRecipe(replace(porter, name=SECRET, notes=SECRET)))
    box = window.page_names.index("Recipe box")
    window.show_page(box)
    window.box.search.setText(SECRET)
    window.box.bring_in([Path(name)])

    def broken(_store):
        raise DesignerError(f"{SECRET} cannot be kept in {name}")

    failed = []
    window.autosave.store.ask(broken, lambda _: None, failed.append)
    fail(FaultCatcher(window, lambda: folder), f"{SECRET} in {name}")
    qtbot.waitUntil(lambda: bool(failed) and not window.autosave.store.busy, timeout=10_000)
    window.report_problem()
    report = window.findChild(ProblemReport)
    report.close()
    window.opened.undo_stack.setClean()
    window.close()
    lines = support_log.last_lines(folder)
    told = "\n".join(lines)
    assert "page shown RecipeBoxPage" in told
    assert "Recipe box failed DesignerError" in told
    assert "fault of the program KeyError" in told
    assert "closed seconds=" in told
    reopened = ProblemReport(folder)
    qtbot.addWidget(reopened)
    assert told in reopened.text.toPlainText()
    for private in (SECRET, "Meriel", name, str(Path.home()), str(folder), getpass.getuser()):
        assert private not in told
    assert stat.S_IMODE((folder / "log").stat().st_mode) == 0o700


def test_the_log_stays_small_and_a_full_disk_is_no_trouble(folder, capsys, monkeypatch):
    folder.mkdir()
    monkeypatch.setattr(support_log, "MOST_WAITING", 0)  # any number
    log = support_log.SupportLog(folder)
    for number in range(6000):
        support_log.note(support_log.Noted.PAGE_SHOWN, number=number)
    monkeypatch.setattr(support_log, "END_S", 20.0)
    log.end()
    files = sorted((folder / "log").iterdir())
    assert [each.name for each in files] == ["hobwort.log", "hobwort.log.1", "hobwort.log.2"]
    assert all(each.stat().st_size <= support_log.MOST_BYTES for each in files)
    assert "number=5999" in support_log.last_lines(folder)[-1]

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(support_log, "_put", full)
    log = support_log.SupportLog(folder)
    support_log.note(support_log.Noted.CLOSED)
    log.end()
    assert not log._thread.is_alive()
    assert capsys.readouterr() == ("", "")


def test_a_command_writes_to_the_log_what_nobody_expected_and_nothing_else(store, monkeypatch):
    assert run(["box", "collections"]) == 1  # there is no box: that is no fault of the program
    assert not store.exists()

    def broken(_chosen):
        raise ZeroDivisionError(SECRET)

    store.mkdir()
    monkeypatch.setattr(support_log, "_writing", [])
    monkeypatch.setattr("designer.command_line.glossary_command.carry_out", broken)
    with pytest.raises(ZeroDivisionError):
        run(["glossary"])
    assert "fault of the program ZeroDivisionError" in support_log.last_lines(store)[-1]
    assert SECRET not in (store / "log" / "hobwort.log").read_text("utf-8")


def test_of_two_windows_each_ends_its_own_log_and_takes_no_line_of_the_other(tmp_path):
    first, second = tmp_path / "first", tmp_path / "second"
    for each in (first, second):
        each.mkdir()
    log = support_log.SupportLog(first)
    other = support_log.SupportLog(second)
    support_log.note(support_log.Noted.PAGE_SHOWN, number=1)
    other.end()
    support_log.note(support_log.Noted.PAGE_SHOWN, number=2)
    log.end()
    assert "number=1" in "".join(support_log.last_lines(second))
    assert "number=2" in "".join(support_log.last_lines(first))
    assert len(support_log.last_lines(first) + support_log.last_lines(second)) == 2
