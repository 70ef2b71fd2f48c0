"""The command line: the same core as the window, no display needed.

Exit codes: 0 fine, 1 refused input (one line a problem on stderr), 2 wrong usage.
"""

from __future__ import annotations

import gc
import os
import sys
from argparse import Namespace
from collections.abc import Callable, Sequence
from importlib import import_module

from designer import translation
from designer.command_line.output import (
    FINE,
    REFUSED,
    USAGE,
    be_quiet,
    complain,
    speak_utf8,
    write_no_more,
)
from designer.command_line.usage import COMMANDS, UNLISTED, parser
from designer.command_line.words.parsing import no_command
from designer.errors import DesignerError, RefusedInputError
from designer.spoken_language import speak_as_wanted
from designer.translation import tr


def run(words: Sequence[str]) -> int:
    """Carry out the command and return its exit code; never raises for what the world does."""
    speak_utf8()
    speak_as_wanted()
    try:
        code = _carried_out(words)
        sys.stdout.flush()
    except BrokenPipeError:  # whoever read us has read enough
        write_no_more()
        return FINE
    except OSError as fault:
        write_no_more()
        complain([_not_written(fault)])
        return REFUSED
    except DesignerError as fault:
        complain(fault.problems if isinstance(fault, RefusedInputError) else [str(fault)])
        return REFUSED
    except Exception as bug:
        _note(bug)
        raise
    return code


def _not_written(fault: OSError) -> str:
    from designer.library.system_reason import reason_of  # met in no command that goes well

    return tr(
        "the output could not be written: {reason}. Make room there, or lead it elsewhere.",
        reason=reason_of(fault),
    )


def _note(bug: Exception) -> None:
    """Note a fault of the program in the log; of all else commands note nothing."""
    # Met in no command that goes well.
    from designer.library.store.folder import store_folder
    from designer.workbench.support_log import Noted, note, write_waiting

    note(Noted.FAULT, type(bug))
    write_waiting(store_folder())


def _carried_out(words: Sequence[str]) -> int:
    try:
        chosen = _chosen(words)
    except SystemExit as usage:
        return usage.code if isinstance(usage.code, int) else USAGE
    be_quiet(chosen.quiet)
    if getattr(chosen, "json", False):
        translation.use(None)  # whatever reads it reads the same everywhere
    return _command(chosen.command)(chosen)


def _chosen(words: Sequence[str]) -> Namespace:
    """Return what is asked for; a file alone is opened. Raises SystemExit for wrong usage."""
    first = words[0] if words else "open"
    if first in (*COMMANDS, *UNLISTED):
        return parser(first).parse_args(words or ["open"])
    if first.startswith("-"):
        return parser("").parse_args(words)
    if not _names_a_file(first):
        # Opening a window called so would hide a slip of the pen.
        known = parser("")
        known.error(no_command(first, COMMANDS, known.prog))
    return parser("open").parse_args(["open", *words])


def _names_a_file(word: str) -> bool:
    """Whether a word is meant as a file: it has the look of one, or there is one."""
    looks = os.sep in word or "." in word or not word.strip()
    return looks or os.path.exists(word)  # noqa: PTH110 - pathlib is not needed to open


def _command(name: str) -> Callable[[Namespace], int]:
    """Return what carries a command out; its module is loaded now, with all that it needs."""
    collects = gc.isenabled()
    gc.disable()  # what is loaded is no garbage, and looking for it takes time
    try:
        module = import_module(f"designer.command_line.{name.replace('-', '_')}_command")
    finally:
        if collects:
            gc.enable()
    carry_out: Callable[[Namespace], int] = module.carry_out
    return carry_out
