"""Errors a brewer may read: each is made of words, or of messages that become words when shown."""

from __future__ import annotations


class DesignerError(Exception):
    """The world said no (a disk, a file, a printer); `str(error)` can be shown as it stands."""


class RefusedInputError(DesignerError):
    """What was typed or read cannot be taken.

    `messages` holds one for each fault: the place, what was found and what would be accepted.
    """

    def __init__(self, messages: list[object] | list[str] | object) -> None:
        self.messages = tuple(messages) if isinstance(messages, list) else (messages,)
        super().__init__(*self.messages)

    @property
    def problems(self) -> tuple[str, ...]:
        """The messages in words, a line for each."""
        return tuple(str(each) for each in self.messages)

    def __str__(self) -> str:
        return "\n".join(self.problems)
