"""`hobwort brews warmth` writes down how warm the beer is, or takes a table of that in."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from designer.command_line.brews_beer import brewed_beer
from designer.command_line.brews_logs import now, write
from designer.command_line.brews_read import refuse_before
from designer.command_line.options import Options
from designer.command_line.output import FINE, print_lines
from designer.command_line.told_time import told_time
from designer.errors import RefusedInputError
from designer.library.store.brews import Brew
from designer.recipe.message import refused
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units import show
from designer.units.quoting import one_line
from designer.workbench.brew.beer import DAY_S
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.warmth_csv import COLDEST_C, WARMEST_C, warmth_in_file


def carry_out(chosen: Namespace, brew: Brew, entries: tuple[Entry, ...]) -> int:
    """Write temperatures into the log of a brew, and print what was written.

    Raises RefusedInputError for what is no temperature, and while no yeast is in.
    """
    pitched = brewed_beer(brew, entries).beer.pitched
    at = told_time(chosen.on, now())
    refuse_before(at, pitched)
    temperatures, typed = _typed(chosen, (at or now()).wall)
    if chosen.csv is not None:
        temperatures, typed = _table(chosen, pitched)
    values = {"temperatures": [list(each) for each in temperatures], "typed": typed}
    write(brew, entries, (What.WARMTH, values), at=None if chosen.csv is not None else at)
    print_lines(tr("{name}: {typed}", name=one_line(brew.name), typed=typed))
    return FINE


def _typed(chosen: Namespace, wall: float) -> tuple[list[tuple[float, float]], str]:
    options = Options()
    found = options.quantity("warmth", Kind.TEMPERATURE, chosen.temp, COLDEST_C, WARMEST_C)
    if options.problems:
        raise RefusedInputError(options.problems)
    if found is None:
        return [], ""
    return [(wall, found.value)], show(Kind.TEMPERATURE, found.value)


def _table(chosen: Namespace, pitched: float) -> tuple[list[tuple[float, float]], str]:
    if chosen.on:
        raise refused("on-with-csv", "--on: a table has times of its own; leave one of both out.")
    found = warmth_in_file(Path(chosen.csv))
    since = [each for each in found.temperatures if each[0] >= pitched - DAY_S]
    if not since:
        raise refused(
            "warmth-before-yeast",
            "{path}: all of it is from before the yeast went in. Look at its dates, and at when "
            "the log says that you pitched.",
            path=one_line(chosen.csv),
        )
    return since, str(found.words)
