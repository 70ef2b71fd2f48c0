"""What is pressed and typed beside the stove is an entry; all else is folded and reckoned of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from designer.brewday.measured.readings import By, Measured
from designer.errors import RefusedInputError
from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.blank_places import made_blank
from designer.workbench.brew.clocks import DrivenClock
from designer.workbench.brew.entries_text import as_line, entry_of_line

BOILS = "boil 1/boils"


class InMemory:
    """Keeps entries as the lines that a disk would hold."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def begin(self, brew) -> None:
        pass

    def append(self, uid, *entries) -> None:
        self.lines += map(as_line, entries)

    def entries(self):
        return [entry_of_line(line) for line in self.lines]


@pytest.fixture
def clock():
    return DrivenClock()


@pytest.fixture
def kept():
    return InMemory()


@pytest.fixture
def open_brew(qtbot, display, clock, kept):
    """Put together what a page drives, over the same clock and the same disk; ended afterwards."""
    made = []

    def another() -> OpenBrew:
        made.append(OpenBrew(kept, display, clock))
        return made[-1]

    yield another
    for each in made:
        each.close()


@pytest.fixture
def brew(open_brew, porter):
    """The porter, just begun."""
    found = open_brew()
    found.begin(new_brew(document_text(porter)), porter)
    return found


def blank_at(brew, what):
    return next(blank for step in brew.steps for blank in step.blanks if blank.what is what)


def done_up_to(brew, key):
    while brew.brewing.now.key != key:
        brew.done()


def test_a_brew_begins_at_once_with_its_steps(brew, kept):
    assert brew.brewing.now.key == "boil 1/fill"
    assert brew.steps[-1].kind == "close"
    assert brew.brewing.began == brew.now()
    assert [each.what for each in kept.entries()] == ["began"]


def test_ranges_follow_beside_the_window(qtbot, brew):
    planned = brew.outlook_planned.forecasts["original_gravity"]
    assert planned.low == planned.high
    qtbot.waitUntil(lambda: not brew.reckoning, timeout=10_000)
    planned = brew.outlook_planned.forecasts["original_gravity"]
    assert planned.low < planned.value < planned.high


def test_each_step_done_is_kept_with_its_time_and_starts_its_timer(brew, kept, clock):
    done_up_to(brew, BOILS)
    clock.go_on(600.0)
    brew.done()
    clock.go_on(60.0)
    (steep, boil) = brew.timers
    assert (steep.kind, boil.kind) == ("steep", "boil")
    assert boil.left_s(brew.now()) == 59 * 60.0
    assert brew.brewing.state_of(BOILS).at == replace(brew.now(), wall=brew.now().wall - 60.0,
                                                      up=brew.now().up - 60.0)  # fmt: skip
    brew.undo()  # the step, and the timer with it
    assert brew.brewing.now.key == BOILS
    assert brew.find_timer("boil 1") is None
    brew.redo()
    assert brew.find_timer("boil 1").left_s(brew.now()) == 59 * 60.0


def test_a_restart_in_the_middle_comes_back_to_the_same_state(qtbot, brew, open_brew, kept, porter,
                                                              clock):  # fmt: skip
    done_up_to(brew, BOILS)
    brew.measure(blank_at(brew, Measured.WATER_IN), "6.2 L")
    brew.done()
    brew.note("it foamed")
    brew.later()
    brew.leave_out("boil 1/sanitise", "did it before")
    brew.undo()
    qtbot.waitUntil(lambda: not brew.reckoning, timeout=10_000)
    clock.go_on(120.0)
    again = open_brew()
    again.show(brew.brew, porter, kept.entries())
    qtbot.waitUntil(lambda: not again.reckoning, timeout=10_000)
    assert again.brewing.states == brew.brewing.states
    assert again.brewing.readings == brew.brewing.readings
    assert again.timers == brew.timers
    assert again.brewing.redo == brew.brewing.redo != ""
    again.redo()
    assert again.brewing.state_of("boil 1/sanitise").reason == "did it before"
    again.undo()
    again.undo()
    again.undo()
    assert again.brewing.notes == ()


def test_back_goes_step_by_step_and_on_again(brew):
    done_up_to(brew, BOILS)
    done = brew.brewing.done_keys
    brew.back()
    brew.back()
    assert brew.brewing.now.key == "boil 1/fermentables 1"
    brew.go_on_where_it_was()
    assert brew.brewing.now.key == BOILS
    assert brew.brewing.done_keys == done


def test_back_at_the_first_step_and_done_at_the_end_are_nothing(brew, kept):
    brew.back()
    assert len(kept.lines) == 1
    while not brew.brewing.is_over:
        brew.done()
    written = len(kept.lines)
    brew.done()
    brew.later()
    assert len(kept.lines) == written
    brew.back()
    assert brew.brewing.now == brew.steps[-1]


def test_a_blank_is_read_as_every_field_is_and_typed_again_is_corrected(brew, kept):
    blank = blank_at(brew, Measured.BOIL_START_VOLUME)
    assert brew.measure(blank, "1.8 gal")
    (reading,) = brew.brewing.readings
    assert reading.reading.value == pytest.approx(6.81, abs=0.01)
    assert (reading.typed, reading.reading.by) == ("1.8 gal", By.MARK)
    brew.measure(blank, "6.9")
    (reading,) = brew.brewing.readings
    assert (reading.reading.value, reading.typed, reading.was) == (6.9, "6.9", ("1.8 gal",))
    brew.measure(blank, " ")
    assert brew.brewing.readings == ()
    brew.undo()
    assert brew.brewing.readings == (reading,)
    assert len(kept.lines) == 5


def test_a_bare_number_takes_the_shown_unit(brew, settings):
    settings.units = ShownUnits.US
    brew.measure(blank_at(brew, Measured.STEEP), "154")
    assert brew.brewing.readings[0].reading.value == pytest.approx(67.8, abs=0.05)


def test_what_is_no_reading_is_refused_and_nothing_is_kept(brew, kept):
    for typed in ("lukewarm", "6 kg", "-3 L"):
        with pytest.raises(RefusedInputError):
            brew.measure(blank_at(brew, Measured.WATER_IN), typed)
    assert len(kept.lines) == 1


def test_a_warm_sample_is_corrected_for_the_hydrometer(brew):
    """ISO 1768 and SPS-4 by `designer.wort.hydrometer`: 1.046 at 30 °C is about 1.0487."""
    blank = blank_at(brew, Measured.ORIGINAL_GRAVITY)
    brew.measure(blank, "1.046", "30 °C")
    (kept,) = brew.brewing.readings
    assert kept.reading.value == pytest.approx(1.0487, abs=0.0003)
    assert kept.typed == "1.046 at 30 °C"
    brew.measure(blank, "1046 @ 20")
    assert brew.brewing.readings[0].reading.value == pytest.approx(1.046, abs=1e-5)
    with pytest.raises(RefusedInputError, match="cool the sample"):
        brew.measure(blank, "1.030 at 90 °C")


def test_a_hydrometer_that_reads_high_in_water_is_taken_at_its_word(open_brew, porter):
    high = replace(porter.process, hydrometer_in_water=Quantity(1.002, "1.002"))
    recipe = replace(porter, process=high)
    found = open_brew()
    found.begin(new_brew(document_text(recipe)), recipe)
    found.measure(blank_at(found, Measured.ORIGINAL_GRAVITY), "1.048")
    assert found.brewing.readings[0].reading.value == pytest.approx(1.046)


def test_a_refractometer_and_a_dipstick_are_known_by_their_units(open_brew, porter):
    """1.04 of °Bx to °P: common practice, no source. 24 cm across are 4.524 L to 10 cm."""
    recipe = replace(porter, pot=replace(porter.pot, diameter=Quantity(0.24, "24 cm")))
    found = open_brew()
    found.begin(new_brew(document_text(recipe)), recipe)
    found.measure(blank_at(found, Measured.BOIL_START_GRAVITY), "14.3 °Bx")
    found.measure(blank_at(found, Measured.BOIL_START_VOLUME), "15 cm")
    gravity, volume = (each.reading for each in found.brewing.readings)
    assert (gravity.by, gravity.value) == (By.REFRACTOMETER, pytest.approx(1.0557, abs=0.0003))
    assert (volume.by, volume.value) == (By.DIPSTICK, pytest.approx(6.786, abs=0.001))


def test_a_depth_in_a_pot_of_unknown_width_says_what_would_do(brew):
    with pytest.raises(RefusedInputError, match="diameter of the pot"):
        brew.measure(blank_at(brew, Measured.BOIL_START_VOLUME), "15 cm")


def test_what_is_measured_in_the_boil_knows_what_was_left_of_it(brew, clock):
    done_up_to(brew, BOILS)
    brew.done()
    clock.go_on(30 * 60.0)
    brew.measure(made_blank(Measured.BOIL_VOLUME), "6.4 L")
    clock.go_on(600.0)
    brew.measure(made_blank(Measured.BOIL_VOLUME), "6.2 L")
    assert [each.reading.left_min for each in brew.brewing.readings] == [30.0, 20.0]


def test_a_reading_and_a_note_are_corrected_from_the_log(brew):
    brew.measure(blank_at(brew, Measured.STEEP), "76")
    brew.note("fomed")
    (reading,), (note,) = brew.brewing.readings, brew.brewing.notes
    brew.correct(reading.entry, "67")
    brew.correct(note.entry, "foamed")
    assert (brew.brewing.readings[0].reading.value, brew.brewing.readings[0].was) == (67.0, ("76",))
    assert brew.brewing.notes[0].text == "foamed"
    with pytest.raises(RefusedInputError):
        brew.correct(reading.entry, "warm")


def test_a_boil_that_stands_stops_its_clock_and_it_boiled_at_moves_its_start(brew, clock):
    done_up_to(brew, BOILS)
    brew.done()
    clock.go_on(300.0)
    brew.pause_timer("boil 1")
    clock.go_on(240.0)
    brew.resume_timer("boil 1")
    assert brew.find_timer("boil 1").left_s(brew.now()) == 55 * 60.0
    began = brew.brewing.state_of(BOILS).at.wall
    brew.it_boiled_at(began - 120.0)
    assert brew.find_timer("boil 1").left_s(brew.now()) == pytest.approx(53 * 60.0)
    assert brew.brewing.state_of(BOILS).at.wall == began - 120.0
    brew.undo()
    assert brew.find_timer("boil 1").left_s(brew.now()) == 55 * 60.0
    assert brew.brewing.state_of(BOILS).at.wall == began


def test_free_timers_have_names_of_their_own_and_go_when_stopped(brew, clock):
    one = brew.start_timer("free", 10.0, "Sanitiser in the bucket")
    two = brew.start_timer("free", 5.0)
    assert [each.name for each in brew.timers] == ["Sanitiser in the bucket", ""]
    brew.lengthen_timer(one)
    clock.go_on(60.0)
    assert brew.find_timer(one).left_s(brew.now()) == 600.0
    brew.stop_timer(one)
    assert [each.id for each in brew.timers] == [two]
    assert brew.start_timer("free", 5.0) == one


def test_the_open_recipe_is_another_thing(brew, porter):
    brew.measure(blank_at(brew, Measured.BOIL_START_VOLUME), "6.9 L")
    assert brew.recipe == porter
    assert made_blank(Measured.ALPHA).kind is Kind.FRACTION


def test_the_flame_out_ends_the_boil_and_tells_how_long_it_was(brew, clock):
    done_up_to(brew, BOILS)
    brew.done()
    clock.go_on(65 * 60)
    done_up_to(brew, "boil 1/flame-out")
    assert not brew.find_timer("boil 1").ended
    brew.done()
    boil = brew.find_timer("boil 1")
    clock.go_on(600)
    assert (boil.ended, boil.ran_by(clock.now())) == (True, 65 * 60)
    brew.undo()
    assert brew.find_timer("boil 1").left_s(clock.now()) == -15 * 60


def test_both_clocks_are_noted_every_ten_minutes_and_when_the_wall_clock_was_set(brew, clock, kept):
    brew.start_timer("free", 30)
    before = len(kept.lines)
    clock.go_on(590)
    brew.note_clocks()
    assert len(kept.lines) == before
    clock.go_on(20)
    brew.note_clocks()
    brew.note_clocks()
    assert len(kept.lines) == before + 1
    clock.set_wall(3600)
    brew.note_clocks()
    assert kept.entries()[-1].what == "clock"
    assert brew.find_timer("free 1").left_s(clock.now()) == 1800 - 610
    assert brew.brewing.undo, "undo passes over it"
