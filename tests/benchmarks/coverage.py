"""How often a brew day really lands in the printed range.

    python tests/benchmarks/coverage.py [--days 2000] [--before CHECKOUT]

Days are brewed with hidden errors drawn from the priors of `coverage_priors`, which rest on the
sources and know nothing of the program's own tables; an input without a prior is refused. Counted
is how many of them land in the range that the program prints beforehand, 5 to 95 %: 87 to 93 of a
hundred are wanted of each forecast over all recipes, and at least 80 of any single one. Then the
widths of the ranges of the examples are printed, beside those of another checkout of the program,
and what causes them.
"""

# ruff: noqa: T201 - it is run by hand and prints what it counted
from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))  # run as a script it finds the tests

import numpy as np

from designer.brewday.day import run_day
from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import PREDICTIONS
from designer.library.recipe_file import load
from designer.recipe.document import Recipe
from designer.recipe.quantity import Quantity
from tests.benchmarks.coverage_priors import (
    AS_READ,
    READ_OTHERWISE,
    Array,
    Draw,
    Priors,
)
from tests.benchmarks.coverage_recipes import EXAMPLES, recipes

FORECASTS = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm")
WANTED, LEAST_OF_ONE = (0.87, 0.93), 0.80
MAY_BE_BELOW_NOTHING = ("temperature of the stand", "freezer temperature")
SHEETS = {"sources as read": AS_READ, "the same, read otherwise": READ_OTHERWISE}


@dataclass
class HiddenErrors:
    """A sampler of days as they really are; it knows every input by its own prior.

    What the brewer typed with a ± is off by that. Raises KeyError for what no prior is known of.
    """

    recipe: Recipe
    priors: Priors
    days: int
    seed: int = 1
    asked: set[str] = field(default_factory=set)

    def absolute(self, key: str, value: float, half_width: float) -> Array:
        """Return what the figure is on each day; the program's own half width is not looked at."""
        return self._drawn(key, value)

    def relative(self, key: str, value: float, half_width: float) -> Array:
        """Return the same."""
        return self._drawn(key, value)

    def doubt(self, doubt: Any, name: str = "") -> Array:
        """Return the same; of the program's doubt only its name and published figure are read."""
        words = doubt.words.format(name=name) if name else doubt.words
        return self._drawn(words, doubt.published, doubt.words, name)

    def _drawn(self, key: str, value: float, template: str = "", name: str = "") -> Array:
        template = template or getattr(key, "template", key)
        name = name or getattr(key, "name", "")
        draw = Draw(str(key), self.days, self.seed)
        typed = self._typed(template, name)
        if typed is not None and typed.spread is not None and typed.ends is None:
            return np.maximum(value + draw.normal(typed.spread), min(value, 0.0))
        self.asked.add(template)
        prior = self.priors[template]
        if typed is not None and template == "cooling constant":  # two readings; judgement
            return value * draw.times(0.15)
        drawn = prior(draw, value, self._line(template, name))
        return np.maximum(drawn, 0.0) if template not in MAY_BE_BELOW_NOTHING else drawn

    def _line(self, template: str, name: str) -> Any:
        """What the input belongs to: a line, the yeast, the pot or the process."""
        whole = {"attenuation": self.recipe.yeast, "wort left in the pot": self.recipe.process,
                 "efficiency of the stove": self.recipe.pot}  # fmt: skip
        if template in whole:
            return whole[template]
        if template in ("wort held by hops", "age of the hops", "how fast hops age"):
            return self.recipe.hops[0]
        lines = (*self.recipe.fermentables, *self.recipe.hops)
        return next((line for line in lines if line.name == name), None)

    def _typed(self, template: str, name: str) -> Quantity | None:
        """What the brewer typed of the input."""
        process, line = self.recipe.process, self._line(template, name)
        found = {
            "water measured in": process.start_water,
            "fermenter mark": process.top_up_to,
            "evaporation": process.evaporation,
            "wort left in the pot": process.left_in_pot,
            "cooling constant": process.cooling_constant,
            "attenuation": self.recipe.yeast.attenuation,
            "solids of {name}": getattr(line, "extract", None),
            "steep yield of {name}": getattr(line, "extract", None),
            "alpha acid of {name}": getattr(line, "alpha", None),
            "colour of {name}": getattr(line, "colour", None),
        }.get(template)
        if template == "weight of {name}":
            said = {f"{hop.name}, {hop.when.text}": hop.amount for hop in self.recipe.hops}
            found = said[name]
        return found


def coverage(recipe: Recipe, priors: Priors, days: int, seed: int = 1) -> dict[str, float]:
    """Return the share of days that land in the range of each forecast."""
    outlook = look_ahead(recipe)
    day, _ = run_day(recipe, HiddenErrors(recipe, priors, days, seed), noting=False)
    found = {}
    for each in PREDICTIONS:
        if each.key in FORECASTS:
            real = np.broadcast_to(each.compute(day), (days,))
            printed = outlook.forecasts[each.key]
            found[each.key] = float(((real >= printed.low) & (real <= printed.high)).mean())
    return found


def _print_coverage(name: str, priors: Priors, days: int) -> bool:
    print(f"\n{name}: of a hundred days so many land in the range\n")
    print(" " * 34 + "".join(f"{key.split('_')[0]:>12}" for key in FORECASTS))
    table = {called: coverage(recipe, priors, days) for called, recipe in recipes().items()}
    for called, shares in table.items():
        print(f"{called:<34}" + "".join(f"{100 * shares[key]:12.1f}" for key in FORECASTS))
    means = {key: float(np.mean([each[key] for each in table.values()])) for key in FORECASTS}
    least = {key: min(each[key] for each in table.values()) for key in FORECASTS}
    print(f"{'all':<34}" + "".join(f"{100 * means[key]:12.1f}" for key in FORECASTS))
    print(f"{'least of any':<34}" + "".join(f"{100 * least[key]:12.1f}" for key in FORECASTS))
    return all(
        WANTED[0] <= means[key] <= WANTED[1] and least[key] >= LEAST_OF_ONE for key in FORECASTS
    )


def _widths_of(checkout: Path) -> dict[str, dict[str, float]]:
    """Ask another checkout of the program for its widths, in a process of its own."""
    code = (
        "import json, sys\n"
        "from pathlib import Path\n"
        "from designer.brewday.outlook import look_ahead\n"
        "from designer.library.recipe_file import load\n"
        "names, keys = json.loads(sys.argv[1])\n"
        "found = {}\n"
        "for name in names:\n"
        "    of = look_ahead(load(Path('resources/examples') / f'{name}.hobwort')).forecasts\n"
        "    found[name] = {key: of[key].high - of[key].low for key in keys}\n"
        "print(json.dumps(found))\n"
    )
    said = subprocess.run(
        [sys.executable, "-c", code, json.dumps([EXAMPLES, FORECASTS])],
        cwd=checkout, env={**os.environ, "PYTHONPATH": str(checkout)},
        check=True, capture_output=True, text=True,
    )  # fmt: skip
    answer: dict[str, dict[str, float]] = json.loads(said.stdout)
    return answer


def _mean_width(found: Mapping[str, Mapping[str, float]], key: str) -> float:
    return float(np.mean([each[key] for each in found.values()]))


def _print_widths(checkout: Path | None) -> None:
    """Print the widths of the examples, and beside them what another checkout makes of its own.

    Where there is one, its files of the examples are taken for both.
    """
    before = _widths_of(checkout) if checkout else None
    folder = (checkout or Path(__file__).parents[2]) / "resources" / "examples"
    outlooks = {name: look_ahead(load(folder / f"{name}.hobwort")) for name in EXAMPLES}
    now = {
        name: {key: outlook.forecasts[key].high - outlook.forecasts[key].low for key in FORECASTS}
        for name, outlook in outlooks.items()
    }
    print("\nWidth of the range" + (", before and now" if before else ""))
    print("\nmean of the four examples")
    for key in FORECASTS:
        was = f"{_mean_width(before, key):9.4g} " if before else ""
        print(f"  {key:<18}{was}{_mean_width(now, key):9.4g}")
    for name, outlook in outlooks.items():
        print(f"\n{name.replace('_', ' ')}")
        for key in FORECASTS:
            was = f"{before[name][key]:9.4g} " if before else ""
            causes = ", ".join(
                f"{cause.words.text} {100 * cause.share:.0f} %"
                for cause in outlook.forecasts[key].causes
            )
            print(f"  {key:<18}{was}{now[name][key]:9.4g}   {causes}")


def main() -> int:
    """Print the tables; 1 where a range is not what it says."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--days", type=int, default=2000)
    options.add_argument("--before", type=Path, help="a checkout of the program as it was")
    given = options.parse_args()
    sound = [_print_coverage(name, priors, given.days) for name, priors in SHEETS.items()]
    _print_widths(given.before.resolve() if given.before else None)
    return 0 if all(sound) else 1


if __name__ == "__main__":
    sys.exit(main())
