"""Findings about what the leaflet of a kit says: what is typed comes to another beer.

It is said once, and a slip is named where one explains it. Only the gravity before yeast, or else
the alcohol, is looked at here: the rest depends on the yeast as much as on what was typed.
"""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.day import brew
from designer.brewday.leaflet import FIELDS, is_other_volume, stated_band
from designer.brewday.leaflet_slips import Slip, slips
from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Day, Finding, doubt
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangePart, Together
from designer.recipe.message import Figure, Message, say
from designer.recipe.place import Place
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity

FAR_OFF, LEAST_OFF = 0.07, 2.0
"""Beyond the stated band by this share, and by so many points, something is typed wrongly: the
extract of a tin is known to some 3 %, its weight to 1 %; judgement."""
EXPLAINED = 0.03
"""A slip explains what comes so near to the band."""
NEAR_FINAL, FAR_APART = 0.004, 0.015
MOST_TRIED = 4
ROUGHLY = 4.0
"""So much farther off may be a slip that is tried: sugar ferments farther than malt, so alcohol is
estimated roughly before the day is run."""


def leaflet_differs(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """What is typed does not come to what the leaflet says."""
    swapped = _swapped(recipe, day)
    if swapped is not None:
        yield swapped
        return
    key = "original_gravity" if recipe.leaflet.original_gravity is not None else "abv_percent"
    band = stated_band(recipe.leaflet, key)
    batch_l = float(day.fermenter.batch_l)
    if band is None or is_other_volume(recipe, batch_l) or _off(key, band, day) == 0.0:
        return
    told = _told(recipe, key, day)
    slip = _explaining(recipe, key, band, day)
    if slip is None:
        ask = say("leaflet-look-again", "Look at amounts and volume again.")
        yield _finding(Place("leaflet", FIELDS[key]), told, ask)
    else:
        yield _finding(slip.about, told, slip.asks, slip)


def _finding(about: Place, told: Message, asks: Message, slip: Slip | None = None) -> Finding:
    return doubt(
        Severity.NOTE,
        about,
        "leaflet-differs",
        "{first} {next}",
        first=told,
        next=asks,
        fix=None if slip is None else slip.edit,
        mends_typing=True,
    )


def _told(recipe: Recipe, key: str, day: Day) -> Message:
    stated = getattr(recipe.leaflet, FIELDS[key])
    value = float(BY_KEY[key].compute(day))
    if key == "abv_percent":
        figures: tuple[Figure, ...] = ((Kind.FRACTION, stated), (Kind.FRACTION, value / 100.0))
        return say(
            "leaflet-alcohol", "The leaflet says {0} alcohol, and this comes to {1}.", *figures
        )
    figures = ((Kind.GRAVITY, stated), (Kind.GRAVITY, value))
    return say("leaflet-gravity", "The leaflet says {0}, and this comes to {1}.", *figures)


def _points(key: str, value: float) -> float:
    """Return what grows with the extract in a litre: gravity points, or tenths of a per cent."""
    return 1000.0 * (value - 1.0) if key == "original_gravity" else 10.0 * value


def _beyond(key: str, band: tuple[float, float], value: float) -> float:
    low, high = (_points(key, each) for each in band)
    found = _points(key, value)
    return max(low - found, found - high, 0.0)


def _off(key: str, band: tuple[float, float], day: Day) -> float:
    """Return by how many points the day is beyond the band; 0 where that may be chance."""
    value = float(BY_KEY[key].compute(day))
    beyond = _beyond(key, band, value)
    allowed = max(FAR_OFF * _points(key, (band[0] + band[1]) / 2.0), LEAST_OFF)
    return beyond if beyond > allowed else 0.0


def _explaining(recipe: Recipe, key: str, band: tuple[float, float], day: Day) -> Slip | None:
    """Return the likeliest slip without which the day comes to the band; None if none does."""
    total = sum(gives.points for gives in day.gives.values())
    if total <= 0.0:
        return None
    shares = {
        line_id: gives.points / total for line_id, gives in day.gives.items() if gives.points > 0.0
    }
    points, batch_l = _points(key, float(BY_KEY[key].compute(day))), float(day.fermenter.batch_l)
    low, high = (_points(key, each) for each in band)
    middle = (low + high) / 2.0
    slack = max(EXPLAINED * middle, 1.0)

    def off(slip: Slip) -> float:
        """How far from the middle of the band a slip leads, before the day is run for it."""
        return abs(points * slip.points * batch_l / (slip.makes_l or batch_l) - middle)

    likely = [each for each in slips(recipe, shares) if off(each) < high - middle + ROUGHLY * slack]
    likely.sort(key=lambda each: off(each) / middle + each.unlikely / 10.0)
    for slip in likely[:MOST_TRIED]:
        after = float(BY_KEY[key].compute(brew(slip.edit.apply(recipe))))
        if _beyond(key, band, after) <= slack:
            return slip
    return None


def _swapped(recipe: Recipe, day: Day) -> Finding | None:
    """One gravity typed in the place of the other."""
    leaflet = recipe.leaflet
    first, last = leaflet.original_gravity, leaflet.final_gravity
    original, final = float(day.beer.original_gravity), float(day.beer.final_gravity)
    if original - final < FAR_APART:
        return None
    text = say("swap-gravities", "Put it right")
    edit = Together(
        (
            ChangePart("leaflet", "original_gravity", last, text),
            ChangePart("leaflet", "final_gravity", first, text),
        ),
        text,
    )
    if first is not None and (
        abs(first.value - final) < NEAR_FINAL if last is None else first.value < last.value
    ):
        return doubt(
            Severity.NOTE,
            Place("leaflet", "original_gravity"),
            "leaflet-gravities",
            "The original gravity of the leaflet, {0}, is what is left when done. Is it the final "
            "gravity?",
            (Kind.GRAVITY, first),
            fix=edit,
            mends_typing=True,
        )
    if first is None and last is not None and last.value - final > FAR_APART:
        return doubt(
            Severity.NOTE,
            Place("leaflet", "final_gravity"),
            "leaflet-gravities",
            "The final gravity of the leaflet, {0}, is that before yeast. Is it the original "
            "gravity?",
            (Kind.GRAVITY, last),
            fix=edit,
            mends_typing=True,
        )
    return None


FINDERS = (leaflet_differs,)
