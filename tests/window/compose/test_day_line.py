"""The day line under hand and keys: what it says, and where additions can be moved to."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QToolTip

from designer.recipe.quantity import Stage, When
from designer.units import ShownUnits
from designer.workbench.day_moves import cooled_min
from designer.workbench.day_reading import boil_span

LEFT = Qt.MouseButton.LeftButton
ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def line(qtbot, window):
    """The day line of the porter, of its usual size."""
    window.resize(1280, 800)
    window.opened.newest_outlook()
    qtbot.waitUntil(lambda: window.compose.day_line.width() > 1000)
    return window.compose.day_line


def marker_of(line, name):
    return next(each for each in line._markers if name in each.names)


def foot(line):
    return int(line.scale.plot.bottom()) - 4


def take(qtbot, line, name):
    qtbot.mousePress(line, LEFT, pos=QPoint(int(line.names.x(marker_of(line, name))), foot(line)))


def hold_over(qtbot, line, x):
    """Move what is held to a place, and let the day follow as far as the picture goes."""
    qtbot.mouseMove(line, QPoint(int(x), foot(line)))
    line._opened.newest_outlook()
    line.grab()


def golding(window):
    return window.opened.recipe.hops[1].when


def test_the_minute_is_shown_while_an_addition_is_dragged(qtbot, window, line):
    take(qtbot, line, "Light dry")
    at = line.scale.x(marker_of(line, "Light dry").time_min - 15.0)
    hold_over(qtbot, line, at)
    assert line.read_out.startswith("Light dry malt extract: boil 30 min, ")
    hold_over(qtbot, line, at + 20.0 * line.scale.px_per_min)
    assert line.read_out.startswith("Light dry malt extract: boil 10 min, ")
    qtbot.mouseRelease(line, LEFT)


def test_the_end_of_the_boil_is_flame_out_and_extract_goes_no_further(qtbot, window, line):
    take(qtbot, line, "Light dry")
    hold_over(qtbot, line, line.scale.right - 30.0)
    qtbot.mouseRelease(line, LEFT)
    when = window.opened.recipe.fermentables[1].when
    assert (when.stage, when.text) == (Stage.FLAME_OUT, "flame-out")
    assert window.opened.undo_stack.count() == 1


def test_hops_are_dragged_on_into_a_stand_and_to_dry_hopping_and_back_in_one_step(
    qtbot, window, line, porter
):
    day = line.scale.runs[0].day
    end, cooled = boil_span(day)[1], cooled_min(day)
    take(qtbot, line, "East Kent")
    hold_over(qtbot, line, line.scale.x(end + 0.25 * (cooled - end)))
    stood = golding(window)
    assert stood.stage is Stage.STAND
    assert stood.text.startswith("stand 20 min at ")
    assert 60.0 <= stood.temperature <= 95.0
    assert line.read_out.startswith(f"East Kent Golding: {stood.text}, ")
    hold_over(qtbot, line, line.scale.x(cooled) + 12.0)
    assert golding(window).text == "dry hop 7 days"
    assert line.read_out == "East Kent Golding: dry hop 7 days"
    hold_over(qtbot, line, line.scale.right - 2.0)
    assert golding(window).text == "dry hop 1 day"
    hold_over(qtbot, line, line.scale.x(end - 10.0))
    assert golding(window).text == "boil 10 min"
    qtbot.mouseRelease(line, LEFT)
    assert window.opened.undo_stack.count() == 1
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_a_dry_hop_is_taken_up_where_it_is_drawn(qtbot, window, line):
    dry = When(Stage.DRY_HOP, "dry hop 4 days", days=4.0)
    recipe = window.opened.recipe
    hops = (recipe.hops[0], replace(recipe.hops[1], when=dry))
    window.opened.replace_by(replace(recipe, hops=hops), None)
    window.opened.newest_outlook()
    take(qtbot, line, "East Kent")
    hold_over(qtbot, line, line.scale.x(boil_span(line.scale.runs[0].day)[1] - 5.0))
    qtbot.mouseRelease(line, LEFT)
    assert golding(window).text == "boil 5 min"


def test_what_is_dragged_over_another_addition_leaves_that_where_it_is(qtbot, window, line):
    recipe = window.opened.recipe
    half = When(Stage.BOIL, "boil 30 min", 30.0)
    hops = (recipe.hops[0], replace(recipe.hops[1], when=half))
    window.opened.replace_by(replace(recipe, hops=hops), None)
    window.opened.newest_outlook()
    end = boil_span(line.scale.runs[0].day)[1]
    take(qtbot, line, "East Kent")
    for left in (45.0, 60.0, 50.0, 20.0):  # over the other, which goes in at 60
        hold_over(qtbot, line, line.scale.x(end - left))
    qtbot.mouseRelease(line, LEFT)
    assert golding(window).minutes == 20.0
    assert window.opened.recipe.hops[0] == hops[0]


@pytest.mark.parametrize(
    ("units", "next_text"),
    [(ShownUnits.METRIC, "stand 20 min at 95 °C"), (ShownUnits.US, "stand 20 min at 200 °F")],
)
def test_keys_move_hops_past_flame_out_a_place_at_a_time(qtbot, window, line, units, next_text):
    window.settings.units = units
    with qtbot.waitActive(window):
        window.activateWindow()
    line.setFocus()
    for _ in line._markers:
        qtbot.keyClick(line, Qt.Key.Key_Right)
        if "East Kent" in line._chosen_marker().names:
            break
    found = []
    for _ in range(2):
        qtbot.keyClick(line, Qt.Key.Key_Right, ALT)
        line._opened.newest_outlook()
        found.append(golding(window).text)
    line.grab()
    assert found[0] == next_text
    assert line.read_out.startswith(f"East Kent Golding: {found[1]}, ")
    for _ in range(3):
        qtbot.keyClick(line, Qt.Key.Key_Left, ALT)
        line._opened.newest_outlook()
    assert golding(window).text == "boil 1 min"
    assert window.opened.undo_stack.count() == 1
    window.opened.undo_stack.undo()
    assert golding(window).text == "flame-out"


def test_one_box_tells_of_the_curves_or_of_a_marker_and_no_tip_lies_over_it(qtbot, line):
    x = int(line.names.x(marker_of(line, "Crystal")))
    qtbot.mouseMove(line, QPoint(x, int(line.scale.plot.top()) + 20))
    line.grab()
    assert "  ·  " in line.read_out
    qtbot.mouseMove(line, QPoint(x, foot(line)))
    qtbot.wait(50)
    line.grab()
    assert [row[6:] for row in line.read_out.splitlines()] == [
        "200 g Crystal malt 60 °L",
        "150 g Chocolate malt",
    ]
    assert not QToolTip.isVisible()
    assert not line.toolTip()


def test_names_of_what_goes_in_together_are_written_out_where_there_is_room(qtbot, window, line):
    line.grab()
    said = set(line.names.shown.values())
    assert "200 g Crystal malt 60 °L, 150 g Chocolate malt" in said
    assert not any("lines" in each or "…" in each for each in said), said
    window.resize(1024, 600)
    qtbot.waitUntil(lambda: line.width() < 1050)
    line.grab()
    assert not any("lines" in each for each in line.names.shown.values()), line.names.shown


def test_amounts_of_the_day_are_told_in_the_units_that_are_chosen(window, line):
    window.settings.units = ShownUnits.METRIC
    assert line.names.amount(marker_of(line, "Light dry"), 0) == "400 g"
    window.settings.units = ShownUnits.US
    in_pounds = line.names.amount(marker_of(line, "Light dry"), 0)
    assert in_pounds != "400 g"
    assert in_pounds.endswith(("lb", "oz"))
    window.settings.units = ShownUnits.METRIC
    assert line.names.amount(marker_of(line, "Light dry"), 0) == "400 g"
