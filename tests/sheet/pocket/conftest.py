"""Phones: a Chromium without a window, the page of a recipe in it."""

from __future__ import annotations

import pytest

from .browser import Browser, browser_path
from .phone import Phone, requests, written_page


@pytest.fixture(scope="session")
def browser(tmp_path_factory):
    """A browser for all tests; what they keep in it they do not share."""
    if browser_path() is None:
        pytest.skip("no Chromium here; sh packaging/test.sh --all installs Debian's")
    made = Browser(tmp_path_factory.mktemp("profile"))
    yield made
    made.close()


@pytest.fixture
def phone_of(browser, tmp_path):
    """Return a phone with the page of a recipe; nothing must be asked of the network by it."""
    made = []

    def with_page(recipe, language="en", **shown):
        place, steps = written_page(recipe, tmp_path, language)
        made.append(Phone(browser, place, steps, **shown))
        return made[-1]

    browser.events.clear()
    yield with_page
    for each in made:
        assert each.faults() == []
        each.close()
    assert [each for each in requests(browser) if not each.startswith("file:")] == []


@pytest.fixture
def phone(phone_of, porter):
    """A phone with the porter's page."""
    return phone_of(porter)
