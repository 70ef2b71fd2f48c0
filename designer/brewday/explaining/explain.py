"""What an odd reading says, all of it: verdict, causes, the test to do and what may be done."""

from __future__ import annotations

from dataclasses import replace

from designer.brewday.explaining.advised import advised_test
from designer.brewday.explaining.asked import Asked, Taken
from designer.brewday.explaining.beliefs import Beliefs
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
    found = Explained(
        gravity_read(posterior),
        posterior.by_warmth / 1000.0,
        beliefs.expected_in_pot if taken is Taken.POT else beliefs.expected,
        verdict,
        title_of(verdict, posterior),
        words_of(verdict, posterior, asked, beliefs),
        _causes(posterior, asked, beliefs),
        whole=whole,
    )
    if not whole:
        return found
    return replace(
        found,
        test=advised_test(posterior, asked, beliefs, verdict, _weigh_again),
        cures=cures(posterior, asked, beliefs, recipe, verdict),
    )


def _weigh_again(asked: Asked, beliefs: Beliefs) -> Posterior:
    """Return what a result of a test would say: of fewer brews, for it is told to a few percent."""
    return weighed(asked, beliefs, whole=False)


def _causes(posterior: Posterior, asked: Asked, beliefs: Beliefs) -> tuple[LikelyCause, ...]:
    """Return the likeliest causes, and all others as one; together they are certain."""
    told = [
        each
        for each in posterior.parts
        if each.probability >= LEAST_TOLD and each.code is not CauseCode.OTHER
    ][:MOST_TOLD]
    others = [each for each in posterior.parts if each not in told]
    found = [likely_cause(each, asked, beliefs) for each in told]
    rest = 1.0 - sum(each.probability for each in told)
    if others and rest > 0.0:
        found.append(something_else(others, rest, beliefs))
    return tuple(sorted(found, key=lambda each: -each.probability))
