"""The program as a process of its own, over a Recipe box and settings of its own.

What is asked of it is done in its window's thread, between two events, and answered: a window that
does not answer is frozen.
"""

from __future__ import annotations

import ast
import os
import queue
import threading
import time
from contextlib import suppress
from pathlib import Path

from tests.stories.warm_start import begin, begin_anew

TOP = Path(__file__).parents[2]
ANSWER_S = 15.0

STAGE = """
import os, sys, time
from pathlib import Path
from PySide6.QtCore import QSocketNotifier, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton
from designer.recipe.edits import ChangeRecipe
from designer.window import start

CLOSED = Path(os.environ["TEST_GATE"])
{hook}

made = start.opened_window
heard = b""

def listen(window):
    def focus():
        return QApplication.focusWidget() or window

    def press(keys):
        one = QKeySequence(keys)[0]
        QTest.keyClick(focus(), one.key(), one.keyboardModifiers())

    def type_name(text):
        field = window.header.name
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)

    def choose(text):
        within = QApplication.activeModalWidget() or window
        buttons = [each for each in within.findChildren(QPushButton) if each.isVisible()]
        (button,) = [each for each in buttons if each.text() == text]
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    def asked():
        dialog = QApplication.activeModalWidget()
        return "" if dialog is None else f"{{dialog.text()}} {{dialog.informativeText()}}"

    def said():
        return window.messages.text.text() if window.messages.isVisible() else ""

    def state():
        return window.header.state.text()

    def name():
        return window.opened.recipe.name

    names = {{"window": window, "focus": focus, "press": press, "type_name": type_name,
             "choose": choose, "asked": asked, "said": said, "state": state, "name": name,
             "ChangeRecipe": ChangeRecipe, "QApplication": QApplication, "QTest": QTest,
             "Path": Path, "Qt": Qt}}

    def obey():
        global heard
        heard += os.read(0, 65536)
        *lines, heard = heard.split(b"\\n")
        for line in lines:
            text = line.decode()
            try:
                if text.startswith("do "):
                    exec(text[3:], names)
                    answer = None
                else:
                    answer = eval(text, names)
            except Exception as fault:
                answer = f"FAULT {{fault!r}}"
            print(repr(answer), flush=True)

    ear = QSocketNotifier(0, QSocketNotifier.Type.Read, window)
    ear.activated.connect(obey)

def opened_window(*words, **more):
    window = made(*words, **more)
    listen(window)
    return window

start.opened_window = opened_window
path = Path(sys.argv[1]) if len(sys.argv) > 1 else None
sys.exit(start.run(path))
"""

HELD_UP = """
from designer.window.session import store_thread
carry_out = store_thread._Worker.carry_out

def late(worker, job):
    while CLOSED.exists():
        time.sleep(0.01)
    carry_out(worker, job)

store_thread._Worker.carry_out = late
"""
"""A disk that does not answer while the gate is closed."""

FULL = """
from designer.library.store.connection import Connection
transaction = Connection._transaction

def with_room(connection, work):
    pages = 1 if CLOSED.exists() else 2 ** 30
    connection.db.conn.execute(f"pragma max_page_count={pages}")
    return transaction(connection, work)

Connection._transaction = with_room
"""
"""A disk that has no room while the gate is closed: SQLite's own limit, so its own error."""

READ_ONLY = """
access = os.access
os.access = lambda path, mode: mode != os.W_OK and access(path, mode)
"""
"""A drive that cannot be written, for whoever starts the tests (the rights of root know none)."""


class Program:
    """One run of the program; `gate` is a file that hooks look at.

    It begins in a copy of a process that has loaded everything (`warm_start`), or with a Python of
    its own where all of it is to be begun `anew`.
    """

    def __init__(self, folder: Path, *words: object, hook: str = "", anew: bool = False) -> None:
        self.folder, self.gate = folder, folder / "gate"
        folder.mkdir(exist_ok=True)
        environment = {
            **os.environ,
            "QT_QPA_PLATFORM": "offscreen",
            "HOBWORT_STORE": str(folder / "box"),
            "HOBWORT_SETTINGS": str(folder / "settings"),
            "TEST_GATE": str(self.gate),
            "PYTHONPATH": str(TOP),
        }
        self._stderr = (folder / "stderr").open("w", encoding="utf-8")
        begun = begin_anew if anew else begin
        self._process = begun(
            STAGE.format(hook=hook), [*map(str, words)], environment, TOP, self._stderr
        )
        self._answers: queue.SimpleQueue[str] = queue.SimpleQueue()
        self._reader = threading.Thread(target=self._read)
        self._reader.start()

    def _read(self) -> None:
        assert self._process.stdout is not None
        for line in self._process.stdout:
            self._answers.put(line.decode())
        self._answers.put("'ENDED'")
        self._process.stdout.close()

    @property
    def box(self) -> Path:
        return self.folder / "box"

    @property
    def pid(self) -> int:
        """The number of its process."""
        return self._process.pid

    def ask(self, expression: str, within_s: float = ANSWER_S) -> object:
        """Return the value of an expression in the program."""
        self.tell(expression)
        answer = ast.literal_eval(self._answers.get(timeout=within_s))
        assert not (isinstance(answer, str) and answer.startswith("FAULT")), answer
        return answer

    def do(self, statement: str) -> None:
        """Let the program do something, and wait until it is done."""
        self.ask(f"do {statement}")

    def tell(self, line: str) -> None:
        """Ask without waiting for the answer."""
        assert self._process.stdin is not None
        self._process.stdin.write(line.encode() + b"\n")
        self._process.stdin.flush()

    def until(self, expression: str, within_s: float = ANSWER_S) -> object:
        """Wait until an expression is true."""
        end = time.monotonic() + within_s
        while not (value := self.ask(expression)):
            assert time.monotonic() < end, f"{expression}: {self.ask('(said(), asked(), state())')}"
            time.sleep(0.02)
        return value

    def seen(self) -> Program:
        """Wait until the window is there and its box has answered."""
        self.until("window.autosave is not None and not window.autosave.store.busy")
        return self

    def kill(self) -> None:
        """End it as a crash would."""
        self._process.kill()
        self._process.wait(timeout=ANSWER_S)

    def ended(self, within_s: float = ANSWER_S) -> str:
        """Wait for its end; return what it wrote to stderr, with its code if that is not 0."""
        code = self._process.wait(timeout=within_s)
        text = (self.folder / "stderr").read_text(encoding="utf-8")
        lines = [each for each in text.splitlines() if "This plugin does not support" not in each]
        return "\n".join([*lines, *([f"code {code}"] if code else [])])

    def close(self) -> str:
        """Close the window by its frame; return what `ended` returns."""
        self.tell("window.close()")
        return self.ended()

    def __enter__(self) -> Program:
        return self

    def __exit__(self, *_: object) -> None:
        if self._process.poll() is None:
            self.kill()
        self._reader.join()
        self._stderr.close()
        assert self._process.stdin is not None
        with suppress(BrokenPipeError):
            self._process.stdin.close()
