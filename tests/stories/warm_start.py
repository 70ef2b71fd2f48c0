"""Programs that are begun in copies of a process which has already loaded all that they load.

Half of what a start takes is Python's reading of some seven hundred modules. `begin` has that done
once, by a process that makes nothing else: no application, no thread, nothing that reads the
environment. For each start it forks, the copy takes over streams, environment and words, and from
its first line on it is the program: it ends as Python ends, is killed and waited for by its number.

A start is that of a new Python wherever there is no Linux; where what Python itself reads at its
start is asked to differ; and where lines are counted (`coverage`).
"""

from __future__ import annotations

import atexit
import gc
import importlib
import json
import os
import pkgutil
import select
import signal
import socket
import subprocess
import sys
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import IO, Any

READ_BEFORE = ("LANG", "LANGUAGE", "LC_", "TZ", "TMPDIR", "PYTHON", "LD_", "OPENBLAS_")
"""How variables begin that are read before the first line of a program, or as it is loaded."""
LOADED_WHEN_ASKED = (
    "numpy",
    "platformdirs",
    "sqlite3",
    "sqlite_utils",
    "PySide6.QtTest",
    "PySide6.QtPrintSupport",
)
"""What no module of the program imports before it is wanted, and most starts want."""
WAITS = "from tests.stories.warm_start import taken_over; exec(taken_over({end}))"
LONGEST = 1 << 18


def begin(
    code: str, words: Sequence[str], environment: Mapping[str, str], cwd: Path, stderr: IO[Any]
) -> subprocess.Popen[bytes] | Copy:
    """Run code as `python -c` does, with pipes for its input and its output."""
    if _can_be_copied(environment):
        return Copy(code, words, environment, cwd, stderr)
    return begin_anew(code, words, environment, cwd, stderr)


def begin_anew(
    code: str, words: Sequence[str], environment: Mapping[str, str], cwd: Path, stderr: IO[Any]
) -> subprocess.Popen[bytes]:
    """Do the same in a Python of its own."""
    return subprocess.Popen(
        [sys.executable, "-c", code, *words],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=stderr,
        env=environment,
        cwd=cwd,
    )


def _can_be_copied(environment: Mapping[str, str]) -> bool:
    def read_before(variables: Mapping[str, str]) -> dict[str, str]:
        return {name: each for name, each in variables.items() if name.startswith(READ_BEFORE)}

    if sys.platform != "linux" or not hasattr(os, "pidfd_open"):
        return False
    if any(name.startswith("COVERAGE_") for name in environment) or sys.gettrace() is not None:
        return False
    return read_before(environment) == read_before(_environment_of_loaded())


def _environment_of_loaded() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}


class Copy:
    """One start, as `subprocess.Popen` shows it."""

    def __init__(
        self,
        code: str,
        words: Sequence[str],
        environment: Mapping[str, str],
        cwd: Path,
        stderr: IO[Any],
    ) -> None:
        asked = {"code": code, "words": [*words], "environment": {**environment}, "cwd": str(cwd)}
        reads, into = os.pipe()
        out, writes = os.pipe()
        self._told, tells = os.pipe()
        server = _loaded()
        socket.send_fds(
            server, [json.dumps(asked).encode()], [reads, writes, stderr.fileno(), tells]
        )
        for each in (reads, writes, tells):
            os.close(each)
        self.pid = int(server.recv(64))
        self.returncode: int | None = None
        self.stdin: IO[bytes] = os.fdopen(into, "wb")
        self.stdout: IO[bytes] = os.fdopen(out, "rb")

    def poll(self) -> int | None:
        """Return how it ended, or None as long as it has not."""
        return self._ended(0.0)

    def wait(self, timeout: float | None = None) -> int:
        """Return how it ended, once it has."""
        code = self._ended(timeout)
        if code is None:
            raise subprocess.TimeoutExpired(f"process {self.pid}", timeout or 0.0)
        return code

    def send_signal(self, number: int) -> None:
        """Send it a signal, if it has not ended."""
        if self.poll() is None:
            os.kill(self.pid, number)

    def kill(self) -> None:
        """End it as a crash would."""
        self.send_signal(signal.SIGKILL)

    def _ended(self, within_s: float | None) -> int | None:
        if self.returncode is None and select.select([self._told], [], [], within_s)[0]:
            self.returncode = int(os.read(self._told, 64))
            os.close(self._told)
        return self.returncode


@cache
def _loaded() -> socket.socket:
    """Return the way to the process that has loaded everything, begun when it is first asked."""
    here, there = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
    with there:
        process = subprocess.Popen(
            [sys.executable, "-c", WAITS.format(end=there.fileno())],
            pass_fds=[there.fileno()],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            env={**_environment_of_loaded(), "OPENBLAS_NUM_THREADS": "1"},
        )

    def end() -> None:
        here.close()
        process.wait()

    atexit.register(end)
    return here


# What follows runs in the process that has loaded everything.


def taken_over(end: int) -> str:
    """Return the code that a copy of this process has to run, in that copy; never return here."""
    _load()
    threads = [*Path("/proc/self/task").iterdir()]
    assert len(threads) == 1, "a copy would lack the threads of this process"
    server = socket.socket(fileno=end)
    running: dict[int, tuple[int, int]] = {}
    try:
        while True:
            for ready in select.select([server, *running], [], [])[0]:
                if ready is not server:
                    _tell_of_end(*running.pop(ready))
                    os.close(ready)
                    continue
                said, streams, _, _ = socket.recv_fds(server, LONGEST, 4)
                if not said:
                    os._exit(0)  # The tests are over.
                pid = os.fork()
                if not pid:
                    return _as_asked(json.loads(said), streams)
                running[os.pidfd_open(pid)] = (pid, streams.pop())
                for each in streams:
                    os.close(each)
                server.send(str(pid).encode())
    except KeyboardInterrupt:
        os._exit(130)


def _load() -> None:
    import designer

    for each in pkgutil.walk_packages(designer.__path__, "designer."):
        if not each.name.endswith("__main__"):
            importlib.import_module(each.name)
    for name in LOADED_WHEN_ASKED:
        importlib.import_module(name)
    gc.collect()
    gc.freeze()


def _tell_of_end(pid: int, telling: int) -> None:
    _, status = os.waitpid(pid, 0)
    os.write(telling, str(os.waitstatus_to_exitcode(status)).encode())
    os.close(telling)


def _as_asked(asked: dict[str, Any], streams: list[int]) -> str:
    for number, each in enumerate(streams[:3]):
        os.dup2(each, number)
    os.closerange(3, 1024)
    os.chdir(asked["cwd"])
    os.environ.clear()
    os.environ.update(asked["environment"])
    sys.argv[1:] = asked["words"]
    return str(asked["code"])
