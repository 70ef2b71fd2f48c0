"""A brew's log kept in memory, for tests in which no disk has a part."""

from __future__ import annotations

from designer.workbench.brew.entries_text import as_line, entry_of_line


class InMemory:
    """Keeps entries as the lines that a disk would hold."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def begin(self, brew) -> None:
        pass

    def append(self, uid, *entries) -> None:
        self.lines += map(as_line, entries)

    def running(self, then, failed) -> None:
        pass

    def fermenting(self, then, failed) -> None:
        pass

    def entries(self):
        return [entry_of_line(line) for line in self.lines]
