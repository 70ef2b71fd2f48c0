"""The one place that speaks up: once for what is new, again until it is confirmed."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QWidget

from designer.window.brew.alarm import AGAIN_S, Alarm
from designer.window.brew.sound import Sound, Tone
from designer.window.parts.tray import Tray
from designer.workbench.brew import timer_moves
from designer.workbench.brew.announcements import Addition, what_to_say
from designer.workbench.brew.entries import What
from tests.workbench.brew.clock_log import ClockLog

ADDITIONS = (Addition("D", "400 g Light dry malt extract", 15), Addition("E", "Finings", 5))


class Heard(Sound):
    """Notes tones instead of playing them."""

    def __init__(self):
        super().__init__()
        self.tones = []

    def play(self, tone, volume):
        self.tones.append((tone, volume))
        return True


class Kitchen:
    """A boil and the alarm beside it, asked every second."""

    def __init__(self, window, settings):
        self.log = ClockLog()
        self.log.do(timer_moves.start("boil", 60))
        self.sound = Heard()
        self.alarm = Alarm(window, settings, self.sound)
        self.flashes, self.said = [], []
        self.alarm.flashed.connect(self.flashes.append)
        self.alarm.said.connect(self.said.append)

    def go_on(self, seconds):
        for _ in range(seconds):
            self.log.clock.go_on(1)
            self.tell()

    def tell(self):
        now = self.log.clock.now()
        self.alarm.tell(what_to_say(self.log.timers(), ADDITIONS, now), now)

    def heard(self):
        tones, self.sound.tones = [tone for tone, _ in self.sound.tones], []
        return tones


@pytest.fixture
def kitchen(qtbot, settings):
    window = QWidget()
    qtbot.addWidget(window)
    window.show()
    return Kitchen(window, settings)


def test_soon_is_said_once_and_now_again_and_again_until_it_is_confirmed(kitchen):
    kitchen.log.clock.go_on(43 * 60 - 1)
    kitchen.go_on(1)
    assert kitchen.heard() == [Tone.SOON]
    kitchen.go_on(119)
    assert kitchen.heard() == []
    kitchen.go_on(1)
    assert kitchen.heard() == [Tone.NOW]
    kitchen.go_on(3 * int(AGAIN_S))
    assert kitchen.heard() == [Tone.NOW] * 3
    assert [each.split(":")[0] for each in kitchen.said] == ["In 2", "Now"]
    kitchen.log.do(timer_moves.confirm("boil 1", "D"))
    kitchen.go_on(60)
    assert kitchen.heard() == []


def test_after_a_sleep_past_several_it_speaks_once_and_says_them_all(kitchen):
    kitchen.log.clock.go_on(56 * 60)
    kitchen.tell()
    assert kitchen.heard() == [Tone.NOW]
    assert kitchen.said == [
        "Finings: 1:00 late. Put it in now.\n"
        "400 g Light dry malt extract: 11:00 late. Put it in now."
    ]
    assert len(kitchen.flashes) == 1
    assert len(kitchen.flashes[0]) == 2


def test_what_is_undone_is_said_anew(kitchen):
    kitchen.log.clock.go_on(45 * 60)
    kitchen.tell()
    confirmed = kitchen.log.do(timer_moves.confirm("boil 1", "D"))
    kitchen.tell()
    kitchen.heard()
    kitchen.log.write(What.TAKES_BACK, entry=confirmed)
    kitchen.tell()
    assert kitchen.heard() == [Tone.NOW]


def test_sound_that_is_off_is_off_and_the_flash_stays(kitchen, settings):
    settings.brew_sound = False
    kitchen.log.clock.go_on(45 * 60)
    kitchen.tell()
    assert kitchen.heard() == []
    assert len(kitchen.flashes) == 1
    kitchen.alarm.test()
    assert kitchen.heard() == [Tone.NOW], "a test is heard all the same"


def test_the_volume_is_kept_in_the_settings(kitchen, settings):
    settings.brew_volume = 40
    kitchen.alarm.test()
    assert kitchen.sound.tones == [(Tone.NOW, 0.4)]
    assert settings.brew_volume == 40


def test_a_window_put_away_comes_back_when_something_is_due(qtbot, kitchen):
    window = kitchen.alarm.parent()
    window.showMinimized()
    qtbot.waitUntil(window.isMinimized)
    kitchen.log.clock.go_on(44 * 60)
    kitchen.tell()
    assert window.isMinimized(), "what is due soon leaves the window where it is"
    kitchen.go_on(60)
    qtbot.waitUntil(lambda: not window.isMinimized())


def test_where_another_window_is_in_front_the_desktop_says_it_too(
    qtbot, kitchen, monkeypatch, tmp_path
):
    """Where there is no tray, by the desktop's own program, which is found on the path."""
    said = tmp_path / "said"
    program = tmp_path / "notify-send"
    program.write_text(f'#!/bin/sh\nprintf "%s\\n" "$@" > "{said}.new"\nmv "{said}.new" "{said}"\n')
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path), prepend=":")
    monkeypatch.setattr(Tray, "say", lambda tray, title, text: False)
    kitchen.alarm.parent().hide()
    kitchen.log.clock.go_on(45 * 60)
    kitchen.tell()
    qtbot.waitUntil(said.exists, timeout=10_000)
    assert said.read_text().splitlines()[-1] == kitchen.said[-1].splitlines()[-1]
    assert "400 g Light dry malt extract" in said.read_text()
