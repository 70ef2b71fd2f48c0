"""What reads the words of a command, and tells in one line what is wrong with them."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from typing import NoReturn

from designer.command_line.output import USAGE, short
from designer.translation import tr


class _PlainHelp(argparse.HelpFormatter):
    """Help as it was written: a % in it is a percent."""

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

    def parse_known_args(self, args=None, namespace=None):  # type: ignore[no-untyped-def]
        found, others = super().parse_known_args(args, namespace)
        wrong = self.wrong_together(found) if self.wrong_together is not None else ""
        if wrong:
            self.error(wrong)
        return found, others

    def format_help(self) -> str:
        if self.told_below is None:
            return super().format_help()
        return f"{super().format_help()}\n{self.told_below()}\n"

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        self.exit(USAGE, f"{self.prog}: error: {short(message)}\n")


def given(typed: str) -> str:
    """A value that has something in it: an empty one comes of a script gone wrong."""
    if not typed.strip():
        raise argparse.ArgumentTypeError(
            tr("nothing is given; write a value, or leave the option out")
        )
    return typed
