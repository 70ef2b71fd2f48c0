"""What samples would have shown of brews, and how likely what they did show is then."""

from __future__ import annotations

from functools import cached_property
from math import pi, sqrt
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Asked, Taken
from designer.brewday.explaining.at_work import AtWork
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.corrected import Corrected
from designer.brewday.explaining.drawn import Brews
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.layers import layer_points, same_layers, ways_layered
from designer.wort.density import plato_from_gravity

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


class Likely(NamedTuple):
    """How likely the readings are in each brew.

    `layered` is the part of it with layers at the newest sample, `slipped` that in which bubbles or
    a slip of reading are in the newest.
    """

    of_all: Array
    layered: Array
    slipped: Array


class Shown:
    """The samples of a question, as they would have been read in each of many brews."""

    def __init__(
        self,
        asked: Asked,
        beliefs: Beliefs,
        corrected: tuple[Corrected, ...],
        brews: Brews,
        steps: int,
    ) -> None:
        self._samples, self._beliefs = asked.samples, beliefs
        self._corrected, self._brews, self._steps = corrected, brews, steps
        self._in_fermenter = [
            place for place, each in enumerate(asked.samples) if each.taken is not Taken.POT
        ]

    def of_mixed(self, place: int, work: AtWork, *, slips: bool = True) -> Array:
        """Return what a sample of mixed wort shows, but for what the eye adds."""
        each, brews = self._corrected[place], self._brews
        in_pot = self._samples[place].taken is Taken.POT
        there = work.in_pot / work.volume if in_pot else work.fermenter
        found = there + each.shared * brews.off + work.off
        if work.has(CauseCode.FERMENTING) and not in_pot:
            found = found - self.fallen(work)
        if self.is_warm(place, work):
            found = found - self._warmth[place]
        if slips and work.has(CauseCode.BUBBLES) and not each.by_refractometer:
            found = found + brews.bubbles.of
        if slips and work.has(CauseCode.MISREAD):
            found = found + self.misread(found)
        return found

    def is_warm(self, place: int, work: AtWork) -> bool:
        """Whether a sample is one of those of which the warmth was not taken, if there are any."""
        if not work.has(CauseCode.SAMPLE_TEMPERATURE):
            return False
        untyped = [each.sample_c is None for each in self._samples]
        return untyped[place] if any(untyped) else True

    def too_low_for_warmth(self, place: int) -> Array:
        """Return how many points a sample is too low in each brew, if it was of another warmth."""
        return self._warmth[place]

    def misread(self, there: Array) -> Array:
        """Return by how much a reading is off whose scale is read wrong."""
        import numpy as np

        brews = self._brews
        in_plato = np.asarray(plato_from_gravity(1.0 + np.maximum(there, 0.0) / 1000.0))
        return np.where(brews.wrong_scale, in_plato - there, brews.misread.of)

    def fallen(self, work: AtWork) -> Array:
        """Return the points that the wort has fallen in fermenting."""
        import numpy as np

        of = self._brews.fallen.of
        left = (self._beliefs.final_gravity - 1.0) / max(self._beliefs.expected.value - 1.0, 1e-6)
        can_fall = work.fermenter * (1.0 - left)
        return np.where(of < 0.0, -of * can_fall, of)

    def likelihood(self, work: AtWork) -> Likely:
        """Return how likely the readings are.

        Bubbles and slips of reading are in every sample, or in any single one.
        """
        import numpy as np

        many = len(self._samples)
        slip = work.has(CauseCode.BUBBLES) or work.has(CauseCode.MISREAD)
        without = self._all_of(work, slips=False) if not slip or many > 1 else []
        slipped = self._all_of(work, slips=True) if slip else []
        if not slip:
            return self._by_layers(without, work)
        found = self._by_layers(slipped, work)
        if many == 1:
            return found._replace(slipped=found.of_all)
        of_all, layered = priors.EVERY_TIME * found.of_all, priors.EVERY_TIME * found.layered
        now = of_all
        for one in range(many):
            mixture = [*without[:one], slipped[one], *without[one + 1 :]]
            found = self._by_layers(mixture, work)
            chance = (1.0 - priors.EVERY_TIME) / many
            of_all, layered = of_all + chance * found.of_all, layered + chance * found.layered
            if one == many - 1:
                now = now + chance * found.of_all
        return Likely(np.asarray(of_all), np.asarray(layered), np.asarray(now))

    def _all_of(self, work: AtWork, *, slips: bool) -> list[Array]:
        return [self.of_mixed(place, work, slips=slips) for place in range(len(self._samples))]

    def _by_layers(self, shown: list[Array], work: AtWork) -> Likely:
        """Return the likelihood over all that layers may be, if there are any."""
        import numpy as np

        mixed = [self._density(place, each) for place, each in enumerate(shown)]
        if not work.has(CauseCode.NOT_MIXED):
            none = np.zeros(self._brews.many)
            return Likely(np.prod(mixed, axis=0), none, none)
        places = self._in_fermenter
        own = [self._samples[place] for place in places]
        before = np.ones(self._brews.many)
        for place, each in enumerate(mixed):
            if place not in places:
                before = before * each
        of_all = np.zeros(self._brews.many)
        last = of_all
        for layered in ways_layered(own):
            chance = layered.chance * before
            for group in same_layers(own[: layered.samples]):
                alike = [places[each] for each in group.samples]
                chance = chance * self._of_layer(alike, shown, work)
            for place in places[layered.samples :]:
                chance = chance * mixed[place]
            of_all = of_all + chance
            last = chance  # the last way is that of layers to the end
        return Likely(of_all, last, np.zeros(self._brews.many))

    def _of_layer(self, places: list[int], shown: list[Array], work: AtWork) -> Array:
        """Return how likely samples of one layer are, over all that it may be."""
        import numpy as np

        found = np.zeros(self._brews.many)
        is_low = priors.LOW_BY_PLACE[self._samples[places[0]].drawn]
        for low, chance in ((True, is_low), (False, 1.0 - is_low)):
            layer = np.asarray(layer_points(self._shares, low, work.fermenter, work.in_pot))
            both = self._density(places[0], shown[places[0]] + layer)
            for place in places[1:]:
                both *= self._density(place, shown[place] + layer)
            found += chance * both.mean(axis=0)
        return found

    def _density(self, place: int, shown: Array) -> Array:
        """Return the density of a reading where a sample shows so many points."""
        import numpy as np

        each = self._corrected[place]
        found = np.subtract(shown, each.points)
        found *= found
        found *= -0.5 / each.own**2
        np.exp(found, out=found)
        found /= each.own * sqrt(2.0 * pi)
        return found

    @cached_property
    def _shares(self) -> Array:
        """Shares of the way that a layer may be off: some steps for each brew, each its own."""
        import numpy as np

        even = (np.arange(self._steps)[:, np.newaxis] + self._brews.jitter) / self._steps
        found: Array = even**priors.LAYER_POWER
        return found

    @cached_property
    def _warmth(self) -> list[Array]:
        return [each.too_low_if_warmer(self._brews.warmer_c.of) for each in self._corrected]
