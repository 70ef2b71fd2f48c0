"""A brewer designs a first recipe: a few answers, three to choose from, one to begin with."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication

from designer.library.packs import packs
from designer.library.recipe_file import read_document
from designer.library.round_trip import as_held
from designer.library.store import Store
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord
from designer.library.store.shop import keep_shop_packs
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind
from designer.units import ShownUnits, read
from tests.active_window import made_active

from .acts import press, store_at_rest, type_over

CONTROL = Qt.KeyboardModifier.ControlModifier


def found_for_now(qtbot, own):
    """Wait until the cards show what follows from the answers as they stand."""
    qtbot.waitUntil(
        lambda: own.found is not None and not own.reckoning.busy and own._asked is not None,
        timeout=20_000,
    )
    assert own.found.answers == own._asked
    return own.found


def held(draft):
    """The recipe of a draft as a file holds it."""
    return as_held(Recipe(), draft.recipe)


@pytest.fixture
def own(qtbot, window):
    """What is behind the first door, with three to choose from."""
    window.begin()
    door = window.begin_page.own
    found_for_now(qtbot, door)
    return door


def keys(qtbot, *pressed, modifier=Qt.KeyboardModifier.NoModifier):
    for key in pressed:
        qtbot.keyClick(QApplication.focusWidget(), key, modifier)


def newest_draft(folder):
    with Store.open(folder) as store:
        drafts = store.drafts.all()
    return read_document(drafts[-1].document, "draft") if drafts else None


def test_by_keyboard_alone_a_porter_is_begun_and_lies_on_the_disk(
    qtbot, on_a_box, opened, folder, porter
):
    window = on_a_box(opened)
    qtbot.keyClick(window, Qt.Key.Key_N, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    own = window.begin_page.own
    qtbot.waitUntil(own.form.words.hasFocus)
    found_for_now(qtbot, own)
    qtbot.keyClicks(own.form.words, "english porter")
    popup = own.form.words.completer().popup()
    if popup.isVisible():
        qtbot.keyClick(popup, Qt.Key.Key_Escape)
        made_active(qtbot, window)
    found_for_now(qtbot, own)
    assert own.found.answers.words == "english porter"
    keys(qtbot, Qt.Key.Key_Return)
    assert own.form.strength.field.hasFocus()
    qtbot.keyClicks(own.form.strength.field, "4.8")
    keys(qtbot, Qt.Key.Key_Return)
    assert own.form.bitterness.slider.hasFocus()
    keys(qtbot, Qt.Key.Key_Right, Qt.Key.Key_Return)
    keys(qtbot, Qt.Key.Key_Return)
    keys(qtbot, Qt.Key.Key_Right, Qt.Key.Key_Space)
    found = found_for_now(qtbot, own)
    assert found.answers.abv_percent == pytest.approx(4.8)
    assert found.answers.flavours == (own.form.flavours.chips[1].key,)
    while not own.three.cards[0].button.hasFocus():
        keys(qtbot, Qt.Key.Key_Tab)
    keys(qtbot, Qt.Key.Key_Right, Qt.Key.Key_Return)
    recipe = window.opened.recipe
    assert recipe == held(found.drafts[1])
    assert recipe.style == "English Porter"
    assert window.pages.currentWidget() is window.compose
    store_at_rest(qtbot, window)
    qtbot.waitUntil(lambda: newest_draft(folder) == recipe, timeout=10_000)
    assert window.opened.unsaved


def test_by_mouse_alone_a_beer_is_begun_and_lies_on_the_disk(qtbot, on_a_box, opened, folder):
    window = on_a_box(opened)
    window.begin()
    own = window.begin_page.own
    found_for_now(qtbot, own)
    before = own.found.answers
    slider = own.form.colour.slider
    qtbot.mouseClick(
        slider,
        Qt.MouseButton.LeftButton,
        pos=QPoint(slider.width() * 3 // 4, slider.height() // 2),
    )
    press(qtbot, own.form.flavours.chips[0])
    press(qtbot, own.form.kitchen.simple)
    found = found_for_now(qtbot, own)
    assert before.colour_srm is None
    assert found.answers.colour_srm == pytest.approx(slider.figure())
    assert found.answers.colour_srm > 15.0
    assert found.answers.is_simple
    press(qtbot, own.three.cards[2].button)
    assert window.opened.recipe == held(found.drafts[2])
    store_at_rest(qtbot, window)
    qtbot.waitUntil(lambda: newest_draft(folder) == held(found.drafts[2]), timeout=10_000)


def test_a_style_fills_in_what_is_left_open_and_begins_nothing(qtbot, window, own, porter):
    words = own.form.words
    type_over(qtbot, words, "english p")
    popup = words.completer().popup()
    qtbot.waitUntil(popup.isVisible)
    qtbot.keyClick(popup, Qt.Key.Key_Down)
    qtbot.keyClick(popup, Qt.Key.Key_Return)
    assert words.text() == "English Porter"
    assert words.hasFocus()
    found_for_now(qtbot, own)
    own.form.strength.switch.choose("gravity")
    assert own.form.strength.field.placeholderText() == "1.046"
    assert "English Porter" in words.accessibleDescription()
    assert window.pages.currentWidget() is window.begin_page
    assert window.opened.recipe == porter
    assert own.form.strength.field.text() == ""


def test_strength_is_typed_as_alcohol_or_as_gravity_and_the_other_is_said(qtbot, own):
    strength = own.form.strength
    type_over(qtbot, strength.field, "4.2")
    found_for_now(qtbot, own)
    assert own.found.answers.abv_percent == pytest.approx(4.2)
    assert strength.said.text().startswith("OG near 1.04")
    press(qtbot, strength.switch.button("gravity"))
    assert strength.field.text().startswith("1.04")
    assert strength.said.text().startswith("near 4.")
    found_for_now(qtbot, own)
    assert own.found.answers.abv_percent == pytest.approx(4.2)  # looking at it changes nothing
    press(qtbot, strength.switch.button("alcohol"))
    assert strength.field.text() == "4.2"
    type_over(qtbot, strength.field, "1.050")
    assert strength.switch.key() == "gravity"
    found_for_now(qtbot, own)
    assert own.found.answers.original_gravity == pytest.approx(1.050)
    assert own.found.answers.abv_percent is None


def test_bitterness_by_slider_or_in_ibu_and_left_to_the_style_again(qtbot, own):
    bitterness = own.form.bitterness
    bitterness.slider.setFocus()
    at = bitterness.slider.figure()
    keys(qtbot, Qt.Key.Key_Right)
    found_for_now(qtbot, own)
    assert own.found.answers.bitterness_ibu == pytest.approx(at + 1.0)
    press(qtbot, bitterness.switch.button("ibu"))
    assert bitterness.field.text() == f"{at + 1.0:.0f} IBU"
    type_over(qtbot, bitterness.field, "40")
    found_for_now(qtbot, own)
    assert own.found.answers.bitterness_ibu == 40.0
    assert "40 IBU" in bitterness.said.text()
    press(qtbot, bitterness.way_back)
    found_for_now(qtbot, own)
    assert own.found.answers.bitterness_ibu is None


def test_cards_stay_while_one_types_and_never_are_empty(qtbot, own):
    seen = []
    for text in ("b", "be", "best", "best b", "best bitter, not too sweet"):
        own.form.words.setText(text)
        own.form.words.textEdited.emit(text)
        QApplication.processEvents()
        seen += [bool(card.lines.lines) and card.isVisible() for card in own.three.cards]
    assert all(seen)
    found_for_now(qtbot, own)
    assert own.found.answers.words == "best bitter, not too sweet"
    for card, draft in zip(own.three.cards, own.found.drafts, strict=True):
        shown = [line.name for line in card.lines.lines]
        whole = [f"{line.name}, {line.when.text}" for line in draft.recipe.fermentables]
        assert shown[: len(whole)] == whole
        assert all(line.amount and line.why for line in card.lines.lines)
        assert card.figures["original_gravity"].text().startswith("1.0")


def test_a_start_pressed_before_the_answer_begins_with_what_was_typed(qtbot, window, own):
    type_over(qtbot, own.form.strength.field, "1.060")
    keys(qtbot, Qt.Key.Key_Return, modifier=CONTROL)
    with qtbot.waitSignal(own.begun, timeout=20_000):
        assert window.pages.currentWidget() is window.begin_page
    assert own.found.answers.original_gravity == pytest.approx(1.060)
    assert window.opened.recipe == held(own.found.drafts[0])
    assert window.opened.newest_outlook().forecasts["original_gravity"].value > 1.055


@pytest.mark.parametrize(
    ("key", "wrong", "right"),
    [("pot", "9 kg", "9 L"), ("strength", "much", "5 %"), ("batch", "-3 L", "8 L")],
)
def test_a_refusal_marks_its_field_keeps_the_text_and_begins_nothing(
    qtbot, window, own, porter, key, wrong, right
):
    field = own.fields[key]
    type_over(qtbot, field, wrong)
    assert field.property("refused")
    assert own.three.is_dimmed
    assert not own.refusal.isVisible()  # it may become something yet
    keys(qtbot, Qt.Key.Key_Return, modifier=CONTROL)
    assert own.refusal.isVisible()
    assert own.refusal.text().startswith(f"{field.accessibleName()}:")
    assert field.text() == wrong
    keys(qtbot, Qt.Key.Key_Escape)
    window.begin()
    assert field.text() == wrong
    assert field.property("refused")
    press(qtbot, own.three.cards[1].button)
    assert window.opened.recipe == porter
    type_over(qtbot, field, right)
    found_for_now(qtbot, own)
    assert not field.property("refused")
    assert not own.refusal.isVisible()
    assert not own.three.is_dimmed


def test_vessels_and_cupboard_of_the_kitchen_are_offered_and_used(qtbot, on_a_box, opened, folder):
    with Store.open(folder) as store:
        store.pots.insert(PotRecord("Kitchen pot", "15 L", evaporation="1.2 L/h"))
        store.pots.insert(PotRecord("Small pot", "5 L"))
        store.fermenters.insert(FermenterRecord("Bucket", "20 L"))
        store.cupboard.insert(CupboardRecord("Light dry malt extract", amount="500 g"))
    window = on_a_box(opened)
    window.begin()
    own = window.begin_page.own
    kitchen = own.form.kitchen
    qtbot.waitUntil(lambda: kitchen.fields["pot"].text() == "Kitchen pot, 15 L", timeout=10_000)
    assert kitchen.fields["fermenter"].text() == "Bucket, 20 L"
    assert kitchen.in_cupboard.text() == "500 g Light dry malt extract"
    found = found_for_now(qtbot, own)
    assert (found.answers.pot.value, found.answers.fermenter.value) == (15.0, 20.0)
    assert found.answers.kitchen.process.evaporation.text == "1.2 L/h"
    assert [each.name for each in found.answers.in_hand] == ["Light dry malt extract"]
    press(qtbot, kitchen.use_up)
    type_over(qtbot, kitchen.fields["pot"], "small")
    found = found_for_now(qtbot, own)
    assert found.answers.in_hand == ()
    assert found.answers.pot.value == 5.0


def test_whole_packs_are_those_of_the_shop_in_the_units_that_are_shown(
    qtbot, settings, on_a_box, opened, folder
):
    own_sizes = {"metric": "700 g", "us": "2 lb"}
    with Store.open(folder) as store:
        for pack_set, amount in own_sizes.items():
            sizes = [replace(each, amount=read(Kind.MASS, amount)) for each in packs(pack_set)]
            only_one = {each.kind: each for each in sizes if "extract" in each.kind}
            keep_shop_packs(store, pack_set, tuple(only_one.values()))
    window = on_a_box(opened)
    window.begin()
    own = window.begin_page.own

    def packs_of(pack_set):
        """How many packs of a set the extracts of the first card come to."""
        amount = own_sizes[pack_set]
        qtbot.waitUntil(
            lambda: {each.amount.text for each in own.shop.sizes()} == {amount}, timeout=10_000
        )
        found = found_for_now(qtbot, own)
        assert found.answers.packs == own.shop.sizes()
        lines = own.three.cards[0].draft.recipe.fermentables
        extract = sum(line.amount.value for line in lines if "extract" in line.kind)
        return extract / read(Kind.MASS, amount).value

    found_for_now(qtbot, own)
    press(qtbot, own.form.kitchen.whole)
    metric = packs_of("metric")
    assert metric == pytest.approx(max(round(metric), 1), abs=1e-3)
    settings.units = ShownUnits.US
    us = packs_of("us")
    assert us == pytest.approx(max(round(us), 1), abs=1e-3)


def test_vessels_that_are_told_at_the_welcome_stand_in_the_answers_at_once(
    qtbot, settings, on_a_box, opened
):
    settings.knows_kitchen = False
    window = on_a_box(opened)
    window.begin()
    page = window.begin_page
    qtbot.waitUntil(lambda: page.welcome is not None, timeout=10_000)
    vessels = page.own.form.kitchen.fields
    type_over(qtbot, vessels["batch"], "6 L")
    page.open_door(1)
    page.open_door(0)
    type_over(qtbot, page.welcome.fields["pot"], "14 L")
    type_over(qtbot, page.welcome.fields["fermenter"], "17 L")
    press(qtbot, page.welcome.keep)
    for fields in (vessels, page.kit.fields):
        qtbot.waitUntil(lambda fields=fields: fields["pot"].text() == "Pot, 14 L", timeout=10_000)
        assert fields["fermenter"].text() == "Fermenter, 17 L"
    assert not page.welcome.isVisible()
    assert vessels["batch"].text() == "6 L"
    answers = found_for_now(qtbot, page.own).answers
    assert (answers.pot.value, answers.fermenter.value) == (14.0, 17.0)


def test_a_study_beer_is_shown_below_and_begun(qtbot, window, own):
    press(qtbot, own.study_link)
    qtbot.waitUntil(lambda: own.found.study is not None, timeout=20_000)
    (card,) = own.study.cards
    assert card.isVisible()
    assert card.lines.lines
    press(qtbot, card.button)
    assert window.opened.recipe == held(own.found.study)


def test_other_units_are_shown_at_once(qtbot, settings, own):
    own.form.strength.switch.choose("gravity")
    settings.units = ShownUnits.US
    settings.gravity = "plato"
    found_for_now(qtbot, own)
    assert own.three.cards[0].figures["original_gravity"].text().endswith("°P")
    assert own.form.strength.field.placeholderText().endswith("°P")
    assert own.form.kitchen.fields["pot"].text() == "2.38 gal"
    amounts = [line.amount for line in own.three.cards[0].lines.lines]
    assert any("oz" in each or "lb" in each for each in amounts)


def test_a_pot_too_small_for_any_beer_is_said_once_its_field_is_left(qtbot, window, own):
    pot = own.fields["pot"]
    type_over(qtbot, pot, "1 L")
    qtbot.waitUntil(lambda: bool(pot.property("refused")), timeout=20_000)
    assert own.three.is_dimmed
    assert not own.refusal.isVisible()  # 15 L begins so too
    keys(qtbot, Qt.Key.Key_Tab)
    assert "1 L is outside" in own.refusal.text()
    type_over(qtbot, pot, "15 L")
    found_for_now(qtbot, own)
    assert not pot.property("refused")
    assert not own.refusal.isVisible()
    assert not own.three.is_dimmed


def test_a_wish_beyond_the_vessels_gets_the_nearest_and_the_card_says_what_gave_way(
    qtbot, window, own
):
    type_over(qtbot, own.fields["batch"], "30 L")
    found = found_for_now(qtbot, own)
    card, draft = own.three.cards[0], found.drafts[0]
    assert draft.gave_way
    assert card.gave_way.isVisible()
    assert "30 L" in card.gave_way.text()
    press(qtbot, card.button)
    codes = {each.code for each in window.opened.newest_outlook().findings}
    assert "fermenter-overflows" not in codes


@pytest.mark.parametrize("size", [(1024, 600), (1280, 800), (760, 520)])
def test_nothing_is_cut_beside_the_page_and_what_begins_a_recipe_is_in_sight(
    qtbot, window, own, size
):
    window.resize(*size)
    qtbot.waitUntil(lambda: window.size().toTuple() == size)
    own.form.words.setText("best bitter, dry and with flowers")
    own.form.words.textEdited.emit(own.form.words.text())
    found_for_now(qtbot, own)
    qtbot.waitUntil(lambda: own._content.width() <= own._area.viewport().width())
    inside = own._content.rect()
    for each in (*own.form.stops(), *own.three.cards, own.three.cards[2].lines):
        if each.isVisible():
            corner = each.mapTo(own._content, each.rect().bottomRight())
            assert inside.contains(corner), each
            assert each.width() >= each.minimumSizeHint().width(), each
    if own.three.foot.isVisible():
        for card in own.three.cards:
            assert card.button.visibleRegion().boundingRect() == card.button.rect()


def test_tab_comes_to_every_answer_and_every_card_in_the_order_they_are_seen(qtbot, own):
    own.take_focus()
    order = []
    for _ in range(60):
        order.append(QApplication.focusWidget())
        keys(qtbot, Qt.Key.Key_Tab)
        if QApplication.focusWidget() is own.form.words or own.study_link in order:
            break
    wanted = [
        own.form.words,
        own.form.strength.field,
        own.form.bitterness.slider,
        own.form.colour.slider,
        own.form.flavours.chips[0],
        *own.form.kitchen.fields.values(),
        *(card.button for card in own.three.cards),
        own.study_link,
    ]
    assert [each for each in order if each in wanted] == wanted
    for each in order:
        name = QAccessible.queryAccessibleInterface(each).text(QAccessible.Text.Name)
        assert name.strip(), each


def test_a_press_beside_the_offered_styles_is_carried_out_at_once(qtbot, window, own):
    type_over(qtbot, own.form.words, "english p")
    popup = own.form.words.completer().popup()
    qtbot.waitUntil(popup.isVisible)
    chip = own.form.flavours.chips[3]
    at = popup.mapFromGlobal(chip.mapToGlobal(chip.rect().center()))
    assert not popup.rect().contains(at)
    qtbot.mousePress(popup, Qt.MouseButton.LeftButton, pos=at)
    assert not popup.isVisible()
    assert chip.isChecked()
    assert own.form.words.text() == "english p"
    found = found_for_now(qtbot, own)
    assert found.answers.flavours == (chip.key,)
