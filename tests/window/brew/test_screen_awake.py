"""The screen is kept on where the desktop does so, and it is said where not."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys

import pytest

from designer.window.brew.screen_awake import AWAKE, MAY_SLEEP

ON_A_BUS = """
from PySide6.QtCore import ClassInfo, QCoreApplication, QObject, QTimer, Slot
from PySide6.QtDBus import QDBusConnection
from designer.window.brew.screen_awake import ScreenAwake

@ClassInfo({"D-Bus Interface": "org.freedesktop.ScreenSaver"})
class Saver(QObject):
    @Slot(str, str, result=int)
    def Inhibit(self, who, why):
        print("asked by", who)
        return 7

app = QCoreApplication([])
bus = QDBusConnection.sessionBus()
saver = Saver()
if HAS_SAVER:
    bus.registerObject("/ScreenSaver", saver, QDBusConnection.RegisterOption.ExportAllSlots)
    assert bus.registerService("org.freedesktop.ScreenSaver")
awake = ScreenAwake()

def answered(kept):
    print(kept, awake.in_words())
    if not kept:
        app.quit()
        return
    asker = awake._bus.baseService()
    assert bus.interface().isServiceRegistered(asker).value()
    awake.keep(False)
    assert awake.in_words() == ""
    while bus.interface().isServiceRegistered(asker).value():
        pass
    print("let go")
    app.quit()

awake.answered.connect(answered)
awake.keep(True)
QTimer.singleShot(20000, app.quit)
app.exec()
"""


def on_a_bus(has_saver):
    if shutil.which("dbus-run-session") is None:
        pytest.skip("dbus-run-session is not installed here")
    found = subprocess.run(
        ["dbus-run-session", "--", sys.executable, "-c", f"HAS_SAVER = {has_saver}\n{ON_A_BUS}"],
        env=dict(os.environ),
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert found.returncode == 0, found.stderr
    return found.stdout.splitlines()


def test_a_desktop_that_keeps_the_screen_on_is_asked_and_let_go_at_the_end():
    assert on_a_bus(True) == ["asked by Hobwort", f"True {AWAKE}", "let go"]


def test_a_desktop_that_does_not_is_told_of():
    assert on_a_bus(False) == [f"False {MAY_SLEEP}"]
