"""What shells complete, tried at a terminal by keys.

A line is typed with Tab at its end; then Home, and before it `echo >FILE`, so the shell itself
writes down what it had made of the line.
"""

from __future__ import annotations

import os
import pty
import subprocess
import threading
import time

from trying.checks import check, until
from trying.machines import Machine

SHELLS = {
    "bash": ["bash", "--norc", "-i"],
    "zsh": ["zsh", "-f", "-i"],
    "fish": ["fish", "-i"],
}
BEGUN = {
    "bash": "cd; . /usr/share/bash-completion/bash_completion\r",
    "zsh": "cd; autoload -Uz compinit; compinit -u; bindkey -e\r",
    "fish": "cd\r",
}
"""How each reads what packages brought, as it does by itself at a desktop's terminal."""
HOME_KEY = "\x01"
LINES = (
    ("hobwort forec\t", "hobwort forecast"),  # a command
    ("hobwort brews warm\t", "hobwort brews warmth"),  # a command of a command
    ("hobwort sheet --pock\t", "hobwort sheet --pocket"),  # an option
    ("hobwort sheet --paper let\t", "hobwort sheet --paper letter"),  # a word for an option
    ("hobwort guide -o guide.h\t", "hobwort guide -o guide.html"),  # a file for an option
    ("hobwort fit Sl\t", "hobwort fit Slipway Bitter.hobwort"),  # a recipe
    ("hobwort Sl\t", "hobwort Slipway Bitter.hobwort"),  # a recipe for the window
)


def try_shells(machine: Machine) -> None:
    """Type lines in each shell and look what Tab makes of them."""
    for shell, words in SHELLS.items():
        made = [_completed(machine, shell, words, line) for line, _ in LINES]
        expected = [whole for _, whole in LINES]
        check(f"{shell} completes commands, options and recipes", made == expected, made)


def _completed(machine: Machine, shell: str, words: list[str], line: str) -> str:
    """Return what a shell made of a line that ends in Tab."""
    wrote = machine.home / "completed"
    wrote.unlink(missing_ok=True)
    ours, theirs = pty.openpty()
    # A shell at a terminal of its own, which fish wants.
    at_terminal = ["setsid", "--ctty", "--wait", *machine.words(words, TERM="xterm")]
    started = subprocess.Popen(at_terminal, stdin=theirs, stdout=theirs, stderr=theirs)
    os.close(theirs)
    threading.Thread(target=_read_all, args=(ours,), daemon=True).start()
    _press(ours, BEGUN[shell])
    time.sleep(1.5)
    _press(ours, line)
    time.sleep(1.5)
    _press(ours, f"{HOME_KEY}echo >{machine.inside(wrote)} \r")
    until(lambda: wrote.is_file() and wrote.read_bytes().endswith(b"\n"), 20.0)
    _press(ours, "exit\r")
    started.wait(timeout=20)
    return wrote.read_text("utf-8").strip() if wrote.is_file() else ""


def _press(terminal: int, keys: str) -> None:
    os.write(terminal, keys.encode("utf-8"))


def _read_all(terminal: int) -> None:
    """Take what a shell writes, for it waits where nobody does."""
    try:
        while os.read(terminal, 4096):
            pass
    except OSError:
        return  # the shell has ended
