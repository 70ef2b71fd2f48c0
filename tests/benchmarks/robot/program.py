"""The program as a process of its own, and the line to the agent within it."""

from __future__ import annotations

import ctypes
import json
import os
import select
import signal
import socket
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.benchmarks.robot import TOP

AGENT = Path(__file__).parent / "within" / "agent.py"
LONGEST_ANSWER_S = 15.0
NO_DISPLAY = "This plugin does not support"
"""Qt's own words where it draws without a display."""
_DROP_FROM_BOUND, _MAY_WRITE_ANYWHERE, _MAY_READ_ANYWHERE = 24, 1, 2


class EndedError(Exception):
    """The program's process has ended."""


class SilentError(Exception):
    """The program did not answer for longer than any brewer waits."""


@dataclass
class Answers:
    """How long the window took to answer, over a whole run."""

    worst_s: float = 0.0
    worst_what: str = ""
    slow: list[str] = field(default_factory=list)
    stuck: list[str] = field(default_factory=list)
    late: list[tuple[float, float]] = field(default_factory=list)

    def machine_late(self) -> float:
        """How far behind the machine was of late, in seconds."""
        since = time.monotonic() - 6.0
        return max((wall for at, wall in self.late if at > since), default=0.0)

    def note(self, own_s: float, wall_s: float, what: str, limit_s: float) -> None:
        """Note one answer: what the window took of its own doing, and by the clock."""
        self.late.append((time.monotonic(), wall_s))
        if own_s > self.worst_s:
            self.worst_s, self.worst_what = own_s, what
        if own_s > limit_s:
            self.slow.append(f"{own_s:.2f} s ({wall_s:.2f} s by the clock) after {what}")


def _bound_by_rights() -> None:
    """Let a program started by root meet folders that may not be written, as everyone does."""
    if os.geteuid() == 0:
        libc = ctypes.CDLL(None)
        for right in (_MAY_WRITE_ANYWHERE, _MAY_READ_ANYWHERE):
            libc.prctl(_DROP_FROM_BOUND, right, 0, 0, 0)


class Program:
    """One start of the program. `shown_at` is when its window was seen."""

    def __init__(
        self,
        folder: Path,
        answers: Answers,
        options: dict[str, Any],
        arguments: tuple[str, ...] = (),
        limit_s: float = 1.0,
    ) -> None:
        self._answers, self._limit_s = answers, limit_s
        self._count, self._rest = 0, b""
        self._replies: dict[int, dict[str, Any]] = {}
        self._asked: dict[int, str] = {}
        self.shown_at = 0.0
        self._last = "the start"
        mine, its = socket.socketpair()
        self._socket = mine
        self._errors = folder / "stderr.txt"
        environment = {
            **os.environ,
            "QT_QPA_PLATFORM": os.environ.get("ROBOT_PLATFORM", "offscreen"),
            "HOBWORT_STORE": str(folder / "disk" / "box"),
            "HOBWORT_SETTINGS": str(folder / "settings"),
            "HOME": str(folder / "home"),
            "TMPDIR": str(folder / "temporary"),
            "XDG_RUNTIME_DIR": str(folder / "runtime"),
            "LC_ALL": "C.UTF-8",
            "PYTHONPATH": os.environ.get("ROBOT_PROGRAM", str(TOP)),
            "ROBOT_SOCKET": str(its.fileno()),
            "ROBOT_OPTIONS": json.dumps(options),
        }
        with self._errors.open("wb") as errors:
            self.process = subprocess.Popen(
                [sys.executable, str(AGENT), *arguments],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=errors,
                env=environment,
                cwd=folder,
                pass_fds=[its.fileno()],
                preexec_fn=_bound_by_rights,
            )
        its.close()

    # the line

    def send(self, do: str, **more: Any) -> int:
        """Send a command and do not wait for its answer."""
        self._count += 1
        self._asked[self._count] = f"{do} {more}"
        if do not in ("look", "document", "page", "where"):
            self._last = self._asked[self._count]
        raw = json.dumps({"id": self._count, "do": do, **more}) + "\n"
        try:
            self._socket.sendall(raw.encode())
        except OSError:
            raise EndedError from None
        return self._count

    def wait(self, number: int, timeout_s: float = LONGEST_ANSWER_S) -> dict[str, Any]:
        """Return the answer to a command. Raises EndedError and SilentError."""
        end = time.monotonic() + timeout_s
        while number not in self._replies:
            left = end - time.monotonic()
            if left <= 0:
                raise SilentError(f"no answer to {self._asked.get(number)} in {timeout_s:.0f} s")
            self.hear(min(left, 0.2))
        return self._replies.pop(number)

    def ask(self, do: str, timeout_s: float = LONGEST_ANSWER_S, **more: Any) -> dict[str, Any]:
        """Send a command and return its answer."""
        return self.wait(self.send(do, **more), timeout_s)

    def hear(self, timeout_s: float) -> None:
        """Take what the agent says within a time. Raises EndedError."""
        ready, _, _ = select.select([self._socket], [], [], timeout_s)
        if not ready:
            return
        try:
            raw = self._socket.recv(1 << 16)
        except OSError:
            raw = b""
        if not raw:
            raise EndedError
        *lines, self._rest = (self._rest + raw).split(b"\n")
        for each in lines:
            self._take(json.loads(each))

    def _take(self, message: dict[str, Any]) -> None:
        if "shown" in message:
            self.shown_at = time.monotonic()
        elif "late" in message:
            self._answers.note(message["late"], message["wall"], self._last, self._limit_s)
        elif "stuck" in message:
            self._answers.stuck.append(message["stuck"])
        else:
            self._asked.pop(message["id"], None)
            self._replies[message["id"]] = message

    def sleep(self, seconds: float) -> None:
        """Let time pass, and listen."""
        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            self.hear(left)

    # its life

    def wait_shown(self, timeout_s: float = 60.0) -> None:
        """Wait until the window is seen. Raises EndedError and SilentError."""
        end = time.monotonic() + timeout_s
        while not self.shown_at:
            if time.monotonic() > end:
                raise SilentError("the window was not seen")
            self.hear(0.1)

    @property
    def ended(self) -> bool:
        """Whether the process has ended."""
        return self.process.poll() is not None

    def wait_ended(self, timeout_s: float) -> bool:
        """Return whether the process ended within a time."""
        end = time.monotonic() + timeout_s
        while time.monotonic() < end:
            try:
                self.hear(0.05)
            except EndedError:
                try:
                    self.process.wait(5)
                except subprocess.TimeoutExpired:
                    return False
                break
        return self.ended

    def kill(self) -> None:
        """Kill it at once, as a crash would."""
        if not self.ended:
            self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        self._socket.close()

    def errors(self) -> str:
        """Return what it has written to stderr so far."""
        text = self._errors.read_text(encoding="utf-8", errors="replace")
        lines = text.splitlines(keepends=True)
        return "".join(each for each in lines if not each.startswith(NO_DISPLAY))
