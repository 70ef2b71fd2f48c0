"""A gravity sample out of what was typed: a figure on some scale, and how warm it was.

A figure with a unit says which scale it is; a bare one is on the scale that was chosen, unless only
a specific gravity looks like it. What can be no gravity is refused with what may have been meant.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace

from designer.brewday.explaining.asked import GravitySample, Scale
from designer.brewday.measured.digit_slips import figure_in
from designer.brewday.measured.doubtful import LEAST_GRAVITY_SG, MOST_GRAVITY_SG
from designer.brewday.measured.readings import By
from designer.errors import RefusedInputError
from designer.recipe.message import Message, refused, say
from designer.recipe.quantity import Kind, Quantity
from designer.units.quoting import quoted
from designer.wort.density import gravity_from_plato, plato_from_gravity

Read = Callable[[Kind, str], Quantity]
"""How a text is read as a quantity of a kind; raises RefusedInputError."""

COLDEST_C, HOTTEST_C = 0.0, 100.0
"""Between these wort is a liquid."""
MOST_PLATO = 40.0
LIKELY_SG = (1.005, 1.15)
"""Between these lie the gravities of worts that are asked about; common practice, no source."""
MOST_MEANT = 3
_PLATO = re.compile(r"(?:°\s*|º\s*)?(?:p|plato)\.?\s*$", re.IGNORECASE)
_BRIX = re.compile(r"(?:°\s*|º\s*)?(?:bx|brix)\.?\s*$", re.IGNORECASE)
_BARE = re.compile(r"[\d.,\s]+")
_UNIT = {Scale.SG: "SG", Scale.PLATO: "°P", Scale.BRIX: "°Bx"}


class NoGravityError(RefusedInputError):
    """A text that is no gravity; `meant` are the texts that may have been."""

    def __init__(self, message: Message, meant: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.meant = meant


def sample_typed(reading: str, at: str, given: GravitySample, read: Read) -> GravitySample:
    """Return the sample `given` with what was typed of its reading and its temperature.

    Raises NoGravityError for what is no gravity, RefusedInputError for no temperature of a sample.
    """
    shown, scale = _shown(reading.strip(), given.scale, read)
    by = By.REFRACTOMETER if scale is Scale.BRIX else given.by
    by = By.HYDROMETER if scale is not Scale.BRIX and given.scale is Scale.BRIX else by
    return replace(given, shown=shown, scale=scale, by=by, sample_c=sample_temperature(at, read))


def sample_temperature(at: str, read: Read) -> float | None:
    """Return how warm a sample was; None where nothing is typed. Raises RefusedInputError."""
    if not at.strip():
        return None
    found = read(Kind.TEMPERATURE, at).value
    if not COLDEST_C <= found <= HOTTEST_C:
        raise refused(
            "no-sample-temperature",
            "Wort of {0} cannot be read: type a temperature between {1} and {2}",
            (Kind.TEMPERATURE, found),
            (Kind.TEMPERATURE, COLDEST_C),
            (Kind.TEMPERATURE, HOTTEST_C),
        )
    return found


def _shown(text: str, scale: Scale, read: Read) -> tuple[float, Scale]:
    """Return what the scale shows, and which scale that is."""
    scale = _scale_of(text, scale)
    wants_unit = scale is not Scale.SG and _BARE.fullmatch(text) is not None
    try:
        value = read(Kind.GRAVITY, f"{text} {_UNIT[scale]}" if wants_unit else text).value
    except RefusedInputError as fault:
        raise _none(text, fault) from None
    if scale is Scale.SG:
        if not LEAST_GRAVITY_SG <= value <= MOST_GRAVITY_SG:
            raise _none(text)
        return value, scale
    plato = round(float(plato_from_gravity(value)), 4)
    if not 0.0 <= plato <= MOST_PLATO:
        raise _none(text)
    return plato, scale


def _scale_of(text: str, scale: Scale) -> Scale:
    if _BRIX.search(text):
        return Scale.BRIX
    if _PLATO.search(text):
        return Scale.PLATO
    if _BARE.fullmatch(text) is None:
        return Scale.SG
    figure = figure_in(text)
    looks_like_sg = figure is not None and LEAST_GRAVITY_SG <= figure <= MOST_GRAVITY_SG
    return Scale.SG if looks_like_sg and "." in text.replace(",", ".") else scale


def _none(text: str, fault: RefusedInputError | None = None) -> NoGravityError:
    meant = tuple(meant_by(text))[:MOST_MEANT]
    if not meant and fault is not None:
        return NoGravityError(say("sample-not-read", "{fault}", fault=str(fault)))
    told = say(
        "sample-no-gravity",
        "{typed} is no gravity of wort: that lies between {0} and {1}",
        (Kind.GRAVITY, LEAST_GRAVITY_SG),
        (Kind.GRAVITY, MOST_GRAVITY_SG),
        typed=quoted(text),
    )
    return NoGravityError(told, meant)


def meant_by(text: str) -> Iterator[str]:
    """Yield the readings that may have been meant by a bare figure that is none."""
    figure = figure_in(text) if _BARE.fullmatch(text.strip()) else None
    if figure is None:
        return
    low, high = LIKELY_SG
    gravities = (
        1.0 + figure / 1000.0,
        figure / 1000.0,
        figure / 100.0,
        figure / 10.0,
        1.0 + figure,
    )
    found = [f"{each:.3f}" for each in gravities if low <= each <= high]
    yield from dict.fromkeys(found)
    if low <= gravity_from_plato(figure) <= high and 0.0 < figure < MOST_PLATO:
        yield f"{figure:g} °P"
        yield f"{figure:g} °Bx"
