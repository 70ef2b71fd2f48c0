"""Which tests are tried for a change, and in what order: those that come to it, quick ones first.

Tests of a file that noticed changes of the same module before come sooner. A constant is first
looked at by files that import its module, for many tests come to it and few tell it. After the
tests that come to the change stand the other ones of their files, which may look at what was worked
out and kept.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable
from pathlib import Path

from tests.mutation.places import Place
from tests.mutation.reached import Seen


def file_of(test: str) -> str:
    """Return the file of a test."""
    return test.partition("::")[0]


class Nearest:
    """Orders the tests of a package for each change."""

    def __init__(self, seen: Iterable[Seen], here: Path) -> None:
        self._here = here
        self._by_file: dict[str, list[Seen]] = defaultdict(list)
        for each in seen:
            self._by_file[file_of(each.test)].append(each)
        self._noticed: Counter[tuple[Path, str]] = Counter()

    def noticed(self, module: Path, test: str) -> None:
        """Remember that a file of tests noticed a change of a module."""
        self._noticed[module, file_of(test)] += 1

    def tests_for(self, module: Path, place: Place) -> list[Seen]:
        """Return the tests that can notice a change, in the order in which they are tried."""

        def soon(test: Seen) -> float:
            return test.seconds / (1 + self._noticed[module, file_of(test.test)])

        looking, coming, others = [], [], []
        for file, tests in self._by_file.items():
            there = [each for each in tests if _comes_to(each, place)]
            if not place.in_function and imports(self._here / file, module, self._here):
                looking += tests  # one may look at a constant and run no line
            elif there:
                coming += there
                others += [each for each in tests if each not in there]
        return [each for some in (looking, coming, others) for each in sorted(some, key=soon)]


def _comes_to(test: Seen, place: Place) -> bool:
    return any(not lines.isdisjoint(test.lines.get(path, ())) for path, lines in place.lines)


def imports(tests: Path, module: Path, here: Path) -> bool:
    """Return whether a file of tests is named like a module, or imports it or its package."""
    name = re.escape(".".join(module.relative_to(here).with_suffix("").parts))
    package = name.rpartition(r"\.")[0]
    above, _, last = package.rpartition(r"\.")
    stem = re.escape(module.stem)
    found = (
        rf"from {name} import|from {package} import .*\b{stem}\b|from {above} import .*\b{last}\b"
    )
    return tests.stem == f"test_{module.stem}" or bool(re.search(found, tests.read_text("utf-8")))
