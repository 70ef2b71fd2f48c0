"""A brewer with a 20 L kit, a 9 L pot and a 12 L bucket."""

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import document_text, load
from designer.recipe.edits import ChangePart
from designer.recipe.message import word
from designer.recipe.plan import as_written
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.units import read


@pytest.fixture
def fit(qtbot, window):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    window.show_page(1)
    qtbot.waitUntil(lambda: bool(window.fit.cards), timeout=10_000)
    return window.fit


def test_ways_are_laid_side_by_side(fit):
    assert len(fit.cards) >= 3
    assert [card.way.rank for card in fit.cards] == list(range(1, len(fit.cards) + 1))
    assert "ways work" in fit.sentence.text()


def test_using_a_way_is_one_undo_step(qtbot, window, fit):
    before = window.opened.recipe
    card = fit.cards[0]
    card.use_wanted.emit(card.way)
    assert window.pages.currentWidget() is window.compose
    assert document_text(window.opened.recipe) == document_text(card.way.planned)
    assert as_written(window.opened.recipe) == before
    assert window.compose.plan.isVisible()
    assert window.opened.undo_stack.count() == 1
    codes = {each.code for each in window.opened.newest_outlook().findings}
    assert not codes & {"pot-overflows", "fermenter-overflows"}
    window.opened.undo_stack.undo()
    assert window.opened.recipe == before


def test_a_larger_pot_and_fermenter_are_typed_and_counted_at_once(qtbot, window, fit):
    fit.fields["pot"].setFocus()
    fit.fields["pot"].selectAll()
    qtbot.keyClicks(fit.fields["pot"], "30 L")
    fit.fields["fermenter"].setFocus()
    fit.fields["fermenter"].selectAll()
    qtbot.keyClicks(fit.fields["fermenter"], "7 gal")
    qtbot.waitUntil(lambda: not fit.latest.busy, timeout=20_000)
    qtbot.waitUntil(lambda: bool(fit.cards), timeout=10_000)
    best = fit.cards[0].way
    assert best.must_buy == ()
    assert best.batch_l == pytest.approx(20.0, abs=0.2)


def test_nonsense_sizes_are_refused_in_words(qtbot, fit):
    fit.fields["pot"].setFocus()
    fit.fields["pot"].selectAll()
    qtbot.keyClicks(fit.fields["pot"], "large")
    assert fit.refusal.isVisible()
    assert fit.refusal.text().startswith("Pot:")


def test_the_sheet_of_a_way_is_one_press_away(qtbot, window, fit):
    card = fit.cards[-1]
    card.sheet_wanted.emit(card.way)
    qtbot.waitUntil(lambda: window.pages.currentWidget() is window.sheet)
    assert document_text(window.opened.recipe) == document_text(card.way.planned)


def test_leaving_the_page_drops_the_answer_that_is_under_way(qtbot, window, fit):
    fit.reckon()
    window.show_page(0)
    qtbot.waitUntil(lambda: not fit.latest.busy, timeout=20_000)
    assert fit.cards == []


def test_a_recipe_with_nothing_in_it_is_told(qtbot, window, fit):
    from designer.recipe.document import Recipe

    window.opened.replace_by(Recipe(), None)
    qtbot.waitUntil(lambda: not fit.latest.busy and not fit.cards, timeout=10_000)
    assert fit.sentence.text()


def test_cards_can_be_read_aloud(fit):
    assert fit.cards[0].accessibleName().startswith("Way 1: ")
    assert Qt.FocusPolicy.NoFocus != fit.fields["pot"].focusPolicy()


def test_a_recipe_of_one_s_own_is_scaled_and_keeps_its_beer(qtbot, window, porter):
    from designer.brewday.day import brew

    window.show_page(1)
    fit = window.fit
    qtbot.keyClicks(fit.scale_field, "5 L")
    qtbot.mouseClick(fit.scale_button, Qt.MouseButton.LeftButton)
    after, before = brew(window.opened.recipe), brew(porter)
    assert after.fermenter.batch_l == pytest.approx(5.0, abs=0.05)
    assert after.beer.original_gravity == pytest.approx(before.beer.original_gravity, abs=0.001)
    assert after.beer.bitterness_ibu == pytest.approx(before.beer.bitterness_ibu, abs=1.0)
    assert window.opened.undo_stack.count() == 1
    fit.scale_field.setText("a lot")
    fit.scale()
    assert fit.refusal.isVisible()


def test_another_hop_takes_a_line_s_place(qtbot, window, porter):
    from designer.brewday.day import brew

    panel = window.compose.hops
    panel.view.setCurrentIndex(panel.view.model().index(0, 0))
    panel.more_button.setChecked(True)
    panel.details._instead.setText("Fuggle")
    panel.details.put_instead()
    recipe = window.opened.recipe
    assert recipe.hops[0].name == "Fuggle"
    assert recipe.hops[0].amount.value > porter.hops[0].amount.value
    assert brew(recipe).beer.bitterness_ibu == pytest.approx(
        brew(porter).beer.bitterness_ibu, abs=1.0
    )
    assert window.opened.undo_stack.count() == 1


def test_a_bucket_too_small_leads_to_the_ways_and_its_cure_says_what_it_makes(qtbot, window):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    cards = window.compose.watch_out.cards
    qtbot.waitUntil(lambda: bool(cards) and cards[0].ways is not None, timeout=10_000)
    card = cards[0]
    assert "will not fit the 12 L fermenter" in card.accessibleName()
    assert card.cure.text().startswith("Top up to 10.2 L: that makes OG 1.08")
    assert " IBU" in card.cure.text()
    assert card.ways.isVisible()
    assert card.ways.accessibleName().startswith("Ways to brew it here. Cures: Stop: 20 L")
    qtbot.mouseClick(card.ways, Qt.MouseButton.LeftButton)
    assert window.pages.currentWidget() is window.fit
    assert window.header.page_buttons.checkedId() == window.page_names.index("Fit")


def test_where_the_vessels_are_large_enough_nothing_leads_to_the_ways(qtbot, window):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    cards = window.compose.watch_out.cards
    qtbot.waitUntil(lambda: bool(cards) and cards[0].ways is not None, timeout=10_000)
    large = read(Kind.VOLUME, "30 L")
    window.opened.make(ChangePart("fermenter", "volume", large, word("change the bucket")))
    qtbot.waitUntil(lambda: cards[0].ways.isHidden(), timeout=10_000)
    assert "will not fit" not in cards[0].accessibleName()
