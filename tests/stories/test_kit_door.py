"""A brewer types in a kit as its leaflet reads, sees how it comes out, and begins with it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import read_document
from designer.library.store import Store
from designer.library.store.kitchen import FermenterRecord
from designer.window.parts.beside_field import note_of
from tests.active_window import made_active

from .acts import press, store_at_rest, type_over

NONE, CONTROL = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ControlModifier


def newest_draft(folder):
    with Store.open(folder) as store:
        drafts = store.drafts.all()
    return read_document(drafts[-1].document, "draft") if drafts else None


def opened_door(qtbot, window):
    window.begin()
    press(qtbot, window.begin_page.doors.button(1))
    kit = window.begin_page.kit
    qtbot.waitUntil(kit.isVisible)
    return kit


@pytest.fixture
def kit(qtbot, window):
    return opened_door(qtbot, window)


def type_row(kit, section, row=0, **texts):
    rows = getattr(kit.contents, section, None) or kit.contents.of_kind[section]
    while len(rows.rows) <= row:
        rows.add_row()
    for key, text in texts.items():
        rows.put(rows.rows[row], key, text)


def fill(kit, makes="20 L", gravity="1.050 to 1.055"):
    """A tin, a bag, sugar and grain: 1.053 in 20 L."""
    kit.name.setText("Breakwater Red")
    kit.fields["makes"].setText(makes)
    kit.fields["original_gravity"].setText(gravity)
    type_row(kit, "tins", amount="1.7 kg")
    type_row(kit, "dry extract", amount="1 kg", name="Amber dry malt extract")
    type_row(kit, "sugar", amount="500 g")
    type_row(kit, "steeping grain", amount="200 g", name="Crystal malt 120 °L")


def seen(qtbot, kit):
    qtbot.waitUntil(lambda: not kit._pause.isActive() and kit.looked is not None)
    return kit.seen


def write(qtbot, window, *texts):
    """Type texts where the keyboard is, Return after each; lists of names are closed."""
    for text in texts:
        field = QApplication.focusWidget()
        qtbot.keyClicks(field, text)
        completer = getattr(field, "completer", lambda: None)()
        if completer is not None and completer.popup().isVisible():
            qtbot.keyClick(completer.popup(), Qt.Key.Key_Escape)
            made_active(qtbot, window)
            QApplication.processEvents()  # the list gives the keyboard back in a turn of its own
            assert field.hasFocus()
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)


def test_by_keyboard_alone_a_kit_is_typed_in_and_lies_on_the_disk(qtbot, on_a_box, opened, folder):
    window = on_a_box(opened)
    both = CONTROL | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(window, Qt.Key.Key_N, both)
    qtbot.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    kit = window.begin_page.kit
    qtbot.waitUntil(kit.name.hasFocus)
    write(qtbot, window, "Quay Bitter", "20 L", "4 L", "")
    write(qtbot, window, "1.5 kg", "", "")  # hopped; Return at the end makes another row
    assert len(kit.contents.tins.rows) == 2
    write(qtbot, window, "3.3 lb", "Light liquid malt extract")
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Down)  # not hopped
    write(qtbot, window, "", "")  # and past a third, empty row
    write(qtbot, window, "", "1 kg", "", "", "")  # no dry extract, sugar, no second, no grain
    write(qtbot, window, "18 g", "Challenger", "", "7.2 %", "60")
    write(qtbot, window, "20 g", "Fuggle", "", "", "flame-out", "")
    assert QApplication.focusWidget() is kit.contents.yeast.rows[0]["amount"]
    write(qtbot, window, "6 g", "", "1.053-1.060", "", "", "24 IBU", "", "25 L")
    assert kit.button.hasFocus()
    assert "They agree" in seen(qtbot, kit).stated.text()
    qtbot.keyClick(kit.button, Qt.Key.Key_Return)
    assert kit.refusal.text() == ""
    qtbot.waitUntil(lambda: window.pages.currentWidget() is window.compose, timeout=10_000)
    recipe = window.opened.recipe
    assert [(each.amount.text, each.kind) for each in recipe.fermentables] == [
        ("1.5 kg", "hopped kit extract"), ("3.3 lb", "liquid extract"), ("1 kg", "sugar"),
    ]  # fmt: skip
    assert [(each.amount.text, each.when.text) for each in recipe.hops] == [
        ("18 g", "boil 60 min"), ("20 g", "flame-out"),
    ]  # fmt: skip
    assert recipe.hops[0].alpha.text == "7.2 %"
    assert all(line.locked for line in (*recipe.fermentables, *recipe.hops))
    assert (recipe.process.start_water.text, recipe.process.top_up_to.text) == ("4 L", "20 L")
    assert recipe.leaflet.original_gravity.text == "1.053-1.060"
    assert (recipe.yeast.amount.text, recipe.fermenter.volume.text) == ("6 g", "25 L")
    store_at_rest(qtbot, window)
    qtbot.waitUntil(lambda: newest_draft(folder) == recipe, timeout=10_000)


def test_by_mouse_alone_a_kit_too_large_for_the_fermenter_leads_on_to_fit_and_is_kept(
    qtbot, on_a_box, opened, folder
):
    window = on_a_box(opened)
    kit = opened_door(qtbot, window)
    rows = kit.contents.of_kind["sugar"]
    press(qtbot, rows.more)
    assert rows.rows[1]["amount"].hasFocus()
    fill(kit)  # pasted with the mouse, field by field
    kit.look()
    assert kit.to_fit.text() == "Does not fit a 12 L fermenter: see ways to brew it"
    assert "Fits the 9 L pot" in kit.seen.vessels.text()
    assert "krausen line at 10.2 L" in kit.seen.vessels.text()
    press(qtbot, kit.to_fit)
    assert window.pages.currentWidget() is window.fit
    recipe = window.opened.recipe
    assert recipe.process.top_up_to.text == "20 L"
    qtbot.waitUntil(lambda: window.fit.answer is not None, timeout=30_000)
    assert window.fit.ways
    store_at_rest(qtbot, window)
    qtbot.waitUntil(lambda: newest_draft(folder) == recipe, timeout=10_000)


def test_a_slip_is_asked_about_put_right_by_a_press_and_back_by_another(qtbot, window, kit):
    fill(kit, makes="20 gal")
    asked = seen(qtbot, kit)
    assert "Does the kit make 20 L, not 20 gal?" in asked.doubt.text()
    press(qtbot, asked.mend)
    assert kit.fields["makes"].text() == "20 L"
    assert not asked.doubt.isVisible()
    assert "They agree" in asked.stated.text()
    press(qtbot, asked.undo)
    assert kit.fields["makes"].text() == "20 gal"
    assert asked.doubt.isVisible()
    assert not asked.undo.isVisible()


def test_what_was_forgotten_gets_a_row_and_what_is_there_twice_loses_it(qtbot, window, kit):
    fill(kit, gravity="1.066 to 1.070")
    type_row(kit, "sugar", amount="")
    asked = seen(qtbot, kit)
    assert "Is another 1.7 kg of Hopped kit extract, amber or bitter missing?" in (
        asked.doubt.text()
    )
    press(qtbot, asked.mend)
    tins = kit.contents.tins
    assert [tins.text(row, "amount") for row in tins.rows] == ["1.7 kg", "1.7 kg"]
    press(qtbot, asked.undo)
    assert len(kit.kit().items) == 3
    kit.fields["original_gravity"].setText("1.040 to 1.044")
    type_row(kit, "tins", row=1, amount="1.7 kg")
    kit.look()
    assert "there twice" in asked.doubt.text()
    press(qtbot, asked.mend)
    assert len(kit.kit().items) == 3


def test_a_fault_is_refused_beside_its_field_and_goes_when_it_is_mended(qtbot, window, kit, porter):
    fill(kit)
    before = kit.button.mapTo(window, kit.button.rect().topLeft())
    for field, text, mended, why in (
        (kit.fields["pot"], "9 kg", "9 L", "Pot:"),
        (kit.fields["original_gravity"], "5 L", "1.052", "Original gravity:"),
        (kit.contents.tins.rows[0]["amount"], "", "1.7 kg", "Amount of Tins: how much"),
        (kit.fields["makes"], "", "20 L", "Makes: how much beer"),
    ):
        type_row(kit, "tins", name="A tin")
        type_over(qtbot, field, text)
        field.setText(text)
        press(qtbot, kit.button)
        assert kit.refusal.isVisible()
        assert kit.refusal.text().startswith(why)
        assert field.property("refused")
        assert kit.button.mapTo(window, kit.button.rect().topLeft()) == before
        type_over(qtbot, field, mended)
        assert not field.property("refused")
    assert window.opened.recipe == porter


def test_an_amount_far_from_the_usual_is_asked_about_beside_its_field(qtbot, kit):
    field = kit.contents.tins.rows[0]["amount"]
    type_over(qtbot, field, "1700 kg")
    kit.name.setFocus()
    note = note_of(field)
    assert "Meant 1.7 kg?" in note.text.text()


def test_the_vessels_of_the_kitchen_are_offered(qtbot, on_a_box, opened, folder):
    with Store.open(folder) as store:
        store.fermenters.insert(FermenterRecord("Big bucket", "30 L"))
    window = on_a_box(opened)
    kit = opened_door(qtbot, window)
    qtbot.waitUntil(lambda: kit.fields["fermenter"].text() == "Big bucket, 30 L", timeout=10_000)
    fill(kit)
    kit.look()
    assert kit.looked.does_not_fit is None
    press(qtbot, kit.button)
    fermenter = window.opened.recipe.fermenter
    assert (fermenter.name, fermenter.volume.text) == ("Big bucket", "30 L")
    codes = {each.code for each in look_ahead(window.opened.recipe).findings}
    assert "fermenter-overflows" not in codes
