"""Slips of the finger: a digit that is another one, two that changed places, a comma that moved."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from designer.brewday.measured.readings import Reading
from designer.brewday.measured.slip import Slip, did_you_mean
from designer.brewday.results import Range
from designer.recipe.quantity import Kind

_NUMBER = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+")


def figure_in(typed: str) -> float | None:
    """Return the first figure of a text; None where there is none."""
    found = _NUMBER.search(typed)
    return float(found.group().replace(",", ".")) if found else None


def digits_of(reading: Reading, kind: Kind, forecast: Range, typed: str) -> Iterator[Slip]:
    """One digit that is another, two that changed places, a comma that moved: what fits best."""
    found = _NUMBER.search(typed)
    text = found.group() if found else _plainly(kind, reading.value)
    shown = float(text.replace(",", "."))
    if shown <= 0.0:
        return
    nearest: dict[str, float] = {}
    for code, other in _variants(text):
        meant = _as_typed(reading.value, shown, float(other.replace(",", ".")), kind, typed)
        best = nearest.get(code)
        if best is None or abs(meant - forecast.value) < abs(best - forecast.value):
            nearest[code] = meant
    for code, odd in (("comma", 0.8), ("swapped digits", 1.2), ("digit", 1.6)):
        if code in nearest:
            meant = nearest[code]
            yield Slip(code, did_you_mean(kind, meant), replace(reading, value=meant), odd)


def _plainly(kind: Kind, value: float) -> str:
    """Return a value as it may have been typed, where its text is not known."""
    if kind is Kind.GRAVITY:
        return f"{value:.3f}"
    percent_or_grams = kind is Kind.FRACTION or (kind is Kind.MASS and value < 1.0)
    times = {Kind.FRACTION: 100.0, Kind.MASS: 1000.0}[kind] if percent_or_grams else 1.0
    return f"{times * value:.2f}".rstrip("0").rstrip(".")


def _variants(text: str) -> Iterator[tuple[str, str]]:
    for place, sign in enumerate(text):
        if not sign.isdigit():
            continue
        for other in "0123456789":
            if other != sign:
                yield "digit", text[:place] + other + text[place + 1 :]
        if place and text[place - 1].isdigit() and text[place - 1] != sign:
            yield "swapped digits", text[: place - 1] + sign + text[place - 1] + text[place + 1 :]
    figures = text.replace(",", "").replace(".", "")
    for place in range(1, len(figures)):
        yield "comma", f"{figures[:place]}.{figures[place:]}"
    for other in (figures, f"{figures}0", f"{figures}00", f"0.{figures}"):
        yield "comma", other


def _as_typed(value: float, shown: float, other: float, kind: Kind, typed: str) -> float:
    """Return what another figure would have meant where one was taken as a value."""
    if kind is Kind.TEMPERATURE:
        degrees = 1.0 if abs(value - shown) < 0.6 else 1.0 / 1.8
        return value + (other - shown) * degrees
    if kind is Kind.GRAVITY:
        if abs(value - shown) < 0.05:
            return value + other - shown
        return other / 1000.0 if abs(value - shown / 1000.0) < 0.05 else 1.0 + other / 1000.0
    return value * other / shown
