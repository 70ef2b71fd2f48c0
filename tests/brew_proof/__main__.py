"""Measure hidden brew days and count: `python -m tests.brew_proof [days]`.

Of each kind of measurement alone, and of all of a day together, in all example recipes: how many of
a hundred days the five forecasts hold, and how wide they are beside the plan's; the last column is
that of what was measured itself. A kind that narrows none of the five says why.
"""

import sys
from pathlib import Path

from designer.brewday.measured.readings import By, Measured
from designer.library.recipe_file import load
from designer.recipe.choices import is_grain
from tests.brew_proof.coverage import ITSELF, counted, together
from tests.brew_proof.hidden_days import ALL_OF_A_DAY, FORECASTS, KINDS, Taken

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
WANTED = (0.87, 0.93)
NARROWS = 0.998
"""Mean width beside the plan's at which the narrowing of a forecast is no longer chance."""
_HEAT = "none of the five depends on heat but by a trace; it tells how warm the wort is"
_CERTAIN = _HEAT + ". The plan takes it as certain, and the thermometer is off by 2 °C"
_BOILED = "what boils away is made up by the top-up, so it tells of the pot and not of the beer"
WHY_NOT = {
    Measured.STRIKE: _CERTAIN,
    Measured.STEEP: _CERTAIN,
    Measured.COOLED: _CERTAIN,
    Measured.MIXED: _HEAT,
    Measured.WATER_IN: _BOILED,
    Measured.BOIL_START_VOLUME: _BOILED,
    Measured.BOIL_VOLUME: _BOILED,
    Measured.BOIL_END_VOLUME: _BOILED,
    Measured.ALPHA: "the plan has the figure of a packet too, as sure as that in hand; it differs "
    "by what was decided, and bitterness is uncertain as a share of itself",
    Measured.WEIGHT: "the plan is weighed with the same scale",
}
OF_A_STEEP = {Taken(what, By.THERMOMETER) for what in (Measured.STRIKE, Measured.STEEP)}
BY_THE_PLANS_OWN = {
    Taken(Measured.WATER_IN, By.MARK): "the plan is measured with the same jug",
    Taken(Measured.TOPPED_UP, By.MARK): "the plan fills up to the same mark",
}


def main() -> int:
    """Print the table; 1 if a share of days lies outside what is wanted."""
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    recipes = [load(path) for path in sorted(EXAMPLES.glob("*.hobwort"))]
    each = -(-days // len(recipes))
    heads = "".join(f"{key.split('_')[0]:>16}" for key in (*FORECASTS, ITSELF))
    say(f"{each * len(recipes)} days: of a hundred so many held, and width beside the plan's\n")
    say(f"{'':50}{heads}")
    missed = 0
    for taken in ((), *((kind,) for kind in KINDS), ALL_OF_A_DAY):
        told = [recipe for recipe in recipes if steeps(recipe) or not set(taken) & OF_A_STEEP]
        share = -(-each * len(recipes) // len(told))
        found = together([counted(recipe, taken, share) for recipe in told])
        row = ""
        for key in found.held:
            outside = not WANTED[0] <= found.held[key] <= WANTED[1]
            missed += outside and key != ITSELF
            row += f"{100 * found.held[key]:8.1f}{'*' if outside else ' '}{found.width[key]:6.3f} "
        say(f"{name_of(taken):50}{row}")
        if taken and all(found.width[key] > NARROWS for key in FORECASTS):
            why = BY_THE_PLANS_OWN.get(taken[0]) or WHY_NOT.get(taken[0].what, "not known why")
            say(f"    {why}")
    say(f"\n{missed} forecasts outside {WANTED[0]:.0%} to {WANTED[1]:.0%}")
    return 1 if missed else 0


def steeps(recipe) -> bool:
    """Whether there is a steep to be measured."""
    return any(is_grain(line.kind) for line in recipe.fermentables)


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
