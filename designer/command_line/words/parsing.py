"""What reads the words of a command, and tells in one line what is wrong with them."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, NoReturn

from designer.command_line.output import STANDARD, USAGE, short
from designer.command_line.words.argparse_words import speak_for_argparse
from designer.translation import labelled, tr
from designer.units.quoting import quoted

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

speak_for_argparse()


class _PlainHelp(argparse.HelpFormatter):
    """Help as it was written: a % in it is a percent, colons are set as the language sets them."""

    def start_section(self, heading: str | None) -> None:
        # A colon follows it; French has a space before that.
        said = labelled(heading, "").rstrip().removesuffix(":") if heading else heading
        super().start_section(said)

    def _expand_help(self, action: argparse.Action) -> str:
        return action.help or ""


class CommandParser(argparse.ArgumentParser):
    """Tells what is wrong with the words of a command in one line, however odd they are.

    `told_below` gives lines that stand below the help; they are made when it is asked for.
    `wrong_together` tells what is wrong with options that go together, "" for nothing.
    """

    told_below: Callable[[], str] | None = None
    wrong_together: Callable[[argparse.Namespace], str] | None = None

    def __init__(self, prog: str | None = None, description: str | None = None) -> None:
        super().__init__(prog=prog, description=description, formatter_class=_PlainHelp)
        # An amount below nothing is a value, and refused as one: no option begins with a digit.
        self._negative_number_matcher = re.compile(r"-\.?\d")
        self.epilog = tr(
            "Ends with 0 if all went well; with 1 if something was refused, each reason a line on "
            "standard error; with 2 if the command was used wrongly."
        )

    def parse_known_args(self, args=None, namespace=None):  # type: ignore[no-untyped-def]
        found, others = super().parse_known_args(args, namespace)
        # Told here, by the words of the command itself rather than by those of the program.
        if others:
            self.error(self._not_known(others[0]))
        wrong = self.wrong_together(found) if self.wrong_together is not None else ""
        if getattr(found, "output", None) == STANDARD and getattr(found, "json", False):
            wrong = tr("-o - and --json both write to standard output; choose one")
        if wrong:
            self.error(wrong)
        return found, others

    def format_help(self) -> str:
        if self.told_below is None:
            return super().format_help()
        return f"{super().format_help()}\n{self.told_below()}\n"

    def _print_message(self, message: str, file: SupportsWrite[str] | None = None) -> None:
        # As argparse does, but that a disk that is full is not passed over: it is told as of all
        # that is written.
        if message:
            (file or sys.stderr).write(message)

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        said = tr("{program}: error: {message}", program=self.prog, message=short(message))
        self.exit(USAGE, f"{said}\n")

    def _check_value(self, action: argparse.Action, value: object) -> None:
        if action.choices is None or value in action.choices:
            return
        typed, choices = str(value), [str(each) for each in action.choices]
        if isinstance(action, argparse._SubParsersAction):
            # All of them stand in the usage.
            self.error(no_command(typed, choices, self.prog))
        said = tr("{typed} is none of {choices}", typed=quoted(typed), choices=", ".join(choices))
        raise argparse.ArgumentError(action, _with_nearest(said, typed, choices))

    def _not_known(self, typed: str) -> str:
        if not typed.startswith("-"):
            return tr("{typed} is one word too many", typed=quoted(typed))
        option = typed.partition("=")[0]
        said = tr("there is no option {option}", option=quoted(option))
        return _with_nearest(said, option, self._option_string_actions)


def no_command(typed: str, commands: Iterable[str], program: str) -> str:
    """Return that there is no such command, with the nearest that there is."""
    said, nearest = quoted(typed), nearest_of(typed, commands)
    if nearest:
        return tr(
            "there is no command {typed}; did you mean {nearest}?", typed=said, nearest=nearest
        )
    return tr(
        "there is no command {typed}; {program} --help lists them", typed=said, program=program
    )


def _with_nearest(said: str, typed: str, known: Iterable[str]) -> str:
    nearest = nearest_of(typed, known)
    return tr("{said}; did you mean {nearest}?", said=said, nearest=nearest) if nearest else said


def nearest_of(typed: str, known: Iterable[str]) -> str:
    """Return which of the known words was most likely meant; "" where none is near."""
    from difflib import get_close_matches  # for what is mistyped alone

    lower = {each.lower(): each for each in known}
    found = get_close_matches(typed.lower()[:100], lower, n=1)
    return lower[found[0]] if found else ""


def given(typed: str) -> str:
    """A value that has something in it: an empty one comes of a script gone wrong."""
    if not typed.strip():
        raise argparse.ArgumentTypeError(
            tr("nothing is given; write a value, or leave the option out")
        )
    return typed
