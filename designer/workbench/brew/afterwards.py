"""What a log tells of the wort and the beer after the stove: samples, tests, warmth, packaging."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from designer.brewday.explaining.asked import Answer, GravitySample
from designer.brewday.packaging.packaged import Packing
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_values import number_in, text_in, values_in
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.packing_values import packing_of
from designer.workbench.brew.sample_values import answer_of, sample_of


@dataclass(frozen=True, slots=True)
class KeptSample:
    """A gravity sample that counts, as it was typed and when.

    `of` is the entry of a reading typed at the stove, of which it tells how it was taken.
    """

    entry: str
    sample: GravitySample
    typed: str
    at: Instant
    of: str = ""


@dataclass(frozen=True, slots=True)
class KeptAnswer:
    """What a test of a reading showed, as it was typed.

    `by_mark` tells of litres that they were read off a mark and not weighed.
    """

    entry: str
    answer: Answer
    at: Instant
    by_mark: bool = False


@dataclass(frozen=True, slots=True)
class Cured:
    """What was done about a reading: its code, what it changes, and what it said."""

    entry: str
    cure: str
    changes: Any
    said: str
    at: Instant


@dataclass(frozen=True, slots=True)
class Temperature:
    """How warm beer or room was, at seconds since 1970."""

    entry: str
    wall: float
    temp_c: float


@dataclass(frozen=True, slots=True)
class KeptReminder:
    """What is to be remembered, at seconds since 1970."""

    entry: str
    wall: float
    text: str
    done: bool = False


@dataclass(frozen=True, slots=True)
class Afterwards:
    """What is known of a brew after the stove.

    `packings` are the last choices of packaging of each fermenter, `all_packaged` what really went
    into bottles or keg and when; `packing` and `packaged` are those of whichever came last.
    `counts` says of a figure of the kitchen whether this brew teaches it, where that was told.
    """

    samples: tuple[KeptSample, ...] = ()
    answers: tuple[KeptAnswer, ...] = ()
    cures: tuple[Cured, ...] = ()
    temperatures: tuple[Temperature, ...] = ()
    packing: Packing | None = None
    packaged: tuple[Packing, Instant] | None = None
    reminders: tuple[KeptReminder, ...] = ()
    counts: tuple[tuple[str, bool], ...] = ()
    packings: tuple[Packing, ...] = ()
    all_packaged: tuple[tuple[Packing, Instant], ...] = ()

    def packing_in(self, fermenter: int) -> Packing | None:
        """Return how the beer of a fermenter is to be packaged; None where nothing was chosen."""
        return next((each for each in self.packings if each.fermenter == fermenter), None)

    def packaged_in(self, fermenter: int) -> tuple[Packing, Instant] | None:
        """Return how the beer of a fermenter was packaged, and when; None while it was not."""
        return next((each for each in self.all_packaged if each[0].fermenter == fermenter), None)


NOTHING_AFTER = Afterwards()


def afterwards_of(live: Iterable[Entry]) -> Afterwards:
    """Return what entries that count tell of wort and beer after the stove."""
    entries = tuple(live)
    packed = list(_packings(entries, What.PACKAGED))
    chosen = list(_packings(entries, What.PACKING))
    return Afterwards(
        tuple(_samples(entries)),
        tuple(_answers(entries)),
        tuple(_cures(entries)),
        tuple(sorted(_temperatures(entries), key=lambda each: each.wall)),
        chosen[-1][0] if chosen else None,
        packed[-1] if packed else None,
        tuple(_reminders(entries)),
        tuple(_counts(entries).items()),
        tuple({each.fermenter: each for each, _ in chosen}.values()),
        tuple({each[0].fermenter: each for each in packed}.values()),
    )


def _samples(entries: tuple[Entry, ...]) -> Iterator[KeptSample]:
    for each in entries:
        if each.what is not What.SAMPLE:
            continue
        sample = sample_of(values_in(each.values, "sample"))
        if sample is not None:
            typed, of = text_in(each.values, "typed"), text_in(each.values, "of")
            yield KeptSample(each.id, sample, typed, each.at, of)


def _answers(entries: tuple[Entry, ...]) -> Iterator[KeptAnswer]:
    for each in entries:
        answer = answer_of(each.values) if each.what is What.ANSWERED else None
        if answer is not None:
            yield KeptAnswer(each.id, answer, each.at, each.values.get("by") == "mark")


def _cures(entries: tuple[Entry, ...]) -> Iterator[Cured]:
    for each in entries:
        if each.what is What.CURED:
            values = each.values
            said, code = text_in(values, "said"), text_in(values, "cure")
            yield Cured(each.id, code, values.get("changes"), said, each.at)


def _temperatures(entries: tuple[Entry, ...]) -> Iterator[Temperature]:
    for each in entries:
        told = each.values.get("temperatures") if each.what is What.WARMTH else None
        if not isinstance(told, list):
            continue
        for pair in told:
            if isinstance(pair, list) and len(pair) == 2:
                both = dict(zip(("wall", "temp_c"), pair, strict=True))
                wall, temp_c = number_in(both, "wall"), number_in(both, "temp_c")
                if wall is not None and temp_c is not None:
                    yield Temperature(each.id, wall, temp_c)


def _packings(entries: tuple[Entry, ...], what: What) -> Iterator[tuple[Packing, Instant]]:
    for each in entries:
        packing = packing_of(values_in(each.values, "packing")) if each.what is what else None
        if packing is not None:
            yield packing, each.at


def _reminders(entries: tuple[Entry, ...]) -> Iterator[KeptReminder]:
    """Reminders by their texts: the last that is told of each counts."""
    found: dict[str, KeptReminder] = {}
    for each in entries:
        if each.what is not What.REMINDER:
            continue
        wall, text = number_in(each.values, "wall"), text_in(each.values, "text")
        if wall is not None and text:
            done = text_in(each.values, "does") == "done"
            found[text] = KeptReminder(each.id, wall, text, done)
    yield from found.values()


def _counts(entries: tuple[Entry, ...]) -> dict[str, bool]:
    return {
        text_in(each.values, "figure"): each.values.get("counts") is not False
        for each in entries
        if each.what is What.COUNTS
    }
