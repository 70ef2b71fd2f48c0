"""Which steps of a brew day follow which: pots and fermenters have their own order.

What is done beside the pot while it boils or cools holds nothing up: the pot goes on meanwhile.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from designer.sheet.stove import StoveStep

_MEANWHILE = ("addition", "sanitise", "coil", "rinse")
"""Kinds of steps after which the pot goes on as if they were not."""


@dataclass(frozen=True, slots=True)
class Follows:
    """The steps that one comes after with its planned gap, and those that have to be done first."""

    steps: tuple[StoveStep, ...] = ()
    waits_for: tuple[StoveStep, ...] = ()


def follows_of(steps: Sequence[StoveStep]) -> Mapping[str, Follows]:
    """Return what each step follows, by its key; nothing for the first of a day.

    Each step follows only such as stand before it. A brew asks at each key and each minute, and its
    steps stay the same for long: what the same steps follow is remembered.
    """
    return _found(tuple(map(_ByItself, steps)))


class _ByItself:
    """A step that is known again by itself: to compare all that it says takes longer."""

    def __init__(self, step: StoveStep) -> None:
        self.step = step

    def __hash__(self) -> int:
        return id(self.step)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _ByItself) and other.step is self.step


@lru_cache(maxsize=8)
def _found(kept: tuple[_ByItself, ...]) -> Mapping[str, Follows]:
    steps = [each.step for each in kept]
    return {step.key: _of(step, steps[:place]) for place, step in enumerate(steps)}


def _of(step: StoveStep, before: Sequence[StoveStep]) -> Follows:
    own = [each for each in before if each.boil == step.boil]
    if not own:
        return Follows(tuple(_ends_before(step, before)))
    if step.left_min is not None and step.kind != "boils":
        boils = [each for each in own if each.kind == "boils"]
        if boils:
            return Follows((boils[-1],))
    at_pot = [each for each in own if _holds_the_pot(each)]
    if _is_at_pot(step):
        return Follows(tuple(at_pot[-1:]), tuple(_readied(step, own)))
    of_vessel = [each for each in own if each.fermenter == step.fermenter or each in at_pot]
    other = [each for each in before if each.fermenter == step.fermenter and each not in own]
    return Follows(tuple(of_vessel[-1:]), tuple(other[-1:]))


def _is_at_pot(step: StoveStep) -> bool:
    return step.fermenter == 0 or step.kind == "move"


def _holds_the_pot(step: StoveStep) -> bool:
    return _is_at_pot(step) and step.kind not in _MEANWHILE


def _readied(step: StoveStep, own: Sequence[StoveStep]) -> list[StoveStep]:
    """What was to be done in fermenters before wort comes into them."""
    if step.kind != "move":
        return []
    return [each for each in own if not _is_at_pot(each) and step.fermenter in (0, each.fermenter)]


def _ends_before(step: StoveStep, before: Sequence[StoveStep]) -> list[StoveStep]:
    """The last steps of the boils of that day that are over before this one begins."""
    earlier = [each for each in before if each.on_day == step.on_day]
    found = []
    for boil in dict.fromkeys(each.boil for each in earlier):
        own = [each for each in earlier if each.boil == boil]
        if own[0].minutes < step.minutes - 1e-6:
            end = max(each.minutes for each in own)
            found += [each for each in own if each.minutes >= end - 1e-6]
    return found
