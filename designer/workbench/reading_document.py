"""The plain values of `hobwort reading --json`: what an odd reading says.

`KEYS` says of each key what it holds, as `hobwort reading --help` tells it.
"""

from __future__ import annotations

from typing import Any

from designer.brewday.explaining.explained import Cure, Explained, LikelyCause

AFTER = (
    "original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm",
)  # fmt: skip
"""The forecasts that stand behind a cure."""

KEYS = {
    "reading_sg_20c": "the newest reading as a gravity at 20 °C, corrected for its temperature",
    "expected.value": "the gravity that is there to be read",
    "expected.low": "nine brews in ten lie between it and `expected.high`",
    "expected.high": "see `expected.low`",
    "verdict": '"fine", "cannot_tell", "beyond" where no cause explains it, or the code of a cause',
    "causes[].code": "the likeliest first: not_mixed, volume, sample_temperature, missing_extract "
    "(in twice too), misweighed, hydrometer, bubbles, misread, fermenting, nothing_wrong or other",
    "causes[].with": "the second cause of a pair; no key where there is one cause",
    "causes[].probability": "0 to 1; all causes together make 1",
    "causes[].original_gravity": "what the wort then is, mixed and at 20 °C",
    "causes[].abv_percent": "the alcohol it then comes to",
    "causes[].bitterness_ibu": "the bitterness; null for a kit",
    "test": "the test to do first; null where none would tell anything",
    "test.code": "stir, top_and_bottom, cool, water_check, settle, weigh, count_packets, sum, wait",
    "test.message": "what to do, in words",
    "test.minutes": "how long it takes",
    "cures[].code": "a lasting name: what is done, and behind a colon for which cause",
    "cures[].message": "what to do, in words",
    "cures[].set": "the same as words of --set, place and text; empty where nothing is changed, "
    "for a kit, and where a line goes into a boil of a plan",
    "cures[].off": "why it is not to be done yet; null where it can be done",
    "cures[].after.*": "the forecasts after it; for a kit those that can be told",
}


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


def told_keys() -> str:
    """Return the keys as lines for the help of the command."""
    width = max(map(len, KEYS))
    return "\n".join(("keys of the JSON:", *(f"  {key:<{width}}  {KEYS[key]}" for key in KEYS)))
