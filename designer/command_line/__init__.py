"""The command line: the same core as the window, no display needed.

Exit codes: 0 fine, 1 refused input (one line a problem on stderr), 2 wrong usage.
"""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Callable, Sequence
from importlib import import_module

from designer.command_line.output import FINE, REFUSED, USAGE, complain, speak_utf8, write_no_more
from designer.command_line.usage import COMMANDS, UNLISTED, parser
from designer.errors import DesignerError, RefusedInputError
from designer.spoken_language import speak_as_wanted


def run(words: Sequence[str]) -> int:
    """Carry out the command and return its exit code; never raises for what the world does."""
    speak_utf8()
    speak_as_wanted()
    if words and words[0] not in (*COMMANDS, *UNLISTED) and not words[0].startswith("-"):
        words = ["open", *words]
    try:
        chosen = parser(words[0] if words else "open").parse_args(words or ["open"])
    except SystemExit as usage:
        return usage.code if isinstance(usage.code, int) else USAGE
    try:
        code = _command(chosen.command)(chosen)
        sys.stdout.flush()
    except BrokenPipeError:  # whoever read us has read enough
        write_no_more()
        return FINE
    except OSError as fault:
        write_no_more()
        complain([f"the output could not be written: {(fault.strerror or str(fault)).lower()}"])
        return REFUSED
    except DesignerError as fault:
        complain(fault.problems if isinstance(fault, RefusedInputError) else [str(fault)])
        return REFUSED
    return code


def _command(name: str) -> Callable[[Namespace], int]:
    """Return what carries a command out; its module is loaded now, with all that it needs."""
    module = import_module(f"designer.command_line.{name.replace('-', '_')}_command")
    carry_out: Callable[[Namespace], int] = module.carry_out
    return carry_out
