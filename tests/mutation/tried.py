"""One changed module against the tests nearest to it, in a process of its own.

The process is forked off one that has loaded pytest and numpy but nothing of the program, and
loads the changed module instead of the file: nothing is written, so several are tried at once.
Commands that a test starts as programs of their own run unchanged.
"""

import importlib.machinery
import os
import select
import signal
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from types import CodeType

import pytest

from tests.mutation.changes import Change, changed

TEST_HANGS_S = 60.0
"""Seconds of the processor, more than any test nearby takes."""
TEST_WAITS_S = 600.0
"""Seconds of the clock: one that waits for ever takes nothing of the processor."""


LOADED_BEFORE = ("-W", "ignore::pytest.PytestAssertRewriteWarning")
"""Plugins are loaded before the fork: their own assertions need not be told in full."""
FAILED = (pytest.ExitCode.TESTS_FAILED, pytest.ExitCode.INTERRUPTED)
"""Interrupted is what a module that cannot be loaded any more makes of it."""


class _Beats:
    """Tells the parent as each test begins."""

    def __init__(self, pipe: int) -> None:
        self._pipe = pipe

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        os.write(self._pipe, b".")

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            os.write(self._pipe, b"F")


def fate(module: Path, change: Change | None, tests: Sequence[str], limit_s: float) -> str:
    """Return "killed", "hung" or "survived"; "not all tried" where time ran out before."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        os.close(reading)
        _be_tried(module, change, tests, writing)
    os.close(writing)
    try:
        return _watched(child, reading, limit_s)
    finally:
        os.close(reading)


def _watched(child: int, reading: int, limit_s: float) -> str:
    last_s, last_seen = 0.0, time.monotonic()
    while True:
        ready, _, _ = select.select([reading], [], [], 0.5)
        used_s = _processor_s(child)
        if ready:
            said = os.read(reading, 4096)
            last_s, last_seen = used_s, time.monotonic()
            if not said:
                return _ended_by_itself(child)
            if b"F" in said:
                return _ended(child, "killed")
        if used_s - last_s > TEST_HANGS_S or time.monotonic() - last_seen > TEST_WAITS_S:
            return _ended(child, "hung")
        if used_s > limit_s:
            return _ended(child, "not all tried")


def _processor_s(child: int) -> float:
    """Return what a process and those that it waited for have used, whatever else is running."""
    after_name = Path(f"/proc/{child}/stat").read_text("utf-8").rpartition(")")[2].split()
    return sum(map(int, after_name[11:15])) / os.sysconf("SC_CLK_TCK")


def _ended_by_itself(child: int) -> str:
    _, status = os.waitpid(child, 0)
    code = os.waitstatus_to_exitcode(status)
    if code in FAILED or code < 0:
        return "killed"
    if code:
        raise RuntimeError(f"pytest ended with {code}")
    return "survived"


def _ended(child: int, why: str) -> str:
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return why


def _be_tried(module: Path, change: Change | None, tests: Sequence[str], pipe: int) -> None:
    status = int(pytest.ExitCode.INTERNAL_ERROR)
    try:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        if change is not None:
            _load_changed(module, change)
        words = ["-x", "-q", "-p", "no:cacheprovider", *LOADED_BEFORE, *tests]
        status = int(pytest.main(words, plugins=[_Beats(pipe)]))
    finally:
        os._exit(status)


def _load_changed(module: Path, change: Change) -> None:
    plain = importlib.machinery.SourceFileLoader.get_code
    code = compile(changed(module.read_text("utf-8"), change), str(module), "exec")

    def get_code(self: importlib.machinery.SourceFileLoader, fullname: str) -> CodeType | None:
        return code if Path(self.path) == module else plain(self, fullname)

    importlib.machinery.SourceFileLoader.get_code = get_code  # type: ignore[method-assign]
    assert not any(name.startswith("designer") for name in sys.modules)
