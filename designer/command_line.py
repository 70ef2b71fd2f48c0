"""The command line: the same core as the window, no display needed.

Exit codes: 0 fine, 1 refused input (one line a problem on stderr), 2 wrong usage.
"""

from __future__ import annotations

import argparse
import io
import json
import os
import sys
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from designer import __version__
from designer.errors import DesignerError, RefusedInputError
from designer.units.quoting import one_line

FINE, REFUSED, USAGE = 0, 1, 2
UNITS = ("metric", "us", "both")


def run(words: Sequence[str]) -> int:
    """Carry out the command and return its exit code; never raises for what the world does."""
    _speak_utf8()
    if words and words[0] not in COMMANDS and not words[0].startswith("-"):
        words = ["open", *words]
    try:
        chosen = _parser().parse_args(words or ["open"])
    except SystemExit as usage:
        return usage.code if isinstance(usage.code, int) else USAGE
    try:
        code: int = chosen.carry_out(chosen)
        sys.stdout.flush()
    except BrokenPipeError:  # whoever read us has read enough
        _write_no_more()
        return FINE
    except OSError as fault:
        _write_no_more()
        _complain([f"the output could not be written: {(fault.strerror or str(fault)).lower()}"])
        return REFUSED
    except DesignerError as fault:
        _complain(fault.problems if isinstance(fault, RefusedInputError) else [str(fault)])
        return REFUSED
    return code


def _complain(problems: Iterable[str]) -> None:
    for problem in problems:
        sys.stderr.write(one_line(problem) + "\n")


def _write_no_more() -> None:
    """Let the interpreter not complain at its end of what could not be written."""
    with suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _speak_utf8() -> None:
    """Output is UTF-8 whatever the locale; nothing that cannot be said stops the program."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:  # closed by whoever started us
            setattr(sys, name, io.StringIO())
        elif hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="hobwort",
        description="Plan a stove-top brew from malt extract and steeping grain. "
        "Without a command the window opens.",
    )
    parser.add_argument("--version", action="version", version=f"hobwort {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    def command(name: str, carry_out: Any, tells: str) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=tells, description=tells)
        made.set_defaults(carry_out=carry_out)
        return made

    opening = command("open", _open, "open the window, with a recipe file if one is given")
    opening.add_argument("file", nargs="?", metavar="FILE")

    forecast = command("forecast", _forecast, "print what a recipe will give, and what to watch")
    forecast.add_argument("file", metavar="FILE")
    forecast.add_argument("--json", action="store_true", help="print JSON")
    _add_set(forecast)

    check = command("check", _check, "check a recipe file and say what to watch out for")
    check.add_argument("file", metavar="FILE")

    command("schema", _schema, "print the JSON Schema of recipe files")

    sheet = command("sheet", _sheet, "write the brew sheet of a recipe as PDF")
    sheet.add_argument("file", metavar="FILE")
    sheet.add_argument("-o", "--output", required=True, metavar="OUT.pdf")
    sheet.add_argument("--paper", choices=("a4", "letter"), default="a4")
    sheet.add_argument("--units", choices=UNITS, default="metric")
    sheet.add_argument("--start", metavar="HH:MM", help="clock time at which the day starts")
    _add_set(sheet)
    return parser


def _add_set(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--set",
        action="append",
        default=[],
        metavar='PLACE="TEXT"',
        help='change a field first, such as process.top_up_to="9 L" or hops.1.alpha="6 %%"',
    )


def _recipe(chosen: argparse.Namespace) -> Any:
    from designer.library.places import set_field
    from designer.library.recipe_file import load

    recipe = load(Path(chosen.file))
    problems: list[str] = []
    for change in getattr(chosen, "set", []):
        place, equals, text = change.partition("=")
        try:
            if not equals:
                raise RefusedInputError(f'{change}: write it as place="text"')
            recipe = set_field(recipe, place, text)
        except RefusedInputError as fault:
            problems += [f"--set {problem}" for problem in fault.problems]
    if problems:
        raise RefusedInputError(problems)
    return recipe


def _open(chosen: argparse.Namespace) -> int:
    # What is not Qt comes first: once Qt is there, each import costs a look at its source.
    import designer.brewday.outlook
    import designer.library.recipe_file  # noqa: F401
    from designer.window.start import run as run_window

    return run_window(Path(chosen.file) if chosen.file else None)


def _forecast(chosen: argparse.Namespace) -> int:
    from designer.brewday.outlook import look_ahead
    from designer.forecast_text import forecast_document, forecast_lines

    recipe = _recipe(chosen)
    outlook = look_ahead(recipe)
    if chosen.json:
        document = forecast_document(recipe, outlook)
        sys.stdout.write(json.dumps(document, ensure_ascii=False, indent=2) + "\n")
    else:
        sys.stdout.write("\n".join(forecast_lines(recipe, outlook)) + "\n")
    return FINE


def _check(chosen: argparse.Namespace) -> int:
    from designer.brewday.outlook import look_ahead

    recipe = _recipe(chosen)
    findings = look_ahead(recipe, ranges=False).findings
    for finding in findings:
        sys.stdout.write(f"{finding.severity}: {one_line(finding.text)}\n")
    doubts = f"{len(findings)} to watch out for" if findings else "nothing to watch out for"
    sys.stdout.write(f"{chosen.file}: a sound recipe file, {doubts}.\n")
    return FINE


def _schema(_: argparse.Namespace) -> int:
    from designer.library.schema import schema

    sys.stdout.write(json.dumps(schema(), ensure_ascii=False, indent=2) + "\n")
    return FINE


def _sheet(chosen: argparse.Namespace) -> int:
    from designer.brewday.outlook import look_ahead
    from designer.sheet.content import brew_sheet
    from designer.units import ShownUnits
    from designer.window.paper import write_pdf

    start = _start(chosen.start)
    recipe = _recipe(chosen)
    sheet = brew_sheet(
        recipe,
        look_ahead(recipe),
        shown=ShownUnits(chosen.units),
        start=start,
        brew_date=None,
    )
    pages = write_pdf(sheet, Path(chosen.output), chosen.paper)
    sys.stdout.write(f"{chosen.output}: {pages} {'page' if pages == 1 else 'pages'}.\n")
    return FINE


def _start(typed: str | None) -> str | None:
    """Return the clock time at which the day is to start, if one was given."""
    from designer.units import read_clock

    try:
        return None if typed is None else read_clock(typed)
    except RefusedInputError as fault:
        raise RefusedInputError(f"--start: {fault}") from None


COMMANDS = ("open", "forecast", "check", "schema", "sheet")
