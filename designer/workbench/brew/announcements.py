"""What the timers have to say now: each addition two minutes before, at its minute, and until it is
confirmed; the end of a boil, a steep, a stand and of a free timer.

It is worked out anew from how the timers stand, so after sleep or a restart everything that is due
is said, the latest first; whoever speaks keeps in mind what was said (`Announcement.said_once`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from designer.recipe.message import Message, say, word
from designer.translation import message
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.timers import TimerState

SOON_S = 120.0
LATE_S = 30.0
_MINUTE_S = 60.0
NAMES = {
    "boil": message("Boil"),
    "steep": message("Steep"),
    "stand": message("Hop stand"),
    "kept hot": message("Kept hot"),
    "free": message("Timer"),
}
"""What timers are called that have no name of their own."""
ASK = message("{name}: how much is left? The computer was off, and its clock may be wrong.")
SOON = message("In {time}: {name}.")
NOW = message("Now: {name}.")
LATE = message("{name}: {time} late. Put it in now.")
LATE_TO_DO = message("{name}: {time} late. Do it now.")

ENDS = {
    "boil": message("The boil is over. Burner off."),
    "steep": message("The steep is over. Lift the grain out."),
    "stand": message("The stand is over."),
    "kept hot": message("It was kept hot long enough."),
}


class When(StrEnum):
    """How an announcement stands to its minute."""

    SOON = "soon"
    NOW = "now"
    LATE = "late"
    OVER = "over"
    ASK = "ask"


@dataclass(frozen=True, slots=True)
class Addition:
    """What is done in a boil, with so many minutes left: the key of its step, and its name.

    `goes_in` tells that it is put into the pot, `ends` that the boil is over with it, so the end is
    not said beside it.
    """

    key: str
    name: str | Message
    left_min: float
    boil: int = 1
    mark: str = ""
    goes_in: bool = True
    ends: bool = False


@dataclass(frozen=True, slots=True)
class Announcement:
    """One thing to say. `addition` is the key of its step, "" for the end of a timer.

    `due_s` is how long ago its minute was, below 0 if that is still to come. `brew` is the uid of
    the brew where it is not the one that is shown.
    """

    timer: str
    addition: str
    when: When
    due_s: float
    words: Message
    brew: str = ""

    @property
    def said_once(self) -> tuple[str, str, str, str]:
        """What tells it from others: what is said late was said when it was due."""
        when = When.NOW if self.when is When.LATE else self.when
        return self.brew, self.timer, self.addition, when.value

    @property
    def until_confirmed(self) -> bool:
        """Whether it is said again and again until the brewer confirms it."""
        return self.when not in (When.SOON, When.ASK)


def of_brew(due: Iterable[Announcement], uid: str, name: str) -> tuple[Announcement, ...]:
    """Return announcements as those of another brew than the one that is shown, by its name."""
    return tuple(
        replace(
            each, brew=uid, words=say("of-brew", "{brew}: {words}", brew=name, words=each.words)
        )
        for each in due
    )


def in_order_of_saying(due: Iterable[Announcement]) -> tuple[Announcement, ...]:
    """Return announcements with what fell due last first; then what is due soon."""
    return tuple(sorted(due, key=lambda each: (each.due_s < 0, abs(each.due_s))))


def what_to_say(
    timers: Iterable[TimerState], additions: Iterable[Addition], now: Instant
) -> tuple[Announcement, ...]:
    """Return all that is due and not confirmed, what fell due last first; then what is due soon.

    A doubtful timer says nothing but that it has to be asked about.
    """
    additions = tuple(additions)
    found: list[Announcement] = []
    for timer in timers:
        if timer.ended:
            continue
        if timer.doubtful(now):
            words = say("ask-left", ASK, name=_name(timer))
            found.append(Announcement(timer.id, "", When.ASK, 0.0, words))
            continue
        its_own = [e for e in additions if timer.kind == "boil" and e.boil == timer.boil]
        found.extend(_of_additions(timer, its_own, now))
        if not any(each.ends for each in its_own):
            found.extend(_of_end(timer, now))
    return in_order_of_saying(found)


def goes_in_after_s(timer: TimerState, addition: Addition, now: Instant) -> float:
    """Return how long it is until an addition goes in, below 0 if it is late."""
    return timer.left_s(now) - _due_left_s(timer, addition)


def _due_left_s(timer: TimerState, addition: Addition) -> float:
    return min(addition.left_min * _MINUTE_S, timer.length_s)


def _of_additions(
    timer: TimerState, additions: Iterable[Addition], now: Instant
) -> Iterator[Announcement]:
    for each in additions:
        if each.key in timer.confirmed:
            continue
        due = -goes_in_after_s(timer, each, now)
        if due < -SOON_S or (not timer.running and due < 0):
            continue
        if due < 0:
            when, template = When.SOON, SOON
        elif due < LATE_S:
            when, template = When.NOW, NOW
        else:
            when, template = When.LATE, LATE if each.goes_in else LATE_TO_DO
        words = say(f"due-{when.value}", template, name=each.name, time=as_clock(-due))
        yield Announcement(timer.id, each.key, when, due, words)


def _name(timer: TimerState) -> str | Message:
    return timer.name or word(NAMES.get(timer.kind, NAMES["free"]))


def _of_end(timer: TimerState, now: Instant) -> Iterator[Announcement]:
    over = -timer.left_s(now)
    if over >= 0 and "" not in timer.confirmed:
        if timer.kind in ENDS:
            words = word(ENDS[timer.kind])
        else:
            words = say("timer-over", "{name}: time is up.", name=_name(timer))
        yield Announcement(timer.id, "", When.OVER, over, words)


def as_clock(left_s: float) -> str:
    """Return a time as a timer shows it, "2:42" or "60:00"; below 0, how late it is by now.

    From 100 minutes on it has hours, "1:40:00". What is left is rounded up, so that 0:00 is the
    minute itself; what is late is rounded down.
    """
    whole = math.ceil(left_s) if left_s > 0 else int(-left_s)
    minutes, seconds = divmod(whole, 60)
    if minutes < 100:
        return f"{minutes}:{seconds:02}"
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}"
