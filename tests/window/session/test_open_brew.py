"""What is pressed and typed beside the stove is an entry; all else is folded and reckoned of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from designer.brewday.explaining.asked import GravitySample, Taken
from designer.brewday.measured.readings import By, Measured
from designer.errors import RefusedInputError
from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.recipe.quantity import Quantity
from designer.units import ShownUnits
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.blank_places import made_blank
from designer.workbench.brew.log_lines import log_lines
from tests.driven_clock import DrivenClock
from tests.kept_in_memory import InMemory

BOILS = "boil 1/boils"


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


def settled(qtbot, brew):
    qtbot.waitUntil(lambda: not brew.reckoning, timeout=10_000)


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
    settled(qtbot, brew)
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
    assert brew.brewing.state_of(BOILS).at.wall == brew.now().wall - 60.0
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
    settled(qtbot, brew)
    clock.go_on(120.0)
    again = open_brew()
    again.show(brew.brew, porter, kept.entries())
    settled(qtbot, again)
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
    brew.go_to(BOILS)
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
    assert (reading.reading.value, reading.typed, reading.was) == (6.9, "6.9 L", ("1.8 gal",))
    brew.measure(blank, " ")
    assert brew.brewing.readings == ()
    brew.undo()
    assert brew.brewing.readings == (reading,)
    assert len(kept.lines) == 5


def test_a_bare_number_takes_the_shown_unit(brew, settings):
    settings.units = ShownUnits.US
    brew.measure(blank_at(brew, Measured.STEEP), "154")
    assert brew.brewing.readings[0].reading.value == pytest.approx(67.8, abs=0.05)


def test_a_bare_number_takes_the_unit_of_the_figure_beside_it(brew, settings):
    weighed = next(blank for step in brew.steps for blank in step.portion_blanks
                   if blank.forecast == "400 g")  # fmt: skip
    brew.measure(weighed, "410")
    settings.gravity = "plato"
    brew.measure(blank_at(brew, Measured.BOIL_START_GRAVITY), "13.6")
    brew.measure(blank_at(brew, Measured.ORIGINAL_GRAVITY), "1.046")
    assert [each.typed for each in brew.brewing.readings] == ["410 g", "13.6 °P", "1.046"]
    weight, plato, gravity = (each.reading.value for each in brew.brewing.readings)
    assert weight == pytest.approx(0.41)
    assert plato == pytest.approx(1.0553, abs=0.0002)  # Plato's table, by ICUMSA SPS-4
    assert gravity == pytest.approx(1.046, abs=1e-6)


def test_taking_back_what_was_taken_back_writes_nothing(brew, kept):
    brew.note("foam")
    (note,) = brew.brewing.notes
    brew.take_back(note.entry)
    brew.take_back(note.entry)
    brew.take_back("no such entry")
    assert len(kept.lines) == 3


def test_what_is_no_reading_is_refused_and_nothing_is_kept(brew, kept):
    for typed in ("lukewarm", "6 °C", "-3 L"):
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


def test_a_volume_may_be_weighed_as_hot_and_as_strong_as_it_is(brew):
    """Water at 20 °C weighs 0.9982 kg a litre (ITS-90); wort of 20 °P at 100 °C about 1.04."""
    brew.measure(blank_at(brew, Measured.WATER_IN), "6 kg")
    brew.measure(blank_at(brew, Measured.BOIL_END_VOLUME), "6.24 kg")
    water, hot = (each.reading for each in brew.brewing.readings)
    assert (water.by, water.value) == (By.SCALE, pytest.approx(6.0 / 0.9982, abs=0.001))
    assert (hot.by, hot.value) == (By.SCALE, pytest.approx(6.0, abs=0.03))


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
    assert brew.brewing.readings[0].reading.value == 67.0
    assert brew.brewing.readings[0].was == ("76 °C",)
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


def test_a_reading_that_cannot_be_is_asked_about_and_nothing_is_kept_meanwhile(brew, kept):
    steep = blank_at(brew, Measured.STEEP)
    assert not brew.measure(steep, "154")
    assert len(kept.lines) == 1
    slip = brew.doubtful.slips[0]
    assert slip.meant.value == pytest.approx(67.8, abs=0.05)  # °F typed where °C are shown
    brew.measure_meant(slip.meant)
    assert brew.doubtful is None
    (reading,) = brew.brewing.readings
    assert (reading.typed, reading.reading.value) == ("67.8 °C", slip.meant.value)
    assert brew.brewing.entry(reading.entry).values["slip"] == "154 °C"
    assert not brew.correct(reading.entry, "30 °C")
    assert brew.brewing.readings == (reading,)
    brew.measure_anyway()
    assert brew.brewing.readings[0].reading.value == 30.0
    assert brew.brewing.readings[0].was == ("67.8 °C",)
    words = [each.words.text for each in log_lines(brew.brewing) if each.entry.what == "reading"]
    assert words[0].startswith("Steep: 30 °C")


@pytest.mark.parametrize("typed", ["46", ".046", "11.4"])
def test_a_gravity_without_its_point_is_asked_about_but_cannot_stay_so(brew, kept, typed):
    blank = blank_at(brew, Measured.ORIGINAL_GRAVITY)
    assert not brew.measure(blank, typed)
    assert brew.doubtful.anyway is None
    brew.measure_anyway()
    assert len(kept.lines) == 1
    brew.measure_meant(brew.doubtful.slips[0].meant)
    assert brew.brewing.readings[0].reading.value == pytest.approx(1.046, abs=0.0005)


def test_a_doubt_that_is_left_takes_nothing(brew, kept):
    assert not brew.measure(blank_at(brew, Measured.STEEP), "154")
    assert brew.measure(blank_at(brew, Measured.WATER_IN), "6.1 L")
    assert brew.doubtful is None
    brew.measure_anyway()
    assert [each.typed for each in brew.brewing.readings] == ["6.1 L"]


def test_what_was_measured_narrows_the_day_and_never_touches_the_recipe(qtbot, brew, porter):
    settled(qtbot, brew)
    planned = brew.outlook_planned.forecasts["original_gravity"]
    with qtbot.waitSignal(brew.forecast_changed):
        brew.measure(blank_at(brew, Measured.BOIL_START_GRAVITY), "1.057")
    settled(qtbot, brew)
    known = brew.outlook.forecasts["original_gravity"]
    assert known.high - known.low < planned.high - planned.low
    assert known.value > planned.value
    assert brew.outlook_planned.forecasts["original_gravity"] == planned
    assert brew.recipe == brew.as_brewed == porter


def measured_strong(qtbot, brew, clock):
    """After a boil as planned, read that more extract is in the pot than planned."""
    while (step := brew.brewing.now).key != "boil 1/cool":
        clock.go_on(max(60.0 * step.minutes - clock.true_s, 0.0))
        brew.done()
    brew.measure(blank_at(brew, Measured.BOIL_END_VOLUME), "6.1 L")
    if not brew.measure(blank_at(brew, Measured.BOIL_END_GRAVITY), "1.098"):
        brew.measure_anyway()
    settled(qtbot, brew)


def test_a_proposal_is_accepted_undone_and_left_and_belongs_to_the_brew(qtbot, brew, porter, clock):
    measured_strong(qtbot, brew, clock)
    (proposal, *_) = brew.proposals
    assert "Top up to" in proposal.title.text
    brew.accept(proposal)
    assert proposal not in brew.proposals  # at once, before anything is reckoned
    settled(qtbot, brew)
    assert brew.as_brewed.process.top_up_to.value > porter.process.top_up_to.value
    assert brew.brewing.accepted[0].said == proposal.title.text
    (top_up,) = [each for each in brew.steps if each.kind == "top-up"]
    assert top_up.title != "Top up to 10 L"
    brew.undo()
    settled(qtbot, brew)
    assert brew.as_brewed.process.top_up_to == porter.process.top_up_to
    (again, *_) = brew.proposals
    assert again.code == proposal.code
    brew.keep(again)
    settled(qtbot, brew)
    assert proposal.code not in [each.code for each in brew.proposals]
    assert brew.recipe == porter


def test_what_the_brew_made_of_it_is_kept_in_the_recipe_only_when_asked(qtbot, brew, opened, clock):
    measured_strong(qtbot, brew, clock)
    brew.accept(brew.proposals[0])
    settled(qtbot, brew)
    before = opened.recipe
    assert brew.keep_in_recipe(opened)
    assert opened.recipe.process.top_up_to == brew.as_brewed.process.top_up_to
    assert opened.undo_stack.count() == 1
    opened.undo_stack.undo()
    assert opened.recipe == before


def test_what_is_gone_back_to_is_in_the_pot_all_the_same(qtbot, brew, clock):
    measured_strong(qtbot, brew, clock)
    known, offered = brew.outlook.forecasts, [each.code for each in brew.proposals]
    for _ in range(5):
        brew.back()
    brew.measure(blank_at(brew, Measured.COOLED), "40 °C")
    brew.undo()
    settled(qtbot, brew)
    assert brew.outlook.forecasts == known
    assert [each.code for each in brew.proposals] == offered


def test_undo_says_what_it_took_back_and_a_note_is_no_reason_to_reckon(qtbot, brew):
    settled(qtbot, brew)
    brew.note("lid on")
    assert not brew.reckoning
    with qtbot.waitSignal(brew.said) as said:
        brew.undo()
    assert said.args == ["Undone: “Note: lid on”"]
    with qtbot.waitSignal(brew.said) as said:
        brew.redo()
    assert said.args == ["Redone: “Note: lid on”"]


def test_the_steps_are_told_in_other_units_at_once(qtbot, brew, settings):
    settled(qtbot, brew)
    with qtbot.waitSignal(brew.changed):
        settings.units = ShownUnits.US
    assert brew.steps[0].title == "Fill 6.3 qt of water"


def boiled(brew, clock, minutes):
    """Let the boil of 60 min that began last that long, what goes in at its minute."""
    began = clock.true_s
    while (step := brew.brewing.now).key != "boil 1/cool":
        left = 0.0 if step.left_min is None else step.left_min
        ends = minutes if step.kind == "flame-out" else 60.0 - left
        clock.go_on(max(began + 60.0 * ends - clock.true_s, 0.0))
        brew.done()


def test_a_boil_that_ran_on_is_brewed_so_and_one_that_stood_still_is_not(
    qtbot, brew, open_brew, clock, porter
):
    done_up_to(brew, BOILS)
    brew.done()
    boiled(brew, clock, 72.0)
    settled(qtbot, brew)
    assert brew.as_brewed.process.boil_time.value == pytest.approx(72.0)
    assert brew.outlook.day.pot.boil_end_l < brew.outlook_planned.day.pot.boil_end_l
    stood = open_brew()
    stood.begin(new_brew(document_text(porter)), porter)
    done_up_to(stood, BOILS)
    stood.done()
    stood.pause_timer("boil 1")
    clock.go_on(12 * 60.0)  # the lid boiled over, the burner is off
    stood.resume_timer("boil 1")
    boiled(stood, clock, 60.0)
    settled(qtbot, stood)
    assert stood.as_brewed.process.boil_time.value == 60.0
    assert stood.outlook.forecasts == stood.outlook_planned.forecasts


def test_once_the_yeast_is_in_the_beer_is_reckoned_beside_the_window(qtbot, brew, clock):
    settled(qtbot, brew)
    assert brew.beer is None
    with qtbot.waitSignal(brew.beer_changed, timeout=10_000):
        done_up_to(brew, "fermenter 1/close")
    qtbot.waitUntil(lambda: not brew.reckoning_beer, timeout=10_000)
    clock.go_on(9 * 86_400.0)
    sample = GravitySample(1.013, sample_c=20.0, taken=Taken.FERMENTING)
    with qtbot.waitSignal(brew.beer_changed, timeout=10_000):
        brew.take_sample(sample, "1.013")
    assert [each.gravity for each in brew.beer.readings] == [pytest.approx(1.013, abs=1e-4)]
    assert brew.beer.now_day == pytest.approx(9.0, abs=0.01)
    with qtbot.waitSignal(brew.beer_changed, timeout=10_000):
        brew.undo()
    assert brew.beer.readings == ()
    brew.leave()
    assert brew.beer is None
