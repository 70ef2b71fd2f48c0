"""The strip of a planned recipe on Compose: what is shown of it, changed in it, and ways on."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import document_text, load
from designer.recipe.document import PlannedBoil, PlannedFermenter, WortShare
from designer.recipe.edits import ChangePart
from designer.recipe.kinds import typed
from designer.recipe.limits import MOST_BOILS, MOST_FERMENTERS
from designer.recipe.message import say, word
from designer.recipe.place import Place
from designer.recipe.plan import as_recipe, as_written, is_planned, planning, recipe_of_boil
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path

USE = say("use", "use a way")


def litres(value):
    return typed(Kind.VOLUME, value)


@pytest.fixture
def red(window):
    """Breakwater Red, open, as it is written."""
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    return window.opened.recipe


@pytest.fixture
def strip(window, red):
    """The strip over the red in two boils, each into a bucket of its own."""
    boil = PlannedBoil(red.pot, typed(Kind.FRACTION, 0.5), start_water=litres(6.3))
    buckets = tuple(
        PlannedFermenter(red.fermenter, (WortShare(each),), top_up_to=litres(10.0))
        for each in (1, 2)
    )
    window.opened.make(planning((boil, boil), buckets, USE))
    return window.compose.plan


def press(qtbot, button):
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def choices(strip):
    return {each.text(): each for each in strip.boils.group.buttons() if each.isVisible()}


def hop(window):
    model = window.compose.hops.model
    return model.index(0, model.column_of("amount"))


def test_a_recipe_without_a_plan_has_no_strip(window, red):
    assert window.compose.plan is None


def test_the_strip_says_how_it_is_brewed_and_the_lines_stay_as_written(window, red, strip):
    assert strip.isVisible()
    assert strip.sentence.text() == (
        "Brewed in 2 boils in the Kitchen pot of 9 L, into 2 × Small bucket of 12 L."
    )
    assert hop(window).data() == "20 g"
    assert list(choices(strip)) == ["As written", "Boil 1", "Boil 2"]
    assert choices(strip)["As written"].isChecked()
    assert strip.differs.isHidden()


def test_brewing_as_written_is_one_press_and_one_undo_step(qtbot, window, red, strip):
    planned = window.opened.recipe
    press(qtbot, strip.as_written)
    assert window.opened.recipe == red
    assert not strip.isVisible()
    window.opened.undo_stack.undo()
    assert window.opened.recipe == planned
    assert strip.isVisible()
    assert window.opened.undo_stack.index() == 1


def test_a_boil_shows_what_it_holds_and_is_changed_alone(qtbot, window, red, strip):
    press(qtbot, choices(strip)["Boil 2"])
    assert hop(window).data() == "10 g"
    window.compose.hops.model.type_in(hop(window), "15 g")
    boils = window.opened.recipe.boils
    assert boils[0].hops is None
    assert [line.amount.text for line in boils[1].hops] == ["15 g"]
    assert window.opened.recipe.hops == red.hops
    assert hop(window).data() == "15 g"
    assert "25 g Fuggle (the recipe 20 g)" in strip.differs.text()
    press(qtbot, choices(strip)["Boil 1"])
    assert hop(window).data() == "10 g"
    press(qtbot, choices(strip)["As written"])
    assert hop(window).data() == "20 g"
    window.opened.undo_stack.undo()
    assert window.opened.recipe.boils[1].hops is None


def test_undo_shows_the_boil_in_which_it_changed_something(qtbot, window, strip):
    press(qtbot, choices(strip)["Boil 2"])
    window.compose.hops.model.type_in(hop(window), "15 g")
    press(qtbot, choices(strip)["As written"])
    window.opened.undo_stack.undo()
    assert window.compose.worked_on.boil == 2
    assert hop(window).data() == "10 g"


def test_an_amount_no_file_can_hold_is_refused_in_a_boil_too(window, strip):
    window.compose.worked_on.choose_boil(1)
    before = window.opened.recipe
    said = []
    window.compose.hops.model.refused.connect(said.append)
    assert not window.compose.hops.model.type_in(hop(window), "90000 kg")
    assert window.opened.recipe == before
    assert said


def test_fields_that_the_plan_says_are_closed_as_written_and_open_in_a_boil(window, red, strip):
    fields = window.compose.process.by_place
    closed = {place for place, each in fields.items() if not each.isEnabled()}
    assert closed == {
        "pot.volume", "fermenter.volume", "process.top_up_to", "process.start_water",
        "process.frozen_top_up",
    }  # fmt: skip
    assert "The plan says it in its boils" in fields["pot.volume"].toolTip()
    window.compose.worked_on.choose_boil(1)
    assert all(each.isEnabled() for each in fields.values())
    assert fields["process.top_up_to"].text() == "10 L"
    assert fields["process.start_water"].text() == "6.3 L"
    assert "The plan says" not in fields["pot.volume"].toolTip()


def test_every_open_field_of_the_process_changes_what_is_brewed(qtbot, window, strip):
    """A field that would do nothing is closed: each other one changes the plan's own recipes."""
    window.compose.process.more_button.setChecked(True)
    fields = window.compose.process.by_place
    values = {"pot": "11 L", "fermenter": "13 L", "process": "9 L"}
    for part, name in (("pot", "volume"), ("fermenter", "volume"), ("process", "top_up_to")):
        for boil in (None, 1, 2):
            before = window.opened.recipe
            if boil is None:
                window.compose.worked_on.choose(None)
            else:
                window.compose.worked_on.choose_boil(boil)
            field = fields[f"{part}.{name}"]
            if not field.isEnabled():
                assert boil is None
                continue
            field.setFocus()
            field.selectAll()
            qtbot.keyClicks(field, values[part])
            qtbot.keyClick(field, Qt.Key.Key_Return)
            after = window.opened.recipe
            assert as_written(after) == as_written(before)
            assert after.boils != before.boils or after.fermenters != before.fermenters


def test_typing_in_a_field_of_a_boil_is_one_undo_step(qtbot, window, strip):
    window.compose.worked_on.choose_boil(2)
    planned, field = window.opened.recipe, window.compose.process.by_place["process.start_water"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "5.5 L")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    water = [each.start_water.text for each in window.opened.recipe.boils]
    assert water == ["6.3 L", "5.5 L"]
    window.opened.undo_stack.undo()
    assert window.opened.recipe == planned


def test_the_arrows_choose_what_is_shown(qtbot, window, strip):
    strip.take_focus()
    assert window.focusWidget() is choices(strip)["As written"]
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Right)
    assert window.compose.worked_on.boil == 1
    assert window.focusWidget() is choices(strip)["Boil 1"]
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Right)
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Right)
    assert window.compose.worked_on.boil == 2
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Left)
    assert window.compose.worked_on.boil == 1


def test_one_boil_into_one_vessel_can_become_the_recipe(qtbot, window, red):
    boil = PlannedBoil(red.pot, typed(Kind.FRACTION, 0.5), start_water=litres(6.3))
    window.opened.make(planning((boil,), (PlannedFermenter(red.fermenter),), USE))
    planned, strip = window.opened.recipe, window.compose.plan
    press(qtbot, strip.make_recipe)
    assert document_text(window.opened.recipe) == document_text(as_recipe(planned))
    assert not is_planned(window.opened.recipe)
    assert hop(window).data() == "10 g"
    window.opened.undo_stack.undo()
    assert window.opened.recipe == planned


def test_two_boils_cannot_become_the_recipe(window, strip):
    assert strip.make_recipe.isHidden()


def test_fit_is_one_press_away(qtbot, window, strip):
    press(qtbot, strip.fit)
    assert window.pages.currentWidget() is window.fit


def test_one_boil_into_two_buckets_shows_either(qtbot, window, red):
    buckets = [
        PlannedFermenter(
            red.fermenter, (WortShare(1, typed(Kind.FRACTION, 0.5)),), top_up_to=litres(mark)
        )
        for mark in (10.0, 9.0)
    ]
    window.opened.make(planning((PlannedBoil(red.pot),), tuple(buckets), USE))
    strip, fields = window.compose.plan, window.compose.process.by_place
    press(qtbot, choices(strip)["The boil"])
    into = [each for each in strip.fermenters.group.buttons() if each.isVisible()]
    assert [each.text() for each in into] == ["Fermenter 1", "Fermenter 2"]
    assert fields["process.top_up_to"].text() == "10 L"
    press(qtbot, into[1])
    assert fields["process.top_up_to"].text() == "9 L"
    sachets = replace(red.yeast, amount=typed(Kind.DOSE, 6.0, unit="g"))
    field = fields["yeast.amount"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "6 g")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert [each.yeast for each in window.opened.recipe.fermenters] == [None, sachets]
    assert window.opened.recipe.yeast == red.yeast


def test_a_finding_about_a_boil_or_fermenter_leads_to_it(window, strip):
    window.compose.go_to(Place("fermenters", line=2))
    assert (window.compose.worked_on.boil, window.compose.worked_on.fermenter) == (2, 2)
    assert window.focusWidget() is choices(strip)["Boil 2"]
    window.compose.go_to(Place("boils", line=1))
    assert window.compose.worked_on.boil == 1


def test_what_lines_give_is_of_the_boil_or_of_the_recipe_as_written(window, red, strip):
    model = window.compose.hops.model
    gives = model.index(0, model.columnCount() - 1)
    window.opened.refresh_outlook()
    as_it_is = gives.data()
    window.opened.undo_stack.undo()
    window.opened.refresh_outlook()
    assert gives.data() == as_it_is
    window.opened.undo_stack.redo()
    window.opened.refresh_outlook()
    window.compose.worked_on.choose_boil(1)
    given = window.opened.outlook.plan.boils[0].day.gives
    line = recipe_of_boil(window.opened.recipe, 1).hops[0]
    assert gives.data() == f"{given[line.line_id].bitterness_ibu:.1f} IBU"


def test_another_recipe_is_shown_as_written(window, strip):
    window.compose.worked_on.choose_boil(2)
    window.opened.replace_by(window.opened.recipe, None)
    assert window.compose.worked_on.boil is None
    assert choices(strip)["As written"].isChecked()


def test_a_boil_that_goes_with_the_plan_gives_way_to_the_recipe(window, red, strip):
    window.compose.worked_on.choose_boil(2)
    window.opened.undo_stack.undo()
    assert window.compose.worked_on.boil is None
    assert hop(window).data() == "20 g"
    field = window.compose.process.by_place["pot.volume"]
    assert field.isEnabled()
    window.opened.make(ChangePart("pot", "volume", litres(11.0), word("change the pot")))
    assert field.text() == "11 L"


def test_ever_so_many_boils_and_buckets_need_no_wider_window(window, red):
    boils = (PlannedBoil(red.pot),) * MOST_BOILS
    buckets = (PlannedFermenter(red.fermenter),) * MOST_FERMENTERS
    window.opened.make(planning(boils, buckets, USE))
    strip = window.compose.plan
    window.compose.worked_on.choose_boil(MOST_BOILS)
    assert len(choices(strip)) == MOST_BOILS + 1
    assert strip.minimumSizeHint().width() < 600
    chosen = choices(strip)[f"Boil {MOST_BOILS}"]
    assert chosen.isChecked()
    assert chosen.width() >= chosen.sizeHint().width()
