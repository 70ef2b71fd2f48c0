"""Where a brew stands is folded from its log: whatever it holds, in whatever order it comes."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from designer.brewday.measured.readings import By, Measured, Reading
from designer.recipe.document import Recipe
from designer.workbench.brew.brewing import Brewing, Status, brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import entries_of, plain
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.log_lines import log_lines
from designer.workbench.brew.reading_values import reading_of, values_of
from tests.workbench.brew.stove_steps import KEYS, STEPS

BOILED = Reading(Measured.BOIL_START_VOLUME, 6.8, By.MARK)


class Log:
    """A log that is written entry by entry, and folded when asked."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []

    def write(self, what: What, /, wall: float = 0.0, **values) -> str:
        made = Entry(next_id(self.entries), Instant(wall), what, values)
        self.entries.append(made)
        return made.id

    def read_at_the_mark(self, litres: float, typed: str) -> str:
        reading = values_of(replace(BOILED, value=litres))
        return self.write(What.READING, reading=reading, typed=typed)

    def undo(self) -> str:
        return self.write(What.TAKES_BACK, entry=self.now.undo, by="undo")

    def redo(self) -> str:
        return self.write(What.TAKES_BACK, entry=self.now.redo, by="redo")

    @property
    def now(self) -> Brewing:
        return brewing_of(Recipe(), STEPS, self.entries)

    def statuses(self) -> list[str]:
        return [str(each.status) for each in self.now.states]


@pytest.fixture
def log():
    made = Log()
    made.write(What.BEGAN, start_min=540)
    return made


def test_a_brew_that_began_stands_at_its_first_step(log):
    assert log.now.now.key == "fill"
    assert log.now.start_min == 540
    assert log.statuses() == ["now", *["ahead"] * 6]


def test_what_is_done_has_its_time_and_the_next_step_comes(log):
    log.write(What.DONE, 600.0, step="fill")
    assert log.now.now.key == "heat"
    assert log.now.state_of("fill").at == Instant(600.0)
    assert log.now.done_keys == {"fill"}


def test_going_back_loses_nothing_that_was_done_or_typed_after_it(log):
    for key in ("fill", "heat", "steep"):
        log.write(What.DONE, step=key)
    log.read_at_the_mark(6.8, "6.8 L")
    log.write(What.BACK, step="heat")
    assert log.statuses()[:4] == ["done", "now", "done", "ahead"]
    assert [each.typed for each in log.now.readings] == ["6.8 L"]
    log.write(What.DONE, 700.0, step="heat")
    assert log.now.now.key == "boil"
    assert log.now.state_of("heat").at == Instant(700.0)


def test_what_is_put_off_comes_again_after_the_next_step(log):
    log.write(What.LATER, step="fill")
    assert log.statuses()[:3] == ["later", "now", "ahead"]
    log.write(What.DONE, step="heat")
    assert log.now.now.key == "fill"


def test_the_last_step_left_cannot_be_put_off_behind_another(log):
    for key in KEYS[:-1]:
        log.write(What.DONE, step=key)
    log.write(What.LATER, step="pitch")
    assert log.now.now.key == "pitch"
    log.write(What.DONE, step="pitch")
    assert log.now.is_over


def test_a_step_left_out_keeps_its_reason_and_can_still_be_done(log):
    log.write(What.LEFT_OUT, step="fill", reason="was full already")
    assert log.now.state_of("fill").reason == "was full already"
    assert log.statuses()[:2] == ["left out", "now"]
    log.write(What.DONE, step="fill")
    assert log.now.state_of("fill").status is Status.DONE


def test_undo_and_redo_walk_through_all_that_was_done(log):
    log.write(What.DONE, step="fill")
    log.write(What.DONE, step="heat")
    log.undo()
    assert log.now.done_keys == {"fill"}
    log.undo()
    assert log.now.done_keys == set()
    assert log.now.undo == ""  # that the day began is never taken back
    log.redo()
    assert log.now.done_keys == {"fill"}
    log.redo()
    assert log.now.done_keys == {"fill", "heat"}
    assert log.now.redo == ""
    log.undo()
    assert log.now.done_keys == {"fill"}
    assert len(log.entries) == 8  # the log only grew


def test_what_was_undone_cannot_be_redone_once_something_else_was_done(log):
    log.write(What.DONE, step="fill")
    log.undo()
    log.write(What.NOTE, text="the pot was dirty")
    assert log.now.redo == ""
    log.undo()
    assert log.now.notes == ()


def test_taking_back_twice_is_nothing(log):
    done = log.write(What.DONE, step="fill")
    first = log.write(What.TAKES_BACK, entry=done)
    log.write(What.TAKES_BACK, entry=done)
    assert log.now.done_keys == set()
    log.write(What.TAKES_BACK, entry=first)
    assert log.now.done_keys == {"fill"}


def test_a_timer_started_with_a_step_is_taken_back_with_it(log):
    done = log.write(What.DONE, step="heat")
    log.write(What.TIMER, timer="steep", does="start", minutes=25, **{"with": done})
    assert log.now.undo == done
    log.undo()
    assert [each.what for each in log.now.live] == [What.BEGAN]
    log.redo()
    assert [each.what for each in log.now.live] == [What.BEGAN, What.DONE, What.TIMER]


def test_a_correction_keeps_what_was_typed_before_beside_it(log):
    first = log.read_at_the_mark(8.6, "8.6 L")
    second = log.write(What.CORRECTS, entry=first, values={"typed": "6.8 L",
                       "reading": values_of(BOILED)})  # fmt: skip
    (kept,) = log.now.readings
    assert (kept.typed, kept.was, kept.reading) == ("6.8 L", ("8.6 L",), BOILED)
    seven = values_of(replace(BOILED, value=7.0))
    log.write(What.CORRECTS, entry=second, values={"typed": "7 L", "reading": seven})
    assert (log.now.readings[0].typed, log.now.readings[0].was) == ("7 L", ("8.6 L", "6.8 L"))
    log.undo()
    assert log.now.readings == (kept,)
    log.write(What.TAKES_BACK, entry=first)
    assert log.now.readings == ()
    log.undo()
    assert log.now.readings == (kept,)
    log.redo()
    assert log.now.readings == ()


def test_a_time_set_right_moves_both_clocks(log):
    at = Instant(1000.0, "this boot", 50.0)
    done = Entry(next_id(log.entries), at, What.DONE, {"step": "fill"})
    log.entries.append(done)
    log.write(What.CORRECTS, entry=done.id, values={"wall": 940.0})
    assert log.now.state_of("fill").at == Instant(940.0, "this boot", -10.0)


def test_order_is_that_of_the_ids_and_not_of_the_clock(log):
    log.write(What.LEFT_OUT, 2000.0, step="fill", reason="later perhaps")
    log.write(What.DONE, 10.0, step="fill")  # the clock was set back meanwhile
    turned = brewing_of(Recipe(), STEPS, reversed(log.entries))
    assert turned == log.now
    assert turned.state_of("fill").status is Status.DONE


def test_a_step_that_the_recipe_no_longer_has_stays_in_the_log(log):
    log.write(What.DONE, step="a bag that is left out now")
    log.write(What.BACK, step="a bag that is left out now")
    assert log.now.now.key == "fill"
    assert len(log.now.entries) == 3


IDS = [f"{number:06d}-aa" for number in range(12)] + ["from elsewhere"]
VALUES = st.fixed_dictionaries(
    {},
    optional={
        "step": st.sampled_from([*KEYS, "gone", "", 7]),
        "entry": st.sampled_from([*IDS, "", None, 3]),
        "by": st.sampled_from(["undo", "redo"]),
        "timer": st.sampled_from(["boil 1", "free 1", 4]),
        "minutes": st.one_of(st.floats(), st.text(max_size=2), st.just(60)),
        "to_left_min": st.one_of(st.floats(), st.none()),
        "wall": st.one_of(st.floats(), st.text(max_size=2), st.just(1e9)),
        "boil": st.one_of(st.integers(), st.none()),
        "with": st.sampled_from([*IDS, ""]),
        "values": st.one_of(st.none(), st.fixed_dictionaries({}, optional={
            "typed": st.text(max_size=3), "wall": st.floats(), "step": st.sampled_from(KEYS)})),
        "reading": st.one_of(st.just(values_of(BOILED)), st.just({"what": "smell", "value": 1}),
                             st.integers(), st.just({"value": float("nan")})),
        "does": st.sampled_from(["start", "pause", "resume", "add", "move", "stop",
                                 "confirm", "dance"]),
        "mark": st.one_of(st.integers(-9, 9), st.just(float("inf")), st.text(max_size=2)),
        "reason": st.one_of(st.text(max_size=3), st.integers()),
    },
)  # fmt: skip
ENTRIES = st.builds(
    Entry,
    st.sampled_from(IDS),
    st.one_of(
        st.builds(Instant, st.floats(0, 1e9)),
        st.builds(Instant, st.floats(0, 1e9), st.sampled_from(["one", "two"]), st.floats(0, 1e6)),
    ),
    st.sampled_from(What),
    VALUES,
)
LOGS = st.lists(ENTRIES, max_size=16, unique_by=lambda each: each.id)


@given(LOGS, st.randoms())
def test_any_log_folds_and_folds_the_same_in_any_order_and_any_number_of_times(entries, random):
    found = brewing_of(Recipe(), STEPS, entries)
    again = [*entries, *entries]
    random.shuffle(again)
    other = brewing_of(Recipe(), STEPS, again)
    assert repr(other) == repr(found)
    assert len(log_lines(found)) == len(found.entries)
    assert sum(each.status is Status.NOW for each in found.states) == (found.now is not None)
    assert found.undo == "" or found.entry(found.undo) is not None or _writes_on(found)


def _writes_on(found: Brewing) -> bool:
    about_others = What.CORRECTS, What.TAKES_BACK
    return any(e.id == found.undo and e.what in about_others for e in found.entries)


@given(LOGS)
def test_undo_and_redo_of_any_log_come_back_to_where_it_stood(entries):
    entries = [each for each in entries if each.id in IDS[:-1]]
    before = brewing_of(Recipe(), STEPS, entries)
    if not before.undo:
        return
    log = Log()
    log.entries = list(entries)
    taken = log.now.undo
    log.undo()
    assert taken not in {each.id for each in log.now.live}
    assert log.now.redo == log.entries[-1].id
    log.redo()
    assert repr(log.now.states) == repr(before.states)
    assert repr(log.now.readings) == repr(before.readings)
    assert log.now.undo == taken


@given(LOGS)
def test_what_is_kept_as_lines_is_read_back(entries):
    lines = [json.loads(json.dumps(plain(each))) for each in entries]
    assert repr(entries_of(lines)) == repr(tuple(entries))


def test_what_a_later_program_writes_is_passed_over():
    known = Entry("000001-aa", Instant(5.0), What.NOTE, {"text": "foam"})
    later = {**plain(known), "id": "000002-aa", "what": "weighed the bucket"}
    assert entries_of([plain(known), later, {}, {"what": "note"}]) == (known,)
    assert reading_of({"what": "pressure", "value": 1.0, "by": "gauge"}) is None
    full = Reading(Measured.ALPHA, 0.0, By.PACKET, 0.001, 2, 3, 4.5, "hops", 6)
    assert reading_of(values_of(full)) == full


def test_hundreds_of_undos_of_undos_fold(log):
    taken = log.write(What.DONE, step="fill")
    for _ in range(1200):
        taken = log.write(What.TAKES_BACK, entry=taken)
    assert log.now.done_keys == {"fill"}
