"""Hands samples to the sound system of the desktop; every way is loaded when first wanted.

Each call waits until the tone has been heard, so it belongs onto a thread of its own.
"""

from __future__ import annotations

import ctypes
import functools
import io
import sys
import wave
from ctypes import byref, c_char_p, c_int, c_long, c_uint, c_uint8, c_uint32, c_ulong, c_void_p

_PLAYBACK, _S16LE = 1, 3  # pa_stream_direction_t, pa_sample_format_t
_ALSA_PLAYBACK, _ALSA_S16LE, _ALSA_INTERLEAVED = 0, 2, 3
_LATENCY_US = 200_000


class NoSoundError(Exception):
    """No way to a sound device was found, or none took the tone."""


class _SampleSpec(ctypes.Structure):
    _fields_ = (("format", c_int), ("rate", c_uint32), ("channels", c_uint8))


def play(samples: bytes, rate: int) -> None:
    """Play 16-bit samples of one channel. Raises NoSoundError."""
    if sys.platform == "win32":
        _by_windows(samples, rate)
        return
    for way in (_by_pulse, _by_alsa):
        try:
            way(samples, rate)
        except (OSError, AttributeError, NoSoundError):
            continue
        return
    raise NoSoundError


def _by_pulse(samples: bytes, rate: int) -> None:
    """By PulseAudio, or PipeWire in its place."""
    pulse = ctypes.CDLL("libpulse-simple.so.0")
    pulse.pa_simple_new.restype = c_void_p
    pulse.pa_simple_new.argtypes = (
        c_char_p, c_char_p, c_int, c_char_p, c_char_p, c_void_p, c_void_p, c_void_p, c_void_p,
    )  # fmt: skip
    pulse.pa_simple_write.argtypes = (c_void_p, c_char_p, ctypes.c_size_t, c_void_p)
    pulse.pa_simple_drain.argtypes = (c_void_p, c_void_p)
    pulse.pa_simple_free.argtypes = (c_void_p,)
    pulse.pa_simple_free.restype = None
    spec, error = _SampleSpec(_S16LE, rate, 1), c_int()
    stream = pulse.pa_simple_new(
        None, b"Hobwort", _PLAYBACK, None, b"Timer", byref(spec), None, None, byref(error)
    )
    if not stream:
        raise NoSoundError
    try:
        wrote = pulse.pa_simple_write(stream, samples, len(samples), byref(error))
        if wrote < 0 or pulse.pa_simple_drain(stream, byref(error)) < 0:
            raise NoSoundError
    finally:
        pulse.pa_simple_free(stream)


def _by_alsa(samples: bytes, rate: int) -> None:
    """By the kernel's sound devices."""
    alsa = _alsa()
    device = c_void_p()
    if alsa.snd_pcm_open(byref(device), b"default", _ALSA_PLAYBACK, 0) < 0:
        raise NoSoundError
    try:
        set_up = alsa.snd_pcm_set_params(
            device, _ALSA_S16LE, _ALSA_INTERLEAVED, 1, rate, 1, _LATENCY_US
        )
        if set_up < 0 or alsa.snd_pcm_writei(device, samples, len(samples) // 2) < 0:
            raise NoSoundError
        alsa.snd_pcm_drain(device)
    finally:
        alsa.snd_pcm_close(device)


_COMPLAINT = ctypes.CFUNCTYPE(None, c_char_p, c_int, c_char_p, c_int, c_char_p)


def _say_nothing(*_: object) -> None:
    """Keep a library's complaints off the terminal; the window says that there is no sound."""


_silent = _COMPLAINT(_say_nothing)


@functools.cache
def _alsa() -> ctypes.CDLL:
    """Return the library, told what its calls take. Raises OSError where there is none."""
    alsa = ctypes.CDLL("libasound.so.2")
    alsa.snd_pcm_open.argtypes = (ctypes.POINTER(c_void_p), c_char_p, c_int, c_int)
    alsa.snd_pcm_set_params.argtypes = (c_void_p, c_int, c_int, c_uint, c_uint, c_int, c_uint)
    alsa.snd_pcm_writei.argtypes = (c_void_p, c_char_p, c_ulong)
    alsa.snd_pcm_writei.restype = c_long
    alsa.snd_pcm_drain.argtypes = alsa.snd_pcm_close.argtypes = (c_void_p,)
    alsa.snd_lib_error_set_handler.argtypes = (_COMPLAINT,)
    alsa.snd_lib_error_set_handler(_silent)
    return alsa


def _by_windows(samples: bytes, rate: int) -> None:
    if sys.platform == "win32":
        import winsound

        file = io.BytesIO()
        with wave.open(file, "wb") as written:
            written.setnchannels(1)
            written.setsampwidth(2)
            written.setframerate(rate)
            written.writeframes(samples)
        try:
            winsound.PlaySound(file.getvalue(), winsound.SND_MEMORY)
        except RuntimeError as fault:
            raise NoSoundError from fault
