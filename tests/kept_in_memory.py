"""A brew's log kept in memory, for tests in which no disk has a part."""

from __future__ import annotations

import json

from designer.workbench.brew.entries_text import entry_of, plain


class InMemory:
    """Keeps entries as the lines that a disk would hold."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def begin(self, brew) -> None:
        pass

    def append(self, uid, *entries) -> None:
        self.lines += [json.dumps(plain(each)) for each in entries]

    def running(self, then, failed) -> None:
        pass

    def fermenting(self, then, failed) -> None:
        pass

    def entries(self):
        return [entry_of(json.loads(line)) for line in self.lines]
