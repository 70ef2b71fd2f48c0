"""Errors a brewer may read."""

from __future__ import annotations


class DesignerError(Exception):
    """The world said no (a disk, a file, a printer); `str(error)` can be shown as it stands."""


class RefusedInputError(DesignerError):
    """What was typed or read cannot be taken.

    `problems` holds one line for each fault: the place, what was found and what would be accepted.
    """

    def __init__(self, problems: list[str] | str) -> None:
        self.problems: tuple[str, ...] = (
            (problems,) if isinstance(problems, str) else tuple(problems)
        )
        super().__init__("\n".join(self.problems))
