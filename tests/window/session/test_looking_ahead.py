"""What is forecast while one types: values at once, the rest behind them, and of the last key."""

from dataclasses import replace

import pytest

import designer.brewday.outlook as brewday_outlook
from designer.brewday.results import Range
from designer.recipe.edits import ChangePart
from designer.recipe.message import word
from designer.recipe.quantity import Quantity
from designer.window.session.looking_ahead import Known
from designer.workbench import style_watch
from designer.workbench.style_watch import outlook_of

BANDED = ("original_gravity", "abv_percent", "bitterness_ibu", "colour_srm")


def top_up(litres):
    quantity = Quantity(litres, f"{litres:g} L")
    return ChangePart("process", "top_up_to", quantity, word("change top-up mark"))


@pytest.fixture
def ranged(opened):
    """The porter, open, with its ranges."""
    opened.want_ranges()
    return opened


def all_known(qtbot, opened):
    qtbot.waitUntil(lambda: opened.known is Known.ALL, timeout=10_000)


def test_values_are_told_first_with_the_old_ranges_moved_along(qtbot, ranged):
    before, told = ranged.outlook, []
    ranged.values_changed.connect(lambda each: told.append((ranged.known, each)))
    ranged.outlook_changed.connect(lambda each: told.append((ranged.known, each)))
    ranged.make(top_up(9.0))
    assert ranged.known is Known.NOTHING
    all_known(qtbot, ranged)
    (first, glimpse), (then, whole) = told
    assert (first, then) == (Known.VALUES, Known.ALL)
    fresh = outlook_of(ranged.recipe)
    assert whole == ranged.outlook == fresh
    for key in BANDED:
        moved, stood = glimpse.forecasts[key], before.forecasts[key]
        assert moved.value == fresh.forecasts[key].value != stood.value
        assert moved.high - moved.low == pytest.approx(stood.high - stood.low)
        assert moved.middle - moved.value == pytest.approx(stood.middle - stood.value)
        assert moved.causes == stood.causes


def test_a_range_that_moves_does_not_reach_below_nothing():
    found = Range(30.0, 24.0, 38.0, (), 27.0, 31.0, 34.0)
    assert found.moved_to(40.0) == Range(40.0, 34.0, 48.0, (), 37.0, 41.0, 44.0)
    assert found.moved_to(4.0) == Range(4.0, 0.0, 12.0, (), 1.0, 5.0, 8.0)
    assert found.moved_to(0.0) == Range(0.0, 0.0, 8.0, (), 0.0, 1.0, 4.0)
    assert Range(5.0, 5.0, 5.0).moved_to(6.0) == Range(6.0, 6.0, 6.0)


def test_who_asks_between_the_turns_gets_the_whole_forecast(qtbot, ranged):
    asked, told = [], []
    ranged.values_changed.connect(lambda _: asked.append(ranged.newest_outlook()))
    ranged.outlook_changed.connect(told.append)
    ranged.make(top_up(9.0))
    qtbot.waitUntil(lambda: bool(asked))
    assert asked == [outlook_of(ranged.recipe)]
    qtbot.wait(50)
    assert told == asked  # once: nothing is left to follow


def test_who_asks_before_any_turn_gets_it_too(qtbot, ranged):
    told = []
    ranged.values_changed.connect(told.append)
    ranged.make(top_up(9.0))
    assert ranged.newest_outlook() == outlook_of(ranged.recipe)
    assert ranged.known is Known.ALL
    qtbot.wait(50)
    assert told == []


def test_a_change_between_the_turns_puts_the_rest_off_to_the_newest_recipe(qtbot, ranged):
    values, whole = [], []
    ranged.outlook_changed.connect(whole.append)

    def go_on(glimpse):
        values.append(glimpse.forecasts["original_gravity"].value)
        if len(values) < 3:
            ranged.make(top_up(9.0 + len(values)))

    ranged.values_changed.connect(go_on)
    ranged.make(top_up(9.0))
    all_known(qtbot, ranged)
    assert len(set(values)) == 3
    assert whole == [outlook_of(ranged.recipe)]


def test_an_undo_between_the_turns_is_forecast_like_any_change(qtbot, ranged):
    before, whole = ranged.outlook, []
    ranged.outlook_changed.connect(whole.append)

    def undo(_):
        ranged.values_changed.disconnect(undo)
        ranged.undo_stack.undo()

    ranged.values_changed.connect(undo)
    ranged.make(top_up(9.0))
    all_known(qtbot, ranged)
    assert whole == [before]


def test_ranges_follow_at_last_though_no_key_ever_waits(qtbot, ranged):
    """On a machine that is always behind the keys: each turn finds the next key there already."""
    told, typed = [], []
    ranged.outlook_changed.connect(lambda outlook: told.append((len(typed), outlook)))

    def go_on(_=None):
        if len(told) < 3 and len(typed) < 5000:
            typed.append(8.0 + (len(typed) % 40) / 10.0)
            ranged.make(top_up(typed[-1]))

    ranged.values_changed.connect(go_on)
    ranged.outlook_changed.connect(go_on)
    go_on()
    qtbot.waitUntil(lambda: len(told) >= 3, timeout=20_000)
    assert len(typed) < 5000
    (first, _), (second, _), _ = told
    assert 2 < first < second  # values of several keys in between
    all_known(qtbot, ranged)
    assert ranged.outlook == outlook_of(ranged.recipe)


def test_ranges_of_one_recipe_are_never_shown_at_another(qtbot, ranged, porter):
    values, whole = [], []
    ranged.values_changed.connect(values.append)
    ranged.outlook_changed.connect(whole.append)
    ranged.replace_by(replace(porter, name="Another", hops=()), None)
    all_known(qtbot, ranged)
    assert (values, len(whole)) == ([], 1)


def test_without_ranges_all_is_told_at_once(qtbot, opened):
    values = []
    opened.values_changed.connect(values.append)
    with qtbot.waitSignal(opened.outlook_changed):
        opened.make(top_up(9.0))
    assert (values, opened.known) == ([], Known.ALL)


@pytest.mark.parametrize(
    ("module", "turn"), [(brewday_outlook, "glimpse"), (style_watch, "outlook_of")]
)
def test_a_fault_in_one_turn_does_not_stop_the_next(qtbot, ranged, monkeypatch, module, turn):
    def fail(*_, **__):
        raise RuntimeError("a fault of the program")

    with monkeypatch.context() as broken, qtbot.captureExceptions() as faults:
        broken.setattr(module, turn, fail)
        ranged.make(top_up(9.0))
        qtbot.waitUntil(lambda: bool(faults))
    assert ranged.known is not Known.ALL
    ranged.make(top_up(9.5))
    all_known(qtbot, ranged)
    assert ranged.outlook == outlook_of(ranged.recipe)
