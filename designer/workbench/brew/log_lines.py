"""A brew's log as one would read it: each entry in words, with its time, and whether it counts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from designer.brewday.explaining.asked import Taken, TestCode
from designer.recipe.day_words import day_and_year
from designer.recipe.message import Message, say, word
from designer.recipe.quantity import Kind
from designer.sheet.stove import StoveStep
from designer.translation import message
from designer.workbench.brew.announcements import NAMES
from designer.workbench.brew.blank_places import blank_of, place_of, whole_label
from designer.workbench.brew.brewing import Brewing
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import number_in, text_in, values_in
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import reading_of
from designer.workbench.brew.sample_values import answer_of, sample_of
from designer.workbench.brew.what_counts import BY, REDO, UNDO


@dataclass(frozen=True, slots=True)
class LogLine:
    """One entry of a log in words.

    `counts` is False for what was taken back. `was` are the words before corrections, the oldest
    first. `by_guess` tells that its time was typed in afterwards.
    """

    entry: Entry
    words: Message
    counts: bool
    was: tuple[Message, ...] = ()

    @property
    def when(self) -> datetime | None:
        """When it was, by the clock of the place; None where that cannot be told."""
        return local_time(self.entry.at)


def local_time(at: Instant) -> datetime | None:
    """Return an instant by the clock of the place; None for one that no calendar has."""
    try:
        return datetime.fromtimestamp(at.wall, UTC).astimezone()
    except (ValueError, OverflowError, OSError):
        return None


def clock_of(when: datetime | None) -> str:
    """Return hours and minutes, "10:51"; a question mark where nobody can tell."""
    return "?" if when is None else f"{when:%H:%M}"


def told_lines(brewing: Brewing) -> tuple[LogLine, ...]:
    """Return a log as one reads it: that both clocks were noted tells nobody anything."""
    return tuple(
        each
        for each in log_lines(brewing)
        if each.entry.what is not What.CLOCK or "wall" in each.entry.values
    )


def log_lines(brewing: Brewing) -> tuple[LogLine, ...]:
    """Return all entries of a log in words, in order."""
    words = _Words(brewing)
    return tuple(words.line(each) for each in brewing.entries)


def words_of(brewing: Brewing, entry_id: str) -> Message | None:
    """Return what an entry says, as it counts; None where there is none."""
    entry = next((each for each in brewing.entries if each.id == entry_id), None)
    return None if entry is None else _Words(brewing).of(entry)


def _title_of(step: StoveStep) -> str:
    """Return what a step is called in a line, and whose it is of several boils or fermenters."""
    title = step.title or step.name
    return f"{title} ({step.whose})" if step.whose else title


class _Words:
    """Puts the entries of one log into words."""

    def __init__(self, brewing: Brewing) -> None:
        self._brewing = brewing
        self._all = {each.id: each for each in brewing.entries}
        self._live = {each.id: each for each in brewing.live}
        self._titles = {each.key: _title_of(each) for each in brewing.steps}
        self._whose = {
            place_of(blank): step.whose for step in brewing.steps for blank in step.blanks
        }
        self._formers = brewing.formers

    def line(self, entry: Entry) -> LogLine:
        live = self._live.get(entry.id)
        was = tuple(map(self.of, self._formers.get(entry.id, ())))
        return LogLine(
            live or entry, self.of(live or entry), entry.id in self._brewing.in_force, was
        )

    def of(self, entry: Entry) -> Message:
        """Return an entry in words."""
        return _SAYS[entry.what](self, entry.values)

    def _step(self, values: Mapping[str, Any]) -> str:
        key = text_in(values, "step")
        return self._titles.get(key, key)

    def began(self, values: Mapping[str, Any]) -> Message:
        return say("log-began", "The brew day began")

    def done(self, values: Mapping[str, Any]) -> Message:
        return say("log-done", "Done: {step}", step=self._step(values))

    def back(self, values: Mapping[str, Any]) -> Message:
        if not text_in(values, "step"):
            return say("log-on-again", "On to the first step that is not done")
        return say("log-back", "Back to: {step}", step=self._step(values))

    def later(self, values: Mapping[str, Any]) -> Message:
        return say("log-later", "Put off: {step}", step=self._step(values))

    def left_out(self, values: Mapping[str, Any]) -> Message:
        reason = text_in(values, "reason")
        left = say("log-left-out", "Left out: {step}", step=self._step(values))
        return say("log-because", "{what} ({reason})", what=left, reason=reason) if reason else left

    def note(self, values: Mapping[str, Any]) -> Message:
        return say("log-note", "Note: {text}", text=text_in(values, "text"))

    def reading(self, values: Mapping[str, Any]) -> Message:
        reading = reading_of(values_in(values, "reading"))
        typed = text_in(values, "typed")
        if reading is None:
            return say("log-reading-unknown", "Measured: {typed}", typed=typed)
        label = whole_label(blank_of(reading, self._brewing.steps))
        whose = self._whose.get(place_of(reading), "")
        if whose and whose.casefold() not in label.casefold():
            label = f"{label} ({whose})"
        said = say("log-reading", "{label}: {typed}", label=label, typed=typed)
        slip, asked = text_in(values, "slip"), text_in(values, "asked")
        if slip:
            return say("log-slip", "{what} (first typed: {slip})", what=said, slip=slip)
        if asked:
            return say("log-anyway", "{what}, measured anyway. {asked}", what=said, asked=asked)
        return said

    def timer(self, values: Mapping[str, Any]) -> Message:
        name = self._timer_name(text_in(values, "timer"), values)
        does = text_in(values, "does")
        minutes = (Kind.TIME, number_in(values, "minutes") or 0.0)
        left = (Kind.TIME, number_in(values, "to_left_min") or 0.0)
        if does == "start":
            return say("log-timer-start", "{timer}: {0} started", minutes, timer=name)
        if does == "add":
            return say("log-timer-add", "{timer}: {0} more", minutes, timer=name)
        if does == "move":
            return say("log-timer-left", "{timer}: {0} left", left, timer=name)
        if does == "confirm":
            return self._heard(name, text_in(values, "addition"))
        template = _TIMER_DOES.get(does, _TIMER_DOES["stop"])
        return say(f"log-timer-{does}", template.template, timer=name)

    def _heard(self, name: object, key: str) -> Message:
        if key:
            return say("log-is-in", "It is in: {step}", step=self._titles.get(key, key))
        return say("log-timer-heard", "{timer}: its end was heard", timer=name)

    def _timer_name(self, timer: str, values: Mapping[str, Any]) -> object:
        """Return what a timer is called: by the entry that started it."""
        started = values
        for each in self._brewing.entries:
            is_it = each.what is What.TIMER and text_in(each.values, "timer") == timer
            if is_it and text_in(each.values, "does") == "start":
                started = each.values
        kind = text_in(started, "kind")
        return text_in(started, "name") or word(NAMES.get(kind, NAMES["free"]))

    def accepted(self, values: Mapping[str, Any]) -> Message:
        return say("log-accepted", "Changed: {said}", said=text_in(values, "said"))

    def kept(self, values: Mapping[str, Any]) -> Message:
        return say("log-kept", "Left as planned: {said}", said=text_in(values, "said"))

    def takes_back(self, values: Mapping[str, Any]) -> Message:
        entry = self._all.get(text_in(values, "entry"))
        by = text_in(values, BY)
        if entry is not None and by == REDO:
            undone = self._all.get(text_in(entry.values, "entry"))
            return say("log-redone", "Redone: “{what}”", what=self._plainly(undone))
        if by == UNDO:
            return say("log-undone", "Undone: “{what}”", what=self._plainly(entry))
        return say("log-taken-back", "Taken back: “{what}”", what=self._plainly(entry))

    def _plainly(self, entry: Entry | None) -> Message:
        """Return what an entry says that is no undo itself: those would be told without end."""
        if entry is None or entry.what in (What.TAKES_BACK, What.CORRECTS):
            return say("log-a-correction", "what was set right or taken back")
        return self.of(entry)

    def corrects(self, values: Mapping[str, Any]) -> Message:
        entry = self._all.get(text_in(values, "entry"))
        said = values_in(values, "values")
        wall = number_in(said, "wall")
        if wall is not None:
            clock = clock_of(local_time(Instant(wall)))
            what = self._plainly(entry)
            return say("log-time", "Time set to {clock}: “{what}”", clock=clock, what=what)
        if entry is None or entry.what in (What.TAKES_BACK, What.CORRECTS):
            return say("log-corrected", "Corrected: {what}", what=text_in(said, "typed"))
        right = _SAYS[entry.what](self, {**entry.values, **said})
        return say("log-corrected", "Corrected: {what}", what=right)

    def clock(self, values: Mapping[str, Any]) -> Message:
        wall = number_in(values, "wall")
        if wall is None:
            return say("log-clock", "Both clocks were noted")
        return say("log-it-is", "It is {clock}", clock=clock_of(local_time(Instant(wall))))

    def finished(self, values: Mapping[str, Any]) -> Message:
        return say("log-finished", "The brew day is over")

    def tasted(self, values: Mapping[str, Any]) -> Message:
        mark, text = number_in(values, "mark"), text_in(values, "text")
        if not mark:
            return say("log-tasted-text", "Tasted: {text}", text=text)
        return say("log-tasted", "Tasted, {mark} of 5: {text}", mark=f"{mark:.0f}", text=text)

    def sample(self, values: Mapping[str, Any]) -> Message:
        typed = text_in(values, "typed")
        sample = sample_of(values_in(values, "sample"))
        if sample is None:
            return say("log-reading-unknown", "Measured: {typed}", typed=typed)
        return say(f"log-sample-{sample.taken}", _SAMPLES[sample.taken].template, typed=typed)

    def answered(self, values: Mapping[str, Any]) -> Message:
        answer = answer_of(values)
        test = word(TESTS[answer.test]) if answer is not None else text_in(values, "test")
        shows = text_in(values, "typed")
        return say("log-answered", "{test}: {shows}", test=test, shows=shows)

    def cured(self, values: Mapping[str, Any]) -> Message:
        return say("log-cured", "Done about it: {said}", said=text_in(values, "said"))

    def warmth(self, values: Mapping[str, Any]) -> Message:
        typed = text_in(values, "typed")
        return say("log-warmth", "Temperature of the beer: {typed}", typed=typed)

    def packing(self, values: Mapping[str, Any]) -> Message:
        return say("log-packing", "Packaging planned: {said}", said=text_in(values, "said"))

    def packaged(self, values: Mapping[str, Any]) -> Message:
        return say("log-packaged", "Packaged: {said}", said=text_in(values, "said"))

    def reminder(self, values: Mapping[str, Any]) -> Message:
        text = text_in(values, "text")
        if text_in(values, "does") == "done":
            return say("log-reminded", "Seen to: {text}", text=text)
        when = local_time(Instant(number_in(values, "wall") or 0.0))
        day = "?" if when is None else day_and_year(when.date())
        return say("log-reminder", "To be reminded on {day}: {text}", day=day, text=text)

    def counts(self, values: Mapping[str, Any]) -> Message:
        figure = text_in(values, "figure")
        if values.get("counts") is False:
            return say(
                "log-left-out-of", "Not counted for what is learned: {figure}", figure=figure
            )
        return say("log-counts", "Counted for what is learned: {figure}", figure=figure)


TESTS = {
    TestCode.STIR: message("Stirred and read again"),
    TestCode.TOP_AND_BOTTOM: message("Read from top and bottom"),
    TestCode.COOL: message("Cooled the sample"),
    TestCode.WATER_CHECK: message("Tried the hydrometer in water"),
    TestCode.SETTLE: message("Let the sample rest"),
    TestCode.WEIGH: message("Looked at the volume"),
    TestCode.COUNT_PACKETS: message("Counted tins and packets"),
    TestCode.SUM: message("Compared points and litres with the labels"),
    TestCode.WAIT: message("Waited and read again"),
}
_SAMPLES = {
    Taken.POT: say("log-sample-pot", "Gravity in the pot: {typed}"),
    Taken.TOPPED_UP: say("log-sample-topped-up", "Gravity after topping up: {typed}"),
    Taken.FERMENTING: say("log-sample-fermenting", "Gravity of the fermenting beer: {typed}"),
}
_TIMER_DOES = {
    "pause": say("log-timer-pause", "{timer}: paused"),
    "resume": say("log-timer-resume", "{timer}: goes on"),
    "end": say("log-timer-end", "{timer}: over"),
    "stop": say("log-timer-stop", "{timer}: stopped"),
}
_SAYS: dict[What, Callable[[_Words, Mapping[str, Any]], Message]] = {
    What.BEGAN: _Words.began,
    What.DONE: _Words.done,
    What.BACK: _Words.back,
    What.LATER: _Words.later,
    What.LEFT_OUT: _Words.left_out,
    What.NOTE: _Words.note,
    What.READING: _Words.reading,
    What.TIMER: _Words.timer,
    What.ACCEPTED: _Words.accepted,
    What.KEPT: _Words.kept,
    What.TAKES_BACK: _Words.takes_back,
    What.CORRECTS: _Words.corrects,
    What.CLOCK: _Words.clock,
    What.FINISHED: _Words.finished,
    What.TASTED: _Words.tasted,
    What.SAMPLE: _Words.sample,
    What.ANSWERED: _Words.answered,
    What.CURED: _Words.cured,
    What.WARMTH: _Words.warmth,
    What.PACKING: _Words.packing,
    What.PACKAGED: _Words.packaged,
    What.REMINDER: _Words.reminder,
    What.COUNTS: _Words.counts,
}
