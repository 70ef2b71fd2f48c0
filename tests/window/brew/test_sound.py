"""The tone is made of numbers, handed to the sound system, and it is said where there is none."""

from __future__ import annotations

import array
import ctypes
import math
import os
import subprocess
import sys
import threading
from itertools import pairwise

import pytest

from designer.window.brew.sound import FADE_S, NO_DEVICE, NOTES, RATE, Sound, Tone, samples_of
from designer.window.brew.sound_system import NoSoundError

PLAY_ONE = """
from designer.window.brew.sound import RATE, Tone, samples_of
from designer.window.brew.sound_system import NoSoundError, play
try:
    play(samples_of(Tone.NOW, 0.8), RATE)
except NoSoundError:
    print("no sound")
"""
TO_FILE = """
pcm.!default {{ type file; file "{path}"; format "raw"; slave.pcm "nothing" }}
pcm.nothing {{ type null }}
ctl.!default {{ type null }}
"""


def numbers(tone, volume=0.8):
    return array.array("h", samples_of(tone, volume))


def strength(samples, hertz):
    """How much of one frequency is in samples (Goertzel's sum)."""
    turns = [2 * math.pi * hertz * at / RATE for at in range(len(samples))]
    real = sum(value * math.cos(turn) for value, turn in zip(samples, turns, strict=True))
    imaginary = sum(value * math.sin(turn) for value, turn in zip(samples, turns, strict=True))
    return math.hypot(real, imaginary) / len(samples)


@pytest.mark.parametrize("tone", Tone)
def test_a_tone_is_short_begins_and_ends_without_a_click_and_is_never_cut_off(tone):
    found = numbers(tone, 1.0)
    seconds = sum(each for _, each in NOTES[tone])
    assert len(found) / RATE == pytest.approx(seconds, abs=0.01)
    assert 0.3 < seconds < 2.0
    assert (found[0], found[-1]) == (0, 0)
    assert 0.5 * 32767 < max(map(abs, found)) <= 32767
    steps = [abs(one - other) for one, other in pairwise(found)]
    assert max(steps) < 2 * math.pi * 1400 / RATE * 32767 * 1.6


def test_each_tone_has_its_own_notes():
    first = {tone: numbers(tone)[int(FADE_S * RATE) : int(0.1 * RATE)] for tone in Tone}
    for tone, samples in first.items():
        own = NOTES[tone][0][0]
        others = {notes[0][0] for notes in NOTES.values()} - {own}
        assert strength(samples, own) > 4 * max(strength(samples, each) for each in others)


def test_louder_is_louder_and_none_is_silence():
    loudness = [max(map(abs, numbers(Tone.NOW, each))) for each in (0.0, 0.2, 0.6, 1.0)]
    assert loudness[0] == 0
    assert loudness == sorted(set(loudness))


def play_in_a_process(**environment):
    return subprocess.run(
        [sys.executable, "-c", PLAY_ONE],
        env={**os.environ, "PULSE_SERVER": "unix:/nowhere", **environment},
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )


def has_alsa():
    try:
        ctypes.CDLL("libasound.so.2")
    except OSError:
        return False
    return True


@pytest.mark.skipif(not has_alsa(), reason="libasound is not installed here")
def test_the_samples_reach_the_sound_system_whole(tmp_path):
    (tmp_path / "conf").write_text(TO_FILE.format(path=tmp_path / "heard.raw"))
    found = play_in_a_process(ALSA_CONFIG_PATH=str(tmp_path / "conf"))
    assert found.stdout == ""
    assert (tmp_path / "heard.raw").read_bytes() == samples_of(Tone.NOW, 0.8)


@pytest.mark.skipif(sys.platform != "linux", reason="other systems have other sound systems")
def test_where_no_sound_device_is_there_it_is_told_and_nothing_is_written_on_the_terminal():
    found = play_in_a_process(ALSA_CONFIG_PATH="/dev/null")
    assert (found.stdout, found.stderr) == ("no sound\n", "")


def test_that_nothing_will_be_heard_is_said_before_a_tone_is_wanted(qtbot):
    def nothing_there(samples, rate):
        raise NoSoundError

    sound = Sound(nothing_there)
    with qtbot.waitSignal(sound.silent):
        sound.look_for_device()
    assert sound.trouble == NO_DEVICE


def test_a_sound_server_that_does_not_answer_holds_nothing_up(qtbot):
    answers, heard = threading.Event(), []

    def slow(samples, rate):
        answers.wait(30)
        heard.append(samples)

    sound = Sound(slow)
    assert sound.play(Tone.SOON, 0.8)
    assert not sound.play(Tone.NOW, 0.8), "one at a time"
    with qtbot.waitSignal(sound.played):
        answers.set()
    assert heard == [samples_of(Tone.SOON, 0.8)]
    qtbot.waitUntil(lambda: sound.play(Tone.NOW, 0.8))
    qtbot.waitUntil(lambda: len(heard) == 2)


def test_at_no_volume_nothing_is_played(qtbot):
    heard = []
    sound = Sound(lambda samples, rate: heard.append(samples))
    assert not sound.play(Tone.NOW, 0.0)
    assert heard == []
