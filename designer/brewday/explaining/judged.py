"""What is said of a reading as a whole: fine, a cause, that none can be told, or none explains it.

Fine is a reading within what a hydrometer should show, where nothing wrong is the likeliest, or
where all that was wrong with it is over: an earlier sample was drawn of layers, warm or misread,
and the newest was not. No cause can be told where the leading one and the likeliest without it are
as good as alike: how often causes happen is itself only judged, within a factor of some two.
"""

from __future__ import annotations

from designer.brewday.explaining.asked import Taken
from designer.brewday.explaining.beliefs import Beliefs, reads_within
from designer.brewday.explaining.explained import CauseCode, Verdict
from designer.brewday.explaining.posterior import Posterior, Weighed

LEADS_BY = 1.5
"""How many times as likely as the next the leading cause has to be, to be told as the one.

Causes are judged to happen so often within a factor of two, of which the middle half is 1.5."""
LEAST_LEADING = 0.25
"""No cause is told that is less likely: three others in four would be the truth."""
_SLIPS = (CauseCode.BUBBLES, CauseCode.MISREAD)
_EXTRACT = frozenset((CauseCode.MISSING_EXTRACT, CauseCode.MISWEIGHED))
ONE_WORT, ONE_WORT_POINTS = 0.8, 1.5
"""So likely, and within so many points of each other, it is the same wort whatever it was."""
STILL = 0.2
"""How likely layers, or a slip, may still be in the newest sample, and it is said to be none."""


def verdict_of(posterior: Posterior, beliefs: Beliefs, taken: Taken) -> str:
    """Return a `Verdict` or the code of the cause that is most likely."""
    leading = posterior.leading
    if leading.code is CauseCode.OTHER and leads(posterior):
        return Verdict.BEYOND
    if is_over(leading) and reads_as_expected(posterior, beliefs, taken):
        return Verdict.FINE
    if not leads(posterior):
        return Verdict.CANNOT_TELL
    return leading.code


def leads(posterior: Posterior) -> bool:
    """Whether the leading cause can be told from the next that is not a pair with it.

    Nothing wrong stands against all causes together.
    """
    leading = posterior.leading
    if leading.probability < LEAST_LEADING:
        return False
    if leading.code is CauseCode.NOTHING_WRONG:
        return leading.probability >= LEADS_BY * (1.0 - leading.probability)
    nexts = (
        each.probability
        for each in posterior.parts
        if leading.code is not each.code and leading.code not in each.causes
    )
    return leading.probability >= LEADS_BY * max(nexts, default=0.0)


def is_one_wort(posterior: Posterior) -> bool:
    """Whether extract is missing or too much and it only cannot be told how that came about."""
    leading = posterior.leading
    if not _EXTRACT & set(leading.causes):
        return False
    alike = (
        each.probability
        for each in posterior.parts
        if _EXTRACT & set(each.causes) and abs(each.points - leading.points) <= ONE_WORT_POINTS
    )
    return sum(alike) >= ONE_WORT


def is_over(part: Weighed) -> bool:
    """Whether nothing is wrong with the newest reading: nothing was, or it is past."""
    left = [
        code
        for code in part.causes
        if not (code is CauseCode.NOT_MIXED and part.layered_now < STILL)
        and not (code in _SLIPS and part.slipped_now < STILL)
        and not (code is CauseCode.SAMPLE_TEMPERATURE and part.warmth == 0.0)
    ]
    return not left


def reads_as_expected(posterior: Posterior, beliefs: Beliefs, taken: Taken) -> bool:
    """Whether the newest reading lies within what a hydrometer should show."""
    low, high = reads_between(beliefs, taken)
    rounding = 0.0005
    return low - rounding <= 1.0 + posterior.reading_points / 1000.0 <= high + rounding


def reads_between(beliefs: Beliefs, taken: Taken) -> tuple[float, float]:
    """Return from what to what a reading lies where nothing is wrong, 5 to 95 %."""
    if taken is Taken.POT:
        return reads_within(beliefs.expected_in_pot, beliefs.trusted_sg)
    return beliefs.reads_from, beliefs.reads_to
