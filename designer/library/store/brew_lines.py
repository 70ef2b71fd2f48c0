"""What a brew's log says of the brew as a whole, for lists that do not open the log.

Lines are plain values, those that take back and correct others among them. What is brewed from a
log, step by step, is for others to say; here it is when it was, whether it is over, its mark.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime
from typing import Any

MARKS = range(1, 6)


def in_effect(lines: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the lines that count: what was taken back is left out, what was corrected is right.

    A line that takes back may be taken back itself; then what it took back counts again.
    """
    taken_back: set[str] = set()
    corrected: dict[str, dict[str, Any]] = {}
    found = []
    for line in reversed(list(lines)):
        values = _values(line)
        if line.get("id") and line.get("id") in taken_back:
            continue
        if line.get("what") == "takes back":
            taken_back.add(str(values.get("entry")))
        elif line.get("what") == "corrects":
            about = str(values.get("entry"))
            corrected[about] = {**_part(values.get("values")), **corrected.get(about, {})}
        else:
            right = corrected.get(str(line.get("id")), {})
            found.append({**line, "values": {**values, **right}})
    return found[::-1]


def head_of(lines: Iterable[dict[str, Any]]) -> dict[str, Any]:
    """Return what a brew's row holds by the lines that count: `finished`, `packaged` and so on."""
    finished, packaged, ready, mark = None, None, None, 0
    for line in lines:
        if line.get("what") == "finished":
            finished = time_of(line)
        elif line.get("what") == "packaged":
            packaged, ready = time_of(line), _day(_values(line).get("ready"))
        elif line.get("what") == "tasted":
            given = _values(line).get("mark")
            mark = given if isinstance(given, int) and given in MARKS else mark
    return {"finished": finished, "packaged": packaged, "ready": ready, "mark": mark}


def time_of(line: dict[str, Any]) -> str:
    """Return the time of a line by the wall clock, UTC, ISO 8601; that of 1970 if unreadable.

    A correction may have set it right.
    """
    wall = _values(line).get("wall", _part(line.get("at")).get("wall"))
    try:
        return datetime.fromtimestamp(float(wall or 0.0), UTC).isoformat(timespec="seconds")
    except (TypeError, ValueError, OverflowError, OSError):
        return datetime.fromtimestamp(0.0, UTC).isoformat(timespec="seconds")


def _day(told: object) -> str | None:
    """Return a day as it was told, ISO 8601; None for what is none."""
    try:
        return date.fromisoformat(str(told)).isoformat()
    except ValueError:
        return None


def _values(line: dict[str, Any]) -> dict[str, Any]:
    return _part(line.get("values"))


def _part(found: object) -> dict[str, Any]:
    return found if isinstance(found, dict) else {}
