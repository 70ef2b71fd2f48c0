"""Which tests are tried for a change, and in what order: those that come to it, quick ones first.

Files that noticed changes of the same module before come sooner. After the tests that come to the
change stand the other ones of their files, which may look at what was worked out and kept.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
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
        coming: dict[str, list[Seen]] = {}
        for file, tests in self._by_file.items():
            if there := [each for each in tests if _comes_to(each, place)]:
                coming[file] = there
        if not place.in_function:
            for file, tests in self._by_file.items():
                if file not in coming and imports(self._here / file, module, self._here):
                    coming[file] = tests
        order = sorted(
            coming,
            key=lambda file: (
                sum(each.seconds for each in coming[file]) / (1 + self._noticed[module, file])
            ),
        )
        first = [each for file in order for each in _quick_first(coming[file])]
        chosen = {each.test for each in first}
        rest = [
            each
            for file in order
            for each in _quick_first(self._by_file[file])
            if each.test not in chosen
        ]
        return first + rest


def _quick_first(tests: Sequence[Seen]) -> list[Seen]:
    return sorted(tests, key=lambda each: each.seconds)


def _comes_to(test: Seen, place: Place) -> bool:
    return any(not lines.isdisjoint(test.lines.get(path, ())) for path, lines in place.lines)


def imports(tests: Path, module: Path, here: Path) -> bool:
    """Return whether a file of tests is named like a module, or imports it."""
    name = re.escape(".".join(module.relative_to(here).with_suffix("").parts))
    package = name.rpartition(r"\.")[0]
    stem = re.escape(module.stem)
    found = rf"from {name} import|from {package} import .*\b{stem}\b"
    return tests.stem == f"test_{module.stem}" or bool(re.search(found, tests.read_text("utf-8")))
