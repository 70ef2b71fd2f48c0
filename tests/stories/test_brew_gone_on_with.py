"""A brew that was left in the middle is gone on with, however the program ended."""

import time

import pytest

from designer.library.store import Store

from .real_program import HELD_UP, Program

BREWING = "window.brew_page is not None and window.brew_page.brew.brew is not None"
SHOWN = "window.pages.currentWidget() is window.brew_page"


@pytest.fixture
def program(tmp_path):
    started = []

    def start(hook="", *, anew=False):
        started.append(Program(tmp_path, hook=hook, anew=anew))
        return started[-1].seen()

    yield start
    for each in started:
        with each:
            pass


def begin_brew(program):
    """Begin to brew the example and do two steps."""
    program.do("window.files.open_example()")
    program.do("window.show_page(window.page_names.index('Brew day'))")
    program.do("window.brew_page.do()")
    program.until(BREWING)
    program.do("window.brew_page.do(); window.brew_page.do()")
    program.until("window.keeping.brews.settled")


def test_the_next_start_opens_on_the_brew_that_a_crash_ended(program):
    first = program()
    begin_brew(first)
    key = first.ask("window.brew_page.brew.brewing.now.key")
    states = first.ask("[str(each.status) for each in window.brew_page.brew.brewing.states]")
    first.kill()
    second = program(anew=True)
    second.until(f"{BREWING} and {SHOWN}")
    second.until(f"window.brew_page.brew.brewing.now.key == {key!r}")
    assert (
        second.ask("[str(each.status) for each in window.brew_page.brew.brewing.states]") == states
    )
    assert "The brew of “Harbour Lamp Porter” is under way" in second.ask("said()")
    second.do("window.opened.undo_stack.setClean()")
    assert second.close() == ""


def test_the_doors_offer_the_brew_before_all_else(program):
    first = program()
    begin_brew(first)
    first.do(
        "from designer.workbench.brew import timer_moves; from designer.workbench.brew.entries "
        "import What; window.brew_page.brew._write(What.TIMER, **timer_moves.start('boil', 60.0))"
    )
    first.until("window.keeping.brews.settled")
    first.do("window.begin()")
    first.until("window.begin_page.column.go_on is not None")
    first.until(
        "'Brew of Harbour Lamp Porter' in window.begin_page.column.things[0].accessibleName()"
    )
    assert "boil, 60 min left" in first.ask(
        "window.begin_page.column.things[0].accessibleDescription()"
    )
    first.do("window.begin_page.column.go_on.click()")
    first.until(SHOWN)


def test_a_brew_that_was_left_long_ago_is_offered_and_nothing_is_shown_unasked(program, tmp_path):
    from designer.library.recipe_file import document_text, load
    from designer.library.store import Store
    from designer.library.store.brews import new_brew
    from designer.resource_files import resource_path

    recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    brew = new_brew(document_text(recipe))
    at = time.time() - 3 * 86_400.0
    entry = {"id": "000001-ab", "at": {"wall": at}, "what": "began", "values": {}}
    with Store.open(tmp_path / "box") as store:
        store.brews.put(brew, [entry])
    one = program()
    one.until("'is under way' in said()")
    assert not one.ask(SHOWN)
    one.do("choose('Go on with Harbour Lamp Porter')")
    one.until(f"{BREWING} and {SHOWN}")
    assert one.ask("name()") == "Harbour Lamp Porter", "its recipe is open too"


def test_a_second_window_says_what_is_brewed_and_shows_nothing_unasked(program):
    first = program()
    begin_brew(first)
    second = program()
    second.until("'is under way' in said()")
    assert not second.ask(SHOWN)
    second.do("choose('Go on with Harbour Lamp Porter')")
    second.until(f"{BREWING} and {SHOWN}")
    first.do("window.brew_page.brew.note('From the first window')")
    second.do("window.brew_page.brew.note('From the second window')")
    for each in (first, second):
        each.until("window.keeping.brews.settled and not window.autosave.store.busy")
    first.kill()
    second.kill()
    third = program()
    third.until(BREWING)
    notes = "sorted(each.text for each in window.brew_page.brew.brewing.notes)"
    third.until(f"{notes} == ['From the first window', 'From the second window']")


def test_of_several_brews_the_one_left_last_is_shown_and_the_others_are_offered(program):
    first = program()
    begin_brew(first)
    first.do("window.brew_page.brew.leave(); window.files.open_example('slipway_bitter')")
    first.until("name() == 'Slipway Bitter'")
    first.do("window.show_page(window.page_names.index('Brew day')); window.brew_page.do()")
    first.until(BREWING)
    first.until("window.keeping.brews.settled")
    first.kill()
    second = program()
    second.until(f"{BREWING} and {SHOWN}")
    assert second.ask("window.brew_page.brew.brew.name") == "Slipway Bitter"
    said = second.until("said()")
    assert "“Slipway Bitter” is under way" in said
    assert "“Harbour Lamp Porter” is under way" in said
    second.do("choose('Go on with Harbour Lamp Porter')")
    second.until("window.brew_page.brew.brew.name == 'Harbour Lamp Porter'")


def test_a_window_killed_before_the_box_answered_leaves_its_version_to_the_next(program, tmp_path):
    first = program(hook=HELD_UP)
    first.do("window.files.open_example()")
    first.do("window.show_page(window.page_names.index('Brew day'))")
    first.until("window.brew_page is not None")
    first.gate.touch()
    first.do("window.brew_page.do()")
    first.until(BREWING)
    first.until("window.keeping.brews.settled")
    first.kill()
    first.gate.unlink()
    second = program()
    second.until(f"{BREWING} and {SHOWN}")

    def kept():
        with Store.open(tmp_path / "box") as store:
            (brew,) = store.brews.all()
            return brew.version and store.recipes.version(brew.version).document == brew.document

    end = time.monotonic() + 15.0
    while not kept():
        assert time.monotonic() < end
        time.sleep(0.05)
