"""What was chosen in the window, read without Qt: for the command line, and before Qt is there.

`Settings` (`window/parts/settings.py`) writes it as an INI file with Qt's `QSettings`, and alone
writes it. A set-up for all users of a machine may say the same in a file of the same name in a
system folder; what a user chose goes first. Source of the format: Qt documentation, QSettings,
"Format::IniFormat", "Platform-Specific Notes".
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

VARIABLE = "HOBWORT_SETTINGS"
NAME = "hobwort.ini"
_VALUE = re.compile(r'"(?:[^"\\]|\\.)*"|[^",;\\]+|\\.')
_ESCAPE = re.compile(r"\\(?:x([0-9a-fA-F]+)|(.))")
_KEY_ESCAPE = re.compile(r"%(?:U([0-9A-Fa-f]{4})|([0-9A-Fa-f]{2}))")
_CONTROL = {"a": "\a", "b": "\b", "f": "\f", "n": "\n", "r": "\r", "t": "\t", "v": "\v", "0": "\0"}


def preferences() -> Mapping[str, str]:
    """Return what was chosen, by its key; empty where nothing was or the file cannot be read.

    Lists, and what only Qt can read, are left out.
    """
    found: dict[str, str] = {}
    for path in reversed(preference_files()):
        try:
            text = path.read_text(encoding="utf-8-sig", errors="replace")
        except OSError:
            continue
        found.update(_entries(text))
    return found


def preference_files() -> list[Path]:
    """Return where preferences are looked for, what goes first at the front."""
    named = os.environ.get(VARIABLE)
    if named:
        return [Path(named) / NAME]
    return [each / name for each in _folders() for name in (f"hobwort/{NAME}", NAME)]


def _folders() -> list[Path]:
    if sys.platform == "win32":
        keys = ("APPDATA", "PROGRAMDATA")
        return [Path(os.environ[key]) for key in keys if os.environ.get(key)]
    home = Path(os.environ.get("HOME") or os.path.expanduser("~"))  # noqa: PTH111 - never raises
    user = home / (os.environ.get("XDG_CONFIG_HOME") or ".config")
    dirs = os.environ.get("XDG_CONFIG_DIRS") or "/etc/xdg"
    return [user, *(Path(each) for each in dirs.split(":") if each)]


def _entries(text: str) -> Iterator[tuple[str, str]]:
    group = ""
    for line in text.splitlines():
        written = line.strip()
        if written.startswith("[") and written.endswith("]"):
            group = _group(written[1:-1])
        elif "=" in written and not written.startswith(";"):
            key, _, value = written.partition("=")
            said = _said(value.strip())
            if said is not None:
                yield group + _unescaped_key(key.strip()), said


def _group(name: str) -> str:
    """The beginning of the keys of a group; "General" is none, and "%General" is called so."""
    if name.lower() == "general":
        return ""
    return f"{'General' if name.lower() == '%general' else _unescaped_key(name)}/"


def _unescaped_key(key: str) -> str:
    return _KEY_ESCAPE.sub(lambda found: chr(int(found[1] or found[2], 16)), key).replace("\\", "/")


def _said(value: str) -> str | None:
    """The text of a value; None for a list, or what Qt alone can read."""
    made = ""
    at = 0
    while at < len(value):
        piece = _VALUE.match(value, at)
        if piece is None:  # a comma parts a list, a semicolon begins a remark, a quote never ends
            return made.rstrip() if value[at] == ";" else None
        at = piece.end()
        part = piece[0][1:-1] if piece[0].startswith('"') else piece[0]
        if part.startswith("\\x") and piece[0].startswith("\\"):
            part, at = _hexadecimal(value, piece.start())
        made += _ESCAPE.sub(_sign, part)
    if made.startswith("@@"):
        return made[1:]
    return None if re.match(r"@\w+\(", made) else made


def _hexadecimal(value: str, start: int) -> tuple[str, int]:
    r"""An escape that stands outside quotes, such as \xe4, and where it ends."""
    found = _ESCAPE.match(value, start)
    return (found[0], found.end()) if found else ("", start + 2)


def _sign(found: re.Match[str]) -> str:
    if found[1]:
        return chr(min(int(found[1], 16), 0x10FFFF))
    return _CONTROL.get(found[2], found[2])
