"""A brewer writes down vessels and cupboard, and brews from them."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication, QLineEdit

from designer.brewday.day import brew
from designer.window.kitchen.records_view import RecordsView
from designer.window.parts.inks import DARK, LIGHT
from designer.window.parts.row_menu import row_menu
from tests.active_window import made_active
from tests.brewday.quantities import assert_no_half_gram_comes_nearer


@pytest.fixture
def kitchen(qtbot, on_a_box, opened):
    window = on_a_box(opened)
    window.show_page(window.page_names.index("Kitchen"))
    settle(qtbot, window.kitchen)
    return window.kitchen


def settle(qtbot, kitchen):
    store = kitchen.window().autosave.store
    qtbot.waitUntil(lambda: not store.busy, timeout=10_000)


def type_in(qtbot, kitchen, view, row, field, text):
    model = view.records
    taken = model.setData(model.index(row, model.column_of(field)), text)
    settle(qtbot, kitchen)
    return taken


def test_the_three_tables_keep_the_rules_of_a_model(qtmodeltester, kitchen):
    for view in (kitchen.pots, kitchen.fermenters, kitchen.cupboard):
        qtmodeltester.check(view.records)


def test_a_pot_is_written_down_and_brewed_in(qtbot, kitchen):
    type_in(qtbot, kitchen, kitchen.pots, 0, "name", "Jam kettle")
    type_in(qtbot, kitchen, kitchen.pots, 0, "volume", "3.5 gal")
    type_in(qtbot, kitchen, kitchen.pots, 0, "evaporation", "1.2 L/h")
    assert not type_in(qtbot, kitchen, kitchen.pots, 0, "volume", "3 kg")
    assert "Volume of Jam kettle" in kitchen.window().messages.text.text()
    kitchen.pots.setCurrentIndex(kitchen.pots.model().index(0, 0))
    kitchen.use_pot()
    opened = kitchen.window().opened
    assert opened.recipe.pot.name == "Jam kettle"
    assert opened.recipe.pot.volume.text == "3.5 gal"
    assert opened.recipe.process.evaporation.text == "1.2 L/h"
    assert opened.undo_stack.count() == 1


def test_undo_brings_back_a_pot_that_was_taken_out(qtbot, kitchen):
    type_in(qtbot, kitchen, kitchen.pots, 0, "name", "Jam kettle")
    kitchen.pots.records.remove([0])
    assert kitchen.pots.records.rows == ()
    kitchen.window().turning.undo()
    settle(qtbot, kitchen)
    assert [each.name for each in kitchen.pots.records.rows] == ["Jam kettle"]
    kitchen.window().turning.undo()
    settle(qtbot, kitchen)
    assert kitchen.pots.records.rows == (), "and then that it was typed"


def test_undo_takes_back_what_was_typed_of_a_pot_one_cell_after_the_other(qtbot, kitchen):
    type_in(qtbot, kitchen, kitchen.pots, 0, "name", "Jam kettle")
    type_in(qtbot, kitchen, kitchen.pots, 0, "volume", "9 L")
    type_in(qtbot, kitchen, kitchen.pots, 0, "volume", "12 L")
    seen = []
    for _ in range(3):
        kitchen.window().turning.undo()
        settle(qtbot, kitchen)
        seen.append([(each.name, each.volume) for each in kitchen.pots.records.rows])
    assert seen == [[("Jam kettle", "9 L")], [("Jam kettle", "")], []]
    assert not kitchen.window().header.undo.isEnabled()


def test_the_recipe_s_own_vessels_can_be_kept_and_taken_elsewhere(qtbot, kitchen):
    kitchen.keep_pot()
    kitchen.keep_fermenter()
    settle(qtbot, kitchen)
    assert kitchen.pots.records.rows[0].volume == "9 L"
    kitchen.fermenters.setCurrentIndex(kitchen.fermenters.model().index(0, 0))
    kitchen.use_fermenter()
    assert kitchen.window().opened.recipe.fermenter.name == "Small bucket"


def test_two_readings_give_the_evaporation_and_the_cooling(qtbot, kitchen):
    type_in(qtbot, kitchen, kitchen.pots, 0, "name", "Jam kettle")
    kitchen.pots.setCurrentIndex(kitchen.pots.model().index(0, 0))
    card = kitchen.calibration

    def read(of, **texts):
        for key, text in texts.items():
            card.fields[key].setText(text)
        kitchen.work_out(of)
        settle(qtbot, kitchen)

    read("evaporation", before="6 L", after="5.4 L", boiled="30 min")
    assert kitchen.pots.records.rows[0].evaporation == "1.2 L/h ± 12 %"
    kitchen.pots.setCurrentIndex(kitchen.pots.model().index(0, 0))
    read("cooling_constant", hot="100 °C", cool="40 °C", bath="12 °C", cooled="25 min")
    # Newton: ln((100 - 12) / (40 - 12)) / 25 min
    assert kitchen.pots.records.rows[0].cooling_constant == "0.04581 /min"
    read("evaporation", after="7 L")
    assert "Less must be left" in card.refusal.text()


def test_what_stands_pale_in_a_field_as_an_example_is_no_reading(qtbot, kitchen):
    type_in(qtbot, kitchen, kitchen.pots, 0, "name", "Jam kettle")
    kitchen.pots.setCurrentIndex(kitchen.pots.model().index(0, 0))
    kitchen.calibration.fields["before"].setText("6 L")
    kitchen.work_out("evaporation")
    assert "Water left after the boil: Type what you read" in kitchen.calibration.refusal.text()
    assert kitchen.pots.records.rows[0].evaporation == ""


def test_in_a_narrow_window_no_field_of_a_reading_is_cut(qtbot, kitchen):
    kitchen.window().resize(800, 600)
    qtbot.waitUntil(lambda: kitchen.window().width() == 800)
    QApplication.processEvents()
    for field in kitchen.calibration.fields.values():
        wanted = field.fontMetrics().horizontalAdvance("100,00 °C") + 8
        assert field.visibleRegion().boundingRect().width() >= wanted, field.accessibleName()


def test_the_cupboard_says_what_is_missing_and_what_it_costs(qtbot, kitchen):
    view = kitchen.cupboard
    type_in(qtbot, kitchen, view, 0, "name", "Light dry malt extract")
    type_in(qtbot, kitchen, view, 0, "amount", "300 g")
    type_in(qtbot, kitchen, view, 0, "price", "9 / kg")
    assert "400 g Light dry malt extract: 100 g missing, 3.6" in kitchen.held.text()
    assert "1 kg Light liquid malt extract: 1 kg missing" in kitchen.held.text()
    assert not type_in(qtbot, kitchen, view, 0, "best_before", "next year")
    assert type_in(qtbot, kitchen, view, 0, "best_before", "2027-03-28")


def test_the_bag_s_alpha_acid_is_taken_and_the_bitterness_held(qtbot, kitchen):
    opened = kitchen.window().opened
    before = brew(opened.recipe).beer.bitterness_ibu
    type_in(qtbot, kitchen, kitchen.cupboard, 0, "name", "Challenger")
    type_in(qtbot, kitchen, kitchen.cupboard, 0, "alpha", "6 %")
    assert "the bag says 6 %, the recipe 7.2 %" in kitchen.held.text()
    kitchen.take_bags()
    assert opened.recipe.hops[0].alpha.value == pytest.approx(0.06)
    assert_no_half_gram_comes_nearer(opened.recipe, before)


def test_vessels_are_written_down_by_keyboard_alone(qtbot, kitchen):
    window = kitchen.window()
    made_active(qtbot, window)
    window.show_page(window.page_names.index("Kitchen"))
    view = kitchen.pots
    assert view.hasFocus()
    for name in ("Jam kettle", "Stock pot"):
        qtbot.keyClicks(view, name[0])
        editor = view.focusWidget()
        assert isinstance(editor, QLineEdit)
        qtbot.keyClicks(editor, name[1:])
        qtbot.keyClick(editor, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda name=name: getattr(view.chosen(), "name", "") == name)
        qtbot.keyClick(view, Qt.Key.Key_Down)
    qtbot.keyClick(view, Qt.Key.Key_Up)
    qtbot.keyClick(view, Qt.Key.Key_Up)
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: len(view.records.rows) == 1)
    assert view.chosen().name == "Stock pot"


def test_the_place_for_a_new_one_is_written_in_the_ink_of_the_scheme(qtbot, kitchen):
    model = kitchen.pots.records
    role = Qt.ItemDataRole.ForegroundRole
    assert model.index(0, 0).data(role) == QColor(LIGHT.ink_soft)
    kitchen.window().settings.scheme = "dark"
    qtbot.waitUntil(lambda: model.index(0, 0).data(role) == QColor(DARK.ink_soft))


def sorting_entries(view):
    """Return what *Sort by* has, in the menu that the Menu key opens for a row."""
    menu = row_menu(view, view.fill_menu)
    (sort,) = [each.menu() for each in menu.actions() if each.text().replace("&", "") == "Sort by"]
    return sort.actions()


def test_the_cupboard_is_ordered_by_a_heading_and_its_columns_can_be_hidden(
    qtbot, kitchen, settings
):
    view = kitchen.cupboard
    for number, (name, amount) in enumerate(
        (("Fuggle", "90 g"), ("Cascade", "1 kg"), ("Nugget", ""), ("Admiral", "4 oz"))
    ):
        type_in(qtbot, kitchen, view, number, "name", name)
        if amount:
            type_in(qtbot, kitchen, view, number, "amount", amount)
    header = view.horizontalHeader()

    def press(field):
        at = view.records.column_of(field)
        place = QPoint(header.sectionViewportPosition(at) + 8, header.height() // 2)
        qtbot.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=place)
        settle(qtbot, kitchen)
        return [each.name for each in view.records.rows]

    assert press("amount") == ["Fuggle", "Admiral", "Cascade", "Nugget"], "4 oz are 113 g"
    assert press("amount") == ["Cascade", "Admiral", "Fuggle", "Nugget"], "what is empty is last"
    assert press("name") == ["Admiral", "Cascade", "Fuggle", "Nugget"]
    type_in(qtbot, kitchen, view, 0, "name", "Zeus")
    qtbot.waitUntil(lambda: view.records.rows[-1].name == "Zeus")
    press("amount")
    press("amount")
    assert press("amount") == ["Fuggle", "Cascade", "Nugget", "Zeus"], "as they were added"
    assert settings.kept_order("cupboard") is None
    entries = {each.text().replace("&", ""): each for each in sorting_entries(view)}
    assert not entries["Downwards"].isEnabled()
    entries["Amount"].trigger()
    assert [each.name for each in view.records.rows] == ["Fuggle", "Zeus", "Cascade", "Nugget"]
    entries = {each.text().replace("&", ""): each for each in sorting_entries(view)}
    assert entries["Amount"].isChecked()
    entries["Downwards"].trigger()
    assert [each.name for each in view.records.rows] == ["Cascade", "Zeus", "Fuggle", "Nugget"]
    assert settings.kept_order("cupboard") == ("amount", True)
    again = RecordsView(view.records, "Cupboard", "cupboard")
    qtbot.addWidget(again)
    assert again.ordering.order == ("amount", True), "the next time too"
    lot = view.records.column_of("lot")
    menu = view.columns_menu()
    (entry,) = [each for each in menu.actions() if each.text().replace("&", "") == "Lot"]
    entry.trigger()
    assert view.isColumnHidden(lot)
    assert settings.hidden_columns("cupboard") == {"Lot"}
    assert not settings.hidden_columns("pots")
    entry.trigger()
    assert not view.isColumnHidden(lot)
