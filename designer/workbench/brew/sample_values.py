"""A gravity sample and the answer of a test as the plain values of a log, and back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from designer.brewday.explaining.asked import (
    Answer,
    Drawn,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.measured.readings import By
from designer.workbench.brew.entry_values import count_in, number_in, text_in

_NUMBERS = ("sample_c", "in_water", "correction", "hours")


def values_of_sample(sample: GravitySample) -> dict[str, Any]:
    """Return the plain values of a sample; what nobody knows is left out."""
    values: dict[str, Any] = {
        "shown": sample.shown,
        "scale": str(sample.scale),
        "by": str(sample.by),
        "made_for_c": sample.made_for_c,
        "taken": str(sample.taken),
        "drawn": str(sample.drawn),
        "stirred": str(sample.stirred),
        "fermenter": sample.fermenter,
    }
    told = {name: getattr(sample, name) for name in _NUMBERS}
    return values | {name: value for name, value in told.items() if value is not None}


def sample_of(values: Mapping[str, Any]) -> GravitySample | None:
    """Return the sample; None for one that a later program knows, or that is damaged."""
    shown, made_for_c = number_in(values, "shown"), number_in(values, "made_for_c")
    if shown is None:
        return None
    try:
        return GravitySample(
            shown,
            Scale(text_in(values, "scale")),
            By(text_in(values, "by")),
            made_for_c=20.0 if made_for_c is None else made_for_c,
            taken=Taken(text_in(values, "taken")),
            drawn=Drawn(text_in(values, "drawn")),
            stirred=Stirred(text_in(values, "stirred")),
            fermenter=count_in(values, "fermenter", 1),
            **{name: number_in(values, name) for name in _NUMBERS},
        )
    except ValueError:
        return None


def values_of_answer(answer: Answer) -> dict[str, Any]:
    """Return the plain values of what a test showed."""
    told = {"changed": answer.changed, "value": answer.value}
    return {"test": str(answer.test)} | {
        key: value for key, value in told.items() if value is not None
    }


def answer_of(values: Mapping[str, Any]) -> Answer | None:
    """Return what a test showed; None for a test that nobody knows."""
    changed = values.get("changed")
    try:
        test = TestCode(text_in(values, "test"))
    except ValueError:
        return None
    return Answer(test, changed if isinstance(changed, bool) else None, number_in(values, "value"))
