"""A brewer with a small pot asks what the hops in the freezer would do."""

import pytest
from PySide6.QtCore import Qt

from designer.library.new_lines import new_line
from designer.library.recipe_file import load
from designer.library.store.kitchen import CupboardRecord
from designer.resource_files import resource_path
from designer.units import ShownUnits
from designer.window.session.open_recipe import OpenRecipe


@pytest.fixture
def fit(qtbot, on_a_box):
    window = on_a_box(OpenRecipe(load(resource_path("examples/slipway_bitter.hobwort"))))
    window.show_page(1)
    window.fit.fields["pot"].selectAll()
    qtbot.keyClicks(window.fit.fields["pot"], "6 L")
    settle(qtbot, window.fit)
    return window.fit


def settle(qtbot, fit):
    store = fit.window().autosave.store
    qtbot.waitUntil(
        lambda: not store.busy and not fit.latest.busy and fit.answer is not None, timeout=20_000
    )


def open_list(qtbot, fit):
    qtbot.mouseClick(fit.hands_button, Qt.MouseButton.LeftButton)
    assert fit.hands.isVisible()
    return fit.hands


def type_hop(qtbot, hands, name, alpha, amount):
    for key, text in (("name", name), ("alpha", alpha), ("amount", amount)):
        hands.fields[key].setFocus()
        hands.fields[key].selectAll()
        qtbot.keyClick(hands.fields[key], Qt.Key.Key_Delete)
        qtbot.keyClicks(hands.fields[key], text)
    qtbot.keyClick(hands.fields["amount"], Qt.Key.Key_Return)


def way(fit, key):
    return next((way for way in fit.ways if way.key == key), None)


def cupboard_holds(qtbot, fit, *records):
    store = fit.window().autosave.store
    for record in records:
        store.ask(lambda box, record=record: box.cupboard.insert(record))
    qtbot.waitUntil(lambda: not store.busy, timeout=10_000)


def test_at_first_there_are_none_and_it_is_said_what_they_are_for(qtbot, fit):
    assert fit.hands_button.text() == "Hops in hand: none"
    hands = open_list(qtbot, fit)
    assert hands.empty.isVisible()
    assert "cupboard" in hands.empty.text()
    assert not hands.view.isVisible()
    assert hands.fields["name"].hasFocus()
    assert way(fit, "other hops") is None


def test_a_hop_that_is_typed_is_used_at_once(qtbot, fit):
    hands = open_list(qtbot, fit)
    type_hop(qtbot, hands, "Magnum", "12 %", "30 g")
    settle(qtbot, fit)
    assert fit.hands_button.text() == "Hops in hand: 30 g Magnum"
    assert "of your Magnum" in way(fit, "other hops").steps[0].text
    assert not hands.empty.isVisible()
    assert hands.fields["name"].text() == ""
    assert hands.fields["name"].hasFocus()


def test_a_decimal_comma_and_bare_numbers_are_read_as_hops_are_weighed(qtbot, fit):
    hands = open_list(qtbot, fit)
    type_hop(qtbot, hands, "Magnum", "12,5", "30")
    [hop] = hands.hops()
    assert hop.alpha.value == pytest.approx(0.125)
    assert hop.mass_kg == pytest.approx(0.030)


def test_in_us_units_a_bare_number_is_ounces(qtbot, fit, settings):
    hands = open_list(qtbot, fit)
    settings.units = ShownUnits.US
    type_hop(qtbot, hands, "Magnum", "12", "1 1/2")
    type_hop(qtbot, hands, "Fuggle", "4.5 %", "2")
    assert [hop.mass_kg for hop in hands.hops()] == pytest.approx([0.04252, 0.0567], abs=1e-5)


def test_the_usual_alpha_acid_of_a_variety_stands_in_for_one_not_typed(qtbot, fit):
    hands = open_list(qtbot, fit)
    qtbot.keyClicks(hands.fields["name"], "Fuggle")
    assert hands.fields["alpha"].placeholderText() == "5 % (2.4-6.1 %)"
    qtbot.keyClicks(hands.fields["amount"], "50 g")
    qtbot.mouseClick(hands.add_button, Qt.MouseButton.LeftButton)
    alpha = hands.hops()[0].alpha
    assert alpha == new_line("hops", "Fuggle").alpha  # with its range, as a line of the recipe
    assert hands.table.index(0, 1).data() == "5 % (2.4-6.1 %)"
    hands.table.setData(hands.table.index(0, 1), "4.5 %")
    assert hands.hops()[0].alpha.ends is None  # now the bag says so


NONSENSE = (
    ("", "12 %", "30 g", "Hop to add: "),
    ("Magnum", "120 %", "30 g", "Alpha acid of the hop to add: "),
    ("Some hop", "", "30 g", "Alpha acid of the hop to add: "),
    ("Magnum", "12 %", "30 L", "Amount of the hop to add: "),
    ("Magnum", "12 %", "0 g", "Amount of the hop to add: "),
    ("Magnum", "12 %", "11 kg", "Amount of the hop to add: "),
)


def test_nonsense_is_refused_with_its_place_and_the_keyboard_goes_there(qtbot, fit):
    hands, said = open_list(qtbot, fit), ""
    for name, alpha, amount, place in NONSENSE:
        type_hop(qtbot, hands, name, alpha, amount)
        before, said = said, hands.refusal.text()
        assert hands.refusal.isVisible(), (name, alpha, amount)
        assert said.startswith(place)
        assert said != before, (name, alpha, amount)
        assert hands.hops() == ()
        assert place.startswith(hands.focusWidget().accessibleName())


def test_a_figure_in_the_list_is_changed_and_taken_back_by_keys(qtbot, fit):
    hands = open_list(qtbot, fit)
    type_hop(qtbot, hands, "Magnum", "12 %", "30 g")
    view = hands.view
    view.setFocus()
    view.setCurrentIndex(hands.table.index(0, 2))
    qtbot.keyClick(view, Qt.Key.Key_Return)
    view.focusWidget().selectAll()
    qtbot.keyClicks(view.focusWidget(), "0.4 g")
    qtbot.keyClick(view.focusWidget(), Qt.Key.Key_Return)
    settle(qtbot, fit)
    assert hands.hops()[0].mass_kg == pytest.approx(0.0004)
    assert way(fit, "other hops") is None
    qtbot.keyClick(view, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    settle(qtbot, fit)
    assert way(fit, "other hops") is not None
    assert fit.window().opened.undo_stack.count() == 0
    view.setCurrentIndex(hands.table.index(0, 0))
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert hands.hops() == ()
    qtbot.mouseClick(hands.undo_button, Qt.MouseButton.LeftButton)
    assert len(hands.hops()) == 1


def test_a_figure_in_the_list_that_makes_no_sense_is_refused_and_the_old_one_stays(qtbot, fit):
    hands = open_list(qtbot, fit)
    type_hop(qtbot, hands, "Magnum", "12 %", "30 g")
    assert not hands.table.setData(hands.table.index(0, 1), "a lot")
    assert hands.refusal.text().startswith("Alpha acid of Magnum: ")
    assert "The old entry stays." in hands.refusal.text()
    assert hands.hops()[0].alpha.value == pytest.approx(0.12)


def test_the_cupboard_s_hops_come_over_with_the_alpha_acid_of_their_lots(qtbot, fit):
    cupboard_holds(
        qtbot, fit,
        CupboardRecord("Magnum", amount="40 g", alpha="13,1 %", lot="7"),
        CupboardRecord("Fuggle", amount="2 oz"),
        CupboardRecord("Challenger", alpha="7 %"),
        CupboardRecord("Light dry malt extract", amount="1 kg"),
    )  # fmt: skip
    hands = open_list(qtbot, fit)
    type_hop(qtbot, hands, "Northdown", "8 %", "10 g")
    for _ in range(2):  # the second time nothing is there twice
        qtbot.mouseClick(hands.cupboard_button, Qt.MouseButton.LeftButton)
        settle(qtbot, fit)
        assert [hop.name for hop in hands.hops()] == ["Northdown", "Magnum", "Fuggle"]
    assert hands.hops()[1].alpha.value == pytest.approx(0.131)
    assert hands.hops()[2].mass_kg == pytest.approx(0.0567, abs=1e-5)
    assert fit.hands_button.text() == "Hops in hand: 3"
    assert way(fit, "other hops") is not None


def test_hops_without_an_amount_are_named(qtbot, fit):
    cupboard_holds(
        qtbot, fit,
        CupboardRecord("Magnum", amount="40 g", alpha="13 %"),
        CupboardRecord("Challenger", alpha="7 %"),
    )  # fmt: skip
    hands = open_list(qtbot, fit)
    qtbot.mouseClick(hands.cupboard_button, Qt.MouseButton.LeftButton)
    settle(qtbot, fit)
    assert hands.refusal.isVisible()
    assert "Challenger" in hands.refusal.text()


def test_an_empty_cupboard_says_where_hops_are_noted(qtbot, fit):
    hands = open_list(qtbot, fit)
    qtbot.mouseClick(hands.cupboard_button, Qt.MouseButton.LeftButton)
    settle(qtbot, fit)
    assert "Kitchen" in hands.refusal.text()
    assert hands.empty.isVisible()


def test_figures_are_shown_in_the_units_of_the_moment(qtbot, fit, settings):
    hands = open_list(qtbot, fit)
    type_hop(qtbot, hands, "Magnum", "12 %", "50 g")
    settings.units = ShownUnits.US
    assert hands.table.index(0, 2).data().endswith("oz")
    assert hands.hops()[0].mass_kg == pytest.approx(0.05)
