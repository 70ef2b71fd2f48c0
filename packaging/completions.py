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
    "fish": "(__fish_complete_suffix .hobwort)",
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
ZSH = "_describe 'hobwort commands' _commands"
FISH = (
    "complete -c hobwort -n '_shtab_hobwort_using; and test $_shtab_hobwort_npos -eq 0' "
    "-ka '(__fish_complete_suffix .hobwort)'"
)


def completions(shell: str) -> str:
    """Return the file that one of `SHELLS` reads."""
    commands = parser()
    _tell_files(commands, ())
    if shell == "zsh":
        _without_signs(commands)
    text = str(shtab.complete(commands, shell, preamble=PREAMBLE))
    # Where no command fits, a file may be meant that the window is to open.
    if shell == "bash":
        text = text.replace(BASH, BASH.replace("-F", "-o default -o filenames -F"))
    elif shell == "zsh":
        text = text.replace(ZSH, f"{ZSH}\n  _files -g '*.hobwort'")
    elif shell == "fish":
        text += f"\n{FISH}\n"
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


def _without_signs(command: argparse.ArgumentParser) -> None:
    """Take out of what values are called what would end a word of zsh's there: "9 L", 09:00."""
    for action in command._actions:
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                _without_signs(inner)
        elif isinstance(action.metavar, str):
            action.metavar = action.metavar.replace('"', "").replace(":", r"\:")


if __name__ == "__main__":
    sys.stdout.write(completions(sys.argv[1]))
