"""Take advice on hidden brew days and count: `python -m tests.brew_proof.advice [days]`.

A brewer measures all of a day, does not what was planned (another weight of extract, hops of
another alpha acid, more water or less, on half of the days found out only when they are in), and
accepts whatever is advised at each of six moments. Counted are the moments at which a forecast had
left the plan's own band, how many of those were in reach, and after how many of these all five
forecasts lie inside; then how the days end, by the forecasts and by the truth, with advice and
without.

What is in reach is found apart from the search of the advice: by many thousand draws of all that is
ahead at once, along the slopes of the day, of which the best are run through it.
"""

import sys
from collections import Counter
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np

from designer.brewday.measured.advice import proposals
from designer.brewday.measured.advice_ahead import levers_ahead
from designer.brewday.measured.advice_checks import is_worse
from designer.brewday.measured.ahead import KEYS, day_ahead, readings_moved
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import By, Measured
from designer.brewday.measured.standing import At, Standing
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.recipe.fields import number
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from tests.brew_proof.hidden_days import ALL_OF_A_DAY, LEFT_MIN, HiddenDays

M, B = Measured, By
EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
WANTED = 0.90
MOMENTS = (
    ("before the boil", At.STEEPED, None, (M.ALPHA, M.WATER_IN, M.STEEP)),
    ("as it boils", At.BOILING, 60.0, (M.WEIGHT, M.BOIL_START_VOLUME, M.BOIL_START_GRAVITY)),
    ("in the boil", At.BOILING, LEFT_MIN, (M.BOIL_VOLUME, M.BOIL_GRAVITY)),
    ("after the boil", At.BOILED, 0.0, (M.BOIL_END_VOLUME, M.BOIL_END_GRAVITY)),
    ("in the fermenter", At.MOVED, 0.0, (M.COOLED, M.INTO_FERMENTER)),
    ("topped up", At.TOPPED_UP, 0.0, (M.TOPPED_UP, M.ORIGINAL_GRAVITY)),
)
"""When advice is asked, how far the day is, what is left of the boil, and what was read last."""
DRAWS, RUN = 20_000, 12
EXTRACT, ALPHA, WATER = 0.12, 0.25, 0.08
"""Standard deviations of what the brewer does otherwise, as a share of what was planned."""


@dataclass
class Tally:
    """What came of so many days: moments by their name, and days by how they end."""

    days: int = 0
    outside: Counter = field(default_factory=Counter)
    in_reach: Counter = field(default_factory=Counter)
    brought: Counter = field(default_factory=Counter)
    taken: Counter = field(default_factory=Counter)
    ends: Counter = field(default_factory=Counter)

    def add(self, other):
        """Add what came of other days."""
        self.days += other.days
        for name in ("outside", "in_reach", "brought", "taken", "ends"):
            getattr(self, name).update(getattr(other, name))

    @property
    def share(self):
        """The share of moments in reach after which all five lie inside."""
        return sum(self.brought.values()) / max(sum(self.in_reach.values()), 1)


def outside(values, plan):
    """Return which forecasts lie outside the plan's own band."""
    return [key for key in KEYS if not plan[key].low <= values[key] <= plan[key].high]


def values_of(outlook):
    """Return the five forecasts of an outlook."""
    return {key: outlook.forecasts[key].value for key in KEYS}


def standing_at(recipe, at, left):
    """Return where a day stands; what boils for longer than is left has gone in."""
    boil_min = number(recipe.process, "boil_time")
    gone = set()
    for name in ("fermentables", "hops", "extras"):
        for line in getattr(recipe, name):
            stage, minutes = str(line.when.stage), min(line.when.minutes, boil_min)
            early = stage in ("steep", "first wort") or (
                left is not None and stage == "boil" and minutes >= left > 0.0
            )
            over = at >= At.BOILED and stage in ("boil", "flame-out", "stand")
            if early or over or (name == "fermentables" and "grain" in line.kind):
                gone.add((name, line.line_id, 1))
    return Standing(
        {1: min(at, At.MOVED)}, {1: at}, frozenset(gone), {} if left is None else {1: left}
    )


class BrewDay:
    """One hidden day of a recipe, brewed with advice."""

    def __init__(self, recipe, plan, day, days, seed):
        self.recipe, self.plan, self.day, self.days, self.seed = recipe, plan, day, days, seed
        self.readings = ()
        self._draw = np.random.default_rng((seed, day, 7))
        self._z = self._draw.standard_normal(3)
        self._late = bool(self._draw.random() < 0.5)

    def do_otherwise(self):
        """Let the brewer have done what he really did."""
        recipe, (extract, alpha, water) = self.recipe, self._z
        first = next(each for each in recipe.fermentables if "grain" not in each.kind)
        kg = first.amount.value * np.exp(EXTRACT * extract)
        start = recipe.process.start_water.value * np.exp(WATER * water)
        self.recipe = replace(
            recipe,
            process=replace(recipe.process, start_water=typed(Kind.VOLUME, float(start))),
            fermentables=tuple(
                replace(each, amount=typed(Kind.MASS, float(kg))) if each is first else each
                for each in recipe.fermentables
            ),
            hops=tuple(
                replace(each, alpha=typed(Kind.FRACTION, each.alpha.value * np.exp(ALPHA * alpha)))
                for each in recipe.hops
            ),
        )

    def hidden(self):
        """Return the days as they are with the recipe as it is brewed now."""
        taken = tuple(each for each in ALL_OF_A_DAY if each.what is not M.ORIGINAL_GRAVITY)
        return HiddenDays(self.recipe, taken, self.days, self.seed)

    def brew(self, tally):
        """Go through the day, accepting all advice."""
        tally.days += 1
        for name, at, left, read in MOMENTS:
            if (name == MOMENTS[1][0]) if self._late else (name == MOMENTS[0][0]):
                self.do_otherwise()
            seen = self.hidden().readings(self.day)
            self.readings += tuple(each for each in seen if each.what in read)
            standing = standing_at(self.recipe, at, left)
            now = day_measured(self.recipe, self.readings, ranges=False)
            was = outside(values_of(now), self.plan.forecasts)
            found = proposals(self.recipe, self.readings, self.plan, now, standing)
            before = self.recipe, self.readings
            for each in found:
                tally.taken[each.code.split(":")[0] if "+" not in each.code else "several"] += 1
                self.accept(each)
            if was:
                tally.outside[name] += 1
                after = day_measured(self.recipe, self.readings, ranges=False)
                inside = not outside(values_of(after), self.plan.forecasts)
                if inside or in_reach(*before, self.plan, now, standing):
                    tally.in_reach[name] += 1
                    tally.brought[name] += inside
        self.end(tally)

    def accept(self, proposal):
        """Take advice: water that is poured in after the mark was read comes to what was read."""
        mark = self.recipe.process.top_up_to
        self.recipe = proposal.edit.apply(self.recipe)
        more = sum(each.get("more_l", 0.0) for each in proposal.changes)
        if more:
            read = next(each.value for each in self.readings if each.what is M.TOPPED_UP)
            true = typed(Kind.VOLUME, mark.value * (1.0 + more / read))
            self.recipe = replace(self.recipe, process=replace(self.recipe.process, top_up_to=true))
        self.readings = readings_moved(self.readings, proposal.changes)

    def end(self, tally):
        """Count how the day ends, by the forecasts before topping up and by the truth."""
        plan = self.plan.forecasts
        now = day_measured(self.recipe, self.readings, ranges=False)
        tally.ends["forecasts inside"] += not outside(values_of(now), plan)
        self.count_truth(tally, "true")

    def count_truth(self, tally, name):
        """Count which of the five are inside the plan's own band in truth."""
        truth = self.hidden().truth
        missed = outside({key: float(truth[key][self.day]) for key in KEYS}, self.plan.forecasts)
        tally.ends[f"{name} all five"] += not missed
        for key in KEYS:
            tally.ends[f"{name} {key}"] += key not in missed


def in_reach(recipe, readings, plan, now, standing):
    """Return whether any steps of what is ahead bring all five inside, and nothing grave."""
    levers = levers_ahead(recipe, now, standing)
    if not levers:
        return False
    ahead = day_ahead(recipe, readings)

    def run(steps):
        changed, changes = recipe, ()
        for lever, n in zip(levers, steps, strict=True):
            if n:
                changed = lever.edit(int(n)).apply(changed)
                changes = (*changes, *lever.changes(int(n)))
        return changed, changes

    def at(steps):
        found = ahead.aims(*run(steps))
        return np.array([found[key].value for key in KEYS])

    first, slopes = at([0] * len(levers)), []
    for place, lever in enumerate(levers):
        far = lever.high if lever.high else lever.low
        far = far // 2 or far
        there = at([far if other == place else 0 for other in range(len(levers))])
        slopes.append((there - first) / far)
    draw = np.random.default_rng(1)
    lows, highs = [each.low for each in levers], [each.high + 1 for each in levers]
    steps = draw.integers(lows, highs, (DRAWS, len(levers)))
    steps = steps * (draw.random(steps.shape) < 0.5)
    straight = first + steps @ np.array(slopes)
    value, low, high = (
        np.array([getattr(plan.forecasts[key], name) for key in KEYS])
        for name in ("value", "low", "high")
    )
    off = np.where(straight > value, (straight - value) / (high - value),
                   (value - straight) / (value - low)).max(axis=1)  # fmt: skip
    as_it_is = ahead.outlook(recipe, ())
    for place in np.argsort(off)[:RUN]:
        found = at(steps[place])
        if np.all((low <= found) & (found <= high)):
            return not is_worse(as_it_is, ahead.outlook(*run(steps[place])))
    return False


def brewed(recipe, days, seed=1):
    """Return what comes of so many days of a recipe."""
    plan, tally = look_ahead(recipe), Tally()
    for day in range(days):
        BrewDay(recipe, plan, day, days, seed).brew(tally)
        as_it_comes = BrewDay(recipe, plan, day, days, seed)
        as_it_comes.do_otherwise()
        as_it_comes.count_truth(tally, "without")
    return tally


def main():
    """Print the table; 1 if too few moments in reach were brought back."""
    days = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    recipes = [load(path) for path in sorted(EXAMPLES.glob("*.hobwort"))]
    each = -(-days // len(recipes))
    whole = Tally()
    for recipe in recipes:
        found = brewed(recipe, each)
        whole.add(found)
        say(f"{recipe.name}: {found.days} days, {found.share:.1%} of what was in reach brought in")
    say(f"\n{'asked':20}{'outside':>9}{'in reach':>10}{'brought in':>12}")
    for name, *_ in MOMENTS:
        say(f"{name:20}{whole.outside[name]:9}{whole.in_reach[name]:10}{whole.brought[name]:12}")
    say(f"\nof all in reach {whole.share:.1%}; wanted {WANTED:.0%}")
    say(f"all five forecasts inside as it is topped up: {whole.ends['forecasts inside']}")
    say(f"\n{'truth inside the plan band, %':36}{'as it comes':>14}{'with advice':>14}")
    for key in (*KEYS, "all five"):
        shares = [100.0 * whole.ends[f"{name} {key}"] / whole.days for name in ("without", "true")]
        say(f"{key:36}{shares[0]:14.1f}{shares[1]:14.1f}")
    say(f"\naccepted: {dict(whole.taken)}")
    return 0 if whole.share >= WANTED else 1


def say(line):
    """Print a line as soon as it is known."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
