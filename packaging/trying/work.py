"""What every Hobwort has to do, wherever it comes from."""

from __future__ import annotations

import re
import shutil
import statistics
import subprocess
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from trying.checks import check, until
from trying.machines import Machine
from trying.screens import (
    DISPLAY,
    close_window,
    display,
    press_quit,
    take_picture,
    wayland,
    window_named,
)

TOP = Path(__file__).parents[2]
EXAMPLE = TOP / "resources" / "examples" / "slipway_bitter.hobwort"
RECIPE = "Slipway Bitter"
APPLICATION = "org.hobwort.hobwort"
ENTERED = re.compile(r"wl_keyboard\S*\.enter")
RUNS = 5


def try_program(machine: Machine, hobwort: str, picture: Path, version: str) -> None:
    """Let a Hobwort do its work on a machine."""
    recipe = machine.home / f"{RECIPE}.hobwort"
    shutil.copy(EXAMPLE, recipe)
    named = machine.inside(recipe)
    _try_answers(machine, hobwort, named, version)
    _try_files(machine, hobwort, named)
    with display():
        try_window(machine, [hobwort, named], picture)
        # The window has made the Recipe box by now.
        done = machine.run(hobwort, "find", "slipway")
        check("hobwort find", RECIPE in done.stdout, done.stdout + done.stderr)
        try_wayland(machine, [hobwort, named], picture.with_stem(f"{picture.stem}_wayland"))
        machine.times["to its window"] = _median(lambda: _until_window(machine, [hobwort, named]))
    machine.times["hobwort --version"] = _median(lambda: _timed(machine, [hobwort, "--version"]))
    machine.times["hobwort forecast"] = _median(
        lambda: _timed(machine, [hobwort, "forecast", named])
    )


def _try_answers(machine: Machine, hobwort: str, recipe: str, version: str) -> None:
    for words, told in (
        (["--version"], version),
        (["forecast", recipe], "gravity"),
        (["fit", recipe, "--pot", "7 L", "--fermenter", "12 L"], "ways"),
        (["convert", "1.5 stone", "kg"], "9.5"),
        (["unit-words"], "{"),  # made by pint, which the window asks for it in another process
        (["glossary", "krausen"], "ferment"),
        (["guide", "safety"], "scald"),
    ):
        done = machine.run(hobwort, *words)
        check(" ".join(["hobwort", *words[:1]]), done.returncode == 0 and told in done.stdout
              and not done.stderr, done.stdout + done.stderr)  # fmt: skip


def _try_files(machine: Machine, hobwort: str, recipe: str) -> None:
    for words, name, begins in (
        (["sheet", recipe], "sheet.pdf", b"%PDF-"),
        (["sheet", recipe, "--pocket"], "pocket.html", b"<!doctype html>"),
        (["guide"], "guide.html", b"<!doctype html>"),
        (["guide", "--language", "de"], "guide.pdf", b"%PDF-"),
    ):
        path = machine.home / name
        path.unlink(missing_ok=True)  # package and bundle are tried one after the other
        done = machine.run(hobwort, *words, "-o", machine.inside(path))
        starts = path.read_bytes()[: len(begins)].lower() if path.is_file() else b""
        check(f"hobwort {words[0]} writes {name}", starts == begins.lower()
              and done.returncode == 0 and not done.stderr, done.stdout + done.stderr)  # fmt: skip


def try_window(machine: Machine, words: Sequence[str], picture: Path) -> None:
    """Open the window by some words, take a picture of it, and close it by its key."""
    started = subprocess.Popen(
        machine.words(words, DISPLAY=DISPLAY), stderr=subprocess.PIPE, text=True
    )
    seen = window_named(RECIPE)
    painted = take_picture(picture)
    check(f"{Path(words[0]).name} opens the window with the recipe", seen and painted)
    close_window()
    told = _ended(started)
    check("it closes, with nothing to complain of", started.returncode == 0 and not told, told)


def try_wayland(machine: Machine, words: Sequence[str], picture: Path) -> None:
    """Open the window on a desktop that speaks Wayland, which is to know whose it is by its name.

    What is said between program and desktop is written down by libwayland (WAYLAND_DEBUG).
    """
    with (
        tempfile.TemporaryDirectory(dir=machine.home) as name,
        tempfile.TemporaryFile("w+", encoding="utf-8") as log,
    ):
        folder = Path(name)
        folder.chmod(0o755)

        def said() -> str:
            log.seek(0)
            return log.read()

        with wayland(folder) as socket:
            started = subprocess.Popen(
                machine.words(
                    words, QT_QPA_PLATFORM="wayland", WAYLAND_DISPLAY=machine.inside(socket),
                    WAYLAND_DEBUG="1",
                ), stderr=log, text=True,
            )  # fmt: skip
            # It has the keyboard once it is seen.
            until(lambda: RECIPE in said() and bool(ENTERED.search(said())), 60.0)
            painted = take_picture(picture)
            told = said()
            check("on Wayland the window opens with the recipe", RECIPE in told and painted, told)
            named = f'set_app_id("{APPLICATION}")'
            check("and is known by the name of its desktop file", named in told, told)
            press_quit()
            _ended(started)
            check("and closes", started.returncode == 0, said())


def _ended(started: subprocess.Popen[str]) -> str:
    """Wait until a program has ended; return what it had to complain of."""
    try:
        _, told = started.communicate(timeout=60)
    except subprocess.TimeoutExpired:
        started.kill()
        _, told = started.communicate()
        return f"it did not end. {told}"
    return told or ""


def _median(measured: Callable[[], float]) -> float:
    """Return the median of a few measurements, in seconds; the first, which reads the disk, not."""
    measured()
    return statistics.median(measured() for _ in range(RUNS))


def _timed(machine: Machine, words: Sequence[str]) -> float:
    begun = time.monotonic()
    machine.run(*words)
    return time.monotonic() - begun


def _until_window(machine: Machine, words: Sequence[str]) -> float:
    begun = time.monotonic()
    started = subprocess.Popen(machine.words(words, DISPLAY=DISPLAY), stderr=subprocess.DEVNULL)
    window_named(RECIPE)
    took = time.monotonic() - begun
    close_window()
    started.wait(timeout=60)
    return took
