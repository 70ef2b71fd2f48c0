"""What is believed of the figures of a kitchen before its brews tell of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from designer.brewday.learning.figures import Figure, Start
from designer.brewday.learning.open_figures import usual_cooling
from designer.brewday.learning.priors import PRIORS
from designer.brewday.vessel_doubts import off_by_marks
from designer.errors import DesignerError
from designer.library.catalogue import YeastEntry
from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.recipe.choices import VolumeMarks
from designer.recipe.document import Pot, Process, Recipe
from designer.recipe.quantity import Kind, Quantity
from designer.units import read
from designer.workbench.figure_sources import entry_of
from designer.workbench.learning.figure_places import PLACES
from designer.workbench.learning.taken import TakenFigure

_OF_POTS = (Figure.EVAPORATION, Figure.LEFT_IN_POT, Figure.COOLING)
_USUAL_FILL = 0.7
"""How full a pot is while it cools, where nobody says."""


@dataclass(frozen=True, slots=True)
class Kitchen:
    """The vessels that stand in the kitchen."""

    pots: tuple[PotRecord, ...] = ()
    fermenters: tuple[FermenterRecord, ...] = ()


def starts_of(
    kitchen: Kitchen, brewed: Sequence[Recipe], taken: Iterable[TakenFigure]
) -> tuple[Start, ...]:
    """Return the starts of all vessels of the kitchen and of what was brewed with.

    What stands with a vessel is its start; where that was taken from brews, it is what stood there
    before, so that brews do not count twice.
    """
    before = {(each.figure, each.subject): each.before for each in taken}
    found = dict[tuple[Figure, str], Start]()
    for each in (*_of_pots(kitchen, brewed, before), *_of_others(kitchen, brewed, before)):
        found.setdefault((each.figure, each.subject), each)
    return tuple(found.values())


_Before = dict[tuple[Figure, str], str]


def _of_pots(kitchen: Kitchen, brewed: Sequence[Recipe], before: _Before) -> Iterator[Start]:
    for record in kitchen.pots:
        for figure in _OF_POTS:
            text = before.get((figure, record.name), getattr(record, PLACES[figure].field))
            yield _start(figure, record.name, text, _usual(figure, _as_pot(record)))
    for recipe in brewed:
        for figure in _OF_POTS:
            if recipe.pot.name.strip():
                text = before.get((figure, recipe.pot.name), "")
                yield _start(figure, recipe.pot.name, text, _usual(figure, recipe))


def _of_others(kitchen: Kitchen, brewed: Sequence[Recipe], before: _Before) -> Iterator[Start]:
    for record in kitchen.fermenters:
        text = before.get((Figure.VOLUME_BIAS, record.name), record.marks_hold)
        yield _start(Figure.VOLUME_BIAS, record.name, text, None)
    for recipe in brewed:
        own = recipe.fermenter
        half = off_by_marks(own.marks or VolumeMarks.PRINTED)[0]
        if own.name.strip():
            yield Start(Figure.VOLUME_BIAS, own.name, None, half)
        if recipe.yeast.name.strip():
            yield _of_yeast(recipe)


def _of_yeast(recipe: Recipe) -> Start:
    """What its maker says of a yeast, or the recipe where it is in no catalogue."""
    name, prior = recipe.yeast.name, PRIORS[Figure.ATTENUATION]
    entry = entry_of("yeasts", name, recipe.yeast.form)
    if isinstance(entry, YeastEntry):
        middle = (entry.attenuation_low + entry.attenuation_high) / 2.0
        return Start(Figure.ATTENUATION, name, middle, prior.half_width)
    return Start(Figure.ATTENUATION, name, prior.value, 2.0 * prior.half_width)


def _start(figure: Figure, subject: str, text: str, usual: float | None) -> Start:
    """Return a start from what stands with a vessel, or from what is usual."""
    typed = _read(PLACES[figure].kind, text)
    if typed is None:
        return Start(figure, subject, usual)
    half = typed.spread
    if half is not None and PRIORS[figure].ratio:
        half /= max(typed.value, 1e-9)
    return Start(figure, subject, typed.value or usual, half)


def _read(kind: Kind, text: str) -> Quantity | None:
    try:
        return read(kind, text, kept=True) if text else None
    except DesignerError:
        return None


def _usual(figure: Figure, recipe: Recipe) -> float | None:
    return usual_cooling(recipe) if figure is Figure.COOLING else None


def _as_pot(record: PotRecord) -> Recipe:
    """Return a recipe in a pot of the kitchen, as full as one usually is."""
    volume = _read(Kind.VOLUME, record.volume)
    water = None if volume is None else Quantity(_USUAL_FILL * volume.value, "")
    pot = Pot(name=record.name, diameter=_read(Kind.LENGTH, record.diameter))
    return Recipe(pot=pot, process=Process(start_water=water))
