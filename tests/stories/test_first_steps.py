"""What the Recipe box and the Kitchen say before a brewer has put anything into them."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from designer.library.store import Store
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.examples import lay_in_examples

from .acts import press, rename, store_at_rest, type_over


@pytest.fixture
def with_examples(qtbot, on_a_box, folder, porter):
    """A window over a box with the examples in it, and nothing else."""
    with Store.open(folder) as store:
        lay_in_examples(store)
    return on_a_box(OpenRecipe(porter))


@pytest.fixture
def box(qtbot, with_examples):
    with_examples.show_page(with_examples.page_names.index("Recipe box"))
    qtbot.waitUntil(lambda: with_examples.box.model.rowCount() == 4)
    return with_examples.box


def test_four_examples_are_told_of_until_that_is_hidden(qtbot, with_examples, box):
    steps = box.first_steps
    qtbot.waitUntil(steps.isVisible)
    assert steps.title.text() == "Four examples to look around in"
    names = [box.model.index(row, 0).data() for row in range(4)]
    assert names[0] == "Harbour Lamp Porter (example)"
    press(qtbot, steps.hide_it)
    assert not steps.isVisible()
    with_examples.show_page(0)
    with_examples.show_page(with_examples.page_names.index("Recipe box"))
    store_at_rest(qtbot, with_examples)
    assert not steps.isVisible()
    assert with_examples.settings.examples_told


def test_one_that_is_thrown_away_lies_in_the_trash_and_the_others_are_counted(
    qtbot, with_examples, box, folder
):
    qtbot.waitUntil(box.first_steps.isVisible)
    box.table.selectRow(0)
    qtbot.keyClick(box.table, Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: box.first_steps.title.text() == "3 examples to look around in")
    store_at_rest(qtbot, with_examples)
    with Store.open(folder) as store:
        assert [each.example for each in store.finder.find("", trashed=True).rows] == [
            "harbour_lamp_porter"
        ]


def test_the_panel_leads_to_the_doors(qtbot, with_examples, box):
    qtbot.waitUntil(box.first_steps.isVisible)
    press(qtbot, box.first_steps.kit)
    doors = with_examples.begin_page
    assert with_examples.pages.currentWidget() is doors
    assert doors.doors.checkedId() == 1
    assert doors.isAncestorOf(QApplication.focusWidget())


def test_an_example_opened_from_the_box_is_kept_as_ones_own_once_it_is_changed(
    qtbot, with_examples, box, folder
):
    box.table.selectRow(1)
    qtbot.keyClick(box.table, Qt.Key.Key_Return)
    window = with_examples
    qtbot.waitUntil(lambda: window.header.state.text() == "an example")
    assert window.opened.recipe.name == "Slipway Bitter"
    rename(window, "Bitter of the pier")
    window.files.save()
    qtbot.waitUntil(lambda: window.header.state.text() == "kept, version 1", timeout=10_000)
    with Store.open(folder) as store:
        rows = {each.name: each for each in store.finder.find("").rows}
        assert (rows["Bitter of the pier"].example, rows["Bitter of the pier"].versions) == ("", 1)
        assert (rows["Slipway Bitter"].example, rows["Slipway Bitter"].versions) == (
            "slipway_bitter",
            1,
        )


def test_what_matches_nothing_is_told_with_ways_on(qtbot, box):
    type_over(qtbot, box.search, "stout with oats")
    steps = box.first_steps
    qtbot.waitUntil(lambda: steps.title.text() == "Nothing here matches “stout with oats”")
    press(qtbot, steps.all)
    qtbot.waitUntil(lambda: box.model.rowCount() == 4)
    assert box.search.text() == ""
    type_over(qtbot, box.search, "stout with oats")
    qtbot.waitUntil(lambda: steps.title.text() == "Nothing here matches “stout with oats”")
    press(qtbot, steps.trash)
    assert box.trash_button.isChecked()


def test_an_empty_box_says_what_it_is_for(qtbot, on_a_box, porter):
    window = on_a_box(OpenRecipe(porter))
    window.show_page(window.page_names.index("Recipe box"))
    steps = window.box.first_steps
    qtbot.waitUntil(steps.isVisible)
    assert steps.title.text() == "Nothing is kept yet"
    press(qtbot, steps.own)
    assert window.begin_page.doors.checkedId() == 0


def test_an_empty_kitchen_says_what_each_table_is_for_and_lets_the_first_be_typed(
    qtbot, on_a_box, porter
):
    window = on_a_box(OpenRecipe(porter))
    window.show_page(window.page_names.index("Kitchen"))
    kitchen = window.kitchen
    store_at_rest(qtbot, window)
    said = " ".join(each.text() for each in kitchen.findChildren(QLabel) if each.isVisible())
    for words in ("The pots you boil in", "What your beer ferments in", "What you have in hand"):
        assert words in said
    press(qtbot, kitchen.first_steps[kitchen.pots])
    qtbot.keyClicks(QApplication.focusWidget(), "Blue pot")
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: [each.name for each in kitchen.pots.records.rows] == ["Blue pot"])
    assert not kitchen.first_steps[kitchen.pots].isVisible()
    assert kitchen.first_steps[kitchen.cupboard].isVisible()
