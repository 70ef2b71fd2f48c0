"""What only the brewer knows of a timer: when it boiled, what is left, what time it is."""

from __future__ import annotations

from datetime import datetime, timedelta

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.brew.card_panel import CardPanel
from designer.window.brew.stove_texts import clock_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import FieldRefusedError, Refusal

EARLIER_MIN = (1, 2, 3, 5, 10)
LONGEST_LEFT_MIN = 24 * 60.0
_DAY = timedelta(days=1)
_NEAR = timedelta(hours=12)


def wall_of(text: str, near: float) -> float | None:
    """Return the instant at which clocks show a time such as 10:09, the nearest to another.

    None for what is no time of day.
    """
    hours, _, minutes = text.strip().replace(".", ":").partition(":")
    if not (hours.isdecimal() and minutes.isdecimal()):
        return None
    if int(hours) > 23 or int(minutes) > 59 or len(minutes) != 2:
        return None
    about = datetime.fromtimestamp(near)
    found = about.replace(hour=int(hours), minute=int(minutes), second=0, microsecond=0)
    if found - about > _NEAR:
        found -= _DAY
    elif about - found > _NEAR:
        found += _DAY
    return found.timestamp()


class TimeQuestion(CardPanel):
    """Asks for a time of day; `told` carries it, seconds since 1970."""

    told = Signal(float)

    def __init__(self, card: QWidget, label: str, carry_out: str, *, past: bool) -> None:
        super().__init__(card, "", label, carry_out)
        self._near, self._past = 0.0, past
        self.refusal = Refusal(self.field)

    def ask_near(self, title: str, near: float, offered: tuple[float, ...]) -> None:
        """Ask for a time about that one; the `offered` ones are taken by a tap."""
        self._near = near
        self.refusal.clear()
        self.offer([clock_text(each) for each in offered], self._take)
        self.ask(title)

    def _take(self, text: str) -> None:
        self.field.setText(text)
        self.carry_out()

    def carry_out(self) -> None:
        """Tell the time, or say what is amiss with it."""
        wall = wall_of(self.field.text(), self._near)
        if wall is None or (self._past and wall > self._near):
            why = tr("A time of day such as {time}", time=clock_text(self._near))
            if wall is not None:
                why = tr("That is still to come: it is {time}", time=clock_text(self._near))
            self.refusal.say(FieldRefusedError(self.field, why))
            self.field.setFocus()
            return
        self.put_away()
        self.told.emit(wall)


class BoiledAt(TimeQuestion):
    """When did it boil? The last minutes are offered."""

    def __init__(self, card: QWidget) -> None:
        super().__init__(card, tr("Time of day"), tr("It boiled then"), past=True)

    def ask_when(self, now_wall: float) -> None:
        """Ask when it boiled."""
        offered = tuple(now_wall - 60.0 * each for each in EARLIER_MIN)
        self.ask_near(tr("When did it boil?"), now_wall, offered)


class WhatTime(TimeQuestion):
    """What time is it? For clocks that do not agree."""

    def __init__(self, card: QWidget) -> None:
        super().__init__(card, tr("Time of day"), tr("It is that late"), past=False)

    def ask_time(self, now_wall: float) -> None:
        """Ask what time it is; the machine's own is offered."""
        title = tr(
            "The computer was off, and its clock may be wrong. It says {time}. What time is it?",
            time=clock_text(now_wall),
        )
        self.ask_near(title, now_wall, (now_wall,))


class WhatIsLeft(CardPanel):
    """How much is left of a timer? `told` carries its id and the minutes."""

    told = Signal(str, float)

    def __init__(self, card: QWidget, display: DisplayFormat) -> None:
        super().__init__(card, "", tr("Minutes left"), tr("So much is left"))
        self._display, self._timer = display, ""
        self.refusal = Refusal(self.field)

    def ask_left(self, timer: str, name: str) -> None:
        """Ask how much is left of a timer."""
        self._timer = timer
        self.refusal.clear()
        title = tr("{name}: how many minutes are left?", name=name)
        self.ask(title)

    def carry_out(self) -> None:
        """Tell what is left, or say what is amiss with it."""
        try:
            minutes = self._display.read(Kind.TIME, self.field.text()).value
            if not 0.0 <= minutes <= LONGEST_LEFT_MIN:
                raise FieldRefusedError(self.field, tr("From nothing up to a day: 12 min, 90 s"))
        except RefusedInputError as fault:
            self.refusal.say(FieldRefusedError(self.field, str(fault)))
            self.field.setFocus()
            return
        self.put_away()
        self.told.emit(self._timer, minutes)
