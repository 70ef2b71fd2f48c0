"""The timers of the brew under way: each press of theirs is an entry of its log."""

from __future__ import annotations

from designer.window.session.logged_brew import Line, LoggedBrew
from designer.workbench.brew import timer_moves
from designer.workbench.brew.entries import What
from designer.workbench.brew.passing import clocks_to_note
from designer.workbench.brew.timers import TimerState


class BrewTimers(LoggedBrew):
    """A log with timers, which are folded from it as all else is."""

    @property
    def timers(self) -> tuple[TimerState, ...]:
        """The timers that run or stand, in the order in which they were started."""
        return self.brewing.timers if self.brewing is not None else ()

    def find_timer(self, timer: str) -> TimerState | None:
        """Return the timer of that name; None where there is none."""
        return next((each for each in self.timers if each.id == timer), None)

    def start_timer(self, kind: str, minutes: float, name: str = "", boil: int = 1) -> str:
        """Start a timer and return its id; a free one gets an id of its own."""
        taken = {each.id for each in self.timers}
        numbers = range(1, len(taken) + 2)
        free = next(f"free {each}" for each in numbers if f"free {each}" not in taken)
        timer = free if kind == "free" else timer_moves.timer_id(kind, boil)
        start = timer_moves.start(kind, minutes, name=name.strip(), boil=boil, timer=timer)
        self._write(What.TIMER, **start)
        return timer

    def pause_timer(self, timer: str) -> None:
        """Let a timer stand; a boil that stands boils nothing away."""
        self._write(What.TIMER, **timer_moves.pause(timer))

    def resume_timer(self, timer: str) -> None:
        """Let a timer go on."""
        self._write(What.TIMER, **timer_moves.resume(timer))

    def lengthen_timer(self, timer: str, minutes: float = 1.0) -> None:
        """Make a timer longer."""
        self._write(What.TIMER, **timer_moves.add(timer, minutes))

    def stop_timer(self, timer: str) -> None:
        """Take a timer away."""
        self._write(What.TIMER, **timer_moves.stop(timer))

    def confirm_timer(self, timer: str, addition: str = "") -> None:
        """An addition is in, or the end of a timer was heard."""
        self._write(What.TIMER, **timer_moves.confirm(timer, addition))

    def set_timer_left(self, timer: str, left_min: float) -> None:
        """Say how much is left of a timer."""
        self._write(What.TIMER, **timer_moves.move(timer, left_min))

    def it_boiled_at(self, wall: float, boil: int = 1) -> None:
        """The boil began at another time than was pressed: seconds since 1970."""
        timer = self.find_timer(timer_moves.timer_id("boil", boil))
        if timer is None:
            return
        left_s = timer.left_if_begun_at(wall, self.now())
        moved = timer_moves.move(timer.id, left_s / 60.0)
        many: list[Line] = [(What.TIMER, moved)]
        begun = self._step_that_began(boil)
        if begun:
            many.append((What.CORRECTS, {"entry": begun, "values": {"wall": wall}}))
        self._write_all(many)

    def _step_that_began(self, boil: int) -> str:
        """Return the id of the entry with which a boil began; "" where no step says so."""
        brewing, _ = self._open()
        for each in brewing.states:
            starts = each.step.starts
            if starts is not None and (starts.name, starts.boil) == ("boil", boil):
                return each.entry
        return ""

    def it_is(self, wall: float) -> None:
        """Say what time it is where both clocks changed, seconds since 1970."""
        self._write(What.CLOCK, **timer_moves.it_is(wall))

    def note_clocks(self) -> None:
        """Write both clocks down where that is wanted; asked every second while a brew is open."""
        now = self.now()
        if self.brewing is None or not any(t.running and not t.doubtful(now) for t in self.timers):
            return
        if clocks_to_note(self.brewing.entries[-1].at, now):
            self._write(What.CLOCK)
