"""A kit that fits no vessel is brewed by a plan: used, read, saved, closed, opened, taken back."""

import shutil
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.recipe.document import PlannedBoil, PlannedFermenter, WortShare
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.plan import as_written, is_planned, planning
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.sheet.plain import sheet_text
from designer.window.session.open_recipe import OpenRecipe

from .acts import press, store_at_rest
from .real_program import Program

RED = resource_path("examples/breakwater_red.hobwort")
CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def file(tmp_path):
    """The kit as a file of the brewer's own."""
    return shutil.copy(RED, tmp_path / "red.hobwort")


@pytest.fixture
def red(qtbot, on_a_box, file):
    """A window over the kit from its file, with a Recipe box."""
    window = on_a_box(OpenRecipe(load(file), file))
    store_at_rest(qtbot, window)
    return window


def figures(window):
    """What the forecast shows, as it is read aloud."""
    window.opened.newest_outlook()
    return [row.accessibleName() for row in window.compose.forecast.rows]


def page_button(window, name):
    number = window.page_names.index(name)
    return window.header.page_buttons.button(number)


def type_over(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def wait_for_ways(qtbot, window):
    qtbot.waitUntil(
        lambda: window.fit.answer is not None and not window.fit.latest.busy, timeout=30_000
    )


def way_of(window, boils, fermenters):
    return next(
        each
        for each in window.fit.ways
        if (len(each.planned.boils), len(each.planned.fermenters)) == (boils, fermenters)
    )


def key(window, which, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget() or window, which, modifier)


@pytest.mark.parametrize(("boils", "fermenters"), [(1, 2), (2, 2)])
def test_by_mouse_a_way_is_used_printed_saved_and_found_again(
    qtbot, red, file, on_a_box, boils, fermenters
):
    window, written = red, red.opened.recipe
    press(qtbot, page_button(window, "Fit"))
    fields = window.fit.fields
    for name, size in (("pot", "9 L"), ("fermenter", "12 L"), ("second", "12 L")):
        type_over(fields[name], size)
    wait_for_ways(qtbot, window)
    way = way_of(window, boils, fermenters)
    window.fit.choose(way)
    press(qtbot, window.fit.chosen.use_button)
    strip = window.compose.plan
    assert window.pages.currentWidget() is window.compose
    assert strip.isVisible()
    assert "into 2 × " in strip.sentence.text()
    assert as_written(window.opened.recipe) == written
    planned, shown = window.opened.recipe, figures(window)
    assert document_text(planned) == document_text(way.planned)
    press(qtbot, page_button(window, "Sheet"))
    assert window.pages.currentWidget() is window.sheet
    text = sheet_text(window.sheet.sheet())
    assert "12 L" in text
    assert window.sheet.count.text()[0] in "123456"
    window.files.save()
    qtbot.waitUntil(lambda: not window.opened.unsaved, timeout=10_000)
    store_at_rest(qtbot, window)
    assert document_text(load(file)) == document_text(planned)
    window.close()
    again = on_a_box(OpenRecipe(load(file), file))
    store_at_rest(qtbot, again)
    assert again.compose.plan.isVisible()
    assert figures(again) == shown
    press(qtbot, again.compose.plan.as_written)
    assert again.opened.recipe == written
    assert not again.compose.plan.isVisible()
    again.opened.undo_stack.undo()
    assert again.opened.recipe == planned
    assert figures(again) == shown


@pytest.mark.parametrize(("boils", "fermenters"), [(1, 2), (2, 2)])
def test_by_keys_alone_a_way_is_used_a_boil_read_and_its_sheet_seen_and_kept(
    qtbot, red, file, boils, fermenters
):
    window, written = red, red.opened.recipe
    key(window, Qt.Key.Key_2, CONTROL)
    assert QApplication.focusWidget() is window.fit.fields["pot"]
    QTest.keyClicks(QApplication.focusWidget(), "9 L")
    for name in ("fermenter", "second"):
        while QApplication.focusWidget() is not window.fit.fields[name]:
            key(window, Qt.Key.Key_Tab)
        QTest.keyClicks(QApplication.focusWidget(), "12 L")
    wait_for_ways(qtbot, window)
    while QApplication.focusWidget() is not window.fit.table:
        key(window, Qt.Key.Key_Tab)
    wanted = window.fit.ways.index(way_of(window, boils, fermenters))
    for _ in range(wanted):
        key(window, Qt.Key.Key_Right)
    key(window, Qt.Key.Key_Return)
    assert is_planned(window.opened.recipe)
    assert len(window.opened.recipe.boils) == boils
    strip = window.compose.plan
    while not strip.isAncestorOf(QApplication.focusWidget()):
        key(window, Qt.Key.Key_Tab, SHIFT)
    choice = strip.boils.group.checkedButton()
    while QApplication.focusWidget() is not choice:
        key(window, Qt.Key.Key_Tab, SHIFT)
    for _ in range(boils):
        key(window, Qt.Key.Key_Right)
    assert window.compose.worked_on.boil == boils
    while QApplication.focusWidget() is not strip.as_written:
        key(window, Qt.Key.Key_Tab)
    key(window, Qt.Key.Key_Space)
    assert window.opened.recipe == written
    key(window, Qt.Key.Key_Z, CONTROL)
    planned = window.opened.recipe
    assert is_planned(planned)
    key(window, Qt.Key.Key_3, CONTROL)
    assert window.pages.currentWidget() is window.sheet
    qtbot.waitUntil(lambda: window.sheet.count.text() != "", timeout=10_000)
    text = sheet_text(window.sheet.sheet())
    assert ("twice" in text) == (boils == 2)
    assert "20 L in 2 fermenters" in text
    key(window, Qt.Key.Key_S, CONTROL)
    qtbot.waitUntil(lambda: not window.opened.unsaved, timeout=10_000)
    store_at_rest(qtbot, window)
    assert document_text(load(file)) == document_text(planned)


def two_boils(recipe):
    half = PlannedBoil(recipe.pot, typed(Kind.FRACTION, 0.5), start_water=typed(Kind.VOLUME, 6.3))
    buckets = [
        PlannedFermenter(recipe.fermenter, (WortShare(each),), top_up_to=typed(Kind.VOLUME, 10.0))
        for each in (1, 2)
    ]
    return planning((half, half), tuple(buckets), say("use", "use a way"))


def test_the_box_lists_what_the_plan_gives_and_compares_it_in_words(qtbot, red):
    window = red
    window.opened.undo_stack.resetClean()
    window.files.save()
    store_at_rest(qtbot, window)
    window.opened.make(two_boils(window.opened.recipe))
    window.files.save()
    store_at_rest(qtbot, window)
    window.show_page(window.page_names.index("Recipe box"))
    qtbot.waitUntil(lambda: bool(window.box.model.rows_read), timeout=10_000)
    store_at_rest(qtbot, window)
    (row,) = window.box.model.rows_read
    outlook = look_ahead(window.opened.recipe, ranges=False)
    assert row.summary.og == pytest.approx(outlook.forecasts["original_gravity"].value, abs=1e-6)
    assert row.summary.batch_l == pytest.approx(20.0, abs=0.05)
    window.box.table.clearSelection()  # the first is chosen by itself
    window.box.table.selectRow(0)
    store_at_rest(qtbot, window)
    assert window.box.details.card.vessels.text() == (
        "In 2 × Kitchen pot of 9 L, into 2 × Small bucket of 12 L"
    )
    details = window.box.details
    qtbot.waitUntil(lambda: details.versions_model.rowCount() == 2, timeout=10_000)
    details.versions.selectAll()
    press(qtbot, details.compare_button)
    store_at_rest(qtbot, window)
    table = details.compared.compared
    brewed = next(each for each in table.rows if each.what == "Brewed")
    assert brewed.before == "as written"
    assert brewed.after == "in 2 boils in the Kitchen pot of 9 L, into 2 × Small bucket of 12 L"


def test_the_kitchen_holds_the_cupboard_against_the_whole_plan_and_leaves_its_vessels(qtbot, red):
    window = red
    recipe = window.opened.recipe
    window.opened.make(two_boils(recipe))
    planned = window.opened.recipe
    own = (
        replace(planned.boils[0], hops=(replace(recipe.hops[0], amount=typed(Kind.MASS, 0.03)),)),
    )
    window.opened.make(planning((*own, *planned.boils[1:]), planned.fermenters, say("x", "change")))
    planned = window.opened.recipe
    window.show_page(window.page_names.index("Kitchen"))
    kitchen = window.kitchen
    store_at_rest(qtbot, window)
    assert "40 g Fuggle" in kitchen.held.text()
    assert "20 g Kit ale" in kitchen.held.text()
    kitchen.keep_pot()
    kitchen.keep_fermenter()
    store_at_rest(qtbot, window)
    for view, use in ((kitchen.pots, kitchen.use_pot), (kitchen.fermenters, kitchen.use_fermenter)):
        view.setCurrentIndex(view.model().index(0, 0))
        use()
        assert "is brewed by a plan" in window.messages.text.text()
    assert window.opened.recipe == planned


def test_the_program_itself_keeps_a_plan_through_a_crash_and_a_start(tmp_path, file):
    """Asked is what is on the disk: the draft in the box, then the file."""
    use = (
        "from designer.recipe.document import *; from designer.recipe.plan import planning; "
        "from designer.recipe.kinds import typed; from designer.recipe.quantity import Kind; "
        "from designer.recipe.message import say; recipe = window.opened.recipe; "
        "boil = PlannedBoil(recipe.pot, typed(Kind.FRACTION, 0.5)); "
        "bucket = PlannedFermenter(recipe.fermenter, top_up_to=typed(Kind.VOLUME, 10.0)); "
        "window.opened.make(planning((boil, boil), (bucket, bucket), say('use', 'use a way')))"
    )
    folder = tmp_path / "program"
    with Program(folder, file) as first:
        first.seen().do(use)
        first.until("state() == 'unsaved, draft kept'")
        first.kill()
    with Store.open(folder / "box") as store:
        (draft,) = [each.document for each in store.drafts.all()]
    assert '"boils"' in draft
    assert not is_planned(load(file))
    with Program(folder, file) as second:
        second.seen()
        second.until("window.compose.plan is not None and window.compose.plan.isVisible()")
        shown = second.ask("[row.accessibleName() for row in window.compose.forecast.rows]")
        second.do("window.files.save()")
        second.until("state() == 'saved'")
        assert second.close() == ""
    assert len(load(file).boils) == 2
    with Program(folder, file) as third:
        third.seen()
        again = third.ask("[row.accessibleName() for row in window.compose.forecast.rows]")
        assert again == shown
        third.do("window.compose.plan.as_written.click()")
        third.do("window.files.save()")
        third.until("state() == 'saved'")
        assert third.close() == ""
    assert document_text(load(file)) == document_text(load(RED))
