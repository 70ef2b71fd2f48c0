"""Brews of a kitchen whose readings are told outright, as logs of a Recipe box."""

from dataclasses import replace

from designer.brewday.explaining.asked import GravitySample, Taken
from designer.brewday.measured.readings import By, Measured, Reading
from designer.library.recipe_file import document_text, load
from designer.library.store.brews import new_brew
from designer.resource_files import resource_path
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import plain
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.sample_values import values_of_sample

DAY_S = 86_400.0
FIRST = 1_767_430_800.0  # 3 January 2026, 9:00 UTC
FIVE_BREWS = (
    {"start": 6.90, "end": 5.80, "moved": 5.2, "og": 1.046, "fg": 1.0135},
    {"start": 6.95, "end": 5.90, "moved": 5.3, "og": 1.045, "fg": 1.0130},
    {"start": 6.90, "end": 5.75, "moved": 5.1, "og": 1.046, "fg": 1.0135},
    {"start": 7.00, "end": 5.95, "moved": 5.3, "og": 1.045, "fg": 1.0130},
    {"start": 6.90, "end": 5.85, "moved": 5.2, "og": 1.046, "fg": 1.0135},
)
"""What was read of the porter in five brews: all boil away more than 0.9 L/h, and end alike."""


def porter():
    """The example, without what its kitchen is to teach."""
    recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    process = replace(recipe.process, evaporation=None, left_in_pot=None)
    return replace(recipe, process=process, yeast=replace(recipe.yeast, attenuation=None))


def log(number, start=None, end=None, moved=None, og=None, fg=None):
    """The entries of a brew, one every four weeks."""
    at = FIRST + 28.0 * number * DAY_S
    read = (
        (Measured.BOIL_START_VOLUME, start, By.MARK),
        (Measured.BOIL_END_VOLUME, end, By.MARK),
        (Measured.INTO_FERMENTER, moved, By.MARK),
        (Measured.ORIGINAL_GRAVITY, og, By.HYDROMETER),
    )
    found = [Entry("a", Instant(at), What.BEGAN, {"start_min": 540, "shown": "metric"})]
    for place, (what, value, by) in enumerate(read):
        if value is not None:
            reading = {"reading": values_of(Reading(what, value, by)), "typed": f"{value}"}
            found.append(Entry(f"b{place}", Instant(at + 3600.0), What.READING, reading))
    found.append(Entry("c", Instant(at + 9000.0), What.FINISHED))
    for place, days in enumerate((10.0, 12.0) if fg is not None else ()):
        sample = values_of_sample(GravitySample(fg, sample_c=20.0, taken=Taken.FERMENTING))
        when = Instant(at + days * DAY_S)
        found.append(Entry(f"d{place}", when, What.SAMPLE, {"sample": sample, "typed": f"{fg}"}))
    return found


def brewed(store, brews=FIVE_BREWS, recipe=None):
    """Put brews into a store; their lasting names, in order."""
    text = document_text(porter() if recipe is None else recipe)
    uids = []
    for number, read in enumerate(brews):
        brew = new_brew(text, started=f"2026-{number + 1:02d}-03T09:00:00+00:00")
        store.brews.put(brew, [plain(each) for each in log(number, **read)])
        uids.append(brew.uid)
    return uids
