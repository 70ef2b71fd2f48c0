"""The command line: the same core as the window, no display needed.

Exit codes: 0 fine, 1 refused input (one line a problem on stderr), 2 wrong usage.
"""

from __future__ import annotations

import argparse
import gc
import io
import json
import os
import sys
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from designer import __version__
from designer.errors import DesignerError, RefusedInputError
from designer.units.quoting import one_line, quoted
from designer.units.rare import TABLE_COMMAND

if TYPE_CHECKING:
    from datetime import date

    from designer.sheet.blocks import Sheet

FINE, REFUSED, USAGE = 0, 1, 2
LONGEST_LINE = 600
UNITS = ("metric", "us", "both")
LANGUAGES = ("en", "de", "fr")


def run(words: Sequence[str]) -> int:
    """Carry out the command and return its exit code; never raises for what the world does."""
    _speak_utf8()
    if words and words[0] not in (*COMMANDS, *UNLISTED) and not words[0].startswith("-"):
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
        sys.stderr.write(_short(problem) + "\n")


def _short(problem: str) -> str:
    """Return a problem as one line that can be read; of a very long one the middle is left out."""
    line = one_line(problem)
    half = LONGEST_LINE // 2
    return line if len(line) <= LONGEST_LINE else f"{line[:half]} … {line[-half:]}"


class _Parser(argparse.ArgumentParser):
    """Tells what is wrong with the words of a command in one line, however odd they are."""

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        self.exit(USAGE, f"{self.prog}: error: {_short(message)}\n")


def _given(typed: str) -> str:
    """A value that has something in it: an empty one comes of a script gone wrong."""
    if not typed.strip():
        raise argparse.ArgumentTypeError("nothing is given; write a value, or leave the option out")
    return typed


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
    parser = _Parser(
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
    opening.add_argument("file", nargs="?", type=_given, metavar="FILE")

    forecast = command("forecast", _forecast, "print what a recipe will give, and what to watch")
    forecast.add_argument("file", type=_given, metavar="FILE")
    forecast.add_argument("--json", action="store_true", help="print JSON")
    _add_set(forecast)

    check = command("check", _check, "check a recipe file and say what to watch out for")
    check.add_argument("file", type=_given, metavar="FILE")

    command("schema", _schema, "print the JSON Schema of recipe files")
    # For the window alone, which asks itself for it: not listed.
    commands.add_parser(TABLE_COMMAND).set_defaults(carry_out=_unit_words)

    sheet = command("sheet", _sheet, "write brew sheets of recipes, as PDF, web page or text")
    _add_sheet(sheet)

    fit = command("fit", _fit, "print every way to brew a recipe in the pot and fermenters at hand")
    _add_fit(fit)
    return parser


def _add_sheet(sheet: argparse.ArgumentParser) -> None:
    sheet.add_argument("files", type=_given, metavar="FILE", nargs="+")
    sheet.add_argument(
        "-o",
        "--output",
        type=_given,
        required=True,
        metavar="OUT",
        help="the file to write, its kind by its suffix: .pdf, .html or .txt; with several "
        "recipes, or where it is one, the folder for a sheet of each",
    )
    sheet.add_argument("--html", action="store_true", help="write web pages instead of PDF")
    sheet.add_argument("--paper", choices=("a4", "letter"), default="a4", help="at first a4")
    sheet.add_argument("--units", choices=UNITS, default="metric", help="at first metric")
    sheet.add_argument("--start", metavar="HH:MM", help="clock time at which the day starts")
    sheet.add_argument(
        "--date",
        metavar="YYYY-MM-DD",
        help="brew day; left out, a blank to write it in",
    )
    sheet.add_argument(
        "--variant",
        choices=("full", "bench"),
        default="full",
        help="the full checklist, or a card of one page for the stove",
    )
    sheet.add_argument(
        "--pages",
        type=int,
        choices=(1, 2),
        default=1,
        help="1: as few pages as can be; 2: as large type as two pages allow",
    )
    sheet.add_argument("--large", action="store_true", help="large print, on more pages")
    sheet.add_argument("--shop", metavar='"NAME"', default="", help="a shop's name at the head")
    sheet.add_argument(
        "--language", choices=LANGUAGES, help="left out, that of the locale, else English"
    )
    _add_set(sheet)


def _add_fit(fit: argparse.ArgumentParser) -> None:
    fit.add_argument("file", type=_given, metavar="FILE")
    fit.add_argument(
        "--pot", type=_given, metavar='"9 L"', help="the pot; left out, the recipe's own"
    )
    fit.add_argument(
        "--fermenter",
        type=_given,
        action="append",
        default=[],
        metavar='"12 L"',
        help="a fermenter in hand; may be given again; left out, the recipe's own",
    )
    fit.add_argument(
        "--second-pot", type=_given, metavar='"7 L"', help="another pot that boils at once"
    )
    fit.add_argument("--power", type=_given, metavar='"2000 W"', help="what the stove gives")
    fit.add_argument(
        "--frozen", type=_given, metavar='"3 kg"', help="how much water the freezer holds"
    )
    fit.add_argument(
        "--late", type=_given, metavar='"50 %%"', help="the most extract to put in late"
    )
    fit.add_argument(
        "--hop",
        type=_given,
        action="append",
        default=[],
        metavar='"NAME, 7.2 %%, 50 g"',
        help="a hop in hand: name, alpha acid, amount; may be given again",
    )
    fit.add_argument("--whole-packs", action="store_true", help="divide no tin or bag of extract")
    fit.add_argument("--units", choices=UNITS, default="metric")
    fit.add_argument("--json", action="store_true", help="print JSON")
    _add_set(fit)


def _add_set(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--set",
        type=_given,
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
                raise RefusedInputError(f'{quoted(change)}: write it as place="text"')
            recipe = set_field(recipe, place, text)
        except RefusedInputError as fault:
            problems += [f"--set {problem}" for problem in fault.problems]
    if problems:
        raise RefusedInputError(problems)
    return recipe


def _open(chosen: argparse.Namespace) -> int:
    # Nothing made while the window opens is garbage; the collector is at work again after that.
    gc.disable()
    from designer.window.plain_imports import import_qt

    import_qt()
    from designer.window.start import run as run_window

    return run_window(Path(chosen.file) if chosen.file else None)


def _forecast(chosen: argparse.Namespace) -> int:
    from designer.brewday.outlook import look_ahead
    from designer.workbench.forecast_text import forecast_document, forecast_lines

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
        sys.stdout.write(f"{finding.severity}: {one_line(finding.message.text)}\n")
    doubts = f"{len(findings)} to watch out for" if findings else "nothing to watch out for"
    sys.stdout.write(f"{chosen.file}: a sound recipe file, {doubts}.\n")
    return FINE


def _schema(_: argparse.Namespace) -> int:
    from designer.library.schema import schema

    sys.stdout.write(json.dumps(schema(), ensure_ascii=False, indent=2) + "\n")
    return FINE


def _unit_words(_: argparse.Namespace) -> int:
    from designer.units.rare import table_text

    sys.stdout.write(table_text() + "\n")
    return FINE


def _sheet(chosen: argparse.Namespace) -> int:
    from designer.paper.files import places_for, write_sheet
    from designer.sheet.language import language_of_locale

    start, brew_date = _start(chosen.start), _brew_date(chosen.date)
    chosen.language = chosen.language or language_of_locale()
    recipes = _recipes(chosen)
    places = places_for([Path(file) for file in chosen.files], chosen.output, web=chosen.html)
    for recipe, place in zip(recipes, places, strict=True):
        written = write_sheet(_sheet_of(recipe, chosen, start, brew_date), place, chosen.paper)
        sys.stdout.write(f"{one_line(str(place))}: {written}.\n")
    return FINE


def _recipes(chosen: argparse.Namespace) -> list[Any]:
    """All recipes, or all that is wrong with any of them: nothing is written before.

    Marks that would turn words round on paper are taken out of them.
    """
    from designer.library.holding import unmarked
    from designer.units.marks import DROPPED

    recipes: list[Any] = []
    problems: list[str] = []
    for file in chosen.files:
        try:
            opened = _recipe(argparse.Namespace(file=file, set=chosen.set))
            recipes.append(unmarked(opened))
            if recipes[-1] is not opened:
                sys.stderr.write(f"{one_line(file)}: {DROPPED}\n")
        except RefusedInputError as fault:
            problems += fault.problems
        except DesignerError as fault:
            problems.append(str(fault))
    if problems:
        raise RefusedInputError(list(dict.fromkeys(problems)))
    return recipes


def _sheet_of(
    recipe: Any, chosen: argparse.Namespace, start: str | None, brew_date: date | None
) -> Sheet:
    from designer.brewday.outlook import look_ahead
    from designer.sheet.blocks import Form
    from designer.sheet.content import brew_sheet
    from designer.units import ShownUnits

    return brew_sheet(
        recipe,
        look_ahead(recipe),
        shown=ShownUnits(chosen.units),
        start=start,
        brew_date=brew_date,
        variant=chosen.variant,
        language=chosen.language,
        shop=chosen.shop,
        form=Form(chosen.large, chosen.pages),
    )


def _brew_date(typed: str | None) -> date | None:
    """Return the day of the brew, if one was given."""
    from designer.sheet.clock import read_date

    try:
        return None if typed is None else read_date(typed)
    except RefusedInputError as fault:
        raise RefusedInputError(f"--date: {fault}") from None


def _start(typed: str | None) -> str | None:
    """Return the clock time at which the day is to start, if one was given."""
    from designer.units import read_clock

    try:
        return None if typed is None else read_clock(typed)
    except RefusedInputError as fault:
        raise RefusedInputError(f"--start: {fault}") from None


def _fit(chosen: argparse.Namespace) -> int:
    from designer.brewday.fit.ways import ways
    from designer.units import ShownUnits
    from designer.workbench.fit_text import fit_document, fit_lines

    recipe = _recipe(chosen)
    answer = ways(recipe, _fit_wish(chosen, recipe))
    if chosen.json:
        sys.stdout.write(json.dumps(fit_document(answer), ensure_ascii=False, indent=2) + "\n")
    else:
        lines = fit_lines(recipe, answer, ShownUnits(chosen.units))
        sys.stdout.write("\n".join(lines) + "\n")
    return FINE


def _fit_wish(chosen: argparse.Namespace, recipe: Any) -> Any:
    """Return what the brewer has; every fault of the words typed is told at once."""
    from dataclasses import replace

    from designer.brewday.fit.wish import HopInHand, sized_pot, wish_for
    from designer.recipe.quantity import Kind
    from designer.units import read, show

    problems: list[str] = []

    def value(option: str, kind: Kind, typed: str | None, least: float, most: float) -> float:
        if typed is None:
            return most
        try:
            found = read(kind, typed).value
        except DesignerError as fault:
            problems.append(f"{option}: {fault}")
            return most
        if not least <= found <= most:
            bounds = f"{show(kind, least)} to {show(kind, most)}"
            problems.append(f"{option}: {quoted(typed)} is outside {bounds}.")
        return found

    def hop(typed: str) -> HopInHand:
        words = [each.strip() for each in typed.split(",")]
        if len(words) != 3 or not words[0]:
            problems.append(f'--hop: write {quoted(typed)} as "NAME, 7.2 %, 50 g".')
            return HopInHand("", 0.0, 0.0)
        alpha = value("--hop", Kind.FRACTION, words[1], 0.001, 1.0)
        return HopInHand(words[0], alpha, value("--hop", Kind.MASS, words[2], 0.0, 1000.0))

    pot = value("--pot", Kind.VOLUME, chosen.pot, 0.5, 10_000.0) if chosen.pot else None
    fermenters = tuple(
        value("--fermenter", Kind.VOLUME, each, 0.5, 10_000.0) for each in chosen.fermenter
    )
    power = value("--power", Kind.POWER, chosen.power, 50.0, 1e6) if chosen.power else None
    frozen = value("--frozen", Kind.MASS, chosen.frozen, 0.0, 1e4) if chosen.frozen else None
    second = chosen.second_pot and value("--second-pot", Kind.VOLUME, chosen.second_pot, 0.5, 1e4)
    wish = replace(
        wish_for(recipe, pot, fermenters, power_w=power),
        second_pot=sized_pot(recipe.pot, second) if second else None,
        late_fraction=value("--late", Kind.FRACTION, chosen.late, 0.0, 1.0),
        most_frozen_kg=frozen,
        hops_in_hand=tuple(hop(each) for each in chosen.hop),
        whole_packs=chosen.whole_packs,
        packs=_shop_packs(chosen.units),
    )
    if problems:
        raise RefusedInputError(problems)
    return wish


def _shop_packs(units: str) -> tuple[Any, ...]:
    """Return the pack sizes kept in the Recipe box; the usual ones where it cannot be read."""
    from designer.library.packs import packs
    from designer.library.store.shop import shop_packs_on_disk

    pack_set = "us" if units == "us" else "metric"
    try:
        return shop_packs_on_disk(pack_set)
    except DesignerError as fault:
        _complain([f"the usual pack sizes are taken: {fault}"])
        return packs(pack_set)


COMMANDS = ("open", "forecast", "check", "schema", "sheet", "fit")
UNLISTED = (TABLE_COMMAND,)
