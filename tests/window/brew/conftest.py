"""The page of a brew day over a brew whose log is kept in memory, and clocks that are driven."""

import pytest

from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.workbench.brew.clocks import DrivenClock
from designer.workbench.brew.entries_text import as_line, entry_of_line
from tests.active_window import made_active


class InMemory:
    """Keeps entries as the lines that a disk would hold."""

    def __init__(self):
        self.lines = []

    def begin(self, brew):
        pass

    def append(self, uid, *entries):
        self.lines += map(as_line, entries)

    def running(self, then, failed):
        pass

    def entries(self):
        return [entry_of_line(line) for line in self.lines]


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
def up_to(page):
    """Do the steps before the one of that key."""

    def do(key):
        if page.brew.brewing is None:
            page.do()
        while page.brew.brewing.now.key != key:
            page.brew.done()

    return do
