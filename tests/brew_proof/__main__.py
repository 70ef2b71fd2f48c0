"""Measure hidden brew days and count: `python -m tests.brew_proof [days]`.

Of each kind of measurement alone, and of all of a day together, in all example recipes: how many of
a hundred days the five forecasts hold, and how wide they are beside the plan's.
"""

import sys
from pathlib import Path

from designer.library.recipe_file import load
from tests.brew_proof.coverage import counted, together
from tests.brew_proof.hidden_days import ALL_OF_A_DAY, FORECASTS, KINDS

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
WANTED = (0.87, 0.93)


def main() -> int:
    """Print the table; 1 if a share of days lies outside what is wanted."""
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    recipes = [load(path) for path in sorted(EXAMPLES.glob("*.hobwort"))]
    each = -(-days // len(recipes))
    heads = "".join(f"{key.split('_')[0]:>17}" for key in FORECASTS)
    say(f"{each * len(recipes)} days: of a hundred so many held, and width beside the plan's\n")
    say(f"{'':40}{heads}")
    missed = 0
    for taken in ((), *((kind,) for kind in KINDS), ALL_OF_A_DAY):
        found = together([counted(recipe, taken, each) for recipe in recipes])
        row = ""
        for key in FORECASTS:
            outside = not WANTED[0] <= found.held[key] <= WANTED[1]
            missed += outside
            row += f"{100 * found.held[key]:9.1f}{'*' if outside else ' '}{found.width[key]:6.3f} "
        say(f"{name_of(taken):40}{row}")
    say(f"\n{missed} outside {WANTED[0]:.0%} to {WANTED[1]:.0%}")
    return 1 if missed else 0


def name_of(taken) -> str:
    """Return what was measured, in words."""
    if len(taken) == 1:
        return str(taken[0])
    return "all of a day" if taken else "nothing"


def say(line: str) -> None:
    """Print a line as soon as it is known."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
