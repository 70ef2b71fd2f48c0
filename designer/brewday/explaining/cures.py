"""What can be done about an odd reading, with amounts, for the causes that remain.

What adds anything is shown, but off until mixing and the warmth of the sample are settled: nothing
is ever put right with sugar or water on one reading alone. Nothing is filled above the room that a
fermenter leaves for krausen, and nothing is added to beer for bottles that bear no pressure.

Without a recipe, for a caller, the same is told and nothing can be changed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from designer.brewday.explaining.asked import Asked, Stirred, Taken, TestCode
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.cause_words import titled
from designer.brewday.explaining.corrected import is_refractometer
from designer.brewday.explaining.cure_wort import Wort, own_of, wort_of
from designer.brewday.explaining.cures_adding import cures_adding
from designer.brewday.explaining.evidence import finding
from designer.brewday.explaining.explained import CauseCode, Cure, Verdict
from designer.brewday.explaining.judged import is_one_wort
from designer.brewday.explaining.posterior import Posterior, Weighed
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangePart
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

REMAINS = 0.06
"""A cause that is less likely has no cure offered."""
MOST_CAUSES = 4
REAL = frozenset((CauseCode.VOLUME, CauseCode.MISSING_EXTRACT, CauseCode.MISWEIGHED))
"""Causes that make another beer."""
_UNTOUCHED = frozenset((CauseCode.OTHER,))


def cures(
    posterior: Posterior,
    asked: Asked,
    beliefs: Beliefs,
    recipe: Recipe | None = None,
    verdict: str = "",
) -> tuple[Cure, ...]:
    """Return what can be done, by how likely its cause is; of several alike the first.

    `recipe` is that of the brew as it is; without it what can be done is told alone. Nothing is
    offered while the verdict is that nobody can tell, but where it is one wort whatever it was.
    """
    if posterior.too_hot or verdict == Verdict.BEYOND:
        return ()
    if verdict == Verdict.CANNOT_TELL and not is_one_wort(posterior):
        return ()
    own = own_of(asked, recipe)
    if verdict == Verdict.CANNOT_TELL:
        wort = wort_of(posterior.leading, asked, beliefs, own)
        return tuple(_of(posterior.leading, asked, beliefs, wort))
    if verdict == Verdict.FINE:
        wort = wort_of(posterior.leading, asked, beliefs, own)
        return (_as_it_is(set(), asked, wort),)
    found: dict[str, Cure] = {}
    left = remaining(posterior)
    for part in left:
        wort = wort_of(part, asked, beliefs, own)
        for each in _of(part, asked, beliefs, wort):
            told = each if len(left) < 2 else _for_its_cause(each, part, asked, beliefs)
            found.setdefault(each.code, told)
    return tuple(found.values())


def _for_its_cause(cure: Cure, part: Weighed, asked: Asked, beliefs: Beliefs) -> Cure:
    """Return a cure whose title says for which cause it is, where others may be at work."""
    code = next((each for each in part.causes if each in REAL), None)
    if code is None:
        return cure
    cause = titled(code, part, beliefs, asked)
    title = say("cure-for", "{cause}: {cure}", cause=cause, cure=cure.title)
    return replace(cure, title=title)


def remaining(posterior: Posterior) -> list[Weighed]:
    """Return the explanations that are worth a cure: one for each set of causes that matter.

    That nothing is wrong asks for nothing, so it stands for itself only where it leads.
    """
    found: dict[frozenset[CauseCode], Weighed] = {}
    likely: dict[frozenset[CauseCode], float] = {}
    for part in posterior.parts:
        passed = part.code is CauseCode.NOTHING_WRONG and part is not posterior.leading
        if passed or _UNTOUCHED & set(part.causes):
            continue
        key = _mattering(part)
        found.setdefault(key, part)
        likely[key] = likely.get(key, 0.0) + part.probability
    first = sorted(found, key=lambda key: -likely[key])[:MOST_CAUSES]
    return [found[key] for key in first if likely[key] >= REMAINS]


def _mattering(part: Weighed) -> frozenset[CauseCode]:
    """Return the causes that ask for a cure; forgotten and weighed wrong ask for the same."""
    kept = REAL | {CauseCode.HYDROMETER, CauseCode.FERMENTING, CauseCode.NOT_MIXED}
    alike = {CauseCode.MISWEIGHED: CauseCode.MISSING_EXTRACT}
    return frozenset(alike.get(each, each) for each in part.causes if each in kept)


def _of(part: Weighed, asked: Asked, beliefs: Beliefs, wort: Wort) -> Iterator[Cure]:
    causes = set(part.causes)
    if causes & REAL and not _comes_right(causes, asked, beliefs):
        real = next(each for each in part.causes if each in REAL)
        off = unsettled(asked, wort)
        for each in cures_adding(wort, real, asked, beliefs):
            yield replace(each, off=off)
        yield _leave(wort, real)
        return
    if CauseCode.HYDROMETER in causes and not is_refractometer(asked.samples[-1]):
        yield _hydrometer(part, asked, wort)
    yield _as_it_is(causes, asked, wort)


def _comes_right(causes: set[CauseCode], asked: Asked, beliefs: Beliefs) -> bool:
    """Whether nothing can be put in any more, or topping up to the mark puts it right by itself."""
    taken = asked.samples[-1].taken
    if taken is Taken.FERMENTING:
        return True
    in_pot = taken is Taken.POT and beliefs.is_topped_up
    return in_pot and causes & REAL == {CauseCode.VOLUME}


def unsettled(asked: Asked, wort: Wort) -> Message | None:
    """Return why nothing may be added yet; None where it may."""
    sample = asked.samples[-1]
    if sample.sample_c is None:
        return say("off-warmth", "First say how warm the sample is.")
    if sample.sample_c > HOTTEST_C:
        return say("off-hot", "First cool the sample to {0} and read again.", _made_for(asked))
    if sample.taken is Taken.TOPPED_UP and not is_mixed(asked):
        return say("off-mixing", "First stir hard and read again.")
    if wort.bears_no_pressure:
        return say(
            "off-bottles",
            "Not for these bottles: they bear no pressure. Choose others first.",
        )
    return None


HOTTEST_C = 40.0
"""A sample above it is cooled, not corrected."""


def _made_for(asked: Asked) -> tuple[Kind, float]:
    return Kind.TEMPERATURE, asked.samples[-1].made_for_c


def is_mixed(asked: Asked) -> bool:
    """Whether the newest sample is one of mixed wort, by how it was stirred or by a test.

    Wort that reads otherwise once it is stirred, or at the top than at the bottom, is not known
    until it was read again.
    """
    if asked.samples[-1].stirred in (Stirred.HARD, Stirred.POURED):
        return True
    told = {each.test: finding(each) for each in asked.answers}
    return any(told.get(each, True) is False for each in (TestCode.STIR, TestCode.TOP_AND_BOTTOM))


def _hydrometer(part: Weighed, asked: Asked, wort: Wort) -> Cure:
    """Return what types in what the hydrometer shows in water, once it was tried."""
    tried = [each.in_water for each in asked.samples if each.in_water is not None]
    for each in asked.answers:
        if each.test is TestCode.WATER_CHECK and each.value is not None:
            tried.append(each.value)
    known = tried[-1] if tried else None
    shows = typed(Kind.GRAVITY, 1.0 + part.hydrometer / 1000.0 if known is None else known, ".3f")
    title = say("cure-hydrometer", "Write down that it shows {0} in water", (Kind.GRAVITY, shows))
    edit = ChangePart("process", "hydrometer_in_water", shows, title)
    written = {"part": "process", "field": "hydrometer_in_water", "to": shows.text}
    return Cure(
        "type_hydrometer",
        title,
        say("cure-hydrometer-words", "Every reading is put right by it from then on."),
        say("cure-hydrometer-offer", "Write it down"),
        None if wort.own is None else edit,
        {} if wort.own is None else {"process.hydrometer_in_water": shows.text},
        say("off-water", "First float it in plain water.") if known is None else None,
        wort.as_meant,
        () if wort.own is None else (written,),
    )


def _as_it_is(causes: set[CauseCode], asked: Asked, wort: Wort) -> Cure:
    """Return what is done where the beer is as it was meant."""
    taken = asked.samples[-1].taken
    if CauseCode.FERMENTING in causes or taken is Taken.FERMENTING:
        return Cure(
            "leave_to_ferment",
            say("cure-ferments", "Leave it to the yeast"),
            say("cure-ferments-words", "It is under way; nothing is added any more."),
            say("cure-leave-offer", "Leave it"),
            after=wort.as_meant,
        )
    if CauseCode.NOT_MIXED in causes:
        return Cure(
            "stir_and_pitch",
            say("cure-stir", "Stir hard, then pitch"),
            say("cure-stir-words", "From the floor up for two minutes. Nothing else to cure."),
            say("cure-stir-offer", "Stir and pitch"),
            after=wort.as_meant,
        )
    if taken is Taken.POT:
        return Cure(
            "go_on",
            say("cure-go-on", "Go on as planned"),
            say("cure-go-on-words", "The wort is as it was meant."),
            say("cure-go-on-offer", "Go on"),
            after=wort.as_meant,
        )
    return Cure(
        "pitch",
        say("cure-pitch", "Pitch the yeast"),
        say("cure-pitch-words", "The wort is as it was meant; nothing to cure."),
        say("cure-pitch-offer", "Pitch"),
        after=wort.as_meant,
    )


def _leave(wort: Wort, cause: CauseCode) -> Cure:
    """Return what leaves the beer as it is, and writes down what that is."""
    title = say("cure-leave", "Leave it as it is")
    words = say("cure-leave-weaker", "A weaker beer; nothing to do or to buy.")
    if wort.gravity > wort.wanted:
        words = say("cure-leave-stronger", "A stronger beer; nothing to do.")
    offer = say("cure-leave-offer", "Leave it")
    return wort.cure(f"leave:{cause}", title, words, offer, (), wort.litres, wort.gravity)
