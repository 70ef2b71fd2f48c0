"""A brewer's shop sells in sizes of its own."""

import pytest
from PySide6.QtCore import Qt

from designer.command_line import run
from designer.library.packs import packs
from designer.library.recipe_file import load
from designer.library.store.shop import shop_packs
from designer.resource_files import resource_path
from designer.sheet.plain import sheet_text
from designer.units import ShownUnits
from designer.window.parts.ordering import Order
from designer.window.session.open_recipe import OpenRecipe

BITTER = resource_path("examples/slipway_bitter.hobwort")


@pytest.fixture
def window(on_a_box):
    return on_a_box(OpenRecipe(load(BITTER)))


@pytest.fixture
def panel(qtbot, window):
    window.show_page(window.page_names.index("Kitchen"))
    settle(qtbot, window)
    qtbot.mouseClick(window.kitchen.part_buttons[1], Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    return window.kitchen.packs


def settle(qtbot, window):
    def still():
        fit = window.fit
        return not window.autosave.store.busy and (fit is None or not fit.latest.busy)

    qtbot.waitUntil(still, timeout=20_000)


def add(qtbot, panel, kind, holds, called=""):
    panel.kind.setCurrentText(kind)
    panel.holds.setFocus()
    panel.holds.selectAll()
    qtbot.keyClicks(panel.holds, holds)
    panel.called.setFocus()
    panel.called.selectAll()
    qtbot.keyClicks(panel.called, called)
    qtbot.keyClick(panel.called, Qt.Key.Key_Return)
    settle(qtbot, panel.window())


def said(panel, kind):
    return [each.said for each in panel.table.rows if each.kind == kind]


def hops_to_buy(qtbot, window):
    window.show_page(1)
    window.fit.fields["pot"].setText("6 L")
    window.fit.reckon()
    settle(qtbot, window)
    qtbot.waitUntil(lambda: window.fit.answer is not None, timeout=10_000)
    [way] = [way for way in window.fit.ways if way.key == "more hops"]
    return next(each for each in way.must_buy if each.kind == "hops").packs


def test_the_usual_sizes_stand_there_first(panel):
    assert said(panel, "hops") == ["25 g bag", "50 g bag", "100 g bag"]
    assert len(panel.table.rows) == len(packs("metric"))
    assert not panel.usual_button.isEnabled()
    assert panel.view.hasFocus()


def test_a_size_that_is_added_counts_for_what_is_to_be_bought(qtbot, window, panel):
    assert hops_to_buy(qtbot, window) == ((1, "25 g bag"),)
    window.show_page(window.page_names.index("Kitchen"))
    settle(qtbot, window)
    add(qtbot, panel, "hops", "12,5", "twist")
    assert said(panel, "hops")[0] == "12,5 g twist"
    assert panel.holds.text() == ""
    assert hops_to_buy(qtbot, window) == ((1, "12,5 g twist"),)


def test_the_command_line_takes_the_same_sizes(qtbot, panel, tmp_path, monkeypatch, capsys):
    add(qtbot, panel, "hops", "30 g", "box")
    for row in (0, 1, 2):
        del row
        [first, *_] = [n for n, each in enumerate(panel.table.rows)
                       if each.kind == "hops" and each.label == "bag"]  # fmt: skip
        panel.view.setCurrentIndex(panel.table.index(first, 0))
        qtbot.keyClick(panel.view, Qt.Key.Key_Delete)
    settle(qtbot, panel.window())
    assert said(panel, "hops") == ["30 g box"]
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    assert run(["fit", str(BITTER), "--pot", "6 L"]) == 0
    assert "1 × 30 g box" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("kind", "holds", "told"),
    [
        ("hops", "3 g", "from 5 g to 10 kg"),
        ("hops", "3 L", "3 L"),
        ("liquid extract", "80 kg", "from 50 g to 50 kg"),
        ("yeast", "", "nothing is typed"),
        ("hops", "100 g", "in the list already"),
    ],
)
def test_nonsense_sizes_are_refused_with_place_limit_and_way_out(qtbot, panel, kind, holds, told):
    add(qtbot, panel, kind, holds)
    assert panel.refusal.isVisible()
    assert panel.refusal.text().startswith("Pack holds: ")
    assert told in panel.refusal.text()
    assert panel.table.rows == packs("metric")


def test_a_size_is_changed_in_its_cell_and_taken_back(qtbot, panel):
    row = next(n for n, each in enumerate(panel.table.rows) if each.kind == "yeast")
    panel.view.setCurrentIndex(panel.table.index(row, 1))
    qtbot.keyClick(panel.view, Qt.Key.Key_Return)
    editor = panel.view.focusWidget()
    editor.selectAll()
    qtbot.keyClicks(editor, "7 g")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: said(panel, "yeast") == ["7 g packet"])
    assert not panel.table.setData(panel.table.index(row, 1), "0 g")
    assert panel.refusal.text().startswith("Pack holds of the 7 g pack of yeast: ")
    assert said(panel, "yeast") == ["7 g packet"]
    qtbot.mouseClick(panel.undo_button, Qt.MouseButton.LeftButton)
    settle(qtbot, panel.window())
    assert said(panel, "yeast") == ["11 g packet"]
    assert not panel.usual_button.isEnabled()


def test_sizes_are_sorted_by_a_column_which_is_no_change_of_them(qtbot, panel, settings):
    qtbot.mouseClick(panel.undo_button, Qt.MouseButton.LeftButton)
    panel.view.ordering.choose(Order("amount"))
    masses = [each.mass_kg for each in panel.table.rows]
    assert masses == sorted(masses)
    assert not panel.undo_button.isEnabled()
    assert not panel.usual_button.isEnabled(), "they are the usual ones still"
    add(qtbot, panel, "hops", "30 g")
    masses = [each.mass_kg for each in panel.table.rows]
    assert masses == sorted(masses), "a new one comes into the order"
    panel.view.ordering.choose(None)
    assert panel.table.rows[-1].kind == "yeast"
    qtbot.mouseClick(panel.undo_button, Qt.MouseButton.LeftButton)
    assert panel.table.rows == packs("metric")
    assert settings.kept_order("packs") is None


def test_one_button_brings_the_usual_sizes_back_and_undo_one_s_own(qtbot, panel):
    add(qtbot, panel, "hops", "30 g")
    qtbot.mouseClick(panel.usual_button, Qt.MouseButton.LeftButton)
    settle(qtbot, panel.window())
    assert said(panel, "hops") == ["25 g bag", "50 g bag", "100 g bag"]
    assert not panel.usual_button.isEnabled()
    qtbot.mouseClick(panel.undo_button, Qt.MouseButton.LeftButton)
    assert "30 g bag" in said(panel, "hops")
    qtbot.mouseClick(panel.redo_button, Qt.MouseButton.LeftButton)
    assert "30 g bag" not in said(panel, "hops")


def test_the_two_sets_are_apart(qtbot, window, panel):
    add(qtbot, panel, "hops", "30 g")
    panel.set_choice.setCurrentText("US packs")
    panel.set_choice.activated.emit(1)
    settle(qtbot, window)
    assert said(panel, "hops") == ["1 oz bag", "2 oz bag", "8 oz bag"]
    add(qtbot, panel, "hops", "4 oz")
    panel.set_choice.setCurrentText("Metric packs")
    panel.set_choice.activated.emit(0)
    settle(qtbot, window)
    assert "30 g bag" in said(panel, "hops")
    assert "4 oz bag" not in said(panel, "hops")


def test_a_shop_that_sells_nothing_in_packs_is_told_what_that_means(qtbot, panel):
    panel.table.make(())
    assert panel.empty.isVisible()
    assert not panel.remove_button.isEnabled()
    add(qtbot, panel, "sugar", "2")
    assert said(panel, "sugar") == ["2 kg pack"]
    assert not panel.empty.isVisible()


def test_what_is_kept_is_there_after_the_page_was_left(qtbot, window, panel):
    add(qtbot, panel, "hops", "30 g")
    qtbot.mouseClick(window.kitchen.part_buttons[0], Qt.MouseButton.LeftButton)
    assert window.kitchen.pots.isVisible()
    kept = []
    window.autosave.store.ask(lambda box: shop_packs(box, "metric"), kept.append)
    qtbot.mouseClick(window.kitchen.part_buttons[1], Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    assert "30 g bag" in said(panel, "hops")
    assert tuple(each.said for each in kept[0]) == tuple(each.said for each in panel.table.rows)


def test_fit_shows_the_way_to_the_sizes(qtbot, window):
    window.show_page(1)
    settle(qtbot, window)
    qtbot.mouseClick(window.fit.hands_button, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(window.fit.packs_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    assert window.kitchen.packs.isVisible()
    assert len(window.kitchen.packs.table.rows) == len(packs("metric"))


def test_in_us_units_ways_and_scaling_go_by_us_packs(qtbot, window, settings):
    settings.units = ShownUnits.US
    assert hops_to_buy(qtbot, window) == ((1, "1 oz bag"),)
    fit = window.fit
    fit.whole.setChecked(True)
    qtbot.keyClicks(fit.scale_field, "5 gal")
    qtbot.keyClick(fit.scale_field, Qt.Key.Key_Return)
    extract = [line for line in window.opened.recipe.fermentables if "extract" in line.kind]
    pounds = [line.amount.value / 0.45359237 for line in extract]
    assert pounds
    for line, mass in zip(extract, pounds, strict=True):
        sizes = [1.0, 3.0] if line.kind == "dry extract" else [3.3, 6.0]
        sums = {round(a * sizes[0] + b * sizes[1], 3) for a in range(8) for b in range(8)}
        assert min(abs(mass - each) for each in sums) < 0.01
    assert "In whole packs: " in window.messages.text.text()
    assert window.opened.undo_stack.count() == 1


def test_the_sheet_is_in_the_packs_of_the_shop(qtbot, window, panel):
    add(qtbot, panel, "dry extract", "900 g", "pouch")
    window.show_page(2)
    settle(qtbot, window)
    sheet = window._sheet
    qtbot.waitUntil(lambda: "900 g pouch, 200 g left" in sheet_text(sheet.sheet()))
    qtbot.waitUntil(lambda: "900 g pouch, 200 g left" in sheet.pages.accessibleDescription())
