"""What card and list say of a brew as it stands, put into words; nothing here is a widget."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING

from designer.sheet.blocks import Sheet, plain_words
from designer.sheet.stove import StoveStep
from designer.translation import tr, trn
from designer.window.brew.step_card import Shown, TimeLeft
from designer.window.brew.step_words import (
    KEPT_HOT,
    STAND,
    STEEP,
    cautions,
    done_words,
    headline,
    kind_of,
    sentence,
    title,
    what_to_do,
)
from designer.window.brew.steps_list import StepRow
from designer.workbench.brew.announcements import as_clock
from designer.workbench.brew.brewing import Brewing, Status, StepState
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.timers import TimerState

WAITED_FOR = (STEEP, STAND, KEPT_HOT)
"""Timers whose end is when the next step is due."""
if TYPE_CHECKING:
    from designer.library.store.brews import Brew

FERMENTING, MOST_LEFT = "ferment", 4
"""The part of the sheet for the days after, and how many of its steps are told."""
ClockOf = Callable[[str], str]
"""The clock at which a step is expected, by its key."""


def clock_text(wall: float) -> str:
    """Return the clock of an instant, where this machine is."""
    return datetime.fromtimestamp(wall).strftime("%H:%M")


def minute_of_day(wall: float) -> float:
    """Return how many minutes after midnight an instant is, where this machine is."""
    at = datetime.fromtimestamp(wall)
    return 60 * at.hour + at.minute + at.second / 60 + at.microsecond / 60e6


def when_of(step: StoveStep, clock: str) -> str:
    """Return when a step is due, as the card says it."""
    if step.left_min is not None and step.left_min > 0:
        return tr("at {minutes:g} min left, {clock}", minutes=step.left_min, clock=clock)
    if step.kind == "flame-out":
        return tr("at the end of the boil, {clock}", clock=clock)
    return tr("about {clock}", clock=clock) if clock else ""


def shown_of(step: StoveStep, clock: str, *, is_first: bool) -> Shown:
    """Return what the card says of the step now."""
    large, name = headline(step)
    return Shown(
        mark=step.mark,
        kind=kind_of(step),
        when=when_of(step, clock),
        large=large,
        name=name,
        sentence=sentence(step),
        cautions=cautions(step),
        done=done_words(step),
        back=not is_first,
    )


def timer_of(step: StoveStep, timers: Iterable[TimerState]) -> TimerState | None:
    """Return the timer by which a step is due: its boil's, or what it waits for."""
    for each in timers:
        if each.kind == "boil" and step.left_min is not None and each.boil == step.boil:
            return each
    if step.left_min is not None:
        return None
    return next((each for each in timers if each.kind in WAITED_FOR and not each.ended), None)


def left_of(step: StoveStep, timers: Iterable[TimerState], now: Instant) -> TimeLeft:
    """Return how long it is until a step, or by how much it is late; nothing without a timer."""
    timer = timer_of(step, timers)
    if timer is None or timer.doubtful(now):
        return TimeLeft()
    left = timer.left_s(now)
    if step.left_min is not None:
        left -= min(60.0 * step.left_min, timer.length_s)
    if left <= -1.0:
        return TimeLeft(as_clock(left), what_to_do(step), suffix=tr("late"), late=True)
    if left <= 0.0:
        return TimeLeft(tr("Now"), what_to_do(step), late=True)
    if not timer.running:
        return TimeLeft(as_clock(left), tr("the clock stands still"))
    return TimeLeft(as_clock(left), _caption(step))


def _caption(step: StoveStep) -> str:
    return tr("goes in after") if step.kind in ("addition", "extract") else tr("due after")


def rows_of(states: Iterable[StepState], clock_of: ClockOf) -> tuple[StepRow, ...]:
    """Return the rows of the list: done ones with when that was, others with when it will be."""
    return tuple(_row(each, clock_of) for each in states)


def _row(state: StepState, clock_of: ClockOf) -> StepRow:
    step, below = state.step, _below(state)
    is_past = state.status in (Status.DONE, Status.LEFT_OUT)
    clock = clock_text(state.at.wall) if is_past and state.at is not None else clock_of(step.key)
    words = {Status.DONE: tr("done {clock}", clock=clock), Status.NOW: tr("now")}
    when = words.get(state.status, tr("about {clock}", clock=clock))
    said = ", ".join(each for each in (step.mark, title(step), below, when) if each)
    return StepRow(step.key, step.mark, title(step), below, clock, state.status, said)


def _below(state: StepState) -> str:
    """Return the line below a title: whose step it is of several boils or fermenters, and more."""
    whose, more = state.step.whose, _more(state)
    return tr("{whose} · {more}", whose=whose, more=more) if whose and more else whose or more


def _more(state: StepState) -> str:
    step = state.step
    if state.status is Status.LEFT_OUT:
        return tr("left out: {reason}", reason=state.reason)
    if state.status is Status.LATER:
        return tr("put off")
    if step.left_min is not None and step.left_min > 0:
        return tr("{minutes:g} min left", minutes=step.left_min)
    if step.kind == "read" and step.blanks:
        return tr("forecast {figure}", figure=step.blanks[0].forecast)
    return step.left if step.left_min is None else ""


def whole_step(step: StoveStep) -> str:
    """Return all that the sheet says of a step: what to do, and what stands beside it."""
    parts = (sentence(step), *(each.text for each in step.asides))
    return "\n".join((title(step), *parts))


def planned_rows(steps: Iterable[StoveStep]) -> tuple[StepRow, ...]:
    """Return the rows of a day that has not begun: its first step is the one now."""
    rows = rows_of((StepState(each, Status.AHEAD) for each in steps), lambda _: "")
    clocks = {each.key: each.when for each in steps}
    return tuple(
        replace(each, clock=clocks[each.key], status=Status.AHEAD if number else Status.NOW)
        for number, each in enumerate(rows)
    )


def not_begun(steps: Sequence[StoveStep]) -> Shown:
    """Return what the card says before the day begins: its first step, and what begins it."""
    if not steps:
        return Shown(kind=tr("Not begun"), large=tr("Nothing to brew yet"), later=False)
    first = steps[0]
    shown = shown_of(first, "", is_first=True)
    return replace(
        shown,
        kind=tr("Not begun"),
        when=trn("{number} step", "{number} steps", len(steps)),
        done=tr("{step}; start the day", step=title(first)),
        later=False,
        leave_out=False,
    )


def left_to_do(sheet: Sheet) -> str:
    """Return what the sheet says of the days after: how warm to keep it, and what to do when."""
    section = next((each for each in sheet.sections if each.key == FERMENTING), None)
    if section is None:
        return ""
    steps = [
        tr("{when}: {what}", when=" ".join(each.when.split()), what=plain_words(each.do))
        for each in section.steps[:MOST_LEFT]
    ]
    lead = (
        [tr("{when}: {what}", when=section.title, what=f"{section.lead}.")] if section.lead else []
    )
    return "\n".join((*lead, *steps))


def day_over(brewing: Brewing, left: str = "") -> Shown:
    """Return what the card says when no step is left; `left` is what there is to do yet."""
    if brewing.finished is not None:
        return Shown(
            kind=tr("The day is over"),
            large=tr("It ferments"),
            sentence=left or tr("The log has all of it. Keep the fermenter as the sheet says."),
            done=tr("Put this brew away"),
            later=False,
            leave_out=False,
        )
    return Shown(
        kind=tr("Every step is done"),
        large=tr("Yeast is in?"),
        sentence=tr("Type what you still know into the blanks; then the day is over."),
        done=tr("Finish the day"),
        later=False,
        leave_out=False,
    )


def brew_words(brew: Brew) -> str:
    """Return which brew it is: what is brewed, and since when."""
    try:
        began = datetime.fromisoformat(brew.started).astimezone()
    except ValueError:
        return brew.name
    return tr("{recipe}, {clock}", recipe=brew.name, clock=f"{began:%H:%M}")


def beer_words(brew: Brew, wall: float) -> str:
    """Return which beer it is: what was brewed, and how many days ago."""
    try:
        over = datetime.fromisoformat(brew.finished or brew.started).astimezone().date()
    except ValueError:
        return brew.name
    days = max((datetime.fromtimestamp(wall).date() - over).days, 0)
    return tr("{recipe}, day {day}", recipe=brew.name, day=days)


def state_words(brewing: Brewing | None, behind: str = "") -> str:
    """Return how far a brew is, and how far `behind`, in a line."""
    if brewing is None or brewing.began is None:
        return tr("not begun")
    since, count = clock_text(brewing.began.wall), len(brewing.steps)
    if brewing.finished is not None:
        return tr("{begin} to {end}", begin=since, end=clock_text(brewing.finished.wall))
    if brewing.now is None:
        return tr("since {begin} · all {count} steps done", begin=since, count=count)
    number = [each.key for each in brewing.steps].index(brewing.now.key) + 1
    so_far = tr("since {begin} · step {number} of {count}", begin=since, number=number, count=count)
    return tr("{so_far} · {behind}", so_far=so_far, behind=behind) if behind else so_far
