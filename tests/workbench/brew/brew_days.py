"""Brew days whose steps are done one after another, by a clock that a test moves."""

from __future__ import annotations

from designer.brewday.measured.readings import Reading
from designer.brewday.outlook import look_ahead
from designer.recipe.document import Recipe
from designer.sheet.stove import StoveStep, stove_steps
from designer.units import ShownUnits
from designer.workbench.brew import timer_moves
from designer.workbench.brew.as_brewed import with_accepted
from designer.workbench.brew.brewing import Brewing, brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import values_of

STARTS = 1_000_000.0


def steps_of(recipe: Recipe) -> tuple[StoveStep, ...]:
    outlook = look_ahead(recipe, ranges=False)
    return stove_steps(recipe, outlook, shown=ShownUnits.METRIC, start=None, brew_date=None)


class BrewDay:
    """A log that is written as a brewer goes through the steps."""

    def __init__(self, recipe: Recipe) -> None:
        self.recipe, self.minute = recipe, 0.0
        self.entries: list[Entry] = []
        self.write(What.BEGAN, start_min=540)

    def write(self, what: What, /, **values) -> str:
        seconds = 60.0 * self.minute
        at = Instant(STARTS + seconds, "this boot", seconds)
        made = Entry(next_id(self.entries), at, what, values)
        self.entries.append(made)
        return made.id

    @property
    def now(self) -> Brewing:
        folded = brewing_of(self.recipe, (), self.entries)
        steps = steps_of(with_accepted(self.recipe, folded))
        return brewing_of(self.recipe, steps, self.entries)

    def do(self, key: str) -> str:
        return self.write(What.DONE, step=key)

    def do_until(self, key: str) -> None:
        """Do all steps up to one, that too; the boil's clock runs as it is meant to."""
        for each in self.now.steps:
            if self.now.state_of(each.key).status in ("ahead", "now", "later"):
                if each.left_min is not None and each.kind != "boils":
                    self.minute = self.boiled_at + self.boils_for - each.left_min
                self.do(each.key)
                if each.kind == "boils":
                    self.start_boil(each.left_min or 60.0)
            if each.key == key:
                return

    def start_boil(self, minutes: float) -> None:
        self.boiled_at, self.boils_for = self.minute, minutes
        self.write(What.TIMER, **timer_moves.start("boil", minutes))

    def read(self, reading: Reading, typed: str = "") -> str:
        return self.write(What.READING, reading=values_of(reading), typed=typed)

    def accept(self, proposal) -> str:
        return self.write(What.ACCEPTED, **proposal.values)
