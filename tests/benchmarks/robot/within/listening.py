"""The agent: an object on the window's thread, and the two threads that speak to it."""

from __future__ import annotations

import json
import os
import sys
import threading
import time
import traceback
from typing import Any

import seen
import touched
from line import Line, Watch
from PySide6.QtCore import QObject, QTimer, Signal, Slot
from PySide6.QtWidgets import QApplication

BEAT_S, SAMPLE_S, STUCK_S = 0.05, 0.02, 0.7


class Agent(QObject):
    """Carries out what the robot asks for, and answers beats."""

    wanted = Signal(object)
    beat = Signal()

    def __init__(self, line: Line, application: QApplication) -> None:
        super().__init__(application)
        self._line, self._application = line, application
        self._ending = False
        self._beaten = threading.Event()
        self.wanted.connect(self.carry_out)
        self.beat.connect(self.answer)
        application.aboutToQuit.connect(self.end)
        self._shown = QTimer(self, interval=1)
        self._shown.timeout.connect(self.look_out)
        self._shown.start()
        touched.answer_dialogs()
        self._threads = [
            threading.Thread(target=work, daemon=True) for work in (self._read, self._beat)
        ]
        for each in self._threads:
            each.start()

    @Slot()
    def look_out(self) -> None:
        """Tell when the window is seen for the first time."""
        window = seen.main_window()
        handle = window.windowHandle() if window is not None else None
        if handle is not None and handle.isExposed() and getattr(window, "_painted", True):
            self._shown.stop()
            self._line.say({"shown": time.monotonic()})

    @Slot()
    def answer(self) -> None:
        """Take a beat."""
        self._beaten.set()

    @Slot(object)
    def carry_out(self, command: dict[str, Any]) -> None:
        """Do what the robot asks for, and answer."""
        reply: dict[str, Any] = {"id": command["id"]}
        try:
            if command["do"] in seen.QUESTIONS:
                reply["seen"] = seen.QUESTIONS[command["do"]](command)
            else:
                reply["seen"] = touched.DEEDS[command["do"]](command)
        except touched.CannotBeTouched as why:
            reply["cannot"] = str(why)
        except Exception:  # noqa: BLE001 - what the program raised comes out here
            sys.excepthook(*sys.exc_info())
        self._line.say(reply)

    def end(self) -> None:
        """Before the application goes down: the threads ask nothing of it any more.

        Without a display Qt takes the clipboard down after Python's own objects, and crashes.
        """
        if self._application.platformName() == "offscreen":
            self._application.clipboard().clear()
        self._ending = True
        self._beaten.set()
        for each in self._threads:
            each.join(0.5)

    # on threads of their own

    def _read(self) -> None:
        while not self._ending:
            raw = self._line.read()
            if raw == b"":
                os._exit(99)  # the robot is gone
            if raw is not None and not self._ending:
                self.wanted.emit(json.loads(raw))

    def _beat(self) -> None:
        window = threading.main_thread()
        while not self._ending:
            time.sleep(BEAT_S)
            self._beaten.clear()
            if self._ending:
                return
            watch, is_told = Watch(window.native_id or 0), False
            self.beat.emit()
            while not self._beaten.wait(SAMPLE_S):
                watch.sample()
                if not is_told and watch.own_s > STUCK_S:
                    is_told = True
                    frame = sys._current_frames().get(window.ident or 0)
                    self._line.say({"stuck": "".join(traceback.format_stack(frame))})
            watch.sample()
            if watch.wall_s > 2 * BEAT_S:
                self._line.say({"late": watch.own_s, "wall": watch.wall_s})
