"""The forecast while a brewer types: nothing disappears or jumps, and the last key counts.

Real time passes between keys here, as under a hand; a slow machine is one whose brew days sleep.
"""

import time

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit

import designer.brewday.outlook as brewday_outlook
from designer.library.recipe_file import read_document
from designer.library.store import Store
from designer.recipe.edits import ChangePart
from designer.recipe.message import word
from designer.recipe.quantity import Quantity
from designer.sheet.content import brew_sheet
from designer.sheet.plain import sheet_text
from designer.window.compose.day_line import is_movable
from designer.window.session.looking_ahead import Known
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.recipe_summary import summary_of
from designer.workbench.style_watch import outlook_of

AMOUNTS = "1.234"
SMALL_POT = ChangePart("pot", "volume", Quantity(3.0, "3 L"), word("change volume"))


def open_amount(view, row=0):
    view.setFocus()
    view.setCurrentIndex(view.model().index(row, 0))
    view.edit(view.currentIndex())
    editor = view.viewport().findChild(QLineEdit)
    editor.selectAll()
    return editor


def type_at(editor, text, gap_ms):
    for sign in text:
        QTest.keyClick(editor, sign)
        if gap_ms:
            QTest.qWait(gap_ms)


def settle(qtbot, window):
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL, timeout=10_000)


def shown(window):
    """What the page says: each forecast in words, findings with their cures, what lines give."""
    compose = window.compose
    cards = [card for card in compose.watch_out.cards if not card.isHidden()]
    models = (compose.fermentables.model, compose.hops.model)
    return (
        [row.sentence() for row in compose.forecast.rows],
        [(card.message.text(), card.cure.text()) for card in cards],
        [
            [model.index(row, model.columnCount() - 1).data() for row in range(model.rowCount())]
            for model in models
        ],
        compose.vessels.accessibleDescription(),
        compose.day_line.accessibleDescription(),
    )


def shown_afresh(window):
    """What it says of the same recipe once all is put in anew."""
    compose, outlook = window.compose, outlook_of(window.opened.recipe)
    assert window.opened.outlook == outlook
    compose.show_outlook(outlook)
    return shown(window)


@pytest.mark.parametrize("gap_ms", [0, 5, 40, 130])
def test_after_the_last_key_all_that_is_shown_is_of_the_last_key(qtbot, window, gap_ms):
    for panel in (window.compose.fermentables, window.compose.hops):
        type_at(open_amount(panel.view), AMOUNTS, gap_ms)
        settle(qtbot, window)
        assert shown(window) == shown_afresh(window)


@pytest.mark.parametrize("gap_ms", [0, 30])
def test_on_a_slow_machine_too(qtbot, window, monkeypatch, gap_ms):
    brew = brewday_outlook.brew_samples

    def slowly(*given):
        time.sleep(0.06)
        return brew(*given)

    monkeypatch.setattr(brewday_outlook, "brew_samples", slowly)
    type_at(open_amount(window.compose.fermentables.view), AMOUNTS, gap_ms)
    settle(qtbot, window)
    assert window.opened.recipe.fermentables[0].amount.text == "1.234 kg"
    assert shown(window) == shown_afresh(window)


def test_between_the_turns_bands_move_along_and_nothing_disappears(qtbot, window):
    compose, seen = window.compose, []
    window.opened.make(SMALL_POT)
    settle(qtbot, window)
    before, stood = shown(window), {row.key: row.found for row in compose.forecast.rows}
    assert before[1]
    window.opened.values_changed.connect(lambda _: seen.append((shown(window), now())))

    def now():
        return {row.key: row.found for row in compose.forecast.rows}

    QTest.keyClick(open_amount(compose.fermentables.view), "2")
    settle(qtbot, window)
    (((sentences, findings, gives, *_), moved),) = seen
    assert sentences != before[0]
    assert findings == before[1]
    assert gives != before[2]
    for key, found in moved.items():
        assert found == stood[key].moved_to(window.opened.outlook.forecasts[key].value)
    assert shown(window) == shown_afresh(window)


def test_an_addition_moved_along_the_day_is_seen_there_with_the_values(qtbot, window):
    line, seen = window.compose.day_line, []
    settle(qtbot, window)
    line.setFocus()
    for _ in line._markers:
        QTest.keyClick(line, Qt.Key.Key_Right)
        if is_movable(line._chosen_marker()):
            break
    before, picture = line.accessibleDescription(), line.grab().toImage()
    window.opened.values_changed.connect(
        lambda _: seen.append((line.in_words(), line.grab().toImage() != picture))
    )
    QTest.keyClick(line, Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier)
    settle(qtbot, window)
    ((words, is_drawn),) = seen
    assert is_drawn
    assert words == line.in_words() != before
    assert shown(window) == shown_afresh(window)


def test_an_undo_between_the_turns_shows_what_stood_there(qtbot, window):
    settle(qtbot, window)
    before, undone = shown(window), []

    def undo(_):
        if not undone:
            undone.append(True)
            window.opened.undo_stack.undo()

    window.opened.values_changed.connect(undo)
    QTest.keyClick(open_amount(window.compose.fermentables.view), "2")
    settle(qtbot, window)
    assert undone
    assert shown(window) == before


def test_the_sheet_opened_between_the_turns_is_that_of_the_whole_forecast(qtbot, window):
    seen, shown_first = [], []

    def turn_over(_):
        window.opened.values_changed.disconnect(turn_over)
        seen.append(window.opened.known)
        window.show_page(window.page_names.index("Sheet"))
        shown_first.append(window.sheet.pages.accessibleDescription())

    window.opened.values_changed.connect(turn_over)
    type_at(open_amount(window.compose.fermentables.view), "2", 0)
    qtbot.waitUntil(lambda: bool(shown_first), timeout=10_000)
    assert seen == [Known.VALUES]
    sheet = brew_sheet(
        window.opened.recipe,
        outlook_of(window.opened.recipe),
        shown=window.settings.units,
        start=None,
        brew_date=window.sheet.wishes.brew_date,
        form=window.sheet.wishes.form,
    )
    assert shown_first == [sheet_text(sheet)]
    window.show_page(0)
    assert shown(window) == shown_afresh(window)


def test_a_version_kept_between_the_turns_is_listed_with_the_newest_values(
    qtbot, on_a_box, porter, folder
):
    window, kept = on_a_box(OpenRecipe(porter)), []
    qtbot.waitUntil(lambda: window.opened.with_ranges, timeout=10_000)

    def keep(_):
        window.opened.values_changed.disconnect(keep)
        window.autosave.keep_version(kept.append, kept.append)

    window.opened.values_changed.connect(keep)
    type_at(open_amount(window.compose.fermentables.view), "2", 0)
    qtbot.waitUntil(lambda: kept == [1], timeout=10_000)
    with Store.open(folder) as store:
        row = store.recipes.row(1)
    assert row.summary == summary_of(window.opened.recipe)


@pytest.mark.parametrize("turn", ["before", "between"])
def test_closing_between_the_turns_keeps_what_was_typed(qtbot, on_a_box, porter, folder, turn):
    window = on_a_box(OpenRecipe(porter))
    qtbot.waitUntil(lambda: window.opened.with_ranges, timeout=10_000)
    if turn == "between":
        window.opened.values_changed.connect(lambda _: window.close())
    type_at(open_amount(window.compose.fermentables.view), "2", 0)
    if turn == "before":
        window.close()
    qtbot.waitUntil(lambda: not window.isVisible(), timeout=10_000)
    with Store.open(folder) as store:
        (draft,) = store.drafts.all()
    assert read_document(draft.document, "draft").fermentables[0].amount.value == 2.0
