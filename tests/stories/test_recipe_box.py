"""A brewer finds, compares, tags, throws away and brings back recipes."""

import re
import warnings
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QItemSelectionModel, QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication

from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import document_text, load, save
from designer.library.store import Store
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path
from designer.window.brew.paper_form import PaperForm
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.recipe_summary import summary_of
from tests.active_window import made_active

EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")


def example(name):
    return load(resource_path(f"examples/{name}.hobwort"))


def keep(store, recipe):
    return store.recipes.add(document_text(recipe), summary_of(recipe))


@pytest.fixture
def box(qtbot, on_a_box, tmp_path):
    """The window on its Recipe box page, with the four examples kept."""
    with Store.open(tmp_path / "box") as store:
        for name in EXAMPLES:
            keep(store, example(name))
    window = on_a_box(OpenRecipe(example("harbour_lamp_porter")))
    window.show_page(window.page_names.index("Recipe box"))
    qtbot.waitUntil(lambda: len(window.box.model.rows_read) == 4, timeout=10_000)
    return window.box


def names(box):
    return {row.name for row in box.model.rows_read}


def settle(qtbot, box):
    qtbot.waitUntil(lambda: not box._autosave.store.busy, timeout=10_000)


def test_the_first_recipe_is_chosen_so_that_there_is_something_to_see(qtbot, box):
    settle(qtbot, box)
    assert [row.name for row in box.chosen()] == [box.model.rows_read[0].name]
    assert box.details.open_button.isEnabled()
    assert box.window().opened.recipe.name == "Harbour Lamp Porter", "chosen, not opened"


def choose(qtbot, box, *wanted):
    box.table.clearSelection()
    flag = QItemSelectionModel.SelectionFlag.Select | QItemSelectionModel.SelectionFlag.Rows
    for number, row in enumerate(box.model.rows_read):
        if row.name in wanted:
            box.table.selectionModel().select(box.model.index(number, 0), flag)
    settle(qtbot, box)


def test_the_chosen_recipe_is_seen_at_a_glance(qtbot, box):
    choose(qtbot, box, "Slipway Bitter")
    card = box.details.card
    qtbot.waitUntil(lambda: bool(card.lines.lines), timeout=10_000)
    bitter = example("slipway_bitter")
    forecast = look_ahead(bitter).forecasts["bitterness_ibu"]
    assert card.title.text() == "Slipway Bitter"
    assert card.main.figures["bitterness_ibu"].text() == f"{forecast.value:.0f} IBU"
    assert card.main.bands["bitterness_ibu"].text() == f"{forecast.low:.0f} to {forecast.high:.0f}"
    assert all(each.text() for each in card.main.bands.values())
    lines = [each.spoken for each in card.lines.lines]
    assert [each.split(",")[0].split(" ", 2)[2] for each in lines][: len(bitter.fermentables)] == [
        each.name for each in bitter.fermentables
    ]
    assert lines[-1].endswith(bitter.yeast.name)
    assert card.glass.isVisible()


def test_what_goes_in_leaves_its_room_to_a_comparison(qtbot, box):
    choose(qtbot, box, "Slipway Bitter")
    card = box.details.card
    qtbot.waitUntil(lambda: card.goes_in.isVisible(), timeout=10_000)
    choose(qtbot, box, "Slipway Bitter", "Foghorn Wheat")
    box.details.compare()
    settle(qtbot, box)
    assert not card.goes_in.isVisible()
    choose(qtbot, box, "Foghorn Wheat")
    qtbot.waitUntil(lambda: card.goes_in.isVisible(), timeout=10_000)
    assert card.title.text() == "Foghorn Wheat"


def test_a_figure_that_is_forecast_otherwise_today_stands_without_a_band(qtbot, box):
    choose(qtbot, box, "Slipway Bitter")
    card = box.details.card
    qtbot.waitUntil(lambda: bool(card.lines.lines), timeout=10_000)
    row = box.chosen()[0]
    other = replace(row, summary=replace(row.summary, ibu=row.summary.ibu + 7.0))
    box.model.take_rows([other])
    box._choose()
    settle(qtbot, box)
    qtbot.waitUntil(lambda: not card.main.bands["bitterness_ibu"].text(), timeout=10_000)
    assert card.main.figures["bitterness_ibu"].text() == f"{other.summary.ibu:.0f} IBU"
    assert card.main.bands["original_gravity"].text()


def test_both_models_keep_the_rules(qtmodeltester, box):
    qtmodeltester.check(box.model)
    qtmodeltester.check(box.details.versions_model)


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("port", {"Harbour Lamp Porter"}),
        ("with fuggle", {"Breakwater Red"}),
        ("style irish", {"Breakwater Red"}),
        ("fits 9 L", None),
        ("zzzz", set()),
    ],
)
def test_results_come_with_each_key(qtbot, box, typed, found):
    qtbot.keyClicks(box.search, typed)
    settle(qtbot, box)
    if found is None:
        fits = {n for n in EXAMPLES if look_ahead(example(n)).day.pot.fullest_l <= 7.2}
        found = {example(n).name for n in fits}
        assert box.told.text().endswith("at its fullest below the foam line, 7.2 L.")
    assert names(box) >= found if typed == "with fuggle" else names(box) == found
    many = len(box.model.rows_read)
    said = f"{many} recipe{'' if many == 1 else 's'} found." if many else "No recipe found."
    assert box.told.text().startswith(said)


def test_a_range_of_bitterness_finds_what_the_forecast_says(qtbot, box):
    values = {
        example(n).name: look_ahead(example(n)).forecasts["bitterness_ibu"].value for n in EXAMPLES
    }
    qtbot.keyClicks(box.search, "ibu 20..30")
    settle(qtbot, box)
    assert names(box) == {name for name, value in values.items() if 19.5 <= value <= 30.5}


def test_opening_shows_the_recipe_on_compose(qtbot, box):
    window = box.window()
    choose(qtbot, box, "Slipway Bitter")
    qtbot.keyClick(box.table, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.opened.recipe.name == "Slipway Bitter")
    assert window.pages.currentWidget() is window.compose
    assert window.header.state.text() == "kept, version 1"


def test_throwing_away_and_restoring(qtbot, box):
    choose(qtbot, box, "Slipway Bitter", "Foghorn Wheat")
    qtbot.keyClick(box.table, Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 2)
    qtbot.mouseClick(box.trash_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: names(box) == {"Slipway Bitter", "Foghorn Wheat"})
    choose(qtbot, box, "Slipway Bitter")
    assert box.details.throw_button.text() == "Restore"
    qtbot.mouseClick(box.details.throw_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: names(box) == {"Foghorn Wheat"})
    box.trash_button.setChecked(False)
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 3)


def test_undo_brings_back_what_was_thrown_away_until_another_page_is_shown(qtbot, box):
    turning = box.window().turning
    for left, name in ((3, "Slipway Bitter"), (2, "Foghorn Wheat")):
        choose(qtbot, box, name)
        qtbot.keyClick(box.table, Qt.Key.Key_Delete)
        qtbot.waitUntil(lambda left=left: len(box.model.rows_read) == left)
    assert box.window().header.undo.isEnabled()
    for there in ("Foghorn Wheat", "Slipway Bitter"):
        turning.undo()
        qtbot.waitUntil(lambda there=there: there in names(box))
    assert not box.window().header.undo.isEnabled()
    choose(qtbot, box, "Slipway Bitter")
    qtbot.keyClick(box.table, Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: box.window().header.undo.isEnabled())
    box.window().show_page(box.window().page_names.index("Kitchen"))
    assert not box.window().header.undo.isEnabled(), "there undo means what is done there"


def test_tags_are_put_and_found(qtbot, box):
    choose(qtbot, box, "Harbour Lamp Porter")
    box.details.tags.setFocus()
    qtbot.keyClicks(box.details.tags, "winter, dark")
    qtbot.keyClick(box.details.tags, Qt.Key.Key_Return)
    settle(qtbot, box)
    box.search.setText("tagged winter")
    qtbot.waitUntil(lambda: names(box) == {"Harbour Lamp Porter"})
    assert box.model.rows_read[0].tags == ("dark", "winter")


def test_versions_are_compared_branched_and_brought_back(qtbot, box):
    window = box.window()
    choose(qtbot, box, "Harbour Lamp Porter")
    box.details.open_newest()
    qtbot.waitUntil(lambda: window.autosave.recipe_id > 0)
    porter = window.opened.recipe
    hops = (replace(porter.hops[0], amount=Quantity(0.03, "30 g")), porter.hops[1])
    window.opened.show(replace(porter, hops=hops))
    window.opened.undo_stack.resetClean()
    window.files.save()
    settle(qtbot, box)
    window.show_page(window.page_names.index("Recipe box"))
    settle(qtbot, box)
    choose(qtbot, box, "Harbour Lamp Porter")
    qtbot.waitUntil(lambda: box.details.versions_model.rowCount() == 2)
    box.details.versions.selectAll()
    qtbot.mouseClick(box.details.compare_button, Qt.MouseButton.LeftButton)
    settle(qtbot, box)
    table = box.details.compared.compared
    rows = {tuple(table.text(row, at) for at in range(3)) for row in range(table.rowCount())}
    after = "30 g, pellets, 7.2 %, boil 60 min"
    assert ("Challenger", "18 g, pellets, 7.2 %, boil 60 min", after) in rows
    bitterness = next(row for row in rows if row[0] == "Bitterness")
    assert bitterness[1].startswith("29 IBU")
    assert "Colour 23 SRM" in box.details.alike.text(), "what stays is said in one line"
    headings = [table.headerData(at, Qt.Orientation.Horizontal) for at in (1, 2)]
    assert headings == ["Version 1", "Version 2"]
    kept = next(row for row in rows if row[0] == "Kept")
    assert all(re.fullmatch(r"\d+ \w{3} \d{4}, \d\d:\d\d", each) for each in kept[1:]), kept
    box.details.versions.setCurrentIndex(box.details.versions_model.index(1, 0))
    qtbot.mouseClick(box.details.back_button, Qt.MouseButton.LeftButton)
    settle(qtbot, box)
    choose(qtbot, box, "Harbour Lamp Porter")
    qtbot.waitUntil(lambda: box.details.versions_model.rowCount() == 3)
    box.details.versions.setCurrentIndex(box.details.versions_model.index(2, 0))
    qtbot.mouseClick(box.details.branch_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: window.opened.recipe.name == "Harbour Lamp Porter, another way")


def test_two_recipes_are_compared(qtbot, box):
    choose(qtbot, box, "Slipway Bitter", "Foghorn Wheat")
    qtbot.mouseClick(box.details.compare_button, Qt.MouseButton.LeftButton)
    settle(qtbot, box)
    table = box.details.compared.compared
    headings = [table.headerData(at, Qt.Orientation.Horizontal).split("\n")[0] for at in (1, 2)]
    assert set(headings) == {"Slipway Bitter", "Foghorn Wheat"}
    assert table.rowCount() > 5
    width = sum(box.details.compared.columnWidth(at) for at in range(3))
    assert width <= box.details.compared.viewport().width(), "nothing lies outside it"


def test_files_come_in_and_go_out(qtbot, box, answers, tmp_path):
    recipe = replace(example("slipway_bitter"), name="From a friend")
    save(recipe, tmp_path / "friend.hobwort")
    (tmp_path / "broken.hobwort").write_text("{", encoding="utf-8")
    answers.which_files = lambda parent: [tmp_path / "friend.hobwort", tmp_path / "broken.hobwort"]
    box.import_files()
    qtbot.waitUntil(lambda: "From a friend" in names(box))
    assert "broken.hobwort" in box.window().messages.text.text()
    out = tmp_path / "out"
    out.mkdir()
    answers.which_folder = lambda parent: out
    choose(qtbot, box, "From a friend", "Foghorn Wheat")
    box.export()
    settle(qtbot, box)
    assert load(out / "from_a_friend.hobwort") == recipe
    assert len(list(out.iterdir())) == 2


def test_headings_sort_the_list(qtbot, box):
    section = 0
    box._sort(section)
    settle(qtbot, box)
    shown = [row.name for row in box.model.rows_read]
    assert shown == sorted(shown)
    box._sort(section)
    settle(qtbot, box)
    assert [row.name for row in box.model.rows_read] == sorted(shown, reverse=True)
    assert box.model.display.settings.kept_order("box") == ("name", True)
    box.order_menu(box).actions()[0].trigger()
    assert [row.name for row in box.model.rows_read] == sorted(shown, reverse=True), "it is so"
    by = {each.text().replace("&", ""): each for each in box.order_menu(box).actions()}
    by["Closest to what is searched, then the latest"].trigger()
    settle(qtbot, box)
    assert box.model.display.settings.kept_order("box") is None
    assert not box.table.horizontalHeader().isSortIndicatorShown()


def test_a_brew_day_is_noted(qtbot, box):
    choose(qtbot, box, "Slipway Bitter")
    assert box.details.brewed_button.isVisible()
    qtbot.mouseClick(box.details.brewed_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bool(box.window().findChildren(PaperForm)))
    [form] = box.window().findChildren(PaperForm)
    qtbot.mouseClick(form.keep_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: any(row.last_brewed for row in box.model.rows_read))
    row = next(row for row in box.model.rows_read if row.last_brewed)
    assert row.name == "Slipway Bitter"


# dragging out and in, and the clipboard, which does the same without a mouse


def dragged_out(qtbot, box, monkeypatch):
    """Drag what is chosen, with a button that is held for ever; return the drags that began."""
    begun = []

    class Held:
        @staticmethod
        def mouseButtons():  # noqa: N802 - Qt's own name
            return Qt.MouseButton.LeftButton

    def exec_(drag, *actions):
        begun.append((drag.mimeData(), actions))
        return Qt.DropAction.CopyAction

    monkeypatch.setattr("designer.window.box.box_table.QGuiApplication", Held)
    monkeypatch.setattr("designer.window.box.box_table.QDrag.exec", exec_)
    box.table.startDrag(Qt.DropAction.CopyAction)
    settle(qtbot, box)
    return begun


def drop(box, mime):
    """Drop something on the page; return whether it was let in."""
    copy, button = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    none = Qt.KeyboardModifier.NoModifier
    with warnings.catch_warnings():
        # From Qt 6.12 on the place is given in fractions, which earlier ones do not know.
        warnings.simplefilter("ignore", DeprecationWarning)
        enter = QDragEnterEvent(QPoint(50, 50), copy, mime, button, none)
    box.dragEnterEvent(enter)
    if enter.isAccepted():
        box.dropEvent(QDropEvent(QPointF(50, 50), copy, mime, button, none))
    return enter.isAccepted()


def test_recipes_are_dragged_out_as_files_and_stay_in_the_box(qtbot, box, monkeypatch):
    choose(qtbot, box, "Slipway Bitter", "Foghorn Wheat")
    ((mime, actions),) = dragged_out(qtbot, box, monkeypatch)
    assert actions == (Qt.DropAction.CopyAction,)
    files = [Path(url.toLocalFile()) for url in mime.urls()]
    assert {load(path).name for path in files} == {"Slipway Bitter", "Foghorn Wheat"}
    assert {path.name for path in files} == {"slipway_bitter.hobwort", "foghorn_wheat.hobwort"}
    assert load(next(p for p in files if p.stem == "slipway_bitter")) == example("slipway_bitter")
    assert "Slipway Bitter" in mime.text()
    assert len(box.model.rows_read) == 4
    box.window().close()
    assert not any(path.exists() for path in files)


def test_a_drag_whose_button_was_let_go_does_not_begin(qtbot, box, monkeypatch):
    choose(qtbot, box, "Slipway Bitter")
    begun = []
    monkeypatch.setattr("designer.window.box.box_table.QDrag.exec", lambda *_: begun.append(1))
    box.table.startDrag(Qt.DropAction.CopyAction)
    qtbot.mouseRelease(box.table.viewport(), Qt.MouseButton.LeftButton)
    settle(qtbot, box)
    assert begun == []


def test_our_own_recipes_dropped_on_the_box_are_not_brought_in_again(qtbot, box, monkeypatch):
    choose(qtbot, box, "Slipway Bitter", "Foghorn Wheat")
    ((mime, _),) = dragged_out(qtbot, box, monkeypatch)
    assert not drop(box, mime)
    settle(qtbot, box)
    assert len(box.model.rows_read) == 4


def test_files_dropped_on_the_box_come_in(qtbot, box, tmp_path):
    save(replace(example("slipway_bitter"), name="From the desktop"), tmp_path / "a.hobwort")
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(tmp_path / "a.hobwort"))])
    assert drop(box, mime)
    qtbot.waitUntil(lambda: "From the desktop" in names(box))
    text = QMimeData()
    text.setText("a shopping list")
    assert not drop(box, text)


def test_recipes_are_copied_and_pasted_by_keyboard(qtbot, box, tmp_path):
    choose(qtbot, box, "Slipway Bitter", "Foghorn Wheat")
    control = Qt.KeyboardModifier.ControlModifier
    qtbot.keyClick(box.table, Qt.Key.Key_C, control)
    settle(qtbot, box)
    mime = QGuiApplication.clipboard().mimeData()
    files = [Path(url.toLocalFile()) for url in mime.urls()]
    assert {load(path).name for path in files} == {"Slipway Bitter", "Foghorn Wheat"}
    assert "2 recipes copied" in box.window().messages.text.text()
    qtbot.keyClick(box.table, Qt.Key.Key_V, control)
    settle(qtbot, box)
    assert "Duplicate" in box.window().messages.text.text()
    assert len(box.model.rows_read) == 4
    save(replace(example("slipway_bitter"), name="Pasted"), tmp_path / "a.hobwort")
    other = QMimeData()
    other.setUrls([QUrl.fromLocalFile(str(tmp_path / "a.hobwort"))])
    QGuiApplication.clipboard().setMimeData(other)
    qtbot.keyClick(box.table, Qt.Key.Key_V, control)
    qtbot.waitUntil(lambda: "Pasted" in names(box))


def test_a_version_is_opened_by_keyboard(qtbot, box):
    window = box.window()
    choose(qtbot, box, "Slipway Bitter")
    qtbot.waitUntil(lambda: box.details.versions_model.rowCount() == 1)
    box.details.versions.setCurrentIndex(box.details.versions_model.index(0, 0))
    qtbot.keyClick(box.details.versions, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.opened.recipe.name == "Slipway Bitter")


def test_the_list_is_reached_from_the_search_and_the_search_from_anywhere(qtbot, box):
    made_active(qtbot, box.window())
    box.take_focus()
    qtbot.keyClicks(box.search, "slipway")
    qtbot.waitUntil(lambda: names(box) == {"Slipway Bitter"})
    qtbot.keyClick(box.search, Qt.Key.Key_Down)
    assert box.table.hasFocus()
    assert [row.name for row in box.chosen()] == ["Slipway Bitter"]
    qtbot.keyClick(box.window(), Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert box.search.hasFocus()
    assert box.search.selectedText() == "slipway"


def test_after_throwing_one_away_the_keyboard_is_on_the_next(qtbot, box):
    made_active(qtbot, box.window())
    box.table.setFocus()
    order = [row.name for row in box.model.rows_read]
    choose(qtbot, box, order[1])
    box.table.selectionModel().setCurrentIndex(
        box.model.index(1, 0), QItemSelectionModel.SelectionFlag.NoUpdate
    )
    qtbot.keyClick(box.table, Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 3)
    assert [row.name for row in box.chosen()] == [order[2]]
    qtbot.keyClick(box.table, Qt.Key.Key_Down)
    assert [row.name for row in box.chosen()] == [order[3]]


def test_another_window_s_change_leaves_the_keyboard_where_it_was(qtbot, box):
    box.table.selectRow(2)
    chosen = box.chosen()[0].name
    settle(qtbot, box)
    with Store.open(box._autosave.folder) as store:
        keep(store, replace(example("slipway_bitter"), name="From another window"))
    box.look_up()
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 5)
    assert [row.name for row in box.chosen()] == [chosen]
    assert box.model.rows_read[box.table.currentIndex().row()].name == chosen
