"""Labels for bottles: their words in the sheet's language, each of which can be typed anew.

A label tells no amount of anything but what is in the bottle. What the maker has to declare (what
some people must not drink, who made it) is up to where it is made: allergens stand as typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from designer.sheet.clock import plain_date
from designer.sheet.figures import FLUID_OUNCES_PER_GALLON, US_GALLON_L
from designer.sheet.language import Language, message
from designer.units import ShownUnits

MOST_LABELS = 2000
"""So many labels are printed at once."""
LONGEST = {"name": 100, "allergens": 160}
LONGEST_LINE = 60
"""Letters of a line that are printed; the paper has no more room."""


@dataclass(frozen=True, slots=True)
class LabelFacts:
    """What is known of a beer for its label; None where it is not known.

    `strained` tells that its bottles are under more pressure than they are at ease with.
    """

    name: str
    abv_percent: float | None = None
    bitterness_ibu: float | None = None
    packaged_on: date | None = None
    best_from: date | None = None
    strained: bool = False


@dataclass(frozen=True, slots=True)
class LabelWords:
    """The words of a label as they are printed, line by line; "" leaves one out.

    The volume of the bottle is printed after `bitterness`; it is that of each bottle.
    """

    name: str
    strength: str = ""
    bitterness: str = ""
    packaged: str = ""
    best: str = ""
    allergens: str = ""
    care: str = ""


EDITABLE = ("name", "strength", "bitterness", "packaged", "best", "allergens", "care")
"""The words that can be typed anew, by their fields."""


@dataclass(frozen=True, slots=True)
class BottleLabel:
    """The label of one bottle: its words, and how much is in it, "" for nothing told."""

    words: LabelWords
    size: str = ""

    @property
    def figures(self) -> str:
        """Strength, bitterness and volume in one line."""
        told = (self.words.strength, self.words.bitterness, self.size)
        return " · ".join(each for each in told if each)

    @property
    def lines(self) -> tuple[str, ...]:
        """All lines below the name, the figures first; none that is empty."""
        words = self.words
        told = (self.figures, words.packaged, words.best, words.allergens, words.care)
        return tuple(each for each in told if each)


def label_words(facts: LabelFacts, spoken: Language) -> LabelWords:
    """Return the words that follow from what is known of a beer."""

    def when(words: str, day: date | None) -> str:
        return "" if day is None else spoken.say(words, date=plain_date(day, spoken))

    strength = facts.abv_percent
    return LabelWords(
        name=facts.name,
        strength="" if strength is None else spoken.figure(f"{strength:.1f} % vol"),
        bitterness="" if facts.bitterness_ibu is None else f"{facts.bitterness_ibu:.0f} IBU",
        packaged=when(_BOTTLED, facts.packaged_on),
        best=when(_BEST_FROM, facts.best_from),
        care=spoken.say("Under pressure: keep it cool, open it with care")
        if facts.strained
        else "",
    )


_BOTTLED, _BEST_FROM = message("bottled {date}"), message("best from {date}")


def as_typed(words: LabelWords, typed: Mapping[str, str]) -> LabelWords:
    """Return words with those of a brewer in place of ours, by their fields."""
    return replace(words, **{each: typed[each] for each in EDITABLE if each in typed})


def labels_for(
    words: LabelWords, bottles: Iterable[tuple[float, int]], shown: ShownUnits, spoken: Language
) -> tuple[BottleLabel, ...]:
    """Return a label for each bottle, given litres and how many of each; `MOST_LABELS` at most."""
    made: list[BottleLabel] = []
    for litres, count in bottles:
        label = BottleLabel(fitting(words), bottle_size(litres, shown, spoken))
        made += [label] * min(count, MOST_LABELS - len(made))
    return tuple(made)


def bottle_size(litres: float, shown: ShownUnits, spoken: Language) -> str:
    """Return how much is in a bottle, such as "500 mL", "1.5 L" or "12 fl oz"."""
    ounces = f"{litres / US_GALLON_L * FLUID_OUNCES_PER_GALLON:.1f}".removesuffix(".0")
    us = f"{ounces} fl oz"
    metric = f"{1000.0 * litres:.0f} mL" if litres < 0.9995 else f"{round(litres, 2):g} L"
    texts = {ShownUnits.METRIC: metric, ShownUnits.US: us}
    return spoken.figure(texts.get(shown, f"{metric} ({us})"))


def fitting(words: LabelWords) -> LabelWords:
    """Return words that have room on a label: each in one line, no longer than can be printed."""
    return LabelWords(
        **{each: _fitting(getattr(words, each), LONGEST.get(each, LONGEST_LINE))
           for each in EDITABLE}
    )  # fmt: skip


_BREAKS = re.compile(r"[ \t\r\n\v\f\x85\u2028\u2029]+")
"""Not the narrow spaces of a language, which stay as they are."""


def _fitting(text: str, longest: int) -> str:
    line = _BREAKS.sub(" ", text).strip()
    return line if len(line) <= longest else f"{line[: longest - 1].rstrip()}…"


def labels_text(labels: Sequence[BottleLabel]) -> str:
    """Return the labels as plain text, those that are alike once with how many there are."""
    counts: dict[BottleLabel, int] = {}
    for each in labels:
        counts[each] = counts.get(each, 0) + 1
    return "\n".join(
        "\n".join((f"{count} ×", f"  {each.words.name}", *(f"  {line}" for line in each.lines), ""))
        for each, count in counts.items()
    )
