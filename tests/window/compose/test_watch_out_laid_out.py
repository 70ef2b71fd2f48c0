"""Findings that come and go: their cards have their places before they are painted."""

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QApplication

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.window.session.looking_ahead import Known


@pytest.fixture
def page(qtbot, window):
    """A kit of 20 L before a fermenter of 12 L: it has several findings."""
    window.resize(1024, 700)
    red = load(resource_path("examples/breakwater_red.hobwort"))
    window.opened.replace_by(red, None)
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL)
    QApplication.processEvents()
    return window.compose


def shown(page):
    return [card for card in page.watch_out.cards if not card.isHidden()]


def are_whole(page):
    """Whether each card is as high as its words and cures want it, one below the other."""
    tops = [card.y() for card in shown(page)]
    return tops == sorted(set(tops)) and all(
        card.height() == card.heightForWidth(card.width()) for card in shown(page)
    )


def test_cards_are_as_high_as_they_want_as_soon_as_others_come_and_go(page):
    found = page.watch_out.findings
    assert len(found) > 2
    longer = replace(found[1], message=found[0].message, fix=None)
    for some in (found[:1], found, (found[0], longer), found[1:], found):
        page.watch_out.show_findings(some)
        assert [each.accessibleName() for each in shown(page)], "there is something to be seen"
        assert len(shown(page)) == len(some)
        assert are_whole(page), "and no turn of the event loop was needed"
    assert page.watch_out.geometry().bottom() <= page._right.height()


def test_a_cure_longer_than_its_column_goes_on_in_a_further_line(page):
    area = page._scrolled
    cure = shown(page)[0].cure
    cure.setText("Bring it in: " + ", ".join(6 * ["Pale liquid malt extract 500 g to 450 g"]))
    cure.setVisible(True)
    QApplication.processEvents()
    assert page._right.width() <= area.viewport().width(), "or the forecast would be cut"
    lines = cure.shown_text().split("\n")
    assert len(lines) > 1
    assert " ".join(lines) == cure.text()
    assert cure.height() >= len(lines) * cure.fontMetrics().height()
    assert are_whole(page)
