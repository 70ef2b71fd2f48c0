"""`hobwort brews read` writes a gravity of the beer down; both it and `beer` tell where that is."""

from __future__ import annotations

from argparse import Namespace

from designer.brewday.explaining.asked import GravitySample, Scale, Taken
from designer.brewday.measured.readings import By
from designer.command_line.as_chosen import figures_of
from designer.command_line.brews_beer import brewed_beer
from designer.command_line.brews_logs import now, write
from designer.command_line.output import FINE, print_json, print_lines
from designer.command_line.reading_asked import SCALES, ReadingOptions
from designer.command_line.told_time import told_time
from designer.errors import RefusedInputError
from designer.library.store.brews import Brew
from designer.recipe.document import Process
from designer.recipe.fields import number
from designer.recipe.message import refused
from designer.recipe.quantity import Kind
from designer.units.quoting import one_line
from designer.workbench.brew.beer import DAY_S
from designer.workbench.brew.beer_text import beer_document, beer_lines
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.sample_values import values_of_sample


def carry_out(chosen: Namespace, brew: Brew, entries: tuple[Entry, ...]) -> int:
    """Write a reading where one is told, and print where the beer is.

    Raises RefusedInputError for what is no reading, and while no yeast is in.
    """
    found = brewed_beer(brew, entries, chosen.fermenter)
    if chosen.does == "read":
        at = told_time(chosen.on, now())
        refuse_before(at, found.beer.pitched)
        sample = _sample(chosen, found.reckoned.recipe.process)
        values = {"sample": values_of_sample(sample), "typed": _typed(chosen)}
        entries = write(brew, entries, (What.SAMPLE, values), at=at)
        found = brewed_beer(brew, entries, chosen.fermenter)
    if chosen.json:
        print_json(beer_document(brew.name, found.beer))
        return FINE
    lines = beer_lines(found.beer, found.packed.on, figures_of(chosen))
    print_lines(one_line(brew.name), *lines)
    return FINE


def refuse_before(at: Instant | None, pitched: float) -> None:
    """Refuse a time before the yeast went in, but for some hours of that day."""
    if at is not None and at.wall < pitched - DAY_S:
        raise refused(
            "on-before-yeast",
            "--on: the yeast was not in yet on that day. Look at the date, or set the time of "
            "pitching right in the log.",
        )


def _sample(chosen: Namespace, process: Process) -> GravitySample:
    options = ReadingOptions()
    scale, shown = options.read_off(chosen)
    sample_c = options.value("--at", Kind.TEMPERATURE, chosen.at, -2.0, 100.0)
    calibrated = options.value("--calibrated", Kind.TEMPERATURE, chosen.calibrated, 0.0, 60.0)
    in_water = options.value("--in-water", Kind.GRAVITY, chosen.in_water, 0.98, 1.02)
    correction = options.number("--correction", chosen.correction, 0.9, 1.2)
    if options.problems or shown is None:
        raise RefusedInputError(options.problems)
    return GravitySample(
        shown,
        scale,
        By.REFRACTOMETER if scale is Scale.BRIX else By.HYDROMETER,
        sample_c,
        number(process, "hydrometer_made_for") if calibrated is None else calibrated,
        in_water,
        correction,
        Taken.FERMENTING,
        fermenter=chosen.fermenter,
    )


def _typed(chosen: Namespace) -> str:
    name = next(each for each in SCALES if getattr(chosen, each) is not None)
    unit = {"plato": " °P", "brix": " °Bx"}.get(name, "")
    shown = getattr(chosen, name).strip()
    text = shown if unit.strip().lower() in shown.lower() and unit else f"{shown}{unit}"
    return f"{text} at {chosen.at.strip()}" if chosen.at else text
