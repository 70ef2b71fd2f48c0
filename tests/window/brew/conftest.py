"""The page of a brew day over a brew whose log is kept in memory, and clocks that are driven."""

import pytest

from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from tests.active_window import made_active
from tests.driven_clock import DrivenClock
from tests.kept_in_memory import InMemory


@pytest.fixture
def clock():
    return DrivenClock()


@pytest.fixture
def kept():
    return InMemory()


@pytest.fixture
def page(qtbot, opened, display, clock, kept):
    """The page over the porter, not begun, shown and active."""
    from designer.window.brew.brew_page import BrewPage
    from designer.window.session.open_brew import OpenBrew

    brew = OpenBrew(kept, display, clock)
    recipe = opened.recipe

    def start():
        brew.begin(new_brew(document_text(recipe)), recipe)

    made = BrewPage(opened, display, brew, start)
    qtbot.addWidget(made)
    made.resize(1280, 736)
    made_active(qtbot, made)
    made.take_focus()
    yield made
    made.close_down()


@pytest.fixture
def settle(qtbot, page):
    """Wait until all that follows from the log is known and shown."""

    def wait():
        qtbot.waitUntil(lambda: not page.brew.reckoning, timeout=20_000)

    return wait


@pytest.fixture
def up_to(page, clock):
    """Do the steps before the one of that key, each when it is due."""

    def wait():
        clock.go_on(max(60.0 * page.brew.brewing.now.minutes - clock.true_s, 0.0))

    def do(key):
        if page.brew.brewing is None:
            page.do()
        while page.brew.brewing.now.key != key:
            wait()
            page.brew.done()
        wait()

    return do
