"""What an odd reading says, all of it: verdict, causes, the test to do and what may be done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from designer.brewday.explaining.advised import advised_test
from designer.brewday.explaining.asked import Asked, Taken
from designer.brewday.explaining.beliefs import Beliefs, reads_within
from designer.brewday.explaining.cures import cures
from designer.brewday.explaining.explained import CauseCode, Explained, LikelyCause, Verdict
from designer.brewday.explaining.judged import verdict_of
from designer.brewday.explaining.posterior import Posterior
from designer.brewday.explaining.verdicts import (
    gravity_read,
    likely_cause,
    something_else,
    title_of,
    words_of,
)
from designer.brewday.explaining.weighed import weighed
from designer.recipe.document import Recipe

Causes = tuple[LikelyCause, ...]
MOST_TOLD, LEAST_TOLD = 5, 0.02
"""So many causes are told by name at the most, and none that is less likely."""


def explained(
    asked: Asked, beliefs: Beliefs, recipe: Recipe | None = None, *, whole: bool = True
) -> Explained:
    """Return the answer to a reading.

    Cures change the `recipe`, that of the brew as it is; without it they are only told. An answer
    that is not `whole` comes within a frame: fewer brews are drawn, and there are no cures yet.
    Raises ValueError where there is no sample.
    """
    posterior = weighed(asked, beliefs, whole=whole)
    taken = asked.samples[-1].taken
    verdict = Verdict.CANNOT_TELL if posterior.too_hot else verdict_of(posterior, beliefs, taken)
    every = tuple(likely_cause(each, asked, beliefs) for each in posterior.parts)
    found = Explained(
        gravity_read(posterior),
        posterior.by_warmth / 1000.0,
        beliefs.expected_in_pot if taken is Taken.POT else beliefs.expected,
        verdict,
        title_of(verdict, posterior),
        words_of(verdict, posterior, asked, beliefs),
        _told(posterior, every, beliefs),
        every,
        whole=whole,
        reads=_reads(taken, beliefs),
    )
    if not whole:
        return found
    return replace(
        found,
        test=advised_test(posterior, asked, beliefs, verdict, _weigh_again),
        cures=cures(posterior, asked, beliefs, recipe, verdict),
    )


def _reads(taken: Taken, beliefs: Beliefs) -> tuple[float, float]:
    """Return from what to what the instrument may show the wort, with nothing wrong."""
    if taken is Taken.POT:
        return reads_within(beliefs.expected_in_pot, beliefs.trusted_sg)
    return beliefs.reads_from, beliefs.reads_to


def _weigh_again(asked: Asked, beliefs: Beliefs) -> Posterior:
    """Return what a result of a test would say: of fewer brews, for it is told to a few percent."""
    return weighed(asked, beliefs, whole=False)


def _told(posterior: Posterior, every: Sequence[LikelyCause], beliefs: Beliefs) -> Causes:
    """Return the likeliest causes, and all others as one; together they are certain.

    That one stands last, but where nothing that is known is as likely.
    """
    named = [at for at, each in enumerate(every) if _is_named(each)][:MOST_TOLD]
    others = [each for at, each in enumerate(posterior.parts) if at not in named]
    found = [every[at] for at in named]
    rest = 1.0 - sum(each.probability for each in found)
    if not others or rest <= 0.0:
        return tuple(found)
    one = something_else(others, rest, beliefs, named=bool(found))
    is_first = posterior.leading.code is CauseCode.OTHER
    return (one, *found) if is_first else (*found, one)


def _is_named(cause: LikelyCause) -> bool:
    return cause.probability >= LEAST_TOLD and cause.code is not CauseCode.OTHER
