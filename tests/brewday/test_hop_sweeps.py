"""More hops, a longer boil, extract later: never fewer IBU, in the value, the band and every draw.

Source: each formula rises with the alpha acid and with time, and falls with gravity.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.brewday import hop_doubts
from designer.brewday.day import brew, brew_samples, run_day
from designer.brewday.outlook import look_ahead
from designer.brewday.tolerances import Nominal
from designer.recipe.document import Fermentable, Hop, Methods, Pot, Process, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When
from tests.brewday.quantities import q

SAMPLES = 64
METHODS = ("Tinseth", "Rager", "Garetz")
AS_LONG_AS_IT_BOILS = When(Stage.BOIL, "boil 300 min", 300.0)
WHENS = (
    When(Stage.FIRST_WORT, "first wort"),
    AS_LONG_AS_IT_BOILS,
    When(Stage.BOIL, "boil 20 min", 20.0),
    When(Stage.FLAME_OUT, "flame-out"),
    When(Stage.STAND, "stand 20 min at 85 °C", 20.0, 85.0),
)
few = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def hop(number, when, grams, alpha, form):
    share = Quantity(alpha, "7 %", None) if number % 2 else Quantity(
        alpha, "7 % (5-9 %)", 0.02, "", (0.75 * alpha, 1.3 * alpha)
    )  # fmt: skip
    return Hop(f"Hop {number}", form, share, q(grams / 1000.0), when)


hops = st.lists(
    st.builds(
        hop,
        st.integers(1, 6),
        st.sampled_from(WHENS),
        st.floats(1.0, 250.0),
        st.floats(0.02, 0.18),
        st.sampled_from(["whole", "pellets"]),
    ),
    min_size=1,
    max_size=4,
).map(tuple)


@st.composite
def recipes(draw):
    """A pot on a stove that brings it back to the boil at once; the hops keep no wort."""
    process = Process(
        start_water=q(draw(st.floats(3.0, 15.0))),
        top_up_to=q(20.0),
        boil_time=q(60.0),
        evaporation=q(draw(st.floats(0.0, 1.5))),
        left_in_pot=q(0.0),
        hop_absorption=q(0.0),
    )
    return with_line_ids(
        Recipe(
            pot=Pot(volume=q(40.0), power=q(1e6)),
            process=process,
            methods=Methods(bitterness=draw(st.sampled_from(METHODS))),
            fermentables=(
                Fermentable(
                    "Malt", "dry extract", q(draw(st.floats(0.2, 4.0))), AS_LONG_AS_IT_BOILS
                ),
            ),
            hops=draw(hops),
        )
    )


def never_less(recipe, more, slack=1e-9):
    """Neither the value nor any draw is lower than before; the same doubts have the same draws."""
    before, after = (float(brew(each).beer.bitterness_ibu) for each in (recipe, more))
    assert after >= before * (1.0 - slack) - 1e-12
    drawn, then = (brew_samples(each, SAMPLES)[0].beer.bitterness_ibu for each in (recipe, more))
    assert np.all(then >= drawn * (1.0 - slack) - 1e-12)


def with_amount(recipe, place, factor):
    line = recipe.hops[place]
    amount = q(line.amount.value * factor)
    changed = replace(line, amount=amount)
    return replace(recipe, hops=(*recipe.hops[:place], changed, *recipe.hops[place + 1 :]))


@few
@given(recipes(), st.data())
def test_more_of_any_hop_never_gives_fewer_ibu(recipe, data):
    if recipe.methods.bitterness == "Garetz":
        recipe = replace(recipe, hops=recipe.hops[:1])  # his tables start at ten minutes
    place = data.draw(st.integers(0, len(recipe.hops) - 1))
    never_less(recipe, with_amount(recipe, place, data.draw(st.floats(1.0, 4.0))))


@few
@given(recipes(), st.sampled_from([1.0, 10.0, 40.0, 120.0]))
def test_a_longer_boil_never_gives_fewer_ibu(recipe, longer_min):
    lines = tuple(replace(each, when=AS_LONG_AS_IT_BOILS) for each in recipe.hops)
    recipe = replace(recipe, hops=lines)
    if recipe.methods.bitterness != "Tinseth":  # one gravity for all of it, that of a thicker wort
        recipe = replace(recipe, process=replace(recipe.process, evaporation=q(0.0)))
    longer = replace(recipe, process=replace(recipe.process, boil_time=q(60.0 + longer_min)))
    never_less(recipe, longer)


@few
@given(recipes(), st.lists(st.floats(0.5, 60.0), min_size=2, max_size=2))
def test_extract_later_in_the_boil_never_gives_fewer_ibu(recipe, minutes):
    def extract_at(left):
        when = When(Stage.BOIL, f"boil {left} min", left)
        return replace(recipe, fermentables=(replace(recipe.fermentables[0], when=when),))

    late, early = sorted(minutes)
    never_less(extract_at(early), extract_at(late), slack=2e-4)  # it is hot again in a second


ONE_DOUBT = [each for each in vars(hop_doubts).values() if isinstance(each, hop_doubts.Doubt)]


@pytest.mark.parametrize("doubt", ONE_DOUBT, ids=lambda each: each.words)
@pytest.mark.parametrize("end", ["low", "high"])
@pytest.mark.parametrize("method", METHODS)
def test_within_each_doubt_more_hops_give_more(doubt, end, method):
    class AtTheEnd(Nominal):
        def doubt(self, each, name=""):
            return getattr(each, end) if each.words == doubt.words else each.published

    def ibu(grams):
        hop = Hop("Hop", "pellets", None, q(grams / 1000.0), WHENS[0], kept="opened, not cold")
        late = replace(hop, when=WHENS[2], alpha=q(0.07))
        recipe = Recipe(
            process=Process(start_water=q(5.0), top_up_to=q(10.0), hop_absorption=q(0.0)),
            methods=Methods(bitterness=method),
            fermentables=(Fermentable("Malt", "dry extract", q(1.5)),),
            hops=(hop, late),
        )
        return run_day(with_line_ids(recipe), AtTheEnd(), noting=False)[0].beer.bitterness_ibu

    found = [float(ibu(grams)) for grams in (0, 2, 10, 30, 60, 120, 250, 500)]
    assert all(more > less for less, more in pairwise(found))


@pytest.mark.parametrize("change", ["more hops", "longer boil", "later extract"])
@pytest.mark.parametrize("method", METHODS)
def test_the_band_rises_as_a_whole(change, method, harbour_porter):
    """In a real kitchen, where hops hold wort and extract cools the pot.

    A longer boil leaves less wort, of which a larger part is left behind: there none is.
    """

    def ends(step):
        recipe = replace(harbour_porter, methods=Methods(bitterness=method))
        first, *rest = recipe.fermentables
        if change == "more hops":
            recipe = with_amount(recipe, 0, 1.0 + 0.5 * step)
        elif change == "longer boil":
            lines = tuple(replace(each, when=AS_LONG_AS_IT_BOILS) for each in recipe.hops)
            process = replace(
                recipe.process,
                boil_time=q(20.0 + 10.0 * step),
                left_in_pot=q(0.0),
                hop_absorption=q(0.0),
                evaporation=q(0.3),
            )
            recipe = replace(recipe, process=process, hops=lines)
        else:
            left = 60.0 - 14.0 * step
            when = When(Stage.BOIL, f"boil {left} min", left)
            recipe = replace(recipe, fermentables=(replace(first, when=when), *rest))
        found = look_ahead(recipe).forecasts["bitterness_ibu"]
        assert found.low <= found.value <= found.high
        return found.low, found.value, found.high

    steps = [ends(step) for step in range(5)]
    for less, more in pairwise(steps):
        assert all(then >= before * 0.998 for before, then in zip(less, more, strict=True))
    assert all(last > first for first, last in zip(steps[0], steps[-1], strict=True))
