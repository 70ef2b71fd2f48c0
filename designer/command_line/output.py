"""What the command line says: on standard output what was asked for, on standard error what not."""

from __future__ import annotations

import io
import json
import os
import sys
from collections.abc import Iterable, Mapping
from contextlib import suppress

from designer.units.quoting import one_line

FINE, REFUSED, USAGE = 0, 1, 2
"""Exit codes."""
FIRST_FORM = 1
LONGEST_LINE = 600
STANDARD = "-"
"""Standard input where a file is read, standard output where one is written."""
_is_quiet = False


def print_lines(*lines: str) -> None:
    """Write lines to standard output."""
    sys.stdout.write("\n".join(lines) + "\n")


def remark(*lines: str) -> None:
    """Write to standard output what nobody asked for: where something was written, that all is
    well. Whoever wants it quiet does not read it."""
    if not _is_quiet:
        print_lines(*lines)


def notice(problems: Iterable[str]) -> None:
    """Write to standard error, a line each, what is no failure; nothing where it is to be quiet."""
    if not _is_quiet:
        complain(problems)


def be_quiet(quiet: bool) -> None:
    """Say, or say not, what nobody asked for, from now on."""
    global _is_quiet
    _is_quiet = quiet


def print_bytes(content: bytes) -> None:
    """Write a file's content to standard output, as it is."""
    sys.stdout.flush()
    binary = getattr(sys.stdout, "buffer", None)
    if binary is None:  # closed by whoever started us
        return
    binary.write(content)
    binary.flush()


def print_json(document: Mapping[str, object]) -> None:
    """Write a document to standard output as JSON, the number of its form first.

    Keys may be added to a form; one that is changed in its meaning, unit or shape, or taken away,
    raises it. What has a number says it; all others are as they were first.
    """
    numbered = {"form": FIRST_FORM, **document}
    print_lines(json.dumps(numbered, ensure_ascii=False, indent=2))


def complain(problems: Iterable[str]) -> None:
    """Write problems to standard error, a line each."""
    for problem in problems:
        sys.stderr.write(short(problem) + "\n")


def short(problem: str) -> str:
    """Return a problem as one line that can be read; of a very long one the middle is left out."""
    line = one_line(problem)
    half = LONGEST_LINE // 2
    return line if len(line) <= LONGEST_LINE else f"{line[:half]} … {line[-half:]}"


def write_no_more() -> None:
    """Let the interpreter not complain at its end of what could not be written."""
    with suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def speak_utf8() -> None:
    """Output is UTF-8 whatever the locale; nothing that cannot be said stops the program."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:  # closed by whoever started us
            setattr(sys, name, io.StringIO())
        elif hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
