"""What the shells complete after `hobwort`, made of the words of the commands themselves."""

from __future__ import annotations

import argparse
import sys

import shtab

from designer.command_line.usage import UNLISTED, parser

SHELLS = ("bash", "zsh", "fish")
RECIPES = {
    "bash": "_hobwort_recipes",
    "zsh": "_files -g '*.hobwort'",
    "fish": "__fish_complete_suffix .hobwort",
}
"""Recipe files, and folders on the way to them."""
ANY_FILE = {"output", "csv"}
"""Options of which the value is a file of another kind."""
PREAMBLE = {
    "bash": """
_hobwort_recipes() {
  compgen -d -- "$1"
  compgen -f -X '!*.hobwort' -- "$1"
}
""",
    "zsh": "",
    "fish": "",
}


BASH = "complete -o bashdefault -F"


def completions(shell: str) -> str:
    """Return the file that one of `SHELLS` reads."""
    commands = parser()
    _tell_files(commands, ())
    text = str(shtab.complete(commands, shell, preamble=PREAMBLE))
    if shell == "bash":
        # Where no command fits, a file may be meant that the window is to open.
        text = text.replace(BASH, BASH.replace("-F", "-o default -o filenames -F"))
    return text


def _tell_files(command: argparse.ArgumentParser, path: tuple[str, ...]) -> None:
    for action in command._actions:
        if isinstance(action, argparse._SubParsersAction):
            for name in UNLISTED:
                action.choices.pop(name, None)
            for name, inner in action.choices.items():
                _tell_files(inner, (*path, name))
        elif action.dest in ("file", "files"):
            action.complete = RECIPES if path[0] != "brews" else shtab.FILE
        elif action.dest in ANY_FILE:
            action.complete = shtab.FILE


if __name__ == "__main__":
    sys.stdout.write(completions(sys.argv[1]))
