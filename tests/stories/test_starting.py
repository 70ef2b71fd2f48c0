"""The first start and those after it, each as a process of its own, with an empty home at first."""

import shutil

import pytest

from designer.library.recipe_file import load, save
from designer.library.store import Store

from .real_program import HELD_UP, TOP, Program
from .test_leaving import in_the_box

PAGE = "type(window.pages.currentWidget()).__name__"
PAGES_ON = "[each.isEnabled() for each in window.header.page_buttons.buttons()]"
OFF = "[each.text() for each in window.menus.actions if not each.isEnabled()]"
DRAWING = "PySide6.QtSvg"
"""Reads the drawings of icons: wanted by no start."""
BROKEN = """
from designer.errors import DesignerError
from designer.library.store.store import Store

def refused(*_, **__):
    raise DesignerError("The disk of the box is broken.")

if CLOSED.exists():
    Store.open = refused
"""


@pytest.fixture
def program(tmp_path):
    started = []

    def start(*words, hook=""):
        started.append(Program(tmp_path, *words, hook=hook, anew=True))
        return started[-1]

    yield start
    for each in started:
        with each:
            pass


@pytest.fixture
def left(program, tmp_path, porter):
    """A recipe of one's own that a crash has left behind, on its file."""
    path = tmp_path / "evening.hobwort"
    save(porter, path)
    one = program(path).seen()
    one.do("type_name('Left by a crash')")
    one.until("state() == 'unsaved, draft kept'")
    one.kill()
    return path


def test_the_first_start_shows_the_doors_and_nothing_is_open(program, tmp_path):
    one = program().seen()
    assert one.ask(f"({PAGE}, state())") == ("BeginPage", "nothing open")
    assert one.ask("window.windowTitle()") == "Hobwort"
    assert one.ask("QApplication.desktopFileName()") == "org.hobwort.hobwort"
    assert not one.ask(f"{DRAWING!r} in __import__('sys').modules")
    one.until("48 in [size.width() for size in window.windowIcon().availableSizes()]")
    assert one.ask("(window.header.program.isVisible(), window.header.name.isVisible())") == (
        True,
        False,
    )
    assert one.ask(PAGES_ON) == [False, False, False, False, True, True]
    assert one.ask("window.header.page_buttons.button(0).toolTip()").startswith("No recipe is open")
    off = one.ask(OFF)
    for entry in ("&Save", "&Print the sheet…", "Add a &hop", "&Compose", "&Undo"):
        assert entry in off
    for entry in ("&Begin…", "&Open…", "&Recipe box", "&Quit"):
        assert entry not in off
    one.do("press('Ctrl+1'); press('Ctrl+S'); press('Esc'); window.files.save_as()")
    assert one.ask(f"({PAGE}, asked())") == ("BeginPage", "")
    assert one.close() == ""
    assert in_the_box(tmp_path) == ([], [])


def test_who_left_off_at_the_doors_comes_back_to_them_and_who_was_killed_there_too(
    program, tmp_path
):
    one = program().seen()
    one.kill()
    two = program().seen()
    assert two.ask(PAGE) == "BeginPage"
    assert two.close() == ""
    (tmp_path / "gate").touch()
    three = program(hook=HELD_UP)  # the doors are seen at once, whatever the box does
    assert three.ask(PAGE) == "BeginPage"


def test_a_file_is_opened_and_gone_on_with_though_it_was_only_looked_at(program, tmp_path, porter):
    path = tmp_path / "evening.hobwort"
    save(porter, path)
    one = program(path)
    assert one.ask(f"({PAGE}, name())") == ("ComposePage", porter.name)
    one.seen()
    assert one.close() == ""
    two = program().seen()
    two.until("state() == 'saved'")
    assert two.ask(f"({PAGE}, name(), str(window.opened.path))") == (
        "ComposePage",
        porter.name,
        str(path),
    )
    assert two.ask(PAGES_ON) == [True] * 6
    assert two.close() == ""


def test_a_file_that_is_gone_by_then_is_told_of_at_the_doors(program, tmp_path, porter):
    path = tmp_path / "evening.hobwort"
    save(porter, path)
    assert program(path).seen().close() == ""
    path.unlink()
    two = program().seen()
    two.until(f"{PAGE} == 'BeginPage'")
    assert "evening.hobwort is not there" in two.ask("said()")
    assert two.ask("state()") == "nothing open"
    three = program(path).seen()
    assert three.ask(PAGE) == "BeginPage"
    assert "evening.hobwort is not there" in three.ask("said()")


def test_neither_doors_nor_an_example_are_seen_before_what_was_open_last(program, left, tmp_path):
    (tmp_path / "gate").touch()
    two = program(hook=HELD_UP)
    two.until("window.autosave is not None")
    assert two.ask(f"({PAGE}, state(), window.opened.is_open)") == ("GoingOn", "opening …", False)
    assert not two.ask("window.header.name.isVisible()")
    (tmp_path / "gate").unlink()
    two.until(f"{PAGE} == 'ComposePage'")
    assert two.ask("(name(), str(window.opened.path))") == ("Left by a crash", str(left))
    two.until("window.opened.with_ranges and window.compose.day_line.isVisible()")
    assert two.close() == ""


def test_while_the_box_does_not_answer_one_may_begin_and_what_was_left_comes_behind_the_doors(
    program, left, tmp_path
):
    (tmp_path / "gate").touch()
    two = program(hook=HELD_UP)
    two.until("window.autosave is not None")
    two.until("window._going_on.doors.isVisible()")
    two.do("choose('Begin something else')")
    assert two.ask(PAGE) == "BeginPage"
    (tmp_path / "gate").unlink()
    two.until("name() == 'Left by a crash'")
    assert two.ask(PAGE) == "BeginPage"
    assert "Going on with “Left by a crash”" in two.ask("said()")
    two.do("press('Esc')")
    assert two.ask(PAGE) == "ComposePage"
    assert two.close() == ""


def test_a_box_that_cannot_be_opened_is_told_of_at_the_doors_and_nothing_is_lost(
    program, left, tmp_path
):
    (tmp_path / "gate").touch()
    two = program(hook=BROKEN)
    two.until(f"{PAGE} == 'BeginPage'")
    assert "The disk of the box is broken." in two.ask("said()")
    two.kill()
    (tmp_path / "gate").unlink()
    three = program().seen()
    assert three.ask("name()") == "Left by a crash"
    assert three.close() == ""
    assert load(left).name == "Harbour Lamp Porter"


def test_the_doors_are_left_again_for_the_recipe_that_is_open(program, left):
    two = program().seen()
    two.do("press('Ctrl+3'); press('Ctrl+Shift+N')")
    assert two.ask(PAGE) == "BeginPage"
    two.do("press('Esc')")
    assert two.ask(f"({PAGE}, name())") == ("SheetPage", "Left by a crash")
    two.do("press('Ctrl+Shift+N')")
    assert two.close() == ""
    three = program().seen()
    assert three.ask(f"({PAGE}, window.opened.is_open)") == ("BeginPage", False)
    assert three.close() == ""


# the examples


def boxed(folder):
    """What is listed in the box: name, the example that it is, and how many versions it has."""
    with Store.open(folder / "box") as store:
        rows = store.finder.find("", hurry_s=None).rows
        return sorted((each.name, each.example, each.versions) for each in rows)


EXAMPLES = [
    ("Breakwater Red", "breakwater_red", 1),
    ("Foghorn Wheat", "foghorn_wheat", 1),
    ("Harbour Lamp Porter", "harbour_lamp_porter", 1),
    ("Slipway Bitter", "slipway_bitter", 1),
]


def test_by_keyboard_alone_an_example_is_looked_at_gone_on_with_and_made_ones_own(
    program, tmp_path
):
    one = program().seen()
    one.do("press('Alt+3')")
    assert one.ask("focus().accessibleName()") == "Harbour Lamp Porter"
    one.do("press('Tab'); press('Return')")
    assert one.ask(f"({PAGE}, name())") == ("ComposePage", "Slipway Bitter")
    one.until("state() == 'an example'")
    assert one.close() == ""
    assert boxed(tmp_path) == EXAMPLES
    two = program().seen()
    two.until("state() == 'an example'")
    assert two.ask(f"({PAGE}, name())") == ("ComposePage", "Slipway Bitter")
    two.do("type_name('Bitter of my own')")
    two.until("state() == 'unsaved, draft kept'")
    two.do("press('Ctrl+S')")
    two.until("state() == 'kept, version 1'")
    two.do("type_name('Bitter of my own, better'); press('Ctrl+S')")
    two.until("state() == 'kept, version 2'")
    assert two.close() == ""
    assert boxed(tmp_path) == [("Bitter of my own, better", "", 2), *EXAMPLES]


def test_by_mouse_alone_an_example_is_opened_and_what_a_crash_leaves_of_it_is_gone_on_with(
    program, tmp_path
):
    one = program().seen()
    click = "QTest.mouseClick({}, Qt.MouseButton.LeftButton)"
    one.do(click.format("window.begin_page.doors.button(2)"))
    one.do(click.format("window.begin_page.example.examples['breakwater_red']"))
    assert one.ask("name()") == "Breakwater Red"
    one.do("type_name('Red of my own')")
    one.until("state() == 'unsaved, draft kept'")
    one.kill()
    two = program().seen()
    assert two.ask(f"({PAGE}, name())") == ("ComposePage", "Red of my own")
    two.do("press('Ctrl+S')")
    two.until("state() == 'kept, version 1'")
    assert two.close() == ""
    assert boxed(tmp_path) == sorted([*EXAMPLES, ("Red of my own", "", 1)])


def test_an_example_opened_while_the_box_does_not_answer_is_the_brewers_own(program, tmp_path):
    (tmp_path / "gate").touch()
    one = program(hook=HELD_UP)
    one.until("window.autosave is not None")
    one.do("window.files.open_example(); type_name('Typed at once')")
    (tmp_path / "gate").unlink()
    one.until("state() == 'unsaved, draft kept'")
    one.do("press('Ctrl+S')")
    one.until("state() == 'kept, version 1'")
    assert one.close() == ""
    assert boxed(tmp_path) == [*EXAMPLES, ("Typed at once", "", 1)]


def test_a_box_that_holds_anything_by_now_is_given_no_examples(program, tmp_path, boxed_porter):
    before = boxed(tmp_path)
    assert program().seen().close() == ""
    assert boxed(tmp_path) == before


@pytest.fixture
def boxed_porter(tmp_path, porter):
    """A box of a release that knew no examples, with a recipe in it."""
    sample = sorted((TOP / "tests" / "old_stores").glob("release_*.db"))[3]
    (tmp_path / "box").mkdir()
    shutil.copy(sample, tmp_path / "box" / "recipe-box.db")
