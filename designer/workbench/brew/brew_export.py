"""A brew with its log for others to read: as text, as CSV for a spreadsheet, as JSON.

All three tell what was taken back and corrected as well, and say so. The text leaves out where
clocks were noted.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from designer.library.formula_guard import guarded
from designer.recipe.message import Message
from designer.recipe.quantity import Kind
from designer.translation import parted, tr
from designer.units.quoting import one_line
from designer.workbench.brew.blank_places import blank_of
from designer.workbench.brew.brewing import Brewing
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import plain
from designer.workbench.brew.entry_values import text_in, values_in
from designer.workbench.brew.log_lines import LogLine, clock_of, log_lines, told_lines
from designer.workbench.brew.reading_values import reading_of

if TYPE_CHECKING:
    from designer.library.store.brews import Brew

FORM = 1
"""Number of the form of the JSON: it grows when a key changes what it holds, or goes."""
COLUMNS = ("time", "what", "said", "counts", "was", "by guess", "typed", "value", "unit", "step")
"""The columns of the CSV; they stay in English, for programs read them."""
BASE_UNITS = {
    Kind.MASS: "kg",
    Kind.VOLUME: "L",
    Kind.TEMPERATURE: "°C",
    Kind.GRAVITY: "SG 20/20 °C",
}
SUFFIXES = (".txt", ".csv", ".json")


def brew_text(brew: Brew, brewing: Brewing, said: Callable[[Message], str] = Message.said) -> str:
    """Return a brew's log as one would read it, a line each; `said` puts a message into words."""
    lines = [one_line(brew.name), *_facts(brew), ""]
    day = ""
    for each in told_lines(brewing):
        when = each.when
        date = "" if when is None else f"{when:%Y-%m-%d}"
        if date != day:
            day = date
            lines.append(date or "?")
        lines.append(f"  {clock_of(when)}  {one_line(said(each.words))}{_remarks(each, said)}")
    return "\n".join(lines) + "\n"


def _facts(brew: Brew) -> list[str]:
    facts = [tr("Begun {when}", when=_local(brew.started))]
    if brew.file:
        facts.append(tr("Recipe file: {path}", path=one_line(brew.file)))
    if brew.mark:
        facts.append(tr("Tasted: {mark} of 5", mark=brew.mark))
    return facts


def _local(started: str) -> str:
    """Return a time of the store by the clock of the place."""
    try:
        return f"{datetime.fromisoformat(started).astimezone():%Y-%m-%d %H:%M}"
    except (ValueError, OverflowError):
        return one_line(started)


def _remarks(line: LogLine, said: Callable[[Message], str]) -> str:
    remarks = []
    if line.was:
        was = parted(one_line(said(each)) for each in line.was)
        remarks.append(tr("before: {what}", what=was))
    if line.entry.by_guess:
        remarks.append(tr("time by guess"))
    if not line.counts:
        remarks.append(tr("taken back"))
    return f"  [{parted(remarks)}]" if remarks else ""


def brew_csv(brewing: Brewing) -> str:
    """Return a brew's log as a table; no cell is taken for a formula.

    Values are in the base units of their kind, which stand beside them.
    """
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\r\n")
    table.writerow(COLUMNS)
    for each in log_lines(brewing):
        table.writerow([guarded(cell) for cell in _row(each, brewing)])
    return out.getvalue()


def _row(line: LogLine, brewing: Brewing) -> Sequence[str]:
    when, entry = line.when, line.entry
    typed, value, unit = _measured(entry, brewing)
    return (
        "" if when is None else when.isoformat(timespec="seconds"),
        str(entry.what),
        one_line(line.words.text),
        "yes" if line.counts else "no",
        "; ".join(one_line(each.text) for each in line.was),
        "yes" if entry.by_guess else "no",
        one_line(typed),
        value,
        unit,
        text_in(entry.values, "step"),
    )


def _measured(entry: Entry, brewing: Brewing) -> tuple[str, str, str]:
    """Return what was typed, its value in the base unit, and that unit; "" for no reading."""
    reading = reading_of(values_in(entry.values, "reading"))
    if entry.what is not What.READING or reading is None:
        return "", "", ""
    unit = BASE_UNITS.get(blank_of(reading, brewing.steps).kind, "")
    return text_in(entry.values, "typed"), f"{reading.value:.6g}", unit


def brew_document(brew: Brew, brewing: Brewing) -> dict[str, Any]:
    """Return a brew with all entries of its log as plain values, and where it stands."""
    return {
        "form": FORM,
        "brew": {
            "uid": brew.uid,
            "name": brew.name,
            "started": brew.started,
            "finished": brew.finished,
            "file": brew.file,
            "mark": brew.mark,
        },
        "recipe": json.loads(brew.document),
        "steps": [
            {
                "key": each.step.key,
                "title": each.step.title,
                "status": str(each.status),
                "at": None if each.at is None else each.at.wall,
                "reason": each.reason,
            }
            for each in brewing.states
        ],
        "log": [
            {**plain(each.entry), "counts": each.counts, "said": each.words.text}
            for each in _as_written(brewing)
        ],
    }


def _as_written(brewing: Brewing) -> Sequence[LogLine]:
    """Return the log with each entry as it was written, not as it was corrected."""
    written = {each.id: each for each in brewing.entries}
    return [
        LogLine(written[each.entry.id], each.words, each.counts, each.was)
        for each in log_lines(brewing)
    ]


def exported(
    brew: Brew, brewing: Brewing, suffix: str, said: Callable[[Message], str] = Message.said
) -> str:
    """Return a brew as a file of one of `SUFFIXES` holds it; `said` is for those who read text."""
    if suffix == ".csv":
        return brew_csv(brewing)
    if suffix == ".json":
        return json.dumps(brew_document(brew, brewing), ensure_ascii=False, indent=2) + "\n"
    return brew_text(brew, brewing, said)
