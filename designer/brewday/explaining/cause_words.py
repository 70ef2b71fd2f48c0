"""What each cause of an odd reading is called, what it would be here, and how to tell."""

from __future__ import annotations

from collections.abc import Callable

from designer.brewday.explaining.asked import Asked, GravitySample, Taken
from designer.brewday.explaining.beliefs import Beliefs, Brings
from designer.brewday.explaining.corrected import is_refractometer
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.posterior import Weighed
from designer.recipe.choices import FermentableKind
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

NEARLY = 0.15
"""So near to all of a line, what is missing of it is all, and what is too much is all once more."""
HOTTEST_TOLD_C = 60.0

SHORT = {
    CauseCode.NOT_MIXED: say("short-not-mixed", "not mixed"),
    CauseCode.VOLUME: say("short-volume", "another volume"),
    CauseCode.SAMPLE_TEMPERATURE: say("short-temperature", "a sample not at its temperature"),
    CauseCode.MISSING_EXTRACT: say("short-missing", "extract left out or in twice"),
    CauseCode.MISWEIGHED: say("short-misweighed", "something weighed wrong"),
    CauseCode.HYDROMETER: say("short-hydrometer", "an instrument that is off"),
    CauseCode.BUBBLES: say("short-bubbles", "bubbles on the hydrometer"),
    CauseCode.MISREAD: say("short-misread", "read wrong"),
    CauseCode.FERMENTING: say("short-fermenting", "fermenting already"),
    CauseCode.NOTHING_WRONG: say("short-nothing", "nothing wrong"),
    CauseCode.OTHER: say("short-other", "something else"),
}
"""A cause within a sentence, whatever its size."""


def share_of(part: Weighed) -> float:
    """Return what of the line is missing (below nothing) or too much: all of it where nearly so."""
    share = part.line_share
    for whole in (-1.0, 1.0):
        if CauseCode.MISSING_EXTRACT in part.causes and abs(share - whole) <= NEARLY:
            return whole
    return max(share, -1.0)


def points_words(points: float) -> Message:
    """Return so many points of gravity, at least one, as whole ones."""
    whole = max(round(abs(points)), 1)
    if whole == 1:
        return say("one-point", "1 point")
    return say("many-points", "{number} points", number=whole)


def short_of(part: Weighed) -> Message:
    """Return an explanation within a sentence, with its sign where that matters."""
    first = short_name(part.code, part)
    if part.also is None:
        return first
    return say(
        "cause-pair", "{first} and {second}", first=first, second=short_name(part.also, part)
    )


def short_name(code: CauseCode, part: Weighed) -> Message:
    """Return one of the causes of an explanation as it stands within a sentence."""
    if code is CauseCode.VOLUME:
        if part.volume_factor > 1.0:
            return say("short-more-volume", "too much water")
        return say("short-less-volume", "too little water")
    if code is CauseCode.SAMPLE_TEMPERATURE:
        if part.warmer_c > 0.0:
            return say("short-warm", "a warm sample")
        return say("short-cold", "a cold sample")
    if code is CauseCode.MISSING_EXTRACT:
        if part.line_share > 0.0:
            return say("short-twice", "extract in twice")
        return say("short-left-out", "extract left out")
    return SHORT[code]


def titled(code: CauseCode, part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    """Return what a cause is called, as the head of its row."""
    if code is CauseCode.VOLUME:
        return _volume_title(part, asked)
    if code is CauseCode.SAMPLE_TEMPERATURE:
        return _warmth_title(part, asked)
    if code is CauseCode.MISSING_EXTRACT:
        return _missing_title(part, beliefs)
    if code is CauseCode.HYDROMETER and is_refractometer(asked.samples[-1]):
        return say("cause-refractometer", "The refractometer is off")
    return _TITLES[code]


_TITLES = {
    CauseCode.NOT_MIXED: say("cause-not-mixed", "Not mixed"),
    CauseCode.MISWEIGHED: say("cause-misweighed", "Weighed wrong"),
    CauseCode.HYDROMETER: say("cause-hydrometer", "The hydrometer is off"),
    CauseCode.BUBBLES: say("cause-bubbles", "Bubbles on the hydrometer"),
    CauseCode.MISREAD: say("cause-misread", "Read wrong"),
    CauseCode.FERMENTING: say("cause-fermenting", "It ferments already"),
    CauseCode.NOTHING_WRONG: say("cause-nothing", "Nothing wrong"),
    CauseCode.OTHER: say("cause-other", "Something else"),
}


def _volume_title(part: Weighed, asked: Asked) -> Message:
    if asked.samples[-1].taken is Taken.POT:
        if part.volume_factor > 1.0:
            return say("cause-more-in-pot", "More wort in the pot")
        return say("cause-less-in-pot", "Less wort in the pot")
    if part.volume_factor > 1.0:
        return say("cause-more-water", "More water than the mark")
    return say("cause-less-water", "Less water than the mark")


def _warmth_title(part: Weighed, asked: Asked) -> Message:
    typed_c = asked.samples[-1].sample_c
    if typed_c is None:
        if part.warmer_c > 0.0:
            return say("cause-warm", "A warm sample")
        return say("cause-cold", "A cold sample")
    if part.warmer_c > 0.0:
        return say("cause-warmer-than", "Sample warmer than {0}", (Kind.TEMPERATURE, typed_c))
    return say("cause-colder-than", "Sample colder than {0}", (Kind.TEMPERATURE, typed_c))


def _missing_title(part: Weighed, beliefs: Beliefs) -> Message:
    line = line_of(part, beliefs)
    if part.line_share > 0.0:
        if line is not None and line.kind == FermentableKind.SUGAR:
            return say("cause-sugar-twice", "Sugar in twice")
        return say("cause-twice", "Extract in twice")
    if share_of(part) <= -1.0:
        return say("cause-forgotten", "Something forgotten")
    if line is not None and line.from_a_tin:
        return say("cause-left-in-tin", "Extract left in the tin")
    return say("cause-left-out", "Not all of it went in")


def worded(code: CauseCode, part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    """Return what a cause would be here: one sentence with its size."""
    return _WORDS[code](part, beliefs, asked)


def _not_mixed(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    if part.layer < 0.0:
        return say("not-mixed-low", "Top-up water still floats on the heavier wort.")
    return say("not-mixed-high", "The heavy wort still lies below the water.")


def _volume(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    in_pot = asked.samples[-1].taken is Taken.POT
    meant_l = float(beliefs.pot_l.mean()) if in_pot else beliefs.planned_l
    figures = (Kind.VOLUME, round(meant_l * part.volume_factor, 1)), (Kind.VOLUME, meant_l)
    if in_pot:
        return say("volume-in-pot", "{0} in the pot instead of {1}.", *figures)
    return say("volume-in-fermenter", "{0} in the fermenter instead of {1}.", *figures)


def _warmth(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    sample = asked.samples[-1]
    known_c = sample.made_for_c if sample.sample_c is None else sample.sample_c
    at_c = min(round(known_c + part.warmer_c), HOTTEST_TOLD_C)
    if part.warmer_c > 0.0:
        return say("warmth-hot", "It would have to be about {0}.", (Kind.TEMPERATURE, at_c))
    at_c = max(at_c, 0.0)
    return say("warmth-cold", "It would have to be about {0}.", (Kind.TEMPERATURE, at_c))


def _missing(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    share = share_of(part)
    name, mass = _named(part, beliefs), _mass(abs(share), part, beliefs)
    if mass is None:
        if share > 0.0:
            return say("more-unknown", "More {name} went in than was meant.", name=name)
        return say("less-unknown", "Some of the {name} never went in.", name=name)
    if share == 1.0:
        return say("in-twice", "{0} of {name} went in twice.", mass, name=name)
    if share > 0.0:
        return say("in-more", "Some {0} more {name} went in.", mass, name=name)
    if share <= -1.0:
        return say("never-in", "The {0} of {name} never went in.", mass, name=name)
    return say("some-not-in", "Some {0} of the {name} never went in.", mass, name=name)


def _misweighed(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    name = _named(part, beliefs)
    mass, meant = _mass(1.0 + part.line_share, part, beliefs), _mass(1.0, part, beliefs)
    if mass is None or meant is None or mass == meant:
        return say("weighed-unknown", "Another amount of the {name} went in.", name=name)
    return say("weighed", "{0} of the {name} instead of {1}.", mass, meant, name=name)


def _hydrometer(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    points = points_words(part.hydrometer)
    if part.hydrometer < 0.0:
        return say("hydrometer-low", "It would show {points} too little.", points=points)
    return say("hydrometer-high", "It would show {points} too much.", points=points)


def _bubbles(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    return say("bubbles-lift", "They lift it by {points}.", points=points_words(part.bubbles))


def _misread(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    return say(
        "misread-by",
        "Off by {points}: the top of the curve, or another scale.",
        points=points_words(part.misread),
    )


def _fermenting(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    return say("fermenting-by", "{points} are gone already.", points=points_words(part.fallen))


def _nothing(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    return say("nothing-wrong", "It lies within what such a brew comes to.")


def _other(part: Weighed, beliefs: Beliefs, asked: Asked) -> Message:
    return say("something-else", "None of these, or several of them.")


_WORDS: dict[CauseCode, Callable[[Weighed, Beliefs, Asked], Message]] = {
    CauseCode.NOT_MIXED: _not_mixed,
    CauseCode.VOLUME: _volume,
    CauseCode.SAMPLE_TEMPERATURE: _warmth,
    CauseCode.MISSING_EXTRACT: _missing,
    CauseCode.MISWEIGHED: _misweighed,
    CauseCode.HYDROMETER: _hydrometer,
    CauseCode.BUBBLES: _bubbles,
    CauseCode.MISREAD: _misread,
    CauseCode.FERMENTING: _fermenting,
    CauseCode.NOTHING_WRONG: _nothing,
    CauseCode.OTHER: _other,
}


def line_of(part: Weighed, beliefs: Beliefs) -> Brings | None:
    """Return the line that is missing, in twice or weighed wrong; None where none is."""
    if part.line is None or not 0 <= part.line < len(beliefs.lines):
        return None
    return beliefs.lines[part.line]


_KINDS = {
    FermentableKind.LIQUID_EXTRACT: say("kind-syrup", "syrup"),
    FermentableKind.DRY_EXTRACT: say("kind-dry", "dry extract"),
    FermentableKind.HOPPED_KIT: say("kind-hopped", "hopped syrup"),
    FermentableKind.SUGAR: say("kind-sugar", "sugar"),
    FermentableKind.STEEPING_GRAIN: say("kind-grain", "grain"),
    FermentableKind.MASH_GRAIN: say("kind-grain", "grain"),
}
"""What is said of a line that nobody named."""


def _named(part: Weighed, beliefs: Beliefs) -> Message:
    line = line_of(part, beliefs)
    if line is None:
        return say("kind-extract", "extract")
    return say("line-name", "{name}", name=line.name) if line.name else _KINDS[_kind(line)]


def _kind(line: Brings) -> FermentableKind:
    return FermentableKind(line.kind)


def _mass(share: float, part: Weighed, beliefs: Beliefs) -> tuple[Kind, float] | None:
    """Return so much of the line, as one would guess it; None where nobody said how much it was."""
    line = line_of(part, beliefs)
    if line is None or line.kg <= 0.0:
        return None
    return Kind.MASS, _guessed_kg(max(share, 0.0) * line.kg)


def _guessed_kg(kg: float) -> float:
    """Return a mass to two figures: it is a guess."""
    step = 0.005 if kg < 0.1 else 0.01 if kg < 1.0 else 0.1
    return round(round(kg / step) * step, 4)


def how_to_tell(code: CauseCode, sample: GravitySample | None = None) -> Message:
    """Return the test of a cause in a few words, by how the sample was taken."""
    if code is CauseCode.NOT_MIXED:
        return say("tell-not-mixed", "Stir hard, read again")
    if code is CauseCode.VOLUME and (sample is None or sample.taken is not Taken.POT):
        return say("tell-volume", "Read the level, or weigh it")
    if code is CauseCode.HYDROMETER and sample is not None and is_refractometer(sample):
        return say("tell-refractometer", "Put a drop of plain water on it: it should show 0")
    return _TELL[code]


_TELL = {
    CauseCode.VOLUME: say("tell-pot-volume", "Read the level in the pot"),
    CauseCode.SAMPLE_TEMPERATURE: say("tell-warm", "Feel the jar; cool it, read again"),
    CauseCode.MISSING_EXTRACT: say("tell-missing", "Look in the tin; count the packets"),
    CauseCode.MISWEIGHED: say("tell-misweighed", "Weigh what is left; read the packet"),
    CauseCode.HYDROMETER: say("tell-hydrometer", "Float it in plain water"),
    CauseCode.BUBBLES: say("tell-bubbles", "Spin it, tap it, read again"),
    CauseCode.MISREAD: say("tell-misread", "Eye at the flat level, read again"),
    CauseCode.FERMENTING: say("tell-fermenting", "Read again in two hours"),
    CauseCode.NOTHING_WRONG: say("tell-nothing", "Nothing to do"),
    CauseCode.OTHER: say("tell-other", "Ask again with what the tests showed"),
}
