"""The line from the program to the robot, and the watch over the window's thread."""

from __future__ import annotations

import json
import os
import select
import socket
import threading
import time
from pathlib import Path
from typing import Any


class Line:
    """The line to the robot; both threads write to it."""

    def __init__(self, number: int) -> None:
        self._socket = socket.socket(fileno=number)
        self._lock = threading.Lock()
        self._rest = b""

    def say(self, message: dict[str, Any]) -> None:
        """Send a message; a robot that is gone is no concern of the program."""
        raw = (json.dumps(message) + "\n").encode()
        try:
            with self._lock:
                self._socket.sendall(raw)
        except OSError:
            return

    def read(self) -> bytes | None:
        """Return the next line that the robot says; None if it is silent, b"" if it is gone."""
        if b"\n" not in self._rest:
            if not select.select([self._socket], [], [], 0.1)[0]:
                return None
            try:
                more = self._socket.recv(1 << 16)
            except OSError:
                more = b""
            if not more:
                return b""
            self._rest += more
        line, found, self._rest = self._rest.partition(b"\n")
        if not found:
            self._rest = line
            return None
        return line


class Watch:
    """How long a thread keeps others waiting, by its own doing.

    What it works and what it waits for is its own; that the machine had no core for it is not.
    """

    def __init__(self, thread: int) -> None:
        self._stat = Path(f"/proc/self/task/{thread}/stat")
        self._began = self._last = time.monotonic()
        self._worked = self._read()[1]
        self._waited = 0.0

    def _read(self) -> tuple[str, float]:
        """Return the thread's state and the seconds it has worked."""
        try:
            words = self._stat.read_text().rpartition(")")[2].split()
        except OSError:  # a system without /proc: all is its own
            return "S", 0.0
        return words[0], (int(words[11]) + int(words[12])) / os.sysconf("SC_CLK_TCK")

    def sample(self) -> None:
        """Look what it does, and count the time since the last look as that."""
        state, _ = self._read()
        now = time.monotonic()
        if state != "R":
            self._waited += now - self._last
        self._last = now

    @property
    def wall_s(self) -> float:
        """Seconds by the clock."""
        return self._last - self._began

    @property
    def own_s(self) -> float:
        """Seconds that are its own."""
        return min(self._waited + self._read()[1] - self._worked, self.wall_s)
