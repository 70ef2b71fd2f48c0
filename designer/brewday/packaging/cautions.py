"""What to mind with bottles and kegs under pressure; common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.bottles import Bottled
from designer.brewday.packaging.refusing import most_bar
from designer.recipe.choices import Bottle, Package, PrimingSugar
from designer.recipe.message import Message, say, word
from designer.recipe.quantity import Kind
from designer.wort.carbonation import WARMEST_STORE_C

STRAIN = "bottle-strain"
COOL_STORE_C = 25.0

Caution = tuple[str, Message]


def has_to_be_ticked(code: str) -> bool:
    """Tell whether a caution has to be ticked.

    Its code holds the pressure that it tells: where that changes it has to be ticked anew.
    """
    return code.startswith(STRAIN)


def _code(caution: Message) -> str:
    figures = dict(caution.figures[:1]) if caution.id == STRAIN else {}
    return "-".join((caution.id, *(f"{bar:.1f}" for bar in figures.values())))


def cautions_of(package: Package, judged: Bottled | None, sugar: PrimingSugar) -> list[Caution]:
    """Return what to mind, that which has to be ticked first; `judged` is None for a keg."""
    if package == Package.KEG or judged is None:
        return [(_code(each), each) for each in _of_kegs()]
    return [(_code(each), each) for each in _of_bottles(judged, sugar)]


def _of_bottles(judged: Bottled, sugar: PrimingSugar) -> Iterator[Message]:
    if not judged.is_at_ease and not judged.is_refused:
        yield say(
            STRAIN,
            "Bottles: {bottle}. The fullest may come to {0} at {1}, and {2} is what they bear "
            "with ease. Weigh the sugar exactly, keep the bottles cool, and handle them with "
            "gloves and goggles.",
            most_bar(judged),
            (Kind.TEMPERATURE, WARMEST_STORE_C),
            (Kind.PRESSURE, judged.comfortable_bar),
            bottle=word(judged.kind),
        )
    if judged.kind == Bottle.PLASTIC:
        yield say(
            "sound-plastic",
            "Only soft-drink bottles without scratches or kinks, each with its own cap.",
        )
    else:
        yield say(
            "sound-glass",
            "Only sound bottles made for pressure: no chips, no cracks, no scuffed rings. Too much "
            "sugar bursts bottles.",
        )
    yield say(
        "closed-box",
        "Keep them upright in a closed box, below {0}, away from people.",
        (Kind.TEMPERATURE, COOL_STORE_C),
    )
    yield say(
        "gushing",
        "If one gushes, chill them all; then ease the caps, with gloves and goggles.",
    )
    if sugar == PrimingSugar.DRY_EXTRACT:
        yield say("extract-differs", "Extracts ferment differently: it may be 15 % more or less.")


def _of_kegs() -> Iterator[Message]:
    yield say(
        "keg-limit",
        "Never above the pressure stamped on the keg or the regulator, and only with a relief "
        "valve that works.",
    )
    yield say(
        "keg-open",
        "Let all the pressure out before you open it: never loosen a lid or post under pressure.",
    )
    yield say(
        "gas-bottle",
        "Gas bottle upright and chained. CO2 is heavy and stifles without warning: air the room, "
        "and never fill in a closed cellar.",
    )
