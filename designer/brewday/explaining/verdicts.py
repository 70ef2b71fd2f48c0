"""What is said of an odd reading: the verdict, and each cause with its size and how to tell.

Sentences are those of a shop's adviser on the phone. Gravities, volumes and masses are figures of
their kinds, so each is shown in the units of the brewer.
"""

from __future__ import annotations

from collections.abc import Sequence

from designer.brewday.explaining.asked import Asked, Taken
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.cause_words import (
    how_to_tell,
    line_of,
    points_words,
    short_name,
    short_of,
    titled,
    worded,
)
from designer.brewday.explaining.explained import CauseCode, LikelyCause, Verdict
from designer.brewday.explaining.how_likely import SCALE
from designer.brewday.explaining.judged import is_one_wort, reads_between
from designer.brewday.explaining.posterior import Posterior, Weighed
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

LEAST_TOLD_POINTS = 0.5
"""Less than half a point off is told as none."""
VERY_LIKELY, ALMOST_CERTAIN = SCALE[1][0], SCALE[0][0]
HOTTEST_TO_READ_C = 40.0
"""Above it a sample is cooled, not corrected: Hydrometer, `designer.wort.hydrometer`."""


def title_of(verdict: str, posterior: Posterior) -> Message:
    """Return the verdict in a few words."""
    if posterior.too_hot:
        return say("reading-too-hot", "Cool the sample first, then read again")
    if verdict == Verdict.FINE:
        return say("reading-fine", "Fine: as forecast")
    if verdict == Verdict.CANNOT_TELL:
        return say("reading-cannot-tell", "Cannot tell yet: nothing given tells these apart")
    if verdict == Verdict.BEYOND:
        return say("reading-beyond", "No cause explains this: try the hydrometer in plain water")
    return say(
        "reading-cause", "{off}, {likely}", off=off_words(posterior), likely=_likely(posterior)
    )


def off_words(posterior: Posterior) -> Message:
    """Return by how much the reading is off, in points: "8 points low"."""
    points = abs(posterior.off_points)
    if points < LEAST_TOLD_POINTS:
        return say("reading-as-forecast", "As forecast")
    many = points_words(points)
    if posterior.off_points < 0.0:
        return say("reading-low", "{points} low", points=many)
    return say("reading-high", "{points} high", points=many)


def _likely(posterior: Posterior) -> Message:
    leading = posterior.leading
    short = short_of(leading)
    if leading.probability >= ALMOST_CERTAIN:
        return say("almost-certainly", "almost certainly {cause}", cause=short)
    if leading.probability >= VERY_LIKELY:
        return say("very-likely", "very likely {cause}", cause=short)
    return say("most-likely", "most likely {cause}", cause=short)


def words_of(verdict: str, posterior: Posterior, asked: Asked, beliefs: Beliefs) -> Message:
    """Return what stands below the verdict: what was read, and what that means to do."""
    if posterior.too_hot:
        return say(
            "reading-too-hot-words",
            "Above {0} no table mends a reading. Hold the jar under the cold tap.",
            (Kind.TEMPERATURE, HOTTEST_TO_READ_C),
        )
    if verdict == Verdict.FINE:
        return _fine(asked)
    if verdict == Verdict.CANNOT_TELL and is_one_wort(posterior):
        return say(
            "reading-one-wort", "Forgotten or weighed wrong: it is the same wort either way."
        )
    if verdict == Verdict.CANNOT_TELL:
        return say("reading-add-nothing", "Add nothing yet. Do the test, then read again.")
    if verdict == Verdict.BEYOND:
        return say(
            "reading-beyond-words",
            "It reads {0} at {1}, far from anything this brew can be. Add nothing.",
            (Kind.GRAVITY, gravity_read(posterior)),
            (Kind.TEMPERATURE, 20.0),
        )
    return say(
        "reading-words",
        "It reads {0} at {3}; the forecast is {1} to {2}.",
        (Kind.GRAVITY, gravity_read(posterior)),
        *((Kind.GRAVITY, each) for each in reads_between(beliefs, asked.samples[-1].taken)),
        (Kind.TEMPERATURE, 20.0),
    )


def _fine(asked: Asked) -> Message:
    taken = asked.samples[-1].taken
    if taken is Taken.POT:
        return say("reading-fine-pot", "Go on: there is nothing to cure.")
    if taken is Taken.FERMENTING:
        return say("reading-fine-fermenting", "Leave it to the yeast.")
    return say("reading-fine-pitch", "Pitch the yeast: there is nothing to cure.")


def likely_cause(part: Weighed, asked: Asked, beliefs: Beliefs) -> LikelyCause:
    """Return a cause as it is told, alone or with another, and what the beer then is."""
    title = titled(part.code, part, beliefs, asked)
    words = worded(part.code, part, beliefs, asked)
    tell = how_to_tell(part.code, asked.samples[-1])
    if part.also is not None:
        second = short_name(part.also, part)
        title = say("causes-title", "{first}, and {second}", first=title, second=second)
        words = say(
            "in-turn", "{first} {next}", first=words, next=worded(part.also, part, beliefs, asked)
        )
    return LikelyCause(
        part.code,
        part.probability,
        title,
        words,
        tell,
        part.original_gravity,
        beliefs.abv_of(part.points, part.line, part.line_share),
        bitterness_of(part, beliefs),
        part.also,
    )


def something_else(
    others: Sequence[Weighed], rest: float, beliefs: Beliefs, *, named: bool = True
) -> LikelyCause:
    """Return all other explanations as one, so likely together, where any are `named` beside it."""
    whole = max(sum(each.probability for each in others), 1e-12)
    points = sum(each.probability * each.points for each in others) / whole
    ibus = [(each.probability, bitterness_of(each, beliefs)) for each in others]
    bitter = None
    if beliefs.bitterness_ibu is not None:
        bitter = sum(share * (ibu or 0.0) for share, ibu in ibus) / whole
    title = say("cause-others", "Something else, or several of these")
    words = say("cause-others-words", "Each of them is less likely than those above.")
    if not named:
        title = say("cause-other", "Something else")
        words = say("cause-other-words", "None of the known causes explains it.")
    return LikelyCause(
        CauseCode.OTHER,
        rest,
        title,
        words,
        how_to_tell(CauseCode.OTHER),
        1.0 + points / 1000.0,
        beliefs.abv_of(points),
        bitter,
    )


def gravity_read(posterior: Posterior) -> float:
    """Return the newest reading as a gravity at 20 °C."""
    return 1.0 + posterior.reading_points / 1000.0


def bitterness_of(part: Weighed, beliefs: Beliefs) -> float | None:
    """Return the bitterness if that is the explanation; None where nobody told of any."""
    line = line_of(part, beliefs)
    gone = 0.0 if line is None else -part.line_share * line.bitterness_share
    return beliefs.bitterness_of(part.volume_factor, gone)
