"""Beside the doors: what a brewer may go on with, by keyboard and by mouse, and the kitchen."""

import shutil

import pytest

from designer.library.recipe_file import load, save
from designer.library.store import Store
from designer.library.store.kitchen import FermenterRecord, PotRecord

from .real_program import HELD_UP, Program
from .test_leaving import in_the_box

SEEN = "[(each.accessibleName(), each.accessibleDescription()) for each in window.begin_page.column.things]"  # noqa: E501
PAGE = "type(window.pages.currentWidget()).__name__"
ALL_SAID = (
    "[each.text() for each in window.begin_page.column.findChildren(QLabel) if each.isVisible()]"
)
CLICK = "QTest.mouseClick({}, Qt.MouseButton.LeftButton)"


@pytest.fixture
def program(tmp_path):
    started = []

    def start(*words, hook=""):
        started.append(Program(tmp_path, *words, hook=hook))
        started[-1].do("from PySide6.QtWidgets import QLabel")
        return started[-1]

    yield start
    for each in started:
        with each:
            pass


@pytest.fixture
def at_the_doors(program, tmp_path, porter):
    """Start at the doors after a crash has left two drafts, one of them on a file."""
    path = tmp_path / "evening.hobwort"
    save(porter, path)
    for words, name in (((path,), "Left on a file"), ((), "Left in no file")):
        one = program(*words).seen()
        if not words:
            one.do("window.begin(); window.files.open_example()")
        one.do(f"type_name('{name}')")
        one.until("state() == 'unsaved, draft kept'")
        if not words:
            one.do("window.begin()")
        one.kill()
        shutil.rmtree(tmp_path / "settings", ignore_errors=True)
    return program().seen()


def test_drafts_that_were_left_are_offered_and_stay_until_they_are_wanted(
    at_the_doors, program, tmp_path
):
    one = at_the_doors
    one.until("len(window.begin_page.column.things) > 1")
    names = dict(one.ask(SEEN))
    assert names["Left in no file"].startswith("draft, not kept yet · ")
    assert names["Left on a file"].startswith("draft, not kept yet · ")
    assert one.ask(SEEN)[0][0] == "Left in no file"
    assert one.close() == ""
    assert in_the_box(tmp_path) == ([], ["Left on a file", "Left in no file"])
    two = program().seen()
    two.until("len(window.begin_page.column.things) > 1")
    (place,) = [n for n, (name, _) in enumerate(two.ask(SEEN)) if name == "Left on a file"]
    two.do(CLICK.format(f"window.begin_page.column.things[{place}]"))
    two.until("name() == 'Left on a file'")
    assert two.ask(f"({PAGE}, window.opened.path.name)") == ("ComposePage", "evening.hobwort")
    two.do("press('Ctrl+S')")
    two.until("state() == 'saved'")
    two.do("press('Ctrl+Shift+N')")
    two.until("window.begin_page.column.go_on is not None")
    two.until(f"{SEEN}[0] == ('Left on a file', 'open now')")
    assert two.close() == ""
    assert load(tmp_path / "evening.hobwort").name == "Left on a file"
    assert in_the_box(tmp_path) == (["Left on a file"], ["Left in no file"])


def test_by_keyboard_alone_one_goes_on_with_the_draft(at_the_doors):
    one = at_the_doors
    one.until("window.begin_page.column.go_on is not None")
    one.do("window.begin_page.doors.button(0).setFocus(); press('Shift+Tab')")
    for _ in range(12):
        if one.ask("focus() is window.begin_page.column.go_on"):
            break
        one.do("QTest.keyClick(focus(), Qt.Key.Key_Backtab, Qt.KeyboardModifier.ShiftModifier)")
    assert one.ask("focus().accessibleName()") == "Go on with Left in no file"
    one.do("press('Return')")
    one.until("name() == 'Left in no file'")
    assert one.ask(f"({PAGE}, window.opened.unsaved)") == ("ComposePage", True)
    assert one.close() == ""


def test_at_a_first_start_examples_are_shown_and_the_kitchen_is_empty(program, tmp_path):
    (tmp_path / "gate").touch()
    one = program(hook=HELD_UP)
    one.until("window.autosave is not None")
    assert one.ask(SEEN) == []
    (tmp_path / "gate").unlink()
    one.until(f"len({SEEN}) == 4")
    assert one.ask(SEEN)[0] == ("Harbour Lamp Porter", "example")
    assert one.ask("window.begin_page.column.all_of_them.text()") == "All 4 in the Recipe box"
    said = one.ask(ALL_SAID)
    assert "LOOK AROUND IN AN EXAMPLE" in said
    assert "No pot and no fermenter kept yet." in said
    one.do(CLICK.format("window.begin_page.column.change_vessels"))
    assert one.ask(PAGE) == "KitchenPage"
    one.do("press('Ctrl+Shift+N')")
    one.do(CLICK.format("window.begin_page.column.things[1]"))
    one.until("state() == 'an example'")
    assert one.ask("name()") == "Slipway Bitter"
    assert one.close() == ""


def test_vessels_that_are_kept_are_told(program, tmp_path):
    with Store.open(tmp_path / "box") as store:
        store.pots.insert(PotRecord("Blue pot", "8 L"))
        store.fermenters.insert(FermenterRecord("Bucket by the door", "15 L"))
    one = program().seen()
    one.until("any('Blue pot, 8 L' in each for each in " + ALL_SAID + ")")
    assert one.close() == ""


# what is asked once


def kept(folder):
    with Store.open(folder / "box") as store:
        pots = [(each.name, each.volume) for each in store.pots.all()]
        return pots, [(each.name, each.volume) for each in store.fermenters.all()]


def test_units_and_vessels_are_asked_once_by_keyboard_and_offered_at_the_doors(program, tmp_path):
    one = program().seen()
    one.do("line = window.begin_page.welcome")
    assert one.ask("line.isVisible()")
    one.do("line.units.button('us').setFocus(); press('Space')")
    assert one.ask("(str(window.settings.units), line.fields['pot'].placeholderText())") == (
        "us",
        "2.5 gal",
    )
    one.do("line.fields['pot'].setFocus(); QTest.keyClicks(focus(), '9 kg'); press('Return')")
    one.do("QTest.keyClicks(focus(), '15 L'); press('Return')")
    assert one.ask("(line.isVisible(), line.refusal.isVisible())") == (True, True)
    one.do("line.fields['pot'].setFocus(); focus().selectAll()")
    one.do("QTest.keyClicks(focus(), '8 L'); press('Return'); press('Return')")
    one.until("not line.isVisible()")
    one.until("any('Pot, 8 L' in each for each in " + ALL_SAID + ")")
    one.until("window.begin_page.own.form.kitchen.fields['pot'].text() == 'Pot, 8 L'")
    assert one.close() == ""
    assert kept(tmp_path) == ([("Pot", "8 L")], [("Fermenter", "15 L")])
    two = program().seen()
    assert two.ask("(window.begin_page.welcome, str(window.settings.units))") == (None, "us")
    assert two.close() == ""


def test_what_is_asked_may_be_skipped_by_mouse_and_is_not_asked_again(program, tmp_path):
    one = program().seen()
    one.do(CLICK.format("window.begin_page.welcome.skip"))
    assert not one.ask("window.begin_page.welcome.isVisible()")
    one.kill()
    assert program().seen().ask("window.begin_page.welcome") is None
    assert kept(tmp_path) == ([], [])


def test_vessels_told_while_the_box_does_not_answer_are_kept_once_it_does(program, tmp_path):
    (tmp_path / "gate").touch()
    one = program(hook=HELD_UP)
    one.do("line = window.begin_page.welcome")
    one.do("line.fields['pot'].setFocus(); QTest.keyClicks(focus(), '8 L')")
    one.do(CLICK.format("line.keep"))
    assert one.ask("line.isVisible()")
    (tmp_path / "gate").unlink()
    one.until("not line.isVisible()")
    assert one.close() == ""
    assert kept(tmp_path) == ([("Pot", "8 L")], [])
