"""Which styles a beer is, how it is brought into one, and that a missed one is said once."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from designer.library.catalogue import find_style
from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.window.compose.compose_page import ComposePage
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.styles import style_fit
from tests.stories.acts import press


@pytest.fixture
def opened(qapp):
    """The Slipway Bitter, meant to be a stronger one than it is."""
    bitter = load(resource_path("examples/slipway_bitter.hobwort"))
    return OpenRecipe(replace(bitter, style="Strong Bitter"))


def row_of(card, name):
    return next(row for row in card.rows if row.fit is not None and row.fit.style.name == name)


def is_in(window, name):
    forecasts = window.opened.newest_outlook().forecasts
    return style_fit(forecasts, find_style(name)).missing == ()


def said_of_style(window):
    cards = [each for each in window.compose.watch_out.cards if not each.isHidden()]
    return [each for each in cards if "Strong Bitter" in each.message.text()]


def open_by_keyboard(qtbot, window):
    window.compose.styles.link.setFocus()
    qtbot.keyClick(window.compose.styles.link, Qt.Key.Key_Space)
    return window.compose.styles.card


def test_watch_out_says_the_missed_style_once_and_its_cure_brings_the_beer_in(qtbot, window):
    (card,) = said_of_style(window)
    qtbot.waitUntil(lambda: card.cure.text().startswith("Bring it in: "), timeout=20_000)
    before = window.opened.recipe
    with qtbot.waitSignal(window.opened.outlook_changed):
        press(qtbot, card.cure)
    assert is_in(window, "Strong Bitter")
    assert said_of_style(window) == []
    assert window.opened.undo_stack.count() == 1
    assert window.opened.undo_stack.undoText().startswith("Bring it in: ")
    window.opened.undo_stack.undo()
    assert window.opened.recipe == before


def test_what_was_forecast_before_the_page_was_made_gets_its_cure_too(qtbot, window):
    """As when the program goes on where it was left."""
    opened = window.opened
    opened.newest_outlook()
    late = ComposePage(opened, window.compose._display)
    qtbot.addWidget(late)
    late.complete()
    (card,) = said_of_style(SimpleNamespace(compose=late))
    qtbot.waitUntil(lambda: card.cure.text().startswith("Bring it in: "), timeout=20_000)
    late.close_down()


def test_by_the_keyboard_a_style_is_chosen_and_the_beer_brought_into_it(qtbot, window):
    card = open_by_keyboard(qtbot, window)
    assert card.isVisible()
    first = card.rows[0]
    assert first.name.text() == "11C Strong Bitter, chosen"
    assert first.standing.text().startswith("outside: original gravity 0.006 too low")
    assert "Strong Bitter: outside" in first.bring.accessibleName()
    alt = row_of(card, "Altbier")
    alt.bring.setFocus()
    with qtbot.waitSignal(window.opened.recipe_changed, timeout=20_000):
        qtbot.keyClick(alt.bring, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: card.said.text().startswith("Brings it into Altbier: "))
    assert window.opened.recipe.style == "Altbier"
    assert is_in(window, "Altbier")
    assert window.opened.undo_stack.count() == 1
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    assert not card.isVisible()
    assert QApplication.focusWidget() is window.compose.styles.link


def test_by_the_mouse_another_style_is_chosen_and_an_impossible_one_is_said_to_be(qtbot, window):
    press(qtbot, window.compose.styles.link)
    card = window.compose.styles.card
    press(qtbot, row_of(card, "Best Bitter").choose)
    qtbot.waitUntil(lambda: card.rows[0].name.text() == "11B Best Bitter, chosen")
    assert not card.rows[0].bring.isVisible()
    stout = replace(window.opened.recipe, style="Imperial Stout")
    window.opened.replace_by(stout, None)
    qtbot.waitUntil(lambda: card.rows[0].fit.style.name == "Imperial Stout")
    press(qtbot, card.rows[0].bring)
    out_of_reach = "No change of amounts, times or water brings it into Imperial Stout."
    qtbot.waitUntil(lambda: card.said.text().startswith(out_of_reach), timeout=20_000)
    assert window.opened.recipe == stout
    assert window.opened.undo_stack.count() == 0


def test_differences_are_told_in_the_scales_that_are_shown(qtbot, window, settings):
    card = open_by_keyboard(qtbot, window)
    settings.gravity, settings.colour = "plato", "ebc"
    assert "original gravity 1.4\u00a0°P too low" in card.rows[0].standing.text()
    assert "EBC" in row_of(card, "British Brown Ale").standing.text()


def test_a_weak_beer_in_no_style_is_led_to_the_nearest(qtbot, window):
    recipe = window.opened.recipe
    thin = replace(
        recipe, style="", fermentables=recipe.fermentables[:1], fermenter=replace(recipe.fermenter)
    )
    window.opened.replace_by(thin, None)
    watch = window.compose.watch_out
    words = "It is in the range of no style. The nearest is "
    qtbot.waitUntil(lambda: any(words in e.message.text() for e in watch.cards if e.isVisible()))
    (card,) = [e for e in watch.cards if e.isVisible() and words in e.message.text()]
    press(qtbot, card.ways)
    assert window.compose.styles.card.isVisible()
    assert window.compose.styles.card.isAncestorOf(QApplication.focusWidget())
