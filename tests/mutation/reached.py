"""Which lines each test runs, and what it takes of the processor: looked at once, unchanged.

Kept below the folder for temporary files until the program or the file of tests is changed.
"""

import functools
import hashlib
import json
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FrameType

OPTIMISED = 0x1
"""Flag of the code of a function, which that of a module or a class lacks."""


@dataclass(frozen=True)
class Seen:
    """What was seen of one test that passes: seconds of the processor, lines of modules."""

    test: str
    seconds: float
    lines: dict[str, set[int]]


class Looking:
    """Looks at the lines of some modules that are run from one test to the next."""

    def __init__(self, modules: Iterable[Path]) -> None:
        self._paths = {str(each) for each in modules}
        self._lines: dict[str, set[int]] = {}
        self._unseen: dict[CodeType, set[int]] = {}
        self._began = 0.0

    def begin(self) -> None:
        """Look from here on."""
        self._lines, self._unseen = {}, {}
        self._began = time.process_time()
        threading.settrace(self._called)
        sys.settrace(self._called)

    def end(self, test: str) -> Seen:
        """Look no more, and return what was seen."""
        sys.settrace(None)
        threading.settrace(None)  # type: ignore[arg-type]
        return Seen(test, time.process_time() - self._began, self._lines)

    def _called(
        self, frame: FrameType, event: str, arg: object
    ) -> Callable[[FrameType, str, object], object] | None:
        code = frame.f_code
        if code.co_filename not in self._paths or not code.co_flags & OPTIMISED:
            return None
        unseen = self._unseen.get(code)
        if unseen is None:
            unseen = self._unseen[code] = {line for _, _, line in code.co_lines() if line}
        if not unseen:
            return None
        seen = self._lines.setdefault(code.co_filename, set())

        def line(frame: FrameType, event: str, arg: object) -> object:
            seen.add(frame.f_lineno)
            unseen.discard(frame.f_lineno)
            return line

        line(frame, event, arg)
        return line


@functools.cache
def _program(here: Path) -> bytes:
    files = [*sorted((here / "designer").rglob("*.py")), *sorted((here / "tests").rglob("*.py"))]
    told = hashlib.sha256()
    for each in files:
        is_test = each.name.startswith("test_") and each.is_relative_to(here / "tests")
        if not is_test and each.parent.name != "mutation":
            told.update(each.read_bytes())
    return told.digest()


def kept_at(here: Path, package: str, tests: Path) -> Path:
    """Return the file in which is kept what was seen of a file of tests."""
    told = hashlib.sha256(_program(here) + tests.read_bytes() + str(tests).encode())
    folder = Path(tempfile.gettempdir()) / "hobwort-mutation"
    folder.mkdir(exist_ok=True)
    return folder / f"{package}-{tests.stem}-{told.hexdigest()[:20]}.json"


def keep(file: Path, seen: Iterable[Seen]) -> None:
    """Keep what was seen of a file of tests."""
    rows = [
        [each.test, each.seconds, {path: sorted(lines) for path, lines in each.lines.items()}]
        for each in seen
    ]
    file.write_text(json.dumps(rows), "utf-8")


def kept(file: Path) -> list[Seen]:
    """Return what is kept of a file of tests."""
    rows = json.loads(file.read_text("utf-8"))
    return [Seen(test, s, {path: set(ls) for path, ls in lines.items()}) for test, s, lines in rows]
