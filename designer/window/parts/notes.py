"""The notes of one owner beside its fields or cells, and what they ask.

What draws a note and finds another reading is loaded when the first is wanted: no start needs it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect
from PySide6.QtWidgets import QWidget

from designer.translation import tr

if TYPE_CHECKING:
    from designer.window.parts.beside_field import BesideField, Ways
    from designer.window.parts.doubtful_number import Other


class Notes:
    """What `owner` says beside places; a window shows one note at a time, the last."""

    def __init__(self, owner: object) -> None:
        self._owner = owner

    def say(
        self,
        place: QWidget,
        text: str,
        *,
        rect: QRect | None = None,
        refused: bool = False,
        ways: Ways = (),
        lingers: bool = False,
    ) -> None:
        """Show a note beside a widget, or a part of it; one that `lingers` goes by itself."""
        from designer.window.parts.beside_field import say_beside

        note = say_beside(place, text, rect=rect, refused=refused, ways=ways, owner=self._owner)
        if lingers:
            note.linger()

    def ask(
        self,
        place: QWidget,
        other: Other,
        take: Callable[[], None],
        keep: Callable[[], None],
        *,
        rect: QRect | None = None,
    ) -> None:
        """Ask beside a widget whether another reading was meant, which `take` puts in."""
        from designer.window.parts.doubtful_number import ask

        ask(place, other, take, keep, rect=rect, owner=self._owner)

    def of(self, place: QWidget | None) -> BesideField | None:
        """Return the note of the window that a widget is in, if it is this owner's."""
        from designer.window.parts.beside_field import note_of

        note = note_of(place) if place is not None else None
        return note if note is not None and note.owner is self._owner else None

    def linger(self, place: QWidget | None) -> None:
        """Have the note go once it could be read: its field was left."""
        if (note := self.of(place)) is not None:
            note.linger()

    def withdraw(self, place: QWidget | None) -> None:
        """Take the note away: what it says is no longer so."""
        if (note := self.of(place)) is not None:
            note.put_away()


def ways_of(other: Other | None, put: Callable[[str], None]) -> Ways:
    """Return the button that a refusal offers where another reading would be taken."""
    if other is None:
        return ()
    return ((tr("Make it {amount}", amount=other.meant), lambda: put(other.text)),)
