"""One change against tests in their order, in a process of its own, until one notices.

A change in the body of a function is put into a process forked off one that has loaded the
program and all tests of a package (`warm`). What loading works out is changed before anything is
loaded, in a process forked off one that knows only the packages below. Nothing is written to the
code, so several are tried at once. Commands that a test starts as programs of their own run
unchanged.

All times are those of the processor. A test hangs that takes far more than it took unchanged.
"""

import gc
import importlib
import importlib.machinery
import os
import select
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FunctionType

import pytest
from _pytest.runner import runtestprotocol

from tests.mutation.changes import Change, changed
from tests.mutation.reached import Seen

HANGS_S = 30.0
HANGS_TIMES = 10.0
"""A test hangs that takes more than so many seconds and so many times what it took unchanged."""
STARTS_S = 60.0
"""What loading and collecting may take before the first test."""
TEST_WAITS_S = 600.0
"""Seconds of the clock: one that waits for ever takes nothing of the processor."""
LOADED_BEFORE = ("-W", "ignore::pytest.PytestAssertRewriteWarning")
"""Plugins are loaded before the fork: their own assertions need not be told in full."""
NOT_WARM = 77
"""How a process ends into which a change cannot be put, since the module has to be loaded anew."""
ALL_PASSED, SOME_FAILED = 0, 1


@dataclass(frozen=True)
class Fate:
    """What became of a change: "killed", "hung", "survived", "not reached" or "not warm"."""

    what: str
    by: str = ""
    """The test that noticed it, or that hung."""

    @property
    def noticed(self) -> bool:
        """Whether a test failed or never ended."""
        return self.what in ("killed", "hung")


class OnlyThese:
    """Runs some tests in a given order, up to the first that fails, and tells a pipe of each."""

    def __init__(self, tests: Sequence[Seen], pipe: int) -> None:
        self._order = {each.test: number for number, each in enumerate(tests)}
        self._pipe = pipe

    def run(self, collected: Sequence[pytest.Item]) -> int:
        """Run them; return whether all passed."""
        items = [each for each in collected if each.nodeid in self._order]
        items.sort(key=lambda each: self._order[each.nodeid])
        for item, following in zip(items, [*items[1:], None], strict=True):
            os.write(self._pipe, f"{self._order[item.nodeid]}\n".encode())
            if any(each.failed for each in runtestprotocol(item, log=False, nextitem=following)):
                return SOME_FAILED
        return ALL_PASSED

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run what was collected in a process of its own."""
        if session.testsfailed:
            os._exit(SOME_FAILED)
        os._exit(self.run(session.items))


def fate_warm(
    module: Path, change: Change | None, tests: Sequence[Seen], collected: Sequence[pytest.Item]
) -> Fate:
    """Return what becomes of a change in a function, in a copy of this process."""

    def be_tried(pipe: int) -> int:
        gc.unfreeze()
        if change is not None and not _put_in(module, change):
            return NOT_WARM
        return OnlyThese(tests, pipe).run(collected)

    return _fate(be_tried, tests)


def fate_cold(module: Path, change: Change, tests: Sequence[Seen], here: Path) -> Fate:
    """Return what becomes of a change that is made before the module is loaded."""

    def be_tried(pipe: int) -> int:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        _load_changed(module, change)
        if module.name.startswith("test_"):  # else pytest loads it by itself, as a file of tests
            importlib.import_module(".".join(module.relative_to(here).with_suffix("").parts))
        files = list(dict.fromkeys(str(here / each.test.partition("::")[0]) for each in tests))
        words = ["-x", "-q", "-p", "no:cacheprovider", *LOADED_BEFORE, *files]
        pytest.main(words, plugins=[OnlyThese(tests, pipe)])
        return SOME_FAILED  # A module that cannot be loaded any more: no test was begun.

    return _fate(be_tried, tests)


def _fate(be_tried: Callable[[int], int], tests: Sequence[Seen]) -> Fate:
    if not tests:
        return Fate("not reached")
    reading, writing = os.pipe()
    own = Path(tempfile.mkdtemp(prefix="hobwort-mutation-"))
    child = os.fork()
    if not child:
        status = SOME_FAILED
        try:
            os.close(reading)
            for name in ("HOBWORT_SETTINGS", "HOBWORT_STORE"):
                (own / name).mkdir()
                os.environ[name] = str(own / name)
            status = be_tried(writing)
        finally:
            os._exit(status)
    os.close(writing)
    try:
        return _watched(child, reading, tests)
    finally:
        os.close(reading)
        shutil.rmtree(own, ignore_errors=True)


def _watched(child: int, reading: int, tests: Sequence[Seen]) -> Fate:
    test: Seen | None = None
    began_s, last_seen = 0.0, time.monotonic()
    while True:
        ready, _, _ = select.select([reading], [], [], 0.5)
        used_s = _processor_s(child)
        if ready:
            said = os.read(reading, 4096).split()
            began_s, last_seen = used_s, time.monotonic()
            if not said:
                return _ended_by_itself(child, test)
            test = tests[int(said[-1])]
        allowed_s = max(HANGS_S, HANGS_TIMES * test.seconds) if test else STARTS_S
        if used_s - began_s > allowed_s or time.monotonic() - last_seen > TEST_WAITS_S:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            return Fate("hung", test.test if test else "loading")


def _processor_s(child: int) -> float:
    """Return what a process and those that it waited for have used, whatever else is running."""
    after_name = Path(f"/proc/{child}/stat").read_text("utf-8").rpartition(")")[2].split()
    return sum(map(int, after_name[11:15])) / os.sysconf("SC_CLK_TCK")


def _ended_by_itself(child: int, test: Seen | None) -> Fate:
    _, status = os.waitpid(child, 0)
    code = os.waitstatus_to_exitcode(status)
    if code == ALL_PASSED:
        return Fate("survived")
    if code == NOT_WARM:
        return Fate("not warm")
    return Fate("killed", test.test if test else "loading")


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield from _codes(each)


def _put_in(module: Path, change: Change) -> bool:
    """Give the functions of a loaded module their changed code; return whether any could be."""
    made = compile(changed(module.read_text("utf-8"), change), str(module), "exec")
    codes = {(each.co_qualname, each.co_firstlineno): each for each in _codes(made)}
    found = False
    for each in gc.get_objects():
        if isinstance(each, FunctionType) and each.__code__.co_filename == str(module):
            other = codes.get((each.__code__.co_qualname, each.__code__.co_firstlineno))
            if other is None or other.co_freevars != each.__code__.co_freevars:
                return False
            found = found or other != each.__code__
            each.__code__ = other
    return found


def _load_changed(module: Path, change: Change) -> None:
    plain = importlib.machinery.SourceFileLoader.get_code
    code = compile(changed(module.read_text("utf-8"), change), str(module), "exec")

    def get_code(self: importlib.machinery.SourceFileLoader, fullname: str) -> CodeType | None:
        return code if Path(self.path) == module else plain(self, fullname)

    importlib.machinery.SourceFileLoader.get_code = get_code  # type: ignore[method-assign]
    assert not any(
        getattr(each, "__file__", None) == str(module) for each in list(sys.modules.values())
    )
