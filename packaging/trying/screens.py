"""Screens to open windows on: X11 by Xvfb, and on it Wayland by Weston; and a look at them."""

from __future__ import annotations

import os
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from trying.checks import until

DISPLAY = f":{100 + os.getpid() % 400}"
"""One of our own: others may be trying things on this machine too."""
WIDTH, HEIGHT = 1280, 800


@contextmanager
def display() -> Iterator[None]:
    """A screen for as long as it is wanted."""
    size = f"{WIDTH}x{HEIGHT}x24"
    server = subprocess.Popen(
        ["Xvfb", DISPLAY, "-screen", "0", size, "-ac", "-nolisten", "tcp", "-noreset"],
        stderr=subprocess.DEVNULL,
    )
    try:
        until(lambda: xdotool("getdisplaygeometry").returncode == 0, 20.0)
        yield
    finally:
        server.terminate()
        server.wait()


@contextmanager
def wayland(folder: Path) -> Iterator[Path]:
    """A desktop that speaks Wayland, shown on the screen; gives its socket, made in that folder."""
    socket = folder / "wayland"
    with tempfile.TemporaryDirectory(prefix="hobwort_weston.") as own:
        # On the Wayland of Debian 12 a back end is named by its file.
        words = [
            "weston", "--backend=x11-backend.so", "--use-pixman", "--no-config", "--idle-time=0",
            f"--width={WIDTH}", f"--height={HEIGHT}", f"--socket={socket}",
        ]  # fmt: skip
        environment = {**os.environ, "DISPLAY": DISPLAY, "XDG_RUNTIME_DIR": own}
        with Path(own, "log").open("w", encoding="utf-8") as log:
            desktop = subprocess.Popen(words, stderr=log, stdout=log, env=environment)
        try:
            until(lambda: socket.exists() and _any_window(), 30.0)
            socket.chmod(0o777)  # the brewer of a clean machine is another user
            yield socket
        finally:
            desktop.terminate()
            desktop.wait()


def take_picture(path: Path) -> bool:
    """Write what the screen shows once it has come to rest; return whether that is no blank."""
    seen = [_seen(path)]

    def is_at_rest() -> bool:
        time.sleep(2.0)  # the forecast with its ranges and the Recipe box come after the window
        seen.append(_seen(path))
        return seen[-1] == seen[-2]

    until(is_at_rest, 60.0)
    done = subprocess.run(["identify", "-format", "%k", str(path)], capture_output=True, text=True)
    return int(done.stdout or 0) > 200


def _seen(path: Path) -> str:
    """Write what the screen shows; return what tells two pictures apart."""
    crop = f"{WIDTH}x{HEIGHT}+0+0"
    subprocess.run(
        ["import", "-display", DISPLAY, "-window", "root", "-crop", crop, str(path)], check=True
    )
    words = ["identify", "-format", "%#", str(path)]
    return subprocess.run(words, capture_output=True, text=True).stdout


def window_named(name: str, longest_s: float = 60.0) -> bool:
    """Wait until a window of that name is seen; return whether it came."""
    return until(lambda: windows_named(name) != [], longest_s)


def windows_named(name: str) -> list[str]:
    """Return the windows that are seen under that name."""
    return xdotool("search", "--onlyvisible", "--name", name).stdout.split()


def press_quit() -> None:
    """Press the key that ends a program, in the window that has the keyboard."""
    xdotool("key", "--clearmodifiers", "ctrl+q")


def close_window() -> None:
    """Close the window as a brewer does at the keyboard, and wait until it is gone."""
    for window in windows_named("Hobwort")[:1]:
        xdotool("windowfocus", "--sync", window)
        press_quit()
    until(lambda: windows_named("Hobwort") == [], 20.0)


def _any_window() -> bool:
    return xdotool("search", "--onlyvisible", "--class", ".").stdout != ""


def xdotool(*words: str) -> subprocess.CompletedProcess[str]:
    """Return what came of an act on the screen."""
    environment = {**os.environ, "DISPLAY": DISPLAY}
    return subprocess.run(["xdotool", *words], capture_output=True, text=True, env=environment)
