"""No message is left out where the program speaks another language: trouble, offers and dialogs.

What the pages show is read in `test_every_sentence.py`; here are the states that come and go.
"""

import re
import shutil
import threading
from datetime import UTC, datetime

import pytest
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu

from designer.errors import DesignerError
from designer.library.recipe_file import SUFFIX, document_text, load, save
from designer.library.store import Draft, Store
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.spoken_language import LANGUAGES
from designer.window.faults import FaultCatcher
from designer.window.parts.dates import day_text
from designer.window.parts.message_bar import MessageBar
from designer.window.parts.plain_text import as_read
from designer.window.problem_report import ProblemReport
from designer.window.session import recipe_on_disk
from designer.window.session.leaving import Leaving
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.reminders import Reminder
from designer.workbench.recipe_summary import summary_of
from tests.pseudo_language import assert_said, own_texts
from tests.shown_texts import shown_texts

from .acts import press, rename

OF_OTHERS = {
    "expecting value",
    "expecting property name enclosed in double quotes",
    "file is not a database",
}
"""What Python and SQLite say of a fault; they speak no other language."""
NAMES = {"Hobwort", "Theirs", "Mine", "HOBWORT_STORE", "Porter"}


@pytest.fixture(autouse=True)
def _own_places(monkeypatch, tmp_path):
    monkeypatch.delenv("HOBWORT_STORE", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setattr(recipe_on_disk, "LOOK_MS", 20)


@pytest.fixture
def heard(monkeypatch, pseudo):
    """All that messages have said, with what stands on their buttons."""
    found, say = [], MessageBar.say

    def noting(self, message, *, actions=(), **how):
        found.append((message, *(text for text, _ in actions)))
        say(self, message, actions=actions, **how)

    monkeypatch.setattr(MessageBar, "say", noting)
    return found


@pytest.fixture
def own(porter, tmp_path):
    today = day_text(datetime.now(UTC))  # in the language of the system
    return own_texts(porter) | NAMES | OF_OTHERS | {str(tmp_path), "mine.hobwort", today}


def assert_heard(heard, own, count):
    """So many messages came, and each is in the language."""
    assert len({text for text, *_ in heard}) >= count, heard
    assert_said(without_paths(each for said in heard for each in said), own)


def without_paths(texts):
    return {re.sub(r"[~/]\S*", " ", each) for each in texts}


def until(qtbot, condition):
    qtbot.waitUntil(condition, timeout=10_000)


def hear(qtbot, heard, act, *, messages=1):
    """Do something that is answered by so many messages, and wait for the last."""
    before = len(heard)
    act()
    until(qtbot, lambda: len(heard) >= before + messages)


def at_rest(qtbot, window):
    maintenance = window.maintenance
    until(
        qtbot,
        lambda: not (window.autosave.store.busy or maintenance.busy or maintenance._looking.busy),
    )


def press_way(qtbot, window, number):
    press(qtbot, window.messages._buttons[number])


def change_outside(path, porter, name="Theirs"):
    beside = path.with_name("beside")
    save(ChangeRecipe("name", name, word("")).apply(porter), beside)
    beside.replace(path)


def test_what_becomes_of_a_file_is_said(qtbot, heard, own, on_a_box, porter, tmp_path):
    path = tmp_path / "files" / "mine.hobwort"
    path.parent.mkdir()
    save(porter, path)
    window = on_a_box(OpenRecipe(load(path), path))
    at_rest(qtbot, window)
    saving = window.keeping.saving
    until(qtbot, lambda: saving.on_disk._known is not None)
    states = {window.header.state.text()}
    rename(window, "Mine")
    states.add(window.header.state.text())
    hear(qtbot, heard, window.files.save)
    at_rest(qtbot, window)
    states.add(window.header.state.text())
    hear(qtbot, heard, lambda: change_outside(path, porter))
    states.add(window.header.state.text())
    hear(qtbot, heard, lambda: press_way(qtbot, window, 1))  # take theirs
    rename(window, "Mine")
    hear(qtbot, heard, lambda: change_outside(path, porter, "Theirs again"))
    hear(qtbot, heard, lambda: press_way(qtbot, window, 0))  # keep both
    path = window.opened.path
    path.write_text("{", encoding="utf-8")
    hear(qtbot, heard, lambda: None)
    hear(qtbot, heard, lambda: press_way(qtbot, window, 1))  # overwrite
    hear(qtbot, heard, path.unlink)
    states.add(window.header.state.text())
    hear(qtbot, heard, window.files.save)
    hear(qtbot, heard, lambda: shutil.rmtree(path.parent))
    rename(window, "Mine")
    hear(qtbot, heard, window.files.save)
    assert_heard(heard, own | {"Theirs again", path.stem}, 9)
    assert_said({each for each in states if each}, own)
    assert len(states) >= 4


def test_a_disk_that_is_slow_is_told(
    qtbot, heard, own, on_a_box, opened, answers, monkeypatch, tmp_path
):
    let = threading.Event()

    def late(recipe, path, *, instead_of=None):
        assert let.wait(30)
        return save(recipe, path, instead_of=instead_of)

    monkeypatch.setattr(recipe_on_disk, "save", late)
    window = on_a_box(opened)
    answers.file = tmp_path / f"mine{SUFFIX}"
    hear(qtbot, heard, window.files.save_as)
    hear(qtbot, heard, window.close)
    press_way(qtbot, window, 1)  # stay
    let.set()
    until(qtbot, lambda: not window.keeping.saving.on_disk.disk.pending)
    window.keeping.saving._tell_slow("⟦⟧")
    assert_heard(heard, own, 4)


def filled(folder, opened):
    """A box with three recipes, the last of them not in its backup."""
    with Store.open(folder) as store:
        text, summary = document_text(opened.recipe), summary_of(opened.recipe, opened.outlook)
        for number in range(3):
            store.recipes.add(text, summary)
            if number == 1:
                store.make_backup()
        return store.path


@pytest.mark.parametrize("way", [0, 1, 2])
def test_what_can_be_done_about_a_damaged_box_is_said(
    qtbot, heard, own, on_a_box, opened, folder, way
):
    path = filled(folder, opened)
    path.write_bytes(bytes(4096) + path.read_bytes()[4096:])
    window = on_a_box(opened)
    until(qtbot, lambda: len(window.messages._buttons) == 4)
    shown = {window.header.unkept.text(), window.header.unkept.accessibleName()}
    press_way(qtbot, window, way)
    until(qtbot, lambda: not window.autosave.broken and not window.autosave.store.busy)
    assert_heard(heard, own, 3)
    assert_said(without_paths(shown), own)


def test_a_box_of_which_nothing_can_be_read_is_told(qtbot, heard, own, on_a_box, opened, folder):
    filled(folder, opened).write_bytes(b"\xee" * 20_000)
    window = on_a_box(opened)
    until(qtbot, lambda: len(window.messages._buttons) == 3)
    at_rest(qtbot, window)
    assert_heard(heard, own, 2)


def test_a_box_that_is_out_of_reach_is_told(qtbot, heard, own, on_a_box, opened, tmp_path):
    window = on_a_box(opened, folder=tmp_path / "away" / "box")
    until(qtbot, lambda: bool(window.messages._buttons))
    rename(window, "Mine")
    hear(qtbot, heard, window.files.save)
    at_rest(qtbot, window)
    assert_heard(heard, own, 2)


def test_what_is_done_with_the_whole_box_is_said(qtbot, heard, own, on_a_box, opened, tmp_path):
    window = on_a_box(opened)
    doing = []
    window.maintenance.progressed.connect(lambda what, *_: doing.append(what))
    window.files.save()
    at_rest(qtbot, window)
    care, copy = window.maintenance, tmp_path / "copy.db"
    hear(qtbot, heard, care.make_backup)
    hear(qtbot, heard, lambda: care.copy_all(copy))
    hear(qtbot, heard, lambda: care.bring_back_all(copy))
    at_rest(qtbot, window)
    hear(qtbot, heard, lambda: press_way(qtbot, window, 0))  # take that back
    at_rest(qtbot, window)
    hear(qtbot, heard, lambda: care.move_to(tmp_path / "elsewhere"))
    at_rest(qtbot, window)
    hear(qtbot, heard, lambda: care.move_to(tmp_path / "elsewhere"))
    assert_heard(heard, own | {"copy.db"} | {each.name for each in tmp_path.rglob("*.db")}, 6)
    assert_said(set(doing), own)


def test_what_was_left_behind_is_said(qtbot, heard, own, on_a_box, opened, folder, tmp_path):
    text = document_text(opened.recipe)
    older, newer = text.replace("Harbour Lamp", "Older"), text.replace("Harbour Lamp", "Newer")
    with Store.open(folder) as store:
        store.drafts.put(Draft("older", older))
        store.drafts.put(Draft("broken", '{"hobwort": 1, "hops": "three of them"}'))
        store.drafts.put(Draft("newer", newer, 0, 0, (text, newer), 1))
    window = on_a_box(opened)
    assert window.opened.recipe.name == "Newer Porter"
    assert_heard(heard, own | {"Newer", "Older", "hops"}, 1)
    undo = as_read(window.menus.actions[-1].text()), window.header.undo.toolTip()
    assert_said({undo[1]}, own)


def test_what_was_open_last_is_told_where_something_else_was_typed(
    qtbot, heard, own, on_a_box, opened, folder
):
    first = on_a_box(opened)
    first.files.save()
    at_rest(qtbot, first)
    left = [first.autosave]
    assert_said({first.header.state.text(), left[0].state}, own)
    first.files.new_recipe()
    rename(first, "Mine")
    hear(qtbot, heard, first.files.open_example)
    at_rest(qtbot, first)
    assert_heard(heard, own, 1)


def test_leaving_what_is_not_kept_asks_in_the_language(qtbot, own, pseudo, window):
    said = set()
    for reason, name in (("", "Mine"), ("⟦⟧", "Mine"), ("", "")):
        leaving = Leaving(window, lambda then: then(False))
        leaving.begin(lambda then, failed: None, lambda: None, name)
        if reason:
            leaving._note_failed(1, reason)
        else:
            leaving._ask()
        said |= {text for _, text in shown_texts(leaving.dialog)}
        leaving.dialog.reject()
    assert len(said) >= 8
    assert_said(said, own)


def test_a_fault_of_the_program_and_its_report_are_told(
    qtbot, heard, own, on_a_box, opened, folder, capsys
):
    window = on_a_box(opened)
    empty = ProblemReport(folder / "none", window)
    catch = FaultCatcher(window, lambda: folder)
    catch(ValueError, ValueError("out of reach"), None)
    report = ProblemReport(folder, window)
    said = {text for each in (empty, report) for _, text in shown_texts(each)}
    report.copy_button.click()
    said.add(report.copy_button.text())
    assert len(said) >= 6
    assert_heard(heard, own, 1)
    assert_said(without_paths(said), own)
    assert "ValueError" in capsys.readouterr().err


def test_menus_say_all_of_it_and_the_last_step_too(qtbot, pseudo, own, on_a_box, opened, tmp_path):
    window = on_a_box(opened)
    shown = []
    window.settings.remember(tmp_path / f"mine{SUFFIX}")
    for _ in range(2):
        for menu in window.findChildren(QMenu):
            menu.aboutToShow.emit()
            shown += [action.text() for action in [menu.menuAction(), *menu.actions()]]
        rename(window, "Mine")
    window.opened.undo_stack.undo()
    shown += [action.text() for action in window.findChildren(QAction)]
    shown += [window.header.redo.toolTip(), window.header.undo.accessibleName()]
    keys = r"\b(?:Ctrl|Alt|Shift)(?:\+\w+)+"
    texts = {
        as_read(re.sub(keys, "", each))
        for each in shown
        if each and not each.startswith(str(tmp_path))
    }
    assert len(texts) > 50
    assert_said(texts - {f"mine{SUFFIX}", *LANGUAGES.values()}, own)


def test_what_begin_refuses_is_said_beside_the_field(qtbot, pseudo, own, window):
    window.begin()
    refused = set()
    page = window.begin_page
    page.own.form.bitterness.switch.choose("ibu")
    page.kit.fields["makes"].setText("20 L")
    for door, button in ((page.own, page.own.three.cards[0].button), (page.kit, page.kit.button)):
        for field in list(door.fields.values())[1:]:
            before = field.text()
            field.setText("seven")
            field.textEdited.emit("seven")
            button.click()
            refused.add(door.refusal.text())
            field.setText(before)
            field.textEdited.emit(before)
    assert_said({each for each in refused if each}, own | {"seven"})


def test_what_is_done_with_the_sheet_is_said(
    qtbot, heard, own, on_a_box, opened, answers, tmp_path
):
    window = on_a_box(opened)
    answers.file = tmp_path / "sheet.pdf"
    answers.html_where = lambda parent, suggested: tmp_path / "sheet.html"
    window.show_page(2)
    hear(qtbot, heard, window.sheet.copy_text)
    hear(qtbot, heard, window.sheet.write_pdf)
    hear(qtbot, heard, window.sheet.write_html)
    window.sheet.wishes.brew_day.setText("someday")
    assert_heard(heard, own, 3)
    assert_said({window.sheet.wishes.brew_day.toolTip()}, own | {"someday"})


def test_what_cannot_be_opened_is_told(qtbot, heard, own, on_a_box, opened, tmp_path):
    window = on_a_box(opened)
    path = tmp_path / "mine.hobwort"
    path.write_text("{", encoding="utf-8")
    hear(qtbot, heard, lambda: window.files.open_path(path))
    hear(qtbot, heard, lambda: window.files.open_path(tmp_path / "none.hobwort"))
    hear(qtbot, heard, lambda: window.say_fault(str(DesignerError("⟦⟧"))))
    assert_heard(heard, own | {"none.hobwort"}, 2)


def test_what_beers_are_to_be_remembered_for_is_said_in_the_language(
    heard, qtbot, on_a_box, opened
):
    window = on_a_box(opened)
    at = window.reminders._now().wall
    first, second = (Reminder("a", "Porter", at - days * 86_400.0, "Mine") for days in (2.0, 0.0))
    window.reminders._say((second,))
    window.reminders._say((first, second))
    said = {text for each in heard for text in each}
    assert len(said) >= 5
    assert_said({re.sub(r"\b\d{1,2} \w{3} \d{4}\b", " ", each) for each in said}, NAMES)
