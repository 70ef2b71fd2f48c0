"""The day and the vessels of a planned recipe as Compose shows them."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt

from designer.library.recipe_file import load
from designer.recipe.choices import Turn
from designer.recipe.document import PlannedBoil, PlannedFermenter, WortShare
from designer.recipe.edits import ChangeLine
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.plan import planning
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.window.parts.vessels_drawing import LEAST
from designer.workbench.day_reading import boil_span


def litres(value):
    return typed(Kind.VOLUME, value)


@pytest.fixture
def brewed(qtbot, window):
    """Let Breakwater Red, unlocked, be brewed in two boils; the second as given."""
    red = load(resource_path("examples/breakwater_red.hobwort"))
    free = tuple(replace(line, locked=False) for line in red.fermentables)
    window.opened.replace_by(replace(red, fermentables=free), None)

    def plan(turn=Turn.AFTER, pot="9 L"):
        half = PlannedBoil(red.pot, typed(Kind.FRACTION, 0.5), start_water=litres(6.3))
        other = replace(red.pot, volume=typed(Kind.VOLUME, float(pot.split()[0])))
        second = replace(half, pot=other, turn=turn.value)
        buckets = tuple(
            PlannedFermenter(red.fermenter, (WortShare(each),), top_up_to=litres(10.0))
            for each in (1, 2)
        )
        with qtbot.waitSignal(window.opened.outlook_changed):
            window.opened.make(planning((half, second), buckets, say("use", "use a way")))
        return window.compose

    return plan


def hop_markers(line):
    return [each for each in line._markers if each.lines == "hops"]


def drag(qtbot, line, marker, minutes_left):
    run = line.scale.runs[marker.run]
    foot = int(line.scale.lane(run).bottom()) - 4
    end = run.at_min + boil_span(run.day)[1]
    start = QPoint(int(line.scale.x(marker.time_min)), foot)
    goal = QPoint(int(line.scale.x(end - minutes_left)), foot)
    qtbot.mousePress(line, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(line, goal)
    qtbot.mouseRelease(line, Qt.MouseButton.LeftButton, pos=goal)


def extract_markers(line):
    return [each for each in line._markers if each.names == "Amber dry malt extract"]


def test_the_day_runs_both_boils_and_says_when_each_bucket_is_ready(brewed):
    page = brewed()
    words = page.day_line.accessibleDescription()
    assert words.index("Boil 1") < words.index("Boil 2")
    assert words.count("Fuggle in") == 2
    assert page._summary.text().count(":") == 3  # starts, and both buckets
    first, second = hop_markers(page.day_line)
    assert page.day_line.told(first).splitlines()[0] == "Boil 1"
    assert "10 g Fuggle" in page.day_line.told(second)


def test_a_boil_that_is_chosen_has_the_line_to_itself(brewed):
    page = brewed()
    whole = page.day_line.grab().toImage()
    page.worked_on.choose_boil(2)
    assert len(hop_markers(page.day_line)) == 1
    assert page.day_line.told(hop_markers(page.day_line)[0]).startswith("Boil 2")
    assert page.day_line.grab().toImage() != whole
    page.worked_on.choose(None)
    assert len(hop_markers(page.day_line)) == 2


def test_what_is_dragged_in_the_whole_day_moves_in_both_boils_as_it_is_written(
    qtbot, window, brewed
):
    page = brewed()
    drag(qtbot, page.day_line, extract_markers(page.day_line)[1], 15.0)
    window.opened.newest_outlook()
    recipe = window.opened.recipe
    assert recipe.fermentables[1].when.minutes == pytest.approx(15.0, abs=1.0)
    assert [each.fermentables for each in recipe.boils] == [None, None]
    assert window.opened.undo_stack.count() == 2


def test_what_is_dragged_in_a_boil_that_is_worked_on_moves_in_it_alone(qtbot, window, brewed):
    page = brewed()
    written = window.opened.recipe.fermentables
    page.worked_on.choose_boil(2)
    drag(qtbot, page.day_line, extract_markers(page.day_line)[0], 15.0)
    recipe = window.opened.recipe
    assert recipe.fermentables == written
    assert recipe.boils[0].fermentables is None
    assert recipe.boils[1].fermentables[1].when.minutes == pytest.approx(15.0, abs=1.0)


def test_pots_at_once_are_drawn_in_lanes_and_each_is_read_under_the_pointer(qtbot, brewed):
    page = brewed(Turn.AT_ONCE, "6 L")
    line = page.day_line
    lanes = [line.scale.lane(run) for run in line.scale.runs]
    assert lanes[0].bottom() < lanes[1].top()
    for lane, name in zip(lanes, ("Boil 1", "Boil 2"), strict=True):
        qtbot.mouseMove(line, QPoint(int(lane.center().x()), int(lane.center().y())))
        assert line.scale.run_at(line.scale.time(lane.center().x()), lane.center().y()).name == name
    drag(qtbot, line, extract_markers(line)[0], 15.0)
    assert line._opened.recipe.fermentables[1].when.minutes == pytest.approx(15.0, abs=1.0)


def test_each_pot_and_each_fermenter_is_drawn_with_what_is_in_it(brewed):
    page = brewed(pot="7 L")
    words = page.vessels.accessibleDescription().split(". ")
    assert [each.split(",")[0] for each in words] == [
        "Boil 1: Kitchen pot", "Boil 2: Kitchen pot", "1: Small bucket", "2: Small bucket",
    ]  # fmt: skip
    assert words[1].startswith("Boil 2: Kitchen pot, 7 L: fullest ")
    assert "10 L in all" in words[2]
    assert page.vessels.minimumSizeHint().height() == 2 * LEAST


def test_a_pot_that_is_filled_so_again_is_drawn_once(brewed):
    page = brewed()
    words = page.vessels.accessibleDescription()
    assert words.count("Kitchen pot") == 1
    assert words.count("Small bucket") == 2
    assert page.vessels.minimumSizeHint().height() == LEAST


def test_vessels_are_drawn_once_for_values_and_the_rest(qtbot, brewed, window):
    """Both turns tell of the same plan, each by a plan of its own."""
    page = brewed()
    window.opened.want_ranges()
    put, shown = [], page.vessels._put
    page.vessels._put = lambda pair: put.append(pair) or shown(pair)
    first = window.opened.recipe.fermentables[0]
    more = ChangeLine("fermentables", first.line_id,
                      (("amount", typed(Kind.MASS, 1.5 * first.amount.value)),),
                      say("more", "more of it"))  # fmt: skip
    with qtbot.waitSignals([window.opened.values_changed, window.opened.outlook_changed]):
        window.opened.make(more)
    assert len(put) == 1
    with qtbot.waitSignal(window.opened.outlook_changed):
        window.opened.undo_stack.undo()
    assert len(put) == 2
