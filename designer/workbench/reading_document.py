"""The plain values of `hobwort reading --json`: what an odd reading says.

`resources/schemas/reading.json` says of each key what it holds.
"""

from __future__ import annotations

from typing import Any

from designer.brewday.explaining.explained import Cure, Explained, LikelyCause

AFTER = (
    "original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm",
)  # fmt: skip
"""The forecasts that stand behind a cure."""


def reading_document(told: Explained) -> dict[str, Any]:
    """Return an answer to a reading as plain values."""
    expected, test = told.expected, told.test
    return {
        "reading_sg_20c": told.reading_sg_20c,
        "expected": {"value": expected.value, "low": expected.low, "high": expected.high},
        "verdict": str(told.verdict),
        "causes": [_cause(each) for each in told.every],
        "test": None
        if test is None
        else {"code": str(test.code), "message": test.message.text, "minutes": test.minutes},
        "cures": [_cure(each) for each in told.cures],
    }


def _cause(cause: LikelyCause) -> dict[str, Any]:
    pair = {} if cause.also is None else {"with": str(cause.also)}
    return {
        "code": str(cause.code),
        **pair,
        "probability": cause.probability,
        "original_gravity": cause.original_gravity,
        "abv_percent": cause.abv_percent,
        "bitterness_ibu": cause.bitterness_ibu,
    }


def _cure(cure: Cure) -> dict[str, Any]:
    return {
        "code": cure.code,
        "message": f"{cure.title.text}. {cure.words.text}",
        "set": dict(cure.settings),
        "off": None if cure.off is None else cure.off.text,
        "after": {key: cure.after[key].value for key in AFTER if key in cure.after},
    }
